//! Outline charts worked out, and what is drawn in them read back.

use tautline::chart::{Draped, View};
use tautline::cut::{Job, Measured, Outcome, before, cut};
use tautline::hair::Hair;
use tautline::head::Head;
use tautline::plan::{Choices, Plan};

/// Every side from which an outline is drawn.
pub const VIEWS: [View; 4] = [View::Left, View::Right, View::Front, View::Back];
/// A unit of the picture is a millimetre of the head; on a phone, where the picture is a screen wide, a pixel
/// is 1.2 of them or more.
pub const PIXEL: f64 = 1.2;

pub fn job<'a>(head: &'a Head, hair: &'a Hair, plan: &'a Plan, choices: &'a Choices) -> Job<'a> {
    Job {
        head,
        hair,
        plan,
        choices,
    }
}

pub fn of(head: &Head, plan: &Plan) -> (Outcome, Draped, Draped) {
    let (hair, choices) = (Hair::default(), Choices::default());
    let job = job(head, &hair, plan, &choices);
    let outcome = cut(&job, &Measured::new()).unwrap();
    let after = Draped::of(&job, &outcome).unwrap();
    let was = Draped::of(&job, &before(&job)).unwrap();
    (outcome, after, was)
}

/// The lines of all paths of a class, as points.
pub fn lines(svg: &str, class: &str) -> Vec<Vec<(f64, f64)>> {
    let mut all = Vec::new();
    for path in svg.split(&format!(r#"<path class="{class}" d=""#)).skip(1) {
        for line in path.split('"').next().unwrap().split('M').skip(1) {
            let points = line.trim_end_matches('Z').split('L').map(|pair| {
                let (x, y) = pair.split_once(' ').unwrap();
                (x.parse().unwrap(), y.parse().unwrap())
            });
            let mut points: Vec<(f64, f64)> = points.collect();
            if line.ends_with('Z') {
                points.push(points[0]);
            }
            all.push(points);
        }
    }
    all
}

/// Where a drawn edge crosses a height, leftmost and rightmost.
pub fn crossed(lines: &[Vec<(f64, f64)>], y: f64) -> Option<(f64, f64)> {
    let pairs = lines.iter().flat_map(|line| line.windows(2));
    let at = pairs.filter_map(|pair| {
        let (a, b) = (pair[0], pair[1]);
        let share = (y - a.1) / (b.1 - a.1);
        (a.1 != b.1 && (0.0..=1.0).contains(&share)).then_some(a.0 + (b.0 - a.0) * share)
    });
    at.fold(None, |reach, x| {
        let (from, to) = reach.unwrap_or((x, x));
        Some((x.min(from), x.max(to)))
    })
}
