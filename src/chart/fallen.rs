//! Hair let down, seen from a side or from the back: what stays while a plan is changed, and what moves.
//!
//! What moves is a few path texts that a screen puts into elements that are there already; so a
//! picture follows a dragging hand without being read anew by the browser.

use super::outline;
use super::svg::{Svg, escaped, polyline, put};
use super::view::{SCALE, View};
use crate::cut::LetDown;
use crate::fall::Silhouette;
use crate::geometry::Vec3;
use crate::head::{Body, Head, Landmark, Side};
use crate::words::{noted, tr};
use kurbo::Point;
use std::fmt::Write;

/// Roots drawn are no nearer to each other than this, cm.
const APART: f64 = 1.8;
/// How finely falling hair is drawn, cm.
const SPACING: f64 = 1.5;
/// Room to either side of the middle of head and body, cm: seen from the side, and from the front.
const BESIDE: f64 = 12.5;
const ABREAST: f64 = 20.0;
/// Room on the left for the names of levels and on the right for the ends at each height, cm.
const NAMES: f64 = 6.0;
const ENDS: f64 = 5.0;
/// How far the names of levels reach from the picture's edge, units.
const NAMES_END: f64 = 76.0;
/// How long the longest bar of ends is, cm.
const LONGEST_BAR: f64 = 4.0;
/// What a whole picture shows, for those who can't see it.
const TOLD: &str = noted(
    "The head with its hair let down and dry. At the right edge a bar at each height for how much of the hair ends there; a thick line runs where most ends lie. Where the hair ends stands in the table.",
);
/// The levels named beside the picture, from the top.
const NAMED: [Landmark; 4] = [
    Landmark::Chin,
    Landmark::Shoulder,
    Landmark::Chest,
    Landmark::Waist,
];

/// The part of the picture that stays: head, body and named levels.
#[derive(Clone, Debug, PartialEq)]
pub struct Stage {
    /// The picture's own measures, as SVG's `viewBox` takes them.
    pub view_box: String,
    /// What is drawn in it.
    pub body: String,
    /// Where lines across the picture begin and end, in its own units.
    pub across: (f64, f64),
}

impl Stage {
    /// Head and body from a view, down to the first named level below `lowest` (height in cm).
    pub fn new(head: &Head, view: View, lowest: f64) -> Self {
        let level = |landmark: Landmark| head.landmark(landmark, Side::Centre).z;
        let below = NAMED.into_iter().map(level).find(|z| *z < lowest - 0.5);
        let bottom = below.unwrap_or(lowest) - 3.0;
        let top = head.skull().top + 3.0;
        let (left, right) = match view {
            View::Left | View::Right => (-NAMES - BESIDE, BESIDE + ENDS),
            View::Front | View::Back => (-NAMES - ABREAST, ABREAST + ENDS),
        };
        let mut svg = Svg::default();
        let body = Silhouette::of_body(view.falls(), &Body::of(head), (bottom, 0.0), 1.0);
        let edge: Vec<Point> = body
            .outline()
            .into_iter()
            .map(|(across, z)| Point::new(across * SCALE, -z * SCALE))
            .collect();
        svg.path("d-body", &polyline(&edge, true));
        outline::draw(&mut svg, head, view);
        let across = (left * SCALE, right * SCALE);
        for landmark in NAMED {
            let z = level(landmark);
            if z > bottom {
                let y = -z * SCALE;
                svg.line(
                    "d-level",
                    &[Point::new(across.0, y), Point::new(across.1, y)],
                );
                let at = Point::new(across.0 + 36.0, y - 4.0);
                svg.word("d-level-name", at, landmark.short());
            }
        }
        Self {
            view_box: format!(
                "{} {} {} {}",
                across.0,
                -top * SCALE,
                across.1 - across.0,
                (top - bottom) * SCALE
            ),
            body: svg.body(),
            across,
        }
    }
}

/// The part of the picture that moves.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Fallen {
    /// The hair, as the data of one path.
    pub hair: String,
    /// The ends at each height as bars from the picture's edge, likewise.
    pub ends: String,
    /// The weight line, likewise; empty if there is none.
    pub weight: String,
}

/// Hair let down, drawn on a stage.
pub fn fallen(down: &LetDown, view: View, stage: &Stage) -> Fallen {
    let mut hair = String::with_capacity(8_000);
    let seen = |root: Vec3| view.depth(root) > -0.5;
    for way in down.ways(seen, APART, SPACING) {
        for (i, &p) in way.iter().enumerate() {
            let at = view.project(p);
            hair.push(if i == 0 { 'M' } else { 'L' });
            put(&mut hair, at.x);
            hair.push(' ');
            put(&mut hair, at.y);
        }
    }
    let all = &down.weight.overall;
    let most = all.ends.iter().copied().fold(0.0, f64::max);
    let mut ends = String::new();
    if most > 0.0 {
        for (i, count) in all
            .ends
            .iter()
            .enumerate()
            .filter(|(_, count)| **count > 0.0)
        {
            let y = -all.height(i) * SCALE;
            let long = count / most * LONGEST_BAR * SCALE;
            let _ = write!(ends, "M{:.1} {y:.1}h{:.1}", stage.across.1, -long);
        }
    }
    let weight = all.line.map_or_else(String::new, |line| {
        // Beside the names of levels, never through one.
        let (from, to) = (stage.across.0 + NAMES_END, stage.across.1);
        format!("M{from:.1} {:.1}H{to:.1}", -line.z * SCALE)
    });
    Fallen { hair, ends, weight }
}

/// A whole picture of hair let down.
pub fn fallen_picture(stage: &Stage, fallen: &Fallen, title: &str) -> String {
    let path = |class: &str, data: &str| format!(r#"<path class="{class}" d="{data}"/>"#);
    format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" class="drawing fallen" role="img" viewBox="{}"><title>{}</title><desc>{}</desc>{}{}{}{}</svg>"#,
        stage.view_box,
        escaped(title),
        escaped(tr(TOLD)),
        stage.body,
        path("d-hairs", &fallen.hair),
        path("d-ends", &fallen.ends),
        path("d-weight", &fallen.weight),
    )
}
