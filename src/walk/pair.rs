//! A section and its twin on the other side.

use super::run::Walk;
use super::verdict::{Kind, Tolerances};
use crate::cut::{Outcome, SectionKey};
use crate::head::Side;
use crate::measure::Length;

/// Where both sides are brought together to be compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CheckPoint {
    /// The chin.
    Chin,
    /// The tip of the nose.
    NoseTip,
    /// The middle of the back.
    BackCentre,
}

impl CheckPoint {
    /// Its words.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Chin => "the chin",
            Self::NoseTip => "the nose tip",
            Self::BackCentre => "the middle of the back",
        }
    }
}

/// A section and its twin on the other side.
#[derive(Clone, Debug, PartialEq)]
pub struct Pair {
    /// The section.
    pub key: SectionKey,
    /// Its twin.
    pub twin: SectionKey,
    /// The name that both have.
    pub name: String,
    /// The section's side.
    pub ours: Side,
    /// What the section came out at, if that was measured.
    pub here: Option<Length>,
    /// What the twin came out at: measured, or else the target it was cut to; none until it is done.
    pub there: Option<Length>,
    /// Whether the twin was measured.
    pub there_measured: bool,
    /// What the section is to be cut at: matched, or else as planned.
    pub target_here: Length,
    /// What the twin is to be cut at, likewise.
    pub target_there: Length,
    /// How much longer the section is than its twin, or will be by its target, cm; below zero if
    /// shorter. None until the twin is done.
    pub difference: Option<f64>,
    /// Where both are brought to be compared.
    pub point: CheckPoint,
    /// What hair they are.
    pub kind: Kind,
}

impl Pair {
    /// A section with its twin; none if it has none.
    pub fn of(outcome: &Outcome, walk: &Walk, key: &SectionKey) -> Option<Self> {
        let _ = (outcome, walk, key);
        None
    }

    /// The length to match the twin, where that is worth a question: the twin came out further from what
    /// this section is to be cut at than is allowed, and this one is neither cut nor matched yet.
    pub fn offer_match(&self, walk: &Walk, tolerances: &Tolerances) -> Option<Length> {
        let _ = (walk, tolerances);
        None
    }
}
