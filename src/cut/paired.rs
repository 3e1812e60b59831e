//! The sections of a step, left beside right.

use super::fold::Outcome;
use super::section::SectionCut;
use crate::head::Side;
use crate::measure::Length;

/// A section and its twin on the other side.
#[derive(Clone, Debug)]
pub struct Paired {
    /// On the client's left, across the middle, or on the right if that is the only one.
    pub one: SectionCut,
    /// Its twin on the client's right.
    pub twin: Option<SectionCut>,
}

impl Paired {
    /// Both, or the one that there is.
    pub fn both(&self) -> impl Iterator<Item = &SectionCut> {
        std::iter::once(&self.one).chain(&self.twin)
    }

    /// The most that comes off on either side.
    pub fn off(&self) -> Length {
        let off = |section: &SectionCut| section.off().cm();
        Length::from_cm(self.both().map(off).fold(0.0, f64::max))
    }

    /// The one of which the smaller share reaches its line.
    pub fn least_reaching(&self) -> &SectionCut {
        match &self.twin {
            Some(twin) if twin.reach() < self.one.reach() => twin,
            _ => &self.one,
        }
    }
}

impl Outcome {
    /// The sections of a step, left and right paired, in cutting order.
    pub fn paired(&self, step: usize) -> Vec<Paired> {
        let other = |section: &SectionCut| self.section(&section.key.mirrored());
        let ours = self.sections.iter().filter(|s| s.step == step);
        let first = |s: &&SectionCut| s.key.side != Side::Right || other(s).is_none();
        ours.filter(first)
            .map(|one| Paired {
                one: one.clone(),
                twin: other(one).filter(|twin| twin.key != one.key).cloned(),
            })
            .collect()
    }

    /// The section before one in its step and on its side: its guide, where a guide travels.
    pub fn before_in_step(&self, section: &SectionCut) -> Option<&SectionCut> {
        self.sections.iter().find(|other| {
            other.step == section.step
                && other.key.side == section.key.side
                && other.key.number + 1 == section.key.number
        })
    }
}
