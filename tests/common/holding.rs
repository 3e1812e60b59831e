//! Holds, regions and patterns that several tests use, and what they look at.
#![allow(dead_code)]

use super::from_head;
use tautline::cut::{Outcome, SectionCut};
use tautline::head::{Landmark, Side};
use tautline::plan::{
    Bound, Carried, Cut, End, Fingers, Given, Held, Line, Over, Pattern, Rule, Start, Station,
    Travel,
};

pub fn cm(cm: f64) -> Given<f64> {
    Given::Fixed(cm)
}

pub fn back() -> Vec<Bound> {
    vec![
        Bound::Behind(Line::EarToEar),
        Bound::Below(Line::Level {
            at: Landmark::Occipital,
            up: 0.0,
        }),
    ]
}

pub fn horizontal(spacing: f64) -> Pattern {
    Pattern::Horizontal {
        spacing,
        from: End::Bottom,
    }
}

pub fn radial(spacing: f64) -> Pattern {
    Pattern::Radial {
        spacing,
        from: Start::Front,
    }
}

pub fn travelling(degrees: f64, fingers: Fingers, length: f64) -> Held {
    Held::Travelling(Travel {
        elevation: from_head(degrees),
        over: Over::None,
        fingers,
        guide: Carried::Neighbour,
        length: Rule::Length(cm(length)),
    })
}

pub fn stationary(station: Station, degrees: f64, length: f64) -> Held {
    Held::Stationary(Cut {
        station,
        elevation: from_head(degrees),
        over: Over::None,
        fingers: Fingers::ParallelToHead,
        length: Rule::Length(cm(length)),
    })
}

pub fn left(outcome: &Outcome) -> Vec<&SectionCut> {
    outcome
        .sections
        .iter()
        .filter(|s| s.key.side == Side::Left)
        .collect()
}

pub fn afters(outcome: &Outcome) -> Vec<f64> {
    let strands = outcome.sections.iter().flat_map(|s| &s.strands);
    strands.map(|s| s.after).collect()
}

pub fn spread(lengths: &[f64]) -> (f64, f64) {
    let low = lengths.iter().copied().fold(f64::INFINITY, f64::min);
    (low, lengths.iter().copied().fold(0.0, f64::max))
}
