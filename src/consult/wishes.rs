//! What the client wants, as goals that a plan can be aimed at.

use super::ask::{Ask, Zone};
use super::consultation::Consultation;
use crate::cut::Goal;
use crate::head::{Head, Landmark};

impl Consultation {
    /// The wishes and limits as goals, in the order in which they were asked. Left and right being cut
    /// alike, the left stands for both.
    pub fn goals(&self, _head: &Head) -> Vec<Goal> {
        let ends = Zone::ALL.into_iter().filter_map(|zone| {
            let landmark = self.landmark(Ask::EndsAt(zone))?;
            Some(ends_at(zone, landmark))
        });
        let limits = Zone::ALL.into_iter().filter_map(|zone| {
            let landmark = self.landmark(Ask::NoShorter(zone))?;
            Some(no_shorter(zone, landmark))
        });
        let weight = self.landmark(Ask::WeightAt).map(Goal::WeightAt);
        ends.chain(limits).chain(weight).collect()
    }
}

fn ends_at(zone: Zone, landmark: Landmark) -> Goal {
    Goal::EndsAt {
        place: zone.spots()[0],
        landmark,
    }
}

fn no_shorter(zone: Zone, landmark: Landmark) -> Goal {
    Goal::NoShorter {
        place: zone.spots()[0],
        landmark,
    }
}
