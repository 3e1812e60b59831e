//! A plan that is worked out again while it is being changed.
//!
//! What stands before the changed step is not worked out again, targets are those of the nine roots
//! of a section, and hair is let down at few places: near enough to look at while a hand drags. What
//! is kept and cut by is always worked out whole.

use super::fold::{CutError, Job, Measured, Outcome, ROOTS, Run};

/// A plan worked out step by step, each step's beginning kept.
#[derive(Clone, Debug)]
pub struct Live {
    /// The hair before each step.
    before: Vec<Outcome>,
    /// After the last one.
    after: Outcome,
}

/// Which step cannot be worked out, and why.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error("{why}")]
pub struct Stuck {
    /// The step's place.
    pub step: usize,
    /// Why.
    pub why: CutError,
}

impl Live {
    /// A plan worked out from its first step.
    ///
    /// # Errors
    /// [`Stuck`] at the first step that cannot be worked out.
    pub fn new(job: &Job<'_>) -> Result<Self, Stuck> {
        let start = run(job, &Measured::new()).start();
        Self::on(job, Vec::new(), start)
    }

    /// The same plan, changed in the step of this place and after it only.
    ///
    /// # Errors
    /// [`Stuck`] as [`Live::new`].
    pub fn again(&self, job: &Job<'_>, step: usize) -> Result<Self, Stuck> {
        match self.before.get(step) {
            Some(there) => Self::on(job, self.before[..step].to_vec(), there.clone()),
            None if step == self.before.len() => {
                Self::on(job, self.before.clone(), self.after.clone())
            }
            None => Self::new(job),
        }
    }

    fn on(job: &Job<'_>, mut before: Vec<Outcome>, mut so_far: Outcome) -> Result<Self, Stuck> {
        let measured = Measured::new();
        let run = run(job, &measured);
        for step in before.len()..job.plan.steps.len() {
            let next = run
                .step(so_far.clone(), step)
                .map_err(|why| Stuck { step, why })?;
            before.push(std::mem::replace(&mut so_far, next));
        }
        Ok(Self {
            before,
            after: so_far,
        })
    }

    /// What it comes to.
    pub const fn outcome(&self) -> &Outcome {
        &self.after
    }
}

fn run<'a>(job: &Job<'a>, measured: &'a Measured) -> Run<'a> {
    Run {
        job: *job,
        measured,
        rows: ROOTS,
        quick: true,
        nudges: &[],
    }
}
