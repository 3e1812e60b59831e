//! The built-in plans.

use super::model::Plan;
use crate::words::tr;

/// A cut's file by its id.
macro_rules! cut {
    ($id:literal) => {
        ($id, include_str!(concat!("cuts/", $id, ".json")))
    };
}

/// The files by the ids of their plans, one a cut.
const FILES: &[(&str, &str)] = &[
    cut!("soft-layers-face-frame"),
    cut!("one-length-bob"),
    cut!("one-length-long"),
    cut!("graduated-bob"),
    cut!("long-graduation"),
    cut!("uniform-layers"),
    cut!("square-layers"),
    cut!("round-layers"),
    cut!("long-layers"),
    cut!("back-layers-forward"),
    cut!("disconnected-layers"),
    cut!("tapered-nape"),
    cut!("curtain-fringe"),
    cut!("side-swept-fringe"),
    cut!("straight-fringe"),
    cut!("trim"),
];

/// The names by the ids, apart from the files: a list of cuts needs no more, and is shown before the files
/// are on the device. A test holds them to the files.
const NAMES: &[(&str, &str)] = &[
    ("soft-layers-face-frame", "Soft layers with a face frame"),
    ("one-length-bob", "One-length bob"),
    ("one-length-long", "One length, long"),
    ("graduated-bob", "Graduated bob"),
    ("long-graduation", "Long graduation"),
    ("uniform-layers", "Uniform layers"),
    ("square-layers", "Square layers"),
    ("round-layers", "Round layers"),
    ("long-layers", "Long increasing layers"),
    ("back-layers-forward", "Back layers brought forward"),
    ("disconnected-layers", "Disconnected layered shape"),
    ("tapered-nape", "Short tapered nape"),
    ("curtain-fringe", "Curtain fringe"),
    ("side-swept-fringe", "Side-swept fringe"),
    ("straight-fringe", "Straight fringe"),
    ("trim", "Trim that keeps the shape"),
];

/// Why a plan cannot be used.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PlanError {
    /// It does not read.
    #[error("{}", tr!("This plan can't be read: {}.", .0))]
    Unreadable(String),
    /// It contradicts itself.
    #[error("{}", tr!("This plan contradicts itself. {}", .0))]
    Faulty(String),
}

impl Plan {
    /// Reads a plan from JSON and checks that it holds together.
    ///
    /// # Errors
    /// [`PlanError`] with a sentence.
    pub fn from_json(text: &str) -> Result<Self, PlanError> {
        let plan: Self =
            crate::json::read(text).map_err(|e| PlanError::Unreadable(e.to_string()))?;
        plan.check()?;
        Ok(plan)
    }

    /// Whether it holds together.
    ///
    /// # Errors
    /// [`PlanError::Faulty`] with what contradicts what.
    pub fn check(&self) -> Result<(), PlanError> {
        match self.faults().into_iter().next() {
            None => Ok(()),
            Some(fault) => Err(PlanError::Faulty(match fault.step {
                Some(step) => tr!("“{}”: {}", self.steps[step].name(), fault.words),
                None => fault.words,
            })),
        }
    }
}

/// All built-in plans that read. Each is checked by the tests; one that should not read all the
/// same is left out rather than stop the app.
pub fn built_ins() -> Vec<Plan> {
    FILES
        .iter()
        .filter_map(|(_, text)| Plan::from_json(text).ok())
        .collect()
}

/// The built-in plan of this id. Only its own file is read.
pub fn built_in(id: &str) -> Option<Plan> {
    let (_, text) = FILES.iter().find(|(of, _)| *of == id)?;
    Plan::from_json(text).ok()
}

/// The name of the built-in plan of this id, without reading it.
pub fn built_in_name(id: &str) -> Option<&'static str> {
    let found = NAMES.iter().find(|(of, _)| *of == id);
    found.map(|(_, name)| *name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_built_in_plan_reads() {
        for &(id, text) in FILES {
            let plan = Plan::from_json(text).unwrap_or_else(|why| panic!("{id}: {why}"));
            assert_eq!(plan.id, id);
            let named = built_in_name(id);
            assert_eq!(named, Some(plan.name.as_str()), "{id} in NAMES");
        }
        assert_eq!(built_ins().len(), FILES.len());
    }

    #[test]
    fn a_plan_that_contradicts_itself_is_refused() {
        let (_, good) = FILES[0];
        let of = |from: &str, to: &str| Plan::from_json(&good.replace(from, to)).unwrap_err();
        assert!(matches!(
            of("\"schema\": 1", "\"schema\": 9"),
            PlanError::Faulty(_)
        ));
        assert!(matches!(
            of("\"as_step\": \"front-guide\"", "\"as_step\": \"nowhere\""),
            PlanError::Faulty(_)
        ));
        assert!(matches!(
            of("\"default\": \"centre\"", "\"default\": \"top\""),
            PlanError::Faulty(_)
        ));
        assert!(matches!(
            Plan::from_json("{}"),
            Err(PlanError::Unreadable(_))
        ));
    }
}
