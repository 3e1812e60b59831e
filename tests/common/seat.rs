//! A cut at the chair.
#![allow(dead_code)]

use super::{chosen, mean_head};
use tautline::cut::{Job, Measured, Outcome, cut, cut_on};
use tautline::hair::Hair;
use tautline::head::Head;
use tautline::plan::{Choices, Plan, built_in};
use tautline::walk::Walk;

/// A plan on a head, to be worked out again and again.
pub struct Chair {
    pub head: Head,
    pub hair: Hair,
    pub plan: Plan,
    pub choices: Choices,
}

impl Chair {
    pub fn of(id: &str, answers: &[(&str, &str)]) -> Self {
        let plan = built_in(id).unwrap();
        let choices = chosen(&plan, answers);
        Self {
            head: mean_head(),
            hair: Hair::default(),
            plan,
            choices,
        }
    }

    pub fn job(&self) -> Job<'_> {
        Job {
            head: &self.head,
            hair: &self.hair,
            plan: &self.plan,
            choices: &self.choices,
        }
    }

    pub fn cut(&self, measured: &Measured) -> Outcome {
        cut(&self.job(), measured).unwrap()
    }

    pub fn planned(&self) -> Outcome {
        self.cut(&Measured::new())
    }

    /// As the chair works it out: what was measured, and nothing rewritten that is already cut.
    pub fn followed(&self, walk: &Walk) -> Outcome {
        let outcome = self.cut(&walk.measured());
        match walk.as_cut(&outcome) {
            Some(measured) => cut_on(&self.job(), &outcome, &measured).unwrap(),
            None => outcome,
        }
    }
}
