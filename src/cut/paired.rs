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

#[cfg(test)]
mod tests {
    use super::super::{Job, Measured, cut};
    use super::*;
    use crate::hair::Hair;
    use crate::head::{Head, Tapes};
    use crate::plan::{Choices, Plan, built_ins};

    /// Every built-in plan with what it comes to on a mean head.
    fn all() -> Vec<(Plan, Outcome)> {
        let head = Head::from_tapes(&Tapes::default()).unwrap();
        let (hair, choices) = (Hair::default(), Choices::default());
        let outcome = |plan: &Plan| {
            let job = Job {
                head: &head,
                hair: &hair,
                plan,
                choices: &choices,
            };
            cut(&job, &Measured::new()).unwrap()
        };
        let plans = built_ins().into_iter();
        plans.map(|plan| (plan.clone(), outcome(&plan))).collect()
    }

    #[test]
    fn every_section_stands_in_one_pair_and_the_pair_speaks_for_both() {
        let (mut twins, mut alone) = (0, 0);
        for (plan, outcome) in all() {
            let steps = 0..plan.steps.len();
            let pairs: Vec<Paired> = steps.flat_map(|step| outcome.paired(step)).collect();
            let mut keys: Vec<_> = pairs
                .iter()
                .flat_map(Paired::both)
                .map(|s| &s.key)
                .collect();
            let mut wanted: Vec<_> = outcome.sections.iter().map(|s| &s.key).collect();
            keys.sort();
            wanted.sort();
            assert_eq!(keys, wanted, "{}", plan.id);
            for pair in &pairs {
                match &pair.twin {
                    Some(twin) => {
                        twins += 1;
                        assert_eq!(
                            (pair.one.key.side, twin.key.side),
                            (Side::Left, Side::Right)
                        );
                        assert_eq!(twin.key, pair.one.key.mirrored());
                    }
                    None => alone += 1,
                }
                assert!(pair.both().all(|s| s.off() <= pair.off()));
                assert!(
                    pair.both()
                        .all(|s| s.reach() >= pair.least_reaching().reach())
                );
                assert!(pair.both().any(|s| s.off() == pair.off()));
            }
        }
        assert!(twins > 100 && alone > 5, "{twins} {alone}");
    }

    #[test]
    fn the_section_before_is_the_one_that_was_cut_before_on_that_side() {
        for (_, outcome) in all() {
            for section in &outcome.sections {
                let before = outcome.before_in_step(section).map(|s| s.key.clone());
                let wanted = (section.key.number > 1).then(|| {
                    let mut key = section.key.clone();
                    key.number -= 1;
                    key
                });
                assert_eq!(before, wanted);
            }
        }
    }
}
