//! A saved cut, read and ready to be worked out.

use crate::cut::{Agreed, CutError, Job, Measured, Outcome, cut};
use crate::hair::Hair;
use crate::head::{Head, HeadError};
use crate::plan::{Choices, Plan, PlanError};
use crate::walk::Walk;
use crate::words::tr;

/// Why a saved cut cannot be worked out.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum NotReady {
    /// This app does not have its plan.
    #[error(
        "{}",
        tr(
            "This cut uses a plan that this version of Tautline does not have. It is kept as it is."
        )
    )]
    UnknownPlan,
    /// Its tapes contradict each other.
    #[error(transparent)]
    Head(#[from] HeadError),
    /// Its plan contradicts itself.
    #[error(transparent)]
    Plan(#[from] PlanError),
}

/// What a saved cut is worked out from: its tapes read, what the client said laid on head and plan.
#[derive(Clone, Debug)]
pub struct Ready {
    /// The head.
    pub head: Head,
    /// The hair on it.
    pub hair: Hair,
    /// The plan, with what the consultation adds to it.
    pub plan: Plan,
    /// What was chosen, in the plan and in the consultation.
    pub choices: Choices,
    /// What was agreed.
    pub agreed: Agreed,
}

impl Ready {
    /// What the fold takes.
    pub const fn job(&self) -> Job<'_> {
        Job {
            head: &self.head,
            hair: &self.hair,
            plan: &self.plan,
            choices: &self.choices,
        }
    }

    /// The plan worked out, with what was measured at the chair.
    ///
    /// # Errors
    /// [`CutError`] with a sentence.
    pub fn outcome(&self, measured: &Measured) -> Result<Outcome, CutError> {
        cut(&self.job(), measured)
    }

    /// What a walk made of the plan: what was measured, the targets that sections were cut to, and what
    /// follows of both; as planned where nothing is cut yet.
    ///
    /// # Errors
    /// [`CutError`] with a sentence.
    pub fn followed(&self, walk: &Walk) -> Result<Outcome, CutError> {
        let outcome = self.outcome(&walk.measured())?;
        match walk.as_cut(&outcome) {
            Some(as_cut) => self.outcome(&as_cut),
            None => Ok(outcome),
        }
    }
}
