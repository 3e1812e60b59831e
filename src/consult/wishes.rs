//! What the client wants, as wishes that a plan can be aimed at.

use super::ask::{Ask, Zone};
use super::consultation::Consultation;
use crate::cut::{What, Wish};
use crate::head::Landmark;

impl Consultation {
    /// The wishes and limits that count, limits first. Left and right being cut alike, the left stands
    /// for both.
    pub fn wishes(&self) -> Vec<Wish> {
        let asked = [
            (What::Shortest, Ask::NoShorter(Zone::Back)),
            (What::Front, Ask::EndsAt(Zone::Front)),
            (What::Weight, Ask::WeightAt),
            (What::Sides, Ask::EndsAt(Zone::Sides)),
            (What::Back, Ask::EndsAt(Zone::Back)),
        ];
        let wish = |what, landmark: Landmark| Wish {
            what,
            on: true,
            at: landmark.into(),
            most: 0.0,
        };
        let said = |(what, ask)| Some(wish(what, self.landmark(ask)?));
        asked.into_iter().filter_map(said).collect()
    }
}
