//! How a person reads sides and named points.

use super::points::{Landmark, Side};
use crate::words::{noted, tr};

impl Side {
    /// The side as a person reads it within a sentence or in brackets: `left`.
    pub fn said(self) -> &'static str {
        tr(self.word())
    }
}

impl Landmark {
    /// By itself, as a person reads it: `Chin`.
    pub fn name(self) -> &'static str {
        tr(self.english()[0])
    }

    /// As short as a drawing says it: `chin`.
    pub fn short(self) -> &'static str {
        tr(self.english()[1])
    }

    /// Within a sentence: `the chin`.
    pub fn the(self) -> &'static str {
        tr(self.english()[2])
    }

    #[rustfmt::skip]
    const fn english(self) -> [&'static str; 3] {
        match self {
            Self::FrontHairline => [noted("Front hairline"), noted("front hairline"), noted("the front hairline")],
            Self::Temple => [noted("Temple"), noted("temple"), noted("the temple")],
            Self::HighPoint => [noted("High point"), noted("high point"), noted("the high point")],
            Self::Crown => [noted("Crown"), noted("crown"), noted("the crown")],
            Self::ParietalRidge => [noted("Parietal ridge"), noted("parietal ridge"), noted("the parietal ridge")],
            Self::Occipital => [noted("Occipital bone"), noted("occipital"), noted("the occipital bone")],
            Self::Nape => [noted("Nape"), noted("nape"), noted("the nape")],
            Self::NapeCorner => [noted("Nape corner"), noted("nape corner"), noted("the nape corner")],
            Self::InFrontOfEar => [noted("In front of the ear"), noted("in front of ear"), noted("the place in front of the ear")],
            Self::AboveEar => [noted("Above the ear"), noted("above ear"), noted("the place above the ear")],
            Self::BehindEar => [noted("Behind the ear"), noted("behind ear"), noted("the place behind the ear")],
            Self::Brow => [noted("Brow"), noted("brow"), noted("the brow")],
            Self::Cheekbone => [noted("Cheekbone"), noted("cheekbone"), noted("the cheekbone")],
            Self::MouthCorner => [noted("Mouth corner"), noted("mouth corner"), noted("the mouth corner")],
            Self::JawCorner => [noted("Jaw corner"), noted("jaw corner"), noted("the jaw corner")],
            Self::Chin => [noted("Chin"), noted("chin"), noted("the chin")],
            Self::Collarbone => [noted("Collarbone"), noted("collarbone"), noted("the collarbone")],
            Self::Shoulder => [noted("Shoulder"), noted("shoulder"), noted("the shoulder")],
            Self::Chest => [noted("Chest"), noted("chest"), noted("the chest")],
            Self::Waist => [noted("Waist"), noted("waist"), noted("the waist")],
        }
    }
}
