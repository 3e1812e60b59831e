//! The sections of a cut numbered in cutting order, on as few scalp maps as show each of them whole.

use super::scalp_map::{Parcel, scalp_map_in};
use crate::cut::{Outcome, SectionCut};
use crate::head::Head;

/// One map: the steps it shows, and their sections as parcels.
#[derive(Clone, Debug, Default)]
pub struct NumberedMap {
    /// The steps' places in the plan, in order.
    pub steps: Vec<usize>,
    /// Their sections, each with its number in the whole cut, from 1.
    pub parcels: Vec<Parcel>,
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

/// The picture of one map, for letters of this size in its units.
pub fn numbered_map(
    head: &Head,
    map: &NumberedMap,
    letters: f64,
    title: &str,
    description: &str,
) -> String {
    scalp_map_in(head, &map.parcels, letters, title, description)
}
