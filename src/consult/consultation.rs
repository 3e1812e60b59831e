//! What was talked over with one client.

use crate::cut::Agreed;
use crate::hair::Hair;
use crate::head::Head;
use crate::plan::{Choices, Plan, PlanError};
use serde::{Deserialize, Serialize};

/// What was talked over with one client. What was not asked is left out.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Consultation {}

impl Consultation {
    /// Whether nothing was put down.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// The hair as it was described, on this head.
    pub fn hair(&self, _head: &Head) -> Hair {
        Hair::default()
    }

    /// What was agreed, on this head.
    pub fn agreed(&self, _head: &Head) -> Agreed {
        Agreed::default()
    }

    /// The choices of a plan; what was not chosen there but said here is taken from here.
    pub fn choices(&self, _plan: &Plan, choices: &Choices) -> Choices {
        choices.clone()
    }

    /// A plan with what was agreed added to it.
    ///
    /// # Errors
    /// [`PlanError`] when the plan contradicts itself.
    pub fn plan(&self, plan: Plan) -> Result<Plan, PlanError> {
        plan.check()?;
        Ok(plan)
    }
}
