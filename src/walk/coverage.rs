//! How much of the scalp is cut, and what is left.

use super::run::Walk;
use crate::cut::{Job, Outcome, SectionCut, SectionKey};
use crate::words::{tr, tr_in};

/// What became of a section.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    /// It is cut.
    Cut,
    /// It is still to be cut.
    Left,
    /// None of its hair reaches its line: nothing is cut there.
    Short,
}

impl State {
    /// Its word on the screen.
    pub fn word(self) -> &'static str {
        match self {
            Self::Cut => tr_in("of a section, feminine", "cut"),
            Self::Left => tr("still to cut"),
            Self::Short => tr("too short to reach"),
        }
    }

    fn of(section: &SectionCut, walk: &Walk) -> Self {
        if section.reach() <= 0.0 {
            Self::Short
        } else if walk.is_done(&section.key) {
            Self::Cut
        } else {
            Self::Left
        }
    }
}

/// How much of the scalp is cut, and what is left; the four areas add up to the scalp's.
#[derive(Clone, Debug, PartialEq)]
pub struct Coverage {
    /// Scalp that a section which is done takes, cm².
    pub cut: f64,
    /// Scalp that only sections still to be cut take, cm².
    pub left: f64,
    /// Scalp whose hair reaches no line of the sections that take it, cm².
    pub short: f64,
    /// Scalp that no section takes: left as it is on purpose, or forgotten in the plan, cm².
    pub none: f64,
    /// Every section that cuts, in order.
    pub parcels: Vec<(SectionKey, State)>,
}

impl Coverage {
    /// What is cut and left of the scalp so far.
    pub fn of(job: &Job<'_>, outcome: &Outcome, walk: &Walk) -> Self {
        let cutting: Vec<(&SectionCut, State)> = outcome
            .sections
            .iter()
            .filter(|s| s.cuts())
            .map(|s| (s, State::of(s, walk)))
            .collect();
        let (mut cut, mut left, mut short, mut none) = (0.0, 0.0, 0.0, 0.0);
        for sample in job.head.grid() {
            let here = cutting
                .iter()
                .filter(|(s, _)| s.section.patch.holds(sample.root));
            let (mut any, mut any_cut, mut any_left) = (false, false, false);
            for (_, state) in here {
                any = true;
                any_cut |= *state == State::Cut;
                any_left |= *state == State::Left;
            }
            // What a later section cuts again is cut.
            *match (any, any_cut, any_left) {
                (false, ..) => &mut none,
                (_, true, _) => &mut cut,
                (.., true) => &mut left,
                _ => &mut short,
            } += sample.area;
        }
        Self {
            cut,
            left,
            short,
            none,
            parcels: cutting
                .into_iter()
                .map(|(section, state)| (section.key.clone(), state))
                .collect(),
        }
    }
}
