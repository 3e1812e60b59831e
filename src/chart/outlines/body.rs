//! Neck, shoulders and trunk in the outline: what carries the head, and hides what hangs behind it.

use super::super::outline;
use super::super::view::{SCALE, View};
use super::edges::put_line;
use super::frame::Frame;
use crate::head::{Body, BodyPart, Head, Landmark, Side};
use kurbo::{PathEl, Point};
use std::fmt::Write;

/// How finely it is drawn, cm.
const FINE: f64 = 0.5;
/// The neck's own line runs into the body's over so many centimetres.
const JOINT: f64 = 2.5;

/// Draws the body below the head down to the frame's floor, as far as it lies in the frame.
pub(super) fn draw(svg: &mut String, frame: &Frame, head: &Head, view: View) {
    let upright = matches!(view, View::Front | View::Back);
    // From the side the neck is drawn with the head; the body takes over from its two ends.
    let ends = if upright { None } else { neck_ends(head, view) };
    let top = head.landmark(Landmark::JawCorner, Side::Left).z;
    let body = Body::of(head);
    let carries =
        |part: &BodyPart| matches!(part, BodyPart::Neck | BodyPart::Shoulders | BodyPart::Trunk);
    let (mut left, mut right) = (Vec::new(), Vec::new());
    let rows = ((top - frame.floor) / FINE).max(0.0) as usize;
    for i in 0..=rows {
        let z = top - i as f64 * FINE;
        let parts = body.parts().iter().filter(|(part, _)| carries(part));
        let reach = parts
            .filter_map(|(_, shape)| shape.level_reach(view.falls().across(), z))
            .reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)));
        if let Some((from, to)) = reach {
            left.push(Point::new(from * SCALE, -z * SCALE));
            right.push(Point::new(to * SCALE, -z * SCALE));
        }
    }
    if let Some(ends) = ends {
        let below = |end: Point| move |p: &Point| p.y > end.y + JOINT * SCALE;
        left.retain(below(ends[0]));
        right.retain(below(ends[1]));
        left.insert(0, ends[0]);
        right.insert(0, ends[1]);
    }
    let (low, high) = (frame.left * SCALE, frame.right * SCALE);
    if upright && !left.is_empty() {
        let clamp = |p: &Point| Point::new(p.x.clamp(low, high), p.y);
        let round: Vec<Point> = left.iter().chain(right.iter().rev()).map(clamp).collect();
        let mut data = String::new();
        put_line(&mut data, &round);
        let _ = write!(svg, r#"<path class="o-flesh" d="{data}Z"/>"#);
    }
    let mut data = String::new();
    for side in [left, right] {
        let inside = |p: &&Point| p.x > low && p.x < high && p.y < -frame.floor * SCALE;
        let points: Vec<Point> = side.iter().take_while(inside).copied().collect();
        put_line(&mut data, &points);
    }
    if !data.is_empty() {
        let _ = write!(svg, r#"<path class="o-body" d="{data}"/>"#);
    }
}

/// Where the neck's line ends on the left and on the right of the picture.
fn neck_ends(head: &Head, view: View) -> Option<[Point; 2]> {
    let path = outline::side(head, view);
    let first = match path.elements().first() {
        Some(PathEl::MoveTo(p)) => *p,
        _ => return None,
    };
    let last = path.elements().last().and_then(PathEl::end_point)?;
    let mut ends = [first, last];
    if last.x < first.x {
        ends.reverse();
    }
    Some(ends)
}
