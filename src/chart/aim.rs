//! The profile to aim on: the hair as it falls, the head in it, and the levels of the landmarks.

use super::outline;
use super::svg::{Svg, polyline};
use super::view::{SCALE, View};
use crate::fall::{self, Silhouette};
use crate::head::{Body, Head, Landmark, Side};
use kurbo::Point;

/// Air around the picture, units.
const MARGIN: f64 = 8.0;
/// Levels nearer to the one above than this are left unnamed, cm: their words would run together.
const APART: f64 = 1.5;
/// Room before the face for the names, units.
const NAMES: f64 = 96.0;
/// Room below the lowest hair, cm: an aim may lie lower than the hair does.
const BELOW: f64 = 4.0;

/// Which heights the picture shows: what lies over it finds its place by them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AimFrame {
    /// The height at its upper edge, cm.
    pub high: f64,
    /// The height at its lower edge, cm.
    pub low: f64,
}

impl AimFrame {
    /// How far down the picture a height lies, in percent of it, 0 to 100.
    pub fn percent(&self, z: f64) -> f64 {
        let share = (self.high - z) / (self.high - self.low).max(1.0);
        if share.is_finite() {
            (share * 100.0).clamp(0.0, 100.0)
        } else {
            0.0
        }
    }

    /// The height, cm, that lies at `y` on a page where the picture begins at `top` and is so `tall`.
    pub fn height(&self, y: f64, top: f64, tall: f64) -> f64 {
        let share = ((y - top) / tall.max(1.0)).clamp(0.0, 1.0);
        self.high - share * (self.high - self.low)
    }
}

/// The head from the left with the outlines of the hair as it falls `now` and, dashed, as it fell `before`; the
/// levels are drawn and named.
pub fn aim_picture(
    head: &Head,
    now: &Silhouette,
    before: Option<&Silhouette>,
    levels: &[(Landmark, &str)],
    title: &str,
    description: &str,
) -> (String, AimFrame) {
    let mut svg = Svg::default();
    let points = |silhouette: &Silhouette| -> Vec<Point> {
        let all = silhouette.outline().into_iter();
        all.map(|(across, up)| Point::new(across * SCALE, -up * SCALE))
            .collect()
    };
    let shown = points(now);
    let old = before.map(points).unwrap_or_default();
    let all = || shown.iter().chain(&old);
    let left = all().map(|p| p.x).fold(0.0, f64::min) - NAMES;
    let right = all().map(|p| p.x).fold(0.0, f64::max);
    let bottom = all().map(|p| p.y).fold(0.0, f64::max) + BELOW * SCALE;
    let range = (-bottom / SCALE, 0.0);
    let body = Silhouette::of_body(fall::View::LeftSide, &Body::of(head), range, 1.0);
    svg.path("a-body", &polyline(&points(&body), true));
    svg.path("a-hair", &polyline(&shown, true));
    let mut last = f64::NEG_INFINITY;
    for (landmark, name) in levels {
        let y = -head.landmark(*landmark, Side::Centre).z * SCALE;
        if y > bottom || y - last < APART * SCALE {
            continue;
        }
        last = y;
        svg.line("a-level", &[Point::new(left, y), Point::new(right, y)]);
        svg.word("a-name", Point::new(left + NAMES / 2.0, y - 3.0), name);
    }
    if !old.is_empty() {
        svg.path("a-before", &polyline(&old, true));
    }
    svg.path("a-head", &outline::side(head, View::Left));
    svg.path("a-ear", &outline::ear(head, View::Left));
    // Down to the room below, whatever is drawn there.
    svg.line(
        "a-floor",
        &[Point::new(left, bottom), Point::new(right, bottom)],
    );
    let shown = svg.extent(MARGIN);
    let frame = AimFrame {
        high: -shown.y0 / SCALE,
        low: -shown.y1 / SCALE,
    };
    (svg.finish("aim", title, description, MARGIN), frame)
}
