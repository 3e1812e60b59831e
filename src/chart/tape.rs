//! Where each tape goes, drawn on this very head.

use super::outline;
use super::svg::{Svg, polyline};
use super::view::View;
use crate::geometry::{Convex, Vec3, planar_arc};
use crate::head::{Head, Landmark, Side, Tape};
use kurbo::{Point, Vec2};
use std::f64::consts::PI;

/// A small picture of one tape on the head.
pub fn tape_picture(head: &Head, tape: Tape) -> String {
    let mut svg = Svg::default();
    let view = if tape == Tape::EarToEar || tape == Tape::Breadth {
        View::Front
    } else {
        View::Right
    };
    match view {
        View::Front | View::Back => {
            svg.path("d-ear", &outline::ears_front(head));
            svg.path("d-head", &outline::front(head));
        }
        View::Left | View::Right => {
            svg.path("d-hairline", &outline::hairline(head, view));
            svg.path("d-head", &outline::side(head, view));
            svg.path("d-ear", &outline::ear(head, view));
        }
    }
    let points: Vec<Point> = way(head, tape)
        .into_iter()
        .map(|p| view.project(p))
        .collect();
    svg.path("d-tape", &polyline(&points, false));
    // Straight measures end at two books held upright; tapes end at a point.
    let straight = tape == Tape::Length || tape == Tape::Breadth;
    if let (Some(&first), Some(&last)) = (points.first(), points.last()) {
        if straight {
            for end in [first, last] {
                let half = Vec2::new(0.0, 28.0);
                svg.line("d-tape", &[end - half, end + half]);
            }
        }
        svg.dot("d-tape-end", first, 3.5);
        svg.dot("d-tape-end", last, 3.5);
    }
    svg.finish("drawing tape-picture", tape.name(), tape.how(), 5.0)
}

/// The places a tape runs through.
fn way(head: &Head, tape: Tape) -> Vec<Vec3> {
    let skull = head.skull();
    match tape {
        // The near half of the level ring; from the side it is a straight line.
        Tape::Circumference => planar_arc(skull, Vec3::ZERO, (Vec3::Y, Vec3::NEG_X), (0.0, PI))
            .points()
            .to_vec(),
        Tape::EarToEar => head.over_the_top(),
        Tape::Length => vec![skull.along(Vec3::Y), skull.along(Vec3::NEG_Y)],
        Tape::Breadth => vec![skull.along(Vec3::X), skull.along(Vec3::NEG_X)],
        Tape::HairlineToNape => head.middle_line(),
        Tape::HairlineToChin => {
            let hairline = head.landmark(Landmark::FrontHairline, Side::Centre);
            let down = hairline.z.atan2(hairline.y);
            let forehead = planar_arc(skull, Vec3::ZERO, (Vec3::Y, Vec3::Z), (down, 0.0));
            let mut points = forehead.points().to_vec();
            points.push(head.landmark(Landmark::Chin, Side::Centre));
            points
        }
    }
}
