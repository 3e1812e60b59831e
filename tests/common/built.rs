//! A built-in cut worked out on the three heads, and what can be measured of it.

use super::{chosen, three_heads};
use tautline::cut::{Job, Lengths, LetDown, Measured, Outcome, SectionCut, Strand, cut, let_down};
use tautline::hair::Hair;
use tautline::head::{Head, Landmark, Side, Spot};
use tautline::plan::{Choices, Plan, built_in};

/// Roots that are let down.
const ROOTS: usize = 500;
/// Ends of one level: what we allow, cm.
pub const ONE_LEVEL: f64 = 0.3;
/// Targets of one length: what we allow, cm.
pub const ONE_LENGTH: f64 = 0.5;

/// A built-in cut worked out on one head.
pub struct Done {
    pub head: Head,
    pub plan: Plan,
    pub choices: Choices,
    pub outcome: Outcome,
}

/// A built-in cut with these answers on the three heads.
pub fn done(id: &str, pairs: &[(&str, &str)]) -> Vec<Done> {
    let plan = built_in(id).unwrap();
    let of = |head: Head| {
        let choices = chosen(&plan, pairs);
        let job = Job {
            head: &head,
            hair: &Hair::default(),
            plan: &plan,
            choices: &choices,
        };
        let outcome = cut(&job, &Measured::new()).unwrap();
        Done {
            plan: plan.clone(),
            head,
            choices,
            outcome,
        }
    };
    three_heads().into_iter().map(of).collect()
}

impl Done {
    /// The sections of a step.
    pub fn step<'a>(&'a self, id: &'a str) -> impl Iterator<Item = &'a SectionCut> {
        self.outcome
            .sections
            .iter()
            .filter(move |s| s.key.step == id)
    }

    pub fn strands<'a>(&'a self, id: &'a str) -> impl Iterator<Item = &'a Strand> {
        self.step(id).flat_map(|s| &s.strands)
    }

    /// All strands of sections that cut.
    pub fn cut(&self) -> impl Iterator<Item = &Strand> {
        let cutting = self.outcome.sections.iter().filter(|s| s.cuts());
        cutting.flat_map(|s| &s.strands)
    }

    /// The length of the hair at a place: degrees about the high point, share of the way out.
    pub fn at(&self, azimuth: f64, out: f64) -> f64 {
        let root = self.head.place(Spot::at_degrees(azimuth, out));
        self.outcome.lengths.at(&self.head, root).unwrap()
    }

    /// The share of the way out at which the scalp lies at a height, cm.
    pub fn level_out(&self, azimuth: f64, z: f64) -> f64 {
        let (mut above, mut below) = (0.0, 1.0);
        for _ in 0..40 {
            let middle = f64::midpoint(above, below);
            if self.head.place(Spot::at_degrees(azimuth, middle)).z > z {
                above = middle;
            } else {
                below = middle;
            }
        }
        above
    }

    /// The height at which the hair of a place ends, combed down.
    pub fn ends(&self, azimuth: f64, out: f64) -> f64 {
        let root = self.head.place(Spot::at_degrees(azimuth, out));
        self.outcome.lengths.ends_at(&self.head, root).unwrap()
    }

    /// The length at a named point.
    pub fn length(&self, landmark: Landmark) -> f64 {
        let root = self.head.landmark(landmark, Side::Left);
        self.outcome.lengths.at(&self.head, root).unwrap()
    }

    pub fn level(&self, landmark: Landmark) -> f64 {
        self.head.landmark(landmark, Side::Centre).z
    }

    pub fn let_down(&self) -> LetDown {
        let job = Job {
            head: &self.head,
            hair: &Hair::default(),
            plan: &self.plan,
            choices: &self.choices,
        };
        let_down(&self.head, &self.outcome.lengths, &job.wear(), ROOTS).unwrap()
    }

    /// The hair before the first step.
    pub fn before(&self) -> Lengths {
        let before = self.choices.before(&self.plan);
        Lengths::before(&self.head, &Hair::default(), before)
    }

    /// How far the ends of all hair that was cut lie from a level at most, cm.
    pub fn off_level(&self, level: f64) -> f64 {
        let ends = |s: &Strand| self.outcome.lengths.ends_at(&self.head, s.root).unwrap();
        let off = self.cut().map(|s| (ends(s) - level).abs());
        off.fold(0.0, f64::max)
    }
}

pub fn span(values: impl IntoIterator<Item = f64>) -> (f64, f64) {
    let start = (f64::INFINITY, f64::NEG_INFINITY);
    let wider = |(low, high): (f64, f64), v: f64| (low.min(v), high.max(v));
    values.into_iter().fold(start, wider)
}

pub fn rises(values: &[f64]) -> bool {
    values.windows(2).all(|pair| pair[1] > pair[0])
}
