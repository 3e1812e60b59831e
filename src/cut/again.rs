//! A plan worked out again when one more length was measured, from there on.

use super::fold::{CutError, Job, Measured, Outcome, ROOTS, Run};
use crate::plan::Step;

/// The same plan with other lengths measured: as [`cut`], but worked out again only from the first step
/// in which they differ from those of `last`, which must come from this very job.
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
    let same = |step: &Step| {
        let of = |all: &Measured| {
            let all = all.iter().filter(|(key, _)| key.step == step.id);
            all.map(|(key, cm)| (key.clone(), *cm)).collect::<Vec<_>>()
        };
        of(measured) == of(&last.measured)
    };
    let from = steps.iter().take_while(|step| same(step)).count();
    let start = match from {
        0 => run.start(),
        _ => last.before_step(from, measured),
    };
    (from..steps.len()).try_fold(start, |so_far, step| run.step(so_far, step))
}

impl Outcome {
    /// What it was before one of its steps, not the first, by its place; with these lengths measured from
    /// there on.
    fn before_step(&self, step: usize, measured: &Measured) -> Self {
        let earlier = |of: usize| of < step;
        let sections = self.sections.iter().filter(|s| earlier(s.step));
        let guides = self.guides.iter().filter(|(of, ..)| earlier(*of));
        let left = self.left.iter().filter(|(of, _)| earlier(*of));
        Self {
            sections: sections.cloned().collect(),
            lengths: self.lengths.before_step(step),
            uneven_since: self.uneven_since.filter(|since| earlier(*since)),
            measured: measured.clone(),
            guides: guides.copied().collect(),
            left: left.copied().collect(),
        }
    }
}
