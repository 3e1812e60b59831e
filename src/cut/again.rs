//! A plan worked out again when one more length was measured, from there on.

use super::fold::{CutError, Job, Measured, Outcome, ROOTS, Run};
use super::section::{SectionCut, SectionKey};
use super::sided::Sided;
use crate::head::Side;
use crate::plan::Step;

/// The same plan with other lengths measured: as [`super::cut`], but only what they change is worked out again,
/// from the first step in which they differ from those of `last` and on the sides that go on from it.
/// `last` must come from this very job.
///
/// # Errors
/// [`CutError`] with a sentence.
pub fn cut_on(job: &Job<'_>, last: &Outcome, measured: &Measured) -> Result<Outcome, CutError> {
    let run = Run {
        job: *job,
        measured,
        rows: ROOTS,
        quick: false,
        nudges: &[],
    };
    let steps = &job.plan.steps;
    // Sides of this step of which something else was measured.
    let differ = |step: &Step, side: Side| {
        let of = |all: &Measured| {
            let here = |key: &SectionKey| key.step == step.id && key.side == side;
            let all = all.iter().filter(|(key, _)| here(key));
            all.map(|(key, cm)| (key.number, *cm)).collect::<Vec<_>>()
        };
        of(measured) != of(&last.measured)
    };
    let same = |step: &&Step| !step.sides.all().iter().any(|side| differ(step, *side));
    let from = steps.iter().take_while(same).count();
    let mut so_far = match from {
        0 => run.start(),
        _ => last.before_step(from, measured),
    };
    // Sides whose hair is no longer as it was.
    let mut other: Vec<Side> = Vec::new();
    for (index, step) in steps.iter().enumerate().skip(from) {
        let mut changes = Vec::new();
        for &side in step.sides.all() {
            let reads_both = side == Side::Centre || last.crossed.contains(&(index, side));
            if differ(step, side)
                || other.contains(&side)
                || other.contains(&Side::Centre)
                || (reads_both && !other.is_empty())
            {
                changes.push(side);
            }
        }
        let known = |side| (!changes.contains(&side)).then(|| last.sided(index, side));
        so_far = run.step_but(so_far, index, &known)?;
        if step.held.cuts() {
            other.extend(changes);
        }
    }
    Ok(so_far)
}

impl Outcome {
    /// What it was before one of its steps, not the first, by its place; with these lengths measured from
    /// there on.
    fn before_step(&self, step: usize, measured: &Measured) -> Self {
        let earlier = |of: usize| of < step;
        let sections = self.sections.iter().filter(|s| earlier(s.step));
        let guides = self.guides.iter().filter(|(of, ..)| earlier(*of));
        let as_planned = self.as_planned.iter().filter(|(of, _)| earlier(*of));
        let crossed = self.crossed.iter().filter(|(of, _)| earlier(*of));
        Self {
            sections: sections.cloned().collect(),
            lengths: self.lengths.before_step(step),
            uneven_since: self.uneven_since.filter(|since| earlier(*since)),
            measured: measured.clone(),
            guides: guides.copied().collect(),
            as_planned: as_planned.copied().collect(),
            crossed: crossed.copied().collect(),
        }
    }

    /// What one side of a step did.
    fn sided(&self, index: usize, side: Side) -> Sided {
        let here = |s: &&SectionCut| s.step == index && s.key.side == side;
        let there = (index, side);
        let longer = self.guides.iter().find(|(of, on, _)| (*of, *on) == there);
        Sided {
            cuts: self.sections.iter().filter(here).cloned().collect(),
            changed: self.lengths.cut_in(index, side),
            longer: longer.map_or(0.0, |(.., cm)| *cm),
            as_planned: self.as_planned.contains(&there),
            crossed: self.crossed.contains(&there),
        }
    }
}
