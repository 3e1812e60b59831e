//! Which section of a scalp map was touched, and how the map shows it.

use super::scalp_map::{laid, scalp_spot};
use super::svg::{Svg, polyline};
use super::view::SCALE;
use crate::cut::{Outcome, SectionKey};
use crate::head::{Head, Spot};
use crate::measure::read_decimal;
use crate::plan::Patch;
use kurbo::{Point, Vec2};

/// A touch this far beside a section still means it, units of the map: a phone shows about a pixel a unit,
/// and a fingertip is some 9 mm wide. Judgement.
const BESIDE: f64 = 9.0;
/// Rings about the touched place that are looked at, the nearest first, and places on each.
const RINGS: u32 = 3;
const ON_A_RING: u32 = 12;

/// The place of a map that was touched: `at` is across and down from the upper left corner of the box that
/// shows the picture, `size` the size of that box, all in CSS pixels. The place is in the picture's own
/// units. None where the picture has no frame or the box no size.
pub fn place_on_picture(svg: &str, at: (f64, f64), size: (f64, f64)) -> Option<Point> {
    let frame = svg.split("viewBox=\"").nth(1)?.split('"').next()?;
    let mut numbers = frame.split(' ').map(read_decimal);
    let mut next = || numbers.next().flatten();
    let (x0, y0, width, height) = (next()?, next()?, next()?, next()?);
    // The picture keeps its shape and stands in the middle of its box.
    let scale = (size.0 / width).min(size.1 / height);
    if !scale.is_finite() || scale <= 0.0 {
        return None;
    }
    Some(Point::new(
        x0 + width / 2.0 + (at.0 - size.0 / 2.0) / scale,
        y0 + height / 2.0 + (at.1 - size.1 / 2.0) / scale,
    ))
}

/// The sections that are cut at a place of the scalp map, by their places in the outcome, the one that is
/// cut last first: it lies on top. Where there is none, those that are nearest, if they are near enough.
pub fn sections_at(head: &Head, outcome: &Outcome, at: Point) -> Vec<usize> {
    let here = holding(head, outcome, at);
    if !here.is_empty() {
        return here;
    }
    for ring in 1..=RINGS {
        let far = BESIDE * f64::from(ring) / f64::from(RINGS);
        for i in 0..ON_A_RING {
            let turn = f64::from(i) / f64::from(ON_A_RING) * std::f64::consts::TAU;
            let near = holding(head, outcome, at + Vec2::from_angle(turn) * far);
            if !near.is_empty() {
                return near;
            }
        }
    }
    Vec::new()
}

/// The section that a touch means: the one on top or, where that is the one that was touched `last`, the
/// next below it.
pub fn touched(
    head: &Head,
    outcome: &Outcome,
    at: Point,
    last: Option<&SectionKey>,
) -> Option<SectionKey> {
    let under = sections_at(head, outcome, at);
    let key = |i: &usize| outcome.sections.get(*i).map(|s| &s.key);
    let was = under.iter().position(|i| last.is_some() && key(i) == last);
    let next = was.map_or(0, |place| (place + 1) % under.len());
    under.get(next).and_then(key).cloned()
}

/// The sections that hold a place of the map, the last first.
fn holding(head: &Head, outcome: &Outcome, at: Point) -> Vec<usize> {
    let spot = scalp_spot(head, at);
    // The drawn hairline is a curve through places of it: a line's width past it is still on it.
    if (spot.out - 1.0) * head.hairline().distance(spot.azimuth) * SCALE > 1.0 {
        return Vec::new();
    }
    let root = head.place(Spot {
        out: spot.out.min(1.0),
        ..spot
    });
    let sections = outcome.sections.iter().enumerate().rev();
    sections
        .filter(|(_, s)| s.cuts() && s.section.patch.holds(root))
        .map(|(i, _)| i)
        .collect()
}

/// How far apart the lines of a hatching are, units of the map.
const HATCH: f64 = 5.0;

/// The map with one patch marked by a thick edge and a hatching over it; as it was where the patch has no
/// scalp.
pub fn marked(svg: &str, head: &Head, patch: &Patch) -> String {
    let edge: Vec<Point> = patch
        .outline(head)
        .into_iter()
        .map(|p| laid(head, p))
        .collect();
    let mut over = Svg::default();
    for (from, to) in hatching(&edge) {
        over.line("m-hatch", &[from, to]);
    }
    let outline = polyline(&edge, true);
    over.path("m-halo", &outline);
    over.path("m-marked", &outline);
    let over = over.body();
    match svg.strip_suffix("</svg>") {
        Some(open) => format!("{open}{over}</svg>"),
        None => svg.to_owned(),
    }
}

/// Slanting lines across a closed polygon.
fn hatching(edge: &[Point]) -> Vec<(Point, Point)> {
    let slant = |p: &Point| p.x + p.y;
    let low = edge.iter().map(slant).fold(f64::INFINITY, f64::min);
    let high = edge.iter().map(slant).fold(f64::NEG_INFINITY, f64::max);
    let mut lines = Vec::new();
    let mut at = low + HATCH / 2.0;
    while at < high {
        // Where the edge crosses the line x + y = at, in order along it.
        let mut crossings: Vec<Point> = Vec::new();
        for (i, a) in edge.iter().enumerate() {
            let b = &edge[(i + 1) % edge.len()];
            let (from, to) = (slant(a) - at, slant(b) - at);
            if (from < 0.0) != (to < 0.0) {
                let p = a.lerp(*b, from / (from - to));
                let before = crossings.partition_point(|other| other.x < p.x);
                crossings.insert(before, p);
            }
        }
        lines.extend(crossings.chunks_exact(2).map(|pair| (pair[0], pair[1])));
        at += HATCH;
    }
    lines
}
