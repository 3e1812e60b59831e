//! A fringe cut in two goes: first longer, then to its length.

use super::ask::Ask;
use super::consultation::Consultation;
use crate::plan::{Area, Bound, Held, Line, Plan, PlanError, Step};
use crate::words::tr;

impl Consultation {
    /// A plan with what was agreed added to it: a first go before every cut of the fringe.
    ///
    /// # Errors
    /// [`PlanError`] when the plan contradicts itself.
    pub fn plan(&self, mut plan: Plan) -> Result<Plan, PlanError> {
        if self.is_on(Ask::TwoGoes)
            && let Some(more) = self.length(Ask::TwoGoesBy).filter(|more| more.cm() > 0.0)
        {
            let mut at = 0;
            while at < plan.steps.len() {
                if cuts_fringe(&plan.steps[at]) {
                    let id = unused(&plan, &plan.steps[at].id);
                    let first = first_go(&plan.steps[at], &id, more.cm());
                    let second = &mut plan.steps[at];
                    second.recuts.push(id);
                    second.title = tr!("{}, second go", second.name());
                    plan.steps.insert(at, first);
                    at += 1;
                }
                at += 1;
            }
        }
        plan.check()?;
        Ok(plan)
    }
}

/// Whether a step cuts hair at the front in its fall.
fn cuts_fringe(step: &Step) -> bool {
    let at_the_front = match &step.area {
        Area::FrontPiece { .. } => true,
        Area::Parted { region, .. } => region
            .iter()
            .any(|bound| matches!(bound, Bound::Before(Line::Fringe { .. }))),
        Area::Pivoting { .. } | Area::Places { .. } => false,
    };
    at_the_front && matches!(step.held, Held::Fall(_))
}

/// A name for the first go that no step has.
fn unused(plan: &Plan, id: &str) -> String {
    let mut name = format!("{id}-first-go");
    while plan.steps.iter().any(|step| step.id == name) {
        name.push('-');
    }
    name
}

/// The same, left so much longer. What it recuts and stands apart from stays: those steps come before.
fn first_go(step: &Step, id: &str, more: f64) -> Step {
    let mut first = step.clone();
    first.id = id.to_owned();
    first.title = tr!("{}, first go", step.name());
    first.longer += more;
    first.words.guide =
        tr("The first go: longer than it will be. Let it dry and fall, show the client.")
            .to_owned();
    first
}
