//! The outline of a head: the skull from the model, face, ear and neck drawn in from its landmarks.
//!
//! The skull's line is the model's own silhouette. The face is only there to be recognised as one:
//! its proportions are judgement, hung between brow and chin; no number is read off it.

use super::svg::{Svg, polyline, smooth};
use super::view::View;
use crate::geometry::{Convex, Vec3, planar_arc};
use crate::head::{Head, Landmark, Side};
use kurbo::{Affine, BezPath, Point};

/// The side outline, from the collar up the neck, over the face and the skull, down to the nape.
pub fn side(head: &Head, view: View) -> BezPath {
    let mut path = smooth(&face(head, view), false);
    for point in skull(head, view) {
        path.line_to(point);
    }
    let neck = smooth(&neck(head, view), false);
    path.extend(neck.elements().iter().skip(1).copied());
    path
}

/// The skull's silhouette from the brow over the top to the nape.
fn skull(head: &Head, view: View) -> Vec<Point> {
    let nape = head.landmark(Landmark::Nape, Side::Centre);
    let end = (-nape.y).atan2(nape.z);
    planar_arc(
        head.skull(),
        Vec3::ZERO,
        (Vec3::Z, Vec3::NEG_Y),
        (-std::f64::consts::FRAC_PI_2, end),
    )
    .points()
    .iter()
    .map(|&p| view.project(p))
    .collect()
}

/// From the front of the neck over chin, mouth and nose to the brow.
fn face(head: &Head, view: View) -> Vec<Point> {
    face_places(head).map(|p| view.project(p)).to_vec()
}

/// Where the face begins on the skull.
pub(super) fn brow(head: &Head) -> Vec3 {
    Vec3::new(0.0, head.skull().along(Vec3::Y).y, 0.0)
}

/// The middle line from the front of the neck (four places) over chin, mouth and nose to the brow, cm.
pub(super) fn face_places(head: &Head) -> [Vec3; 21] {
    let brow = brow(head);
    let chin = head.landmark(Landmark::Chin, Side::Centre);
    let long = brow.z - chin.z;
    // Shares of the way from brow to chin, and cm before the line between them.
    let feature = |down: f64, before: f64| brow.lerp(chin, down) + Vec3::Y * before;
    let under = |behind: f64, below: f64| chin + Vec3::new(0.0, -behind, -below);
    [
        under(8.2, 0.36 * long),
        under(7.4, 0.22 * long),
        under(6.3, 0.08 * long),
        under(3.4, 0.05),
        under(1.0, 0.1),
        feature(0.985, 0.35),
        feature(0.92, 0.62),
        feature(0.84, 0.1),
        feature(0.79, 0.32),
        feature(0.735, 0.5),
        feature(0.695, 0.2),
        feature(0.655, 0.62),
        feature(0.60, 0.5),
        feature(0.545, 0.75),
        feature(0.525, 1.5),
        feature(0.485, 1.9),
        feature(0.42, 1.55),
        feature(0.26, 0.55),
        feature(0.15, -0.05),
        feature(0.06, 0.02),
        brow,
    ]
}

/// From the nape down to the collar.
fn neck(head: &Head, view: View) -> Vec<Point> {
    neck_places(head).map(|p| view.project(p)).to_vec()
}

/// The middle line from the nape down to the collar, cm.
pub(super) fn neck_places(head: &Head) -> [Vec3; 5] {
    let nape = head.landmark(Landmark::Nape, Side::Centre);
    [
        (0.0, 0.0),
        (0.35, 1.6),
        (0.3, 3.4),
        (-0.5, 5.4),
        (-2.0, 7.0),
    ]
    .map(|(forward, below)| nape + Vec3::new(0.0, forward, -below))
}

/// The ear from the side: its rim and the fold inside.
pub fn ear(head: &Head, view: View) -> BezPath {
    let opening = head.ear_opening(view.side());
    let at = |behind: f64, above: f64| view.project(opening + Vec3::new(0.0, -behind, above));
    let mut rim = smooth(
        &[
            at(-0.1, 0.5),
            at(0.2, 2.3),
            at(1.2, 3.0),
            at(2.4, 2.4),
            at(2.5, 0.9),
            at(1.6, -0.6),
            at(1.0, -2.0),
            at(0.2, -2.4),
            at(-0.1, -1.5),
        ],
        false,
    );
    let fold = smooth(
        &[
            at(0.7, 1.4),
            at(1.5, 1.9),
            at(1.8, 1.1),
            at(1.2, 0.1),
            at(0.5, -0.3),
        ],
        false,
    );
    rim.extend(fold);
    rim
}

/// Draws hairline, head and ears as they are seen from a side.
pub fn draw(svg: &mut Svg, head: &Head, view: View) {
    svg.path("d-hairline", &hairline(head, view));
    draw_edge(svg, "d-head", head, view);
    let mut ears = match view {
        View::Left | View::Right => ear(head, view),
        View::Front | View::Back => ears_front(head),
    };
    if view == View::Back {
        ears.apply_affine(Affine::FLIP_X);
    }
    svg.path("d-ear", &ears);
}

/// Draws the edge of the head alone, in an ink of its own.
pub fn draw_edge(svg: &mut Svg, class: &str, head: &Head, view: View) {
    let mut edge = match view {
        View::Left | View::Right => side(head, view),
        View::Front | View::Back => front(head),
    };
    if view == View::Back {
        // The front in a mirror.
        edge.apply_affine(Affine::FLIP_X);
    }
    svg.path(class, &edge);
}

/// The front outline: the skull from ear to ear over the top, then cheek, jaw and chin.
pub fn front(head: &Head) -> BezPath {
    let view = View::Front;
    // The outline runs through the widest place, the ears stand beside it at their own levels.
    let [left, right] = [Side::Left, Side::Right].map(|side| head.ear_opening(side));
    let over = planar_arc(
        head.skull(),
        Vec3::ZERO,
        (Vec3::X, Vec3::Z),
        (
            left.z.atan2(left.x),
            std::f64::consts::PI - right.z.atan2(-right.x),
        ),
    );
    let jaw = head.landmark(Landmark::JawCorner, Side::Left);
    let chin = head.landmark(Landmark::Chin, Side::Centre);
    let last = over.points()[over.points().len() - 1];
    let lower = [
        last,
        Vec3::new(-jaw.x - 0.3, 0.0, jaw.z + 1.6),
        Vec3::new(-jaw.x + 0.7, 0.0, jaw.z - 0.4),
        Vec3::new(-2.0, 0.0, chin.z + 0.3),
        Vec3::new(2.0, 0.0, chin.z + 0.3),
        Vec3::new(jaw.x - 0.7, 0.0, jaw.z - 0.4),
        Vec3::new(jaw.x + 0.3, 0.0, jaw.z + 1.6),
        over.points()[0],
    ];
    let points: Vec<Point> = over.points().iter().map(|&p| view.project(p)).collect();
    let mut path = polyline(&points, false);
    let lower = smooth(&lower.map(|p| view.project(p)), false);
    path.extend(lower.elements().iter().skip(1).copied());
    path
}

/// Both ears from the front, standing off the side.
pub fn ears_front(head: &Head) -> BezPath {
    let mut path = BezPath::new();
    for side in [Side::Left, Side::Right] {
        let ear = head.ear_opening(side);
        let at = |out: f64, above: f64| {
            View::Front.project(Vec3::new(ear.x + side.sign() * out, 0.0, ear.z + above))
        };
        path.extend(smooth(
            &[
                at(0.1, 2.4),
                at(1.0, 2.9),
                at(1.3, 1.4),
                at(0.8, -1.0),
                at(-0.1, -2.2),
            ],
            false,
        ));
    }
    path
}

/// The hairline as far as it is seen from one side.
pub fn hairline(head: &Head, view: View) -> BezPath {
    let turns = match view {
        View::Left => 0..=180,
        View::Right => -180..=0,
        View::Front => -90..=90,
        View::Back => 90..=270,
    };
    let seen: Vec<Point> = turns
        .map(|degrees| head.meridian(f64::from(degrees).to_radians()).at(1.0))
        .map(|p| view.project(p))
        .collect();
    polyline(&seen, false)
}
