//! The sections of a cut numbered in cutting order, on as few scalp maps as show each of them whole.

use super::scalp_map::{Parcel, hairline, outline, scalp_map_in};
use crate::cut::{Outcome, SectionCut};
use crate::head::Head;
use kurbo::{Point, Rect, Shape};

/// Sections that take up less than this share of the scalp's width and length, as those of a fringe do, are
/// drawn from near, with letters of this size, in units. Judgement.
const SMALL: f64 = 0.45;
const LETTERS_NEAR: f64 = 6.0;
/// Room around them, units.
const AROUND: f64 = 10.0;

/// One map: the steps it shows, and their sections as parcels.
#[derive(Clone, Debug, Default)]
pub struct NumberedMap {
    /// The steps' places in the plan, in order.
    pub steps: Vec<usize>,
    /// Their sections, each with its number in the whole cut, from 1.
    pub parcels: Vec<Parcel>,
    /// The part of the map that is drawn, in its units, if the only sections of a cut take up so little of it
    /// that they are drawn from near.
    pub near: Option<Rect>,
}

/// The maps of a cut, at most `most`. A step whose sections lie over those of an earlier one goes on
/// the next map; checks, which cut nothing, and steps past the last map are on none.
pub fn numbered_maps(head: &Head, outcome: &Outcome, most: usize) -> Vec<NumberedMap> {
    let mut maps: Vec<NumberedMap> = Vec::with_capacity(most);
    let mut from = 0;
    while let Some(first) = outcome.sections.get(from) {
        let own = |section: &&SectionCut| section.step == first.step;
        let ours = outcome.sections[from..].iter().take_while(own);
        let parcels: Vec<Parcel> = (from + 1..)
            .zip(ours.clone())
            .filter(|(_, section)| section.cuts())
            .map(|(number, section)| Parcel {
                patch: section.section.patch.clone(),
                label: number.to_string(),
                state: "due",
            })
            .collect();
        from += ours.count();
        if parcels.is_empty() {
            continue;
        }
        let place = maps.iter().position(|map| !lies_over(head, map, &parcels));
        let place = match place {
            Some(place) => place,
            None if maps.len() < most => {
                maps.push(NumberedMap::default());
                maps.len() - 1
            }
            None => continue,
        };
        maps[place].steps.push(first.step);
        maps[place].parcels.extend(parcels);
    }
    // Maps beside each other have one measure.
    if let [only] = maps.as_mut_slice() {
        only.near = near(head, only);
    }
    maps
}

/// Whether any of these parcels lies over one that is on the map, judged by their middles.
fn lies_over(head: &Head, map: &NumberedMap, parcels: &[Parcel]) -> bool {
    let middle = |parcel: &Parcel| parcel.patch.at(head, 0.5, 0.5);
    parcels.iter().any(|new| {
        let at = middle(new);
        map.parcels
            .iter()
            .any(|old| old.patch.holds(at) || new.patch.holds(middle(old)))
    })
}

/// What is drawn of a map, if its sections are so small that they are drawn from near: they and the high
/// point.
fn near(head: &Head, map: &NumberedMap) -> Option<Rect> {
    let whole = hairline(head).bounding_box();
    let drawn = map.parcels.iter().fold(
        Rect::from_center_size(Point::ZERO, (0.0, 0.0)),
        |all, parcel| all.union(outline(head, &parcel.patch).bounding_box()),
    );
    let small = drawn.width() < SMALL * whole.width() && drawn.height() < SMALL * whole.height();
    small.then(|| drawn.inflate(AROUND, AROUND))
}

/// The picture of one map, for letters of this size in its units; a map of a small part of the scalp is
/// drawn from near, has letters of its own and the class `near`.
pub fn numbered_map(
    head: &Head,
    map: &NumberedMap,
    letters: f64,
    title: &str,
    description: &str,
) -> String {
    let letters = if map.near.is_some() {
        LETTERS_NEAR
    } else {
        letters
    };
    scalp_map_in(head, &map.parcels, letters, map.near, title, description)
}
