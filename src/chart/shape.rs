//! The shape of a cut: its fallen hair from the left side, small.

use super::outline;
use super::svg::{Svg, polyline};
use super::view::{SCALE, View};
use crate::fall::Silhouette;
use crate::head::Head;
use kurbo::Point;

/// The head from the left with the silhouette of its fallen hair, which must be seen from the left
/// side too.
pub fn shape_picture(head: &Head, hair: &Silhouette, title: &str, description: &str) -> String {
    let mut svg = Svg::default();
    let outline: Vec<Point> = hair
        .outline()
        .into_iter()
        .map(|(across, up)| Point::new(across * SCALE, -up * SCALE))
        .collect();
    svg.path("d-head", &outline::side(head, View::Left));
    svg.path("d-fallen", &polyline(&outline, true));
    svg.finish("drawing shape", title, description, 6.0)
}
