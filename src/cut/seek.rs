//! What a try comes to while an aim is sought: quick looks at the plan turned so or so.

use super::fold::{CutError, Job, Measured, Outcome, ROOTS, Run};
use super::goal::{Goal, Judge, most_off};
use super::hold::Nudge;
use super::means::{Means, Turns};
use std::cell::RefCell;
use std::collections::HashMap;

/// How far a goal that is met may be worsened for a later one, cm.
pub(super) const SPARE: f64 = 0.05;
/// One unit of the search: a centimetre of guide, or so many degrees of elevation.
pub(super) const DEGREES: f64 = 10.0;
/// What a plan that cannot be held counts as, cm off every goal.
const CANNOT: f64 = 60.0;
/// Rows of roots a section while seeking: its corners tell the most that comes off.
const CORNERS: usize = 2;

/// One goal as it was seen at a place.
#[derive(Clone, Copy)]
pub(super) struct Look {
    pub miss: f64,
    pub pull: f64,
}

/// What is sought, by what, and what was seen on the way.
pub(super) struct Search {
    pub goals: Vec<Goal>,
    pub means: Vec<Means>,
    /// The step of each of the means, by its place.
    steps: Vec<usize>,
    judge: Judge,
    /// Whether what comes off matters; else no hair of a section need be looked at.
    off: bool,
    /// How much more comes off over whole sections than at their corners, cm.
    unseen: f64,
    /// Goals as they were seen at places that were looked at: bounds and aim ask for the same ones.
    seen: RefCell<HashMap<Vec<u64>, Vec<Option<Look>>>>,
    /// The last run, step by step: the next one begins where it differs.
    last: RefCell<Vec<(Nudge, Outcome)>>,
}

impl Search {
    pub fn new(job: &Job<'_>, goals: &[Goal], means: &[Means], steps: Vec<usize>) -> Self {
        Self {
            goals: goals.to_vec(),
            means: means.to_vec(),
            steps,
            judge: Judge::new(job, goals),
            off: goals.iter().any(|g| matches!(g, Goal::NoMoreOff(_))),
            unseen: 0.0,
            seen: RefCell::default(),
            last: RefCell::default(),
        }
    }

    /// Compares a quick look at a place with the whole, so that limits on what comes off are kept.
    pub fn compare(&mut self, job: &Job<'_>, at: &[f64]) -> Result<(), CutError> {
        let whole = most_off(&self.outcome(job, at)?);
        let quick = most_off(&self.quick(job, at)?);
        self.unseen = whole - quick;
        self.seen.borrow_mut().clear();
        Ok(())
    }

    /// Places looked at so far.
    pub fn tries(&self) -> usize {
        self.seen.borrow().len()
    }

    pub fn loss(&self, job: &Job<'_>, goal: usize, at: &[f64]) -> f64 {
        self.goals[goal].loss(self.look(job, goal, at).miss)
    }

    /// A miss seen quickly.
    pub fn miss(&self, job: &Job<'_>, goal: usize, at: &[f64]) -> f64 {
        self.look(job, goal, at).miss
    }

    /// Misses of a plan that was worked out whole.
    pub fn judged(&self, job: &Job<'_>, outcome: &Outcome) -> Result<Vec<f64>, CutError> {
        self.judge.misses(job, &self.goals, outcome)
    }

    /// Goals that nobody asks for are not judged: the weight takes time.
    pub fn look(&self, job: &Job<'_>, goal: usize, at: &[f64]) -> Look {
        let key: Vec<u64> = at.iter().map(|u| u.to_bits()).collect();
        let mut seen = self.seen.borrow_mut();
        let looks = seen
            .entry(key)
            .or_insert_with(|| vec![None; self.goals.len()]);
        if let Some(look) = looks[goal] {
            return look;
        }
        let look = self.quick(job, at).and_then(|outcome| {
            let miss = self.judge.miss(job, &self.goals, goal, &outcome)?;
            let own = &self.goals[goal];
            Ok(Look {
                miss: miss + if own.limits_off() { self.unseen } else { 0.0 },
                pull: Judge::pull(job, own, &outcome),
            })
        });
        let look = look.unwrap_or(Look {
            miss: CANNOT,
            pull: 0.0,
        });
        looks[goal] = Some(look);
        look
    }

    /// From units of the search to cm and degrees, within what may be.
    pub fn changes(&self, at: &[f64]) -> Vec<f64> {
        let change = |(u, m): (&f64, &Means)| {
            let (low, high) = m.bounds();
            (u * unit(m)).clamp(low, high)
        };
        at.iter().zip(&self.means).map(change).collect()
    }

    fn nudges(&self, at: &[f64]) -> Vec<(usize, Nudge)> {
        let mut nudges: Vec<(usize, Nudge)> = Vec::new();
        let by = self.changes(at);
        for ((&step, means), &by) in self.steps.iter().zip(&self.means).zip(&by) {
            let place = nudges.iter().position(|(s, _)| *s == step);
            let place = place.unwrap_or_else(|| {
                nudges.push((step, Nudge::default()));
                nudges.len() - 1
            });
            let nudge = &mut nudges[place].1;
            match means.turns {
                Turns::Length => nudge.longer += by,
                Turns::Elevation => nudge.elevation += by,
            }
        }
        nudges
    }

    /// The plan turned so, worked out whole.
    pub fn outcome(&self, job: &Job<'_>, at: &[f64]) -> Result<Outcome, CutError> {
        Run {
            job: *job,
            measured: &Measured::new(),
            rows: ROOTS,
            quick: false,
            nudges: &self.nudges(at),
        }
        .all()
    }

    /// The same with its lines alone, or the corners of sections; steps that are as they were in the
    /// last run are not worked out again.
    fn quick(&self, job: &Job<'_>, at: &[f64]) -> Result<Outcome, CutError> {
        let nudges = self.nudges(at);
        let measured = Measured::new();
        let run = Run {
            job: *job,
            measured: &measured,
            rows: if self.off { CORNERS } else { 0 },
            quick: true,
            nudges: &nudges,
        };
        let of = |step: usize| {
            let found = nudges.iter().find(|(s, _)| *s == step);
            found.map(|(_, nudge)| *nudge).unwrap_or_default()
        };
        let mut last = self.last.borrow_mut();
        let same = last.iter().enumerate();
        let same = same.take_while(|(i, (nudge, _))| *nudge == of(*i)).count();
        last.truncate(same);
        for step in same..job.plan.steps.len() {
            let before = match last.last() {
                Some((_, outcome)) => outcome.clone(),
                None => run.start(),
            };
            last.push((of(step), run.step(before, step)?));
        }
        Ok(match last.last() {
            Some((_, outcome)) => outcome.clone(),
            None => run.start(),
        })
    }

    /// How much every goal's miss changes with one more unit of each of the means: by `half` a way to
    /// either side, so that both sides of a kink count. By means, then by goals.
    /// Zero for goals that are not `asked` for.
    pub fn slopes(
        &self,
        job: &Job<'_>,
        at: &[f64],
        half: f64,
        asked: &dyn Fn(usize) -> bool,
    ) -> Vec<Vec<f64>> {
        let mut all = vec![vec![0.0; self.goals.len()]; at.len()];
        // Late steps first: the earlier ones are then as they were.
        for i in (0..at.len()).rev() {
            let (low, high) = self.range(i);
            let moved = |by: f64| {
                let mut there = at.to_vec();
                there[i] = (there[i] + by).clamp(low, high);
                there
            };
            let (from, to) = (moved(-half), moved(half));
            let width = to[i] - from[i];
            if width > 0.0 {
                let before = self.misses(job, &from, asked);
                let after = self.misses(job, &to, asked);
                let slope = before.iter().zip(&after).map(|(b, a)| (a - b) / width);
                all[i] = slope.collect();
            }
        }
        all
    }

    /// Misses of the goals that are asked for; zero for the others.
    pub fn misses(&self, job: &Job<'_>, at: &[f64], asked: &dyn Fn(usize) -> bool) -> Vec<f64> {
        let of = |goal| {
            if asked(goal) {
                self.miss(job, goal, at)
            } else {
                0.0
            }
        };
        (0..self.goals.len()).map(of).collect()
    }

    /// What one of the means may be, units.
    pub fn range(&self, means: usize) -> (f64, f64) {
        let (low, high) = self.means[means].bounds();
        let unit = unit(&self.means[means]);
        (low / unit, high / unit)
    }
}

/// What one unit of the search is.
pub(super) const fn unit(means: &Means) -> f64 {
    match means.turns {
        Turns::Length => 1.0,
        Turns::Elevation => DEGREES,
    }
}
