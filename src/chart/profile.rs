//! The side profile of one head with held hair drawn as taut lines.

use super::hand::{self, InHand};
use super::outline;
use super::svg::{Svg, polyline};
use super::view::View;
use crate::cut::SectionCut;
use crate::geometry::{Convex, Vec3};
use crate::head::{Head, Side};
use kurbo::Point;

/// How finely a held hair is drawn, in cm.
const SPACING: f64 = 0.5;

/// The held hair of one section.
#[derive(Clone, Copy, Debug)]
pub struct HeldHair<'a> {
    /// The section.
    pub section: &'a SectionCut,
    /// Whether it is the one being cut; others are drawn lightly.
    pub marked: bool,
}

/// The head from `view` with held hair, its cutting lines and the patches it grows from.
pub fn profile(
    head: &Head,
    view: View,
    hair: &[HeldHair<'_>],
    title: &str,
    description: &str,
) -> String {
    drawn(head, view, hair, None, title, description)
}

/// From where a section is seen best by the one who cuts it: of its own side and of what lies across the
/// middle there, the view in which its held hair is least foreshortened. Its own side, if that is nearly
/// as good or nothing is held.
pub fn seen_from(head: &Head, section: &SectionCut) -> View {
    let own = View::of(section.key.side);
    let across = if section.azimuth().cos() >= 0.0 {
        View::Front
    } else {
        View::Back
    };
    let seen = |view: View| -> f64 {
        let long = |path: &Vec<Vec3>| match (path.first(), path.last()) {
            (Some(&root), Some(&end)) => view.project(root).distance(view.project(end)),
            _ => 0.0,
        };
        section.held(head, SPACING).iter().map(long).sum()
    };
    if seen(across) > seen(own) * NEARLY {
        across
    } else {
        own
    }
}

/// So much longer must held hair look from across than from its own side to be drawn from there.
/// Judgement.
const NEARLY: f64 = 1.25;

/// The same with the hands of the one who cuts at the marked section, which the description names.
pub fn profile_in_hand(
    head: &Head,
    view: View,
    hair: &[HeldHair<'_>],
    how: InHand,
    title: &str,
    description: &str,
) -> String {
    let at_work = |h: &HeldHair<'_>| h.marked && hand::takes(head, view, h.section);
    let description = if hair.iter().any(at_work) {
        format!("{description} {}", how.sentence())
    } else {
        description.to_owned()
    };
    drawn(head, view, hair, Some(how), title, &description)
}

fn drawn(
    head: &Head,
    view: View,
    hair: &[HeldHair<'_>],
    how: Option<InHand>,
    title: &str,
    description: &str,
) -> String {
    let mut svg = Svg::default();
    outline::draw(&mut svg, head, view);
    for held in hair {
        draw_patch(&mut svg, head, view, held);
    }
    for held in hair {
        draw_hair(&mut svg, head, view, held, how.is_some());
        if let (Some(how), true) = (how, held.marked) {
            hand::draw(&mut svg, head, view, held.section, how);
        }
    }
    svg.finish("drawing", title, description, 6.0)
}

fn draw_patch(svg: &mut Svg, head: &Head, view: View, held: &HeldHair<'_>) {
    let side = held.section.key.side;
    let across = matches!(view, View::Front | View::Back);
    let shown = side == side_of(view) || side == Side::Centre || across;
    if shown && held.marked {
        let edge = held.section.section.patch.outline(head);
        let seen: Vec<Point> = edge
            .into_iter()
            .filter(|&p| view.depth(p) > -0.3)
            .map(|p| view.project(p))
            .collect();
        svg.path("d-patch", &polyline(&seen, true));
    }
}

/// `by_hand` if fingers are drawn at the line, which is then a fine one.
fn draw_hair(svg: &mut Svg, head: &Head, view: View, held: &HeldHair<'_>, by_hand: bool) {
    let class = if held.marked {
        "d-strand"
    } else {
        "d-strand-light"
    };
    for path in held.section.held(head, SPACING) {
        for (seen, points) in runs(head, view, &path) {
            let class = if seen { class } else { "d-strand-behind" };
            svg.line(class, &points);
        }
        if held.marked {
            svg.dot("d-root", view.project(path[0]), 1.6);
        }
    }
    if !held.section.cuts() && held.marked {
        for strand in &held.section.strands {
            svg.dot("d-root", view.project(strand.root), 4.0);
        }
    }
    if let (true, Some(line)) = (held.marked, &held.section.line) {
        let points: Vec<Point> = line
            .points(head)
            .into_iter()
            .map(|p| view.project(p))
            .collect();
        match points[..] {
            [] => {}
            [point] => svg.dot("d-fingers-point", point, 3.0),
            _ => svg.line(if by_hand { "d-cut" } else { "d-fingers" }, &points),
        }
    }
}

/// Which side is seen in a view.
fn side_of(view: View) -> Side {
    if view == View::Right {
        Side::Right
    } else {
        Side::Left
    }
}

/// A path cut into runs that are seen and runs that the head hides.
fn runs(head: &Head, view: View, path: &[Vec3]) -> Vec<(bool, Vec<Point>)> {
    let seen = |p: Vec3| {
        let behind = view.depth(p) < -0.05;
        let silhouette = match view {
            View::Left | View::Right => Vec3::new(0.0, p.y, p.z),
            View::Front | View::Back => Vec3::new(p.x, 0.0, p.z),
        };
        !(behind && head.skull().value(silhouette) < 1.0)
    };
    let mut runs: Vec<(bool, Vec<Point>)> = Vec::new();
    for pair in path.windows(2) {
        let visible = seen(pair[0].midpoint(pair[1]));
        match runs.last_mut() {
            Some((last, points)) if *last == visible => points.push(view.project(pair[1])),
            _ => runs.push((visible, vec![view.project(pair[0]), view.project(pair[1])])),
        }
    }
    runs
}
