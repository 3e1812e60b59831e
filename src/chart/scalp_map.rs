//! The scalp laid flat: azimuthal equidistant about the high point, forehead up, both sides at once.

use super::svg::{Svg, polyline, smooth};
use super::view::SCALE;
use crate::cut::{Outcome, SectionCut};
use crate::geometry::Vec3;
use crate::head::{Head, Spot};
use crate::plan::Patch;
use crate::words::tr_in;
use kurbo::{BezPath, Point, Rect};

/// A section's parcel on the map.
#[derive(Clone, Debug)]
pub struct Parcel {
    /// Its patch of scalp.
    pub patch: Patch,
    /// Its number, or what else stands in it.
    pub label: String,
    /// How it is drawn: `due`, `done` or `now`.
    pub state: &'static str,
}

/// Every section that is cut, with its place in the order of all, as parcels still due.
pub fn section_parcels(outcome: &Outcome) -> Vec<Parcel> {
    let numbered = (1..).zip(&outcome.sections);
    let numbered = numbered.filter(|(_, section)| section.cuts());
    let parcel = |(place, section): (usize, &SectionCut)| Parcel {
        patch: section.section.patch.clone(),
        label: place.to_string(),
        state: "due",
    };
    numbered.map(parcel).collect()
}

/// Where a spot lies on the map: its distance from the high point along the scalp, at its azimuth.
pub(super) fn place(head: &Head, spot: Spot) -> Point {
    let distance = head.hairline().distance(spot.azimuth) * spot.out * SCALE;
    // Forehead up; the client's left on the picture's left, as seen from above.
    Point::new(
        -distance * spot.azimuth.sin(),
        -distance * spot.azimuth.cos(),
    )
}

/// The spot that lies at a place of the map; its share of the way out is above 1 beyond the hairline.
pub fn scalp_spot(head: &Head, at: Point) -> Spot {
    let azimuth = (-at.x).atan2(-at.y);
    let out = at.to_vec2().hypot() / SCALE / head.hairline().distance(azimuth);
    Spot { azimuth, out }
}

/// The same for a place on the skull.
pub(super) fn laid(head: &Head, p: Vec3) -> Point {
    place(head, head.spot(p))
}

/// How large the letters are where nothing else is said, units.
const LETTERS: f64 = 13.0;
/// How wide and how high a digit is, as shares of the size of its letters.
const DIGIT: (f64, f64) = (0.72, 0.8);
/// Where in a parcel its label may stand, across and along, the best place first.
const PLACES: [(f64, f64); 11] = [
    (0.5, 0.62),
    (0.5, 0.8),
    (0.5, 0.7),
    (0.5, 0.9),
    (0.5, 0.5),
    (0.5, 0.99),
    (0.5, 0.35),
    (0.15, 0.3),
    (0.85, 0.3),
    (0.15, 0.9),
    (0.85, 0.9),
];

/// The map with these parcels, in the order in which they are drawn.
pub fn scalp_map(head: &Head, parcels: &[Parcel], title: &str, description: &str) -> String {
    scalp_map_in(head, parcels, LETTERS, None, title, description)
}

/// The same for letters of another size, which the style gives them: no label stands over another one,
/// where there is a place for it. Of the whole map, or of a part of it, drawn larger.
pub(super) fn scalp_map_in(
    head: &Head,
    parcels: &[Parcel],
    letters: f64,
    part: Option<Rect>,
    title: &str,
    description: &str,
) -> String {
    let mut svg = Svg::default();
    scalp(&mut svg, head);
    for parcel in parcels {
        let class = format!("m-parcel m-{}", parcel.state);
        svg.path(&class, &outline(head, &parcel.patch));
    }
    ears(&mut svg, head);
    if part.is_none() {
        sides(&mut svg, head);
    }
    let mut taken: Vec<Rect> = Vec::with_capacity(parcels.len());
    for parcel in parcels.iter().filter(|parcel| !parcel.label.is_empty()) {
        let long = parcel.label.chars().count() as f64;
        let size = (long * DIGIT.0 * letters, DIGIT.1 * letters);
        let at = PLACES.map(|(across, along)| {
            let middle = laid(head, parcel.patch.at(head, across, along));
            Rect::from_center_size(middle, size)
        });
        let free = |place: &&Rect| !taken.iter().any(|other| place.overlaps(*other));
        let place = *at.iter().find(free).unwrap_or(&at[0]);
        taken.push(place);
        let middle = place.center();
        svg.word(
            "m-label",
            Point::new(middle.x, middle.y + 0.35 * letters),
            &parcel.label,
        );
    }
    match part {
        Some(part) => {
            svg.dot("m-high-point", Point::ZERO, 1.0);
            svg.framed("map near", title, description, part)
        }
        None => {
            svg.dot("m-high-point", Point::ZERO, 2.0);
            svg.finish("map", title, description, 6.0)
        }
    }
}

/// The scalp within its hairline.
pub(super) fn scalp(svg: &mut Svg, head: &Head) {
    svg.path("m-scalp", &hairline(head));
}

/// The hairline.
pub(super) fn hairline(head: &Head) -> BezPath {
    let line: Vec<Point> = (0..90)
        .map(|i| place(head, Spot::at_degrees(f64::from(i) * 4.0, 1.0)))
        .collect();
    smooth(&line, true)
}

/// Ears beside the map, so that it is read the right way up at once.
pub(super) fn ears(svg: &mut Svg, head: &Head) {
    for side in [1.0, -1.0] {
        let at = |out: f64, degrees: f64| {
            let spot = Spot::at_degrees(side * degrees, 1.0);
            let edge = place(head, spot);
            let away = edge.to_vec2() / edge.to_vec2().hypot();
            edge + away * out
        };
        let ear = [
            at(2.0, 88.0),
            at(10.0, 90.0),
            at(13.0, 97.0),
            at(8.0, 104.0),
            at(2.0, 105.0),
        ];
        svg.path("m-ear", &smooth(&ear, false));
    }
}

/// Which side is which, in words before the ears.
pub(super) fn sides(svg: &mut Svg, head: &Head) {
    let left = tr_in("short, on the scalp map", "left");
    let right = tr_in("short, on the scalp map", "right");
    for (degrees, word) in [(BEFORE_EARS, left), (-BEFORE_EARS, right)] {
        let edge = place(head, Spot::at_degrees(degrees, 1.0));
        let away = edge.to_vec2() / edge.to_vec2().hypot();
        svg.word("c-letter m-side", edge + away * FROM_EDGE, word);
    }
}

/// Where the words for the sides stand: degrees from the forehead, and units out from the hairline.
const BEFORE_EARS: f64 = 70.0;
const FROM_EDGE: f64 = 24.0;

pub(super) fn outline(head: &Head, patch: &Patch) -> BezPath {
    let edge: Vec<Point> = patch
        .outline(head)
        .into_iter()
        .map(|p| laid(head, p))
        .collect();
    polyline(&edge, true)
}
