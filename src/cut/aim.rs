//! The inverse: from where things should end to how they must be held.
//!
//! Goals come in order of importance, the most important first. One after the other each is met as
//! well as the ones before it allow; one that cannot be met gives way, and we say to which. What may
//! be turned for it are the *means*: the guide length and the elevation of steps of the plan. The
//! search is COBYLA (Powell, *Advances in Optimization and Numerical Analysis*, 1994, 51–67) from the
//! `cobyla` crate: it needs no derivatives and keeps each earlier goal as a bound of its own.

use super::fold::{CutError, Job, Measured, Outcome, ROOTS, Run};
use super::goal::{Goal, Judge};
use super::hold::Nudge;
use crate::plan::{Held, Step};
use cobyla::{Func, RhoBeg, StopTols, minimize};
use std::cell::RefCell;
use std::collections::HashMap;

/// A goal missed by no more than this counts as met, cm: a ruler on combed hair is good to 2 to 3 mm.
pub const MET: f64 = 0.25;
/// How far a goal that is met may be worsened for a later one, cm.
const SPARE: f64 = 0.05;
/// One unit of the search: a centimetre of guide, or so many degrees of elevation.
const DEGREES: f64 = 10.0;
/// Rounds of the search for one goal with one stride.
const ROUNDS: usize = 60;
/// How often one stride is tried again while it still leads on.
const REPEATS: usize = 6;
/// What a plan that cannot be held counts as, cm off every goal.
const CANNOT: f64 = 60.0;
/// How much a goal's pull counts beside its miss.
const PULL: f64 = 0.3;
/// The most that a length is turned by, cm: longer than any hair that is cut.
const MOST_CM: f64 = 300.0;
/// How much a unit of change must be worth, cm: of two ways to meet a goal, the nearer to the plan.
const CHANGE: f64 = 0.005;

/// What may be turned to meet goals.
#[derive(Clone, Debug, PartialEq)]
pub struct Means {
    /// The step's id.
    pub step: String,
    /// What of it.
    pub turns: Turns,
    /// From how much less to how much more than planned: cm, or degrees.
    pub range: (f64, f64),
}

impl Means {
    /// Its range, no wider than anything that can be held: the search never ends in an endless one.
    fn bounds(&self) -> (f64, f64) {
        let most = match self.turns {
            Turns::Length => MOST_CM,
            Turns::Elevation => 180.0,
        };
        let (low, high) = self.range;
        (low.clamp(-most, most), high.clamp(-most, most))
    }
}

/// What of a step may be turned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turns {
    /// How long its guide is left; where hair falls, how low the line lies.
    Length,
    /// How high its hair is held.
    Elevation,
}

/// What became of one goal.
#[derive(Clone, Debug, PartialEq)]
pub struct Met {
    /// The goal.
    pub goal: Goal,
    /// How far off it is, cm: above zero too high, too short or too much.
    pub miss: f64,
    /// The goals, by their places, that stand against it: without one of them it would be met. Empty
    /// if it is met, or cannot be by these means at all.
    pub against: Vec<usize>,
    /// How much its miss changes for one more cm or degree of each of the means.
    pub sensitivity: Vec<f64>,
}

impl Met {
    /// Whether it gives way.
    pub fn gives_way(&self) -> bool {
        self.goal.loss(self.miss) > MET
    }
}

/// An answer.
#[derive(Clone, Debug)]
pub struct Aimed {
    /// How much longer (cm) or higher (degrees) than planned, for each of the means.
    pub by: Vec<f64>,
    /// What became of each goal.
    pub goals: Vec<Met>,
    /// The plan with these changes, worked out.
    pub outcome: Outcome,
}

/// Why no answer was found.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum AimError {
    /// The plan itself cannot be worked out.
    #[error(transparent)]
    Cut(#[from] CutError),
    /// Nothing may be turned.
    #[error(
        "Nothing in this plan may be changed for these goals. Free a guide length or an elevation."
    )]
    NoMeans,
    /// The means name a step that is not in the plan, or that has no such thing.
    #[error("The step “{0}” has nothing like that to change.")]
    NotThere(String),
}

/// Finds how the means must be turned for the goals, the most important goal first.
///
/// # Errors
/// [`AimError`] with a sentence.
pub fn aim(job: &Job<'_>, goals: &[Goal], means: &[Means]) -> Result<Aimed, AimError> {
    if means.is_empty() {
        return Err(AimError::NoMeans);
    }
    let steps = means
        .iter()
        .map(|m| place(job.plan.steps.as_slice(), m))
        .collect::<Result<Vec<usize>, AimError>>()?;
    let search = Search {
        job: *job,
        goals,
        means,
        steps,
        judge: Judge::new(job, goals),
        seen: RefCell::default(),
    };
    // A plan that cannot be worked out as it is has no better one near it to look for.
    search.outcome(&vec![0.0; means.len()])?;
    search.all()
}

/// The place of the step whose means these are.
fn place(steps: &[Step], means: &Means) -> Result<usize, AimError> {
    let not_there = || AimError::NotThere(means.step.clone());
    let index = steps.iter().position(|s| s.id == means.step);
    let index = index.ok_or_else(not_there)?;
    let has = match (&steps[index].held, means.turns) {
        (Held::Check, _) | (Held::Fall(_) | Held::Trim(_) | Held::Taper(_), Turns::Elevation) => {
            false
        }
        _ => means.range.0 <= means.range.1,
    };
    has.then_some(index).ok_or_else(not_there)
}

struct Search<'a> {
    job: Job<'a>,
    goals: &'a [Goal],
    means: &'a [Means],
    steps: Vec<usize>,
    judge: Judge,
    /// Misses at places that were looked at: bounds and aim ask for the same ones.
    seen: RefCell<HashMap<Vec<u64>, Vec<Look>>>,
}

/// One goal as it was seen at a place.
#[derive(Clone, Copy)]
struct Look {
    miss: f64,
    pull: f64,
}

/// A goal that must stay within so many cm.
type Bound = (usize, f64);

impl Search<'_> {
    fn all(&self) -> Result<Aimed, AimError> {
        let mut at: Vec<f64> = self.means.iter().map(|m| self.start(m)).collect();
        let mut bounds: Vec<Bound> = Vec::new();
        for goal in 0..self.goals.len() {
            at = self.towards(goal, &bounds, &at);
            let loss = self.loss(goal, &at);
            bounds.push((goal, loss.max(SPARE) + SPARE));
        }
        let misses = self.misses(&at);
        let goals = (0..self.goals.len())
            .map(|goal| {
                let mut met = Met {
                    goal: self.goals[goal].clone(),
                    miss: misses[goal],
                    against: Vec::new(),
                    sensitivity: self.sensitivity(goal, &at),
                };
                if met.gives_way() {
                    met.against = self.against(goal, &bounds, &at);
                }
                met
            })
            .collect();
        let by = self.changes(&at);
        Ok(Aimed {
            outcome: self.outcome(&by)?,
            by,
            goals,
        })
    }

    /// Earlier goals without one of which this one would be met.
    fn against(&self, goal: usize, bounds: &[Bound], at: &[f64]) -> Vec<usize> {
        let without = |left_out: usize| {
            let others = bounds[..goal].iter().filter(|(g, _)| *g != left_out);
            let others: Vec<Bound> = others.copied().collect();
            let there = self.towards(goal, &others, at);
            self.loss(goal, &there) <= MET
        };
        (0..goal).filter(|&other| without(other)).collect()
    }

    /// The place that meets a goal best within these bounds, from `at`.
    fn towards(&self, goal: usize, bounds: &[Bound], at: &[f64]) -> Vec<f64> {
        let objective = |x: &[f64], _: &mut ()| {
            let far: f64 = x.iter().map(|u| u * u).sum();
            self.loss(goal, x) + PULL * self.looks(x)[goal].pull + CHANGE * far
        };
        let keeps: Vec<_> = bounds
            .iter()
            .map(|&(other, most)| move |x: &[f64], _: &mut ()| most - self.loss(other, x))
            .collect();
        let keeps: Vec<&dyn Func<()>> = keeps.iter().map(|k| k as &dyn Func<()>).collect();
        let ranges: Vec<(f64, f64)> = self
            .means
            .iter()
            .map(|m| {
                let (low, high) = m.bounds();
                (low / unit(m), high / unit(m))
            })
            .collect();
        let stop = StopTols {
            xtol_abs: vec![1e-3; at.len()],
            ..StopTols::default()
        };
        let kept = |x: &[f64]| {
            bounds
                .iter()
                .all(|&(g, most)| self.loss(g, x) <= most + SPARE)
        };
        let widest = ranges.iter().map(|r| r.1 - r.0).fold(0.0, f64::max);
        let mut best = at.to_vec();
        // Far strides first, short ones from where they led: losses have kinks, at which one search
        // may stick.
        for stride in [(widest / 4.0).max(1.0), 1.0, 0.3] {
            for _ in 0..REPEATS {
                let before = self.loss(goal, &best);
                if before <= SPARE && kept(&best) && stride < 1.0 {
                    break;
                }
                let found = minimize(
                    objective,
                    &best,
                    &ranges,
                    &keeps,
                    (),
                    ROUNDS,
                    RhoBeg::All(stride),
                    Some(stop.clone()),
                );
                let (Ok((_, there, _)) | Err((_, there, _))) = found;
                let loss = self.loss(goal, &there);
                let sane = there.iter().all(|u| u.is_finite());
                if sane && kept(&there) && (loss <= before || !kept(&best)) {
                    best = there;
                }
                if loss > 0.9 * before {
                    break;
                }
            }
        }
        best
    }

    /// As planned, or the nearest to it that may be.
    fn start(&self, means: &Means) -> f64 {
        let (low, high) = means.bounds();
        0.0_f64.clamp(low, high) / unit(means)
    }

    fn loss(&self, goal: usize, at: &[f64]) -> f64 {
        self.goals[goal].loss(self.misses(at)[goal])
    }

    fn misses(&self, at: &[f64]) -> Vec<f64> {
        self.looks(at).iter().map(|look| look.miss).collect()
    }

    fn looks(&self, at: &[f64]) -> Vec<Look> {
        let key: Vec<u64> = at.iter().map(|u| u.to_bits()).collect();
        if let Some(looks) = self.seen.borrow().get(&key) {
            return looks.clone();
        }
        let look = |outcome: Outcome| {
            let misses = self.judge.misses(&self.job, self.goals, &outcome)?;
            let looks = misses.iter().zip(self.goals).map(|(&miss, goal)| Look {
                miss,
                pull: Judge::pull(&self.job, goal, &outcome),
            });
            Ok(looks.collect())
        };
        let cannot = Look {
            miss: CANNOT,
            pull: 0.0,
        };
        let looks: Vec<Look> = self
            .outcome(&self.changes(at))
            .and_then(look)
            .unwrap_or_else(|_| vec![cannot; self.goals.len()]);
        self.seen.borrow_mut().insert(key, looks.clone());
        looks
    }

    /// From units of the search to cm and degrees, within what may be.
    fn changes(&self, at: &[f64]) -> Vec<f64> {
        let change = |(u, m): (&f64, &Means)| {
            let (low, high) = m.bounds();
            (u * unit(m)).clamp(low, high)
        };
        at.iter().zip(self.means).map(change).collect()
    }

    fn outcome(&self, by: &[f64]) -> Result<Outcome, CutError> {
        let mut nudges: Vec<(usize, Nudge)> = Vec::new();
        for ((&step, means), &by) in self.steps.iter().zip(self.means).zip(by) {
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
        Run {
            job: self.job,
            measured: &Measured::new(),
            rows: ROOTS,
            quick: false,
            nudges: &nudges,
        }
        .all()
    }

    /// By half a unit to either side, so that both sides of a kink count.
    fn sensitivity(&self, goal: usize, at: &[f64]) -> Vec<f64> {
        let half = 0.25;
        (0..at.len())
            .map(|i| {
                let moved = |by: f64| {
                    let mut there = at.to_vec();
                    let (low, high) = self.means[i].bounds();
                    let unit = unit(&self.means[i]);
                    there[i] = (there[i] + by).clamp(low / unit, high / unit);
                    (there[i] * unit, self.misses(&there)[goal])
                };
                let ((from, before), (to, after)) = (moved(-half), moved(half));
                if to > from {
                    (after - before) / (to - from)
                } else {
                    0.0
                }
            })
            .collect()
    }
}

/// What one unit of the search is.
const fn unit(means: &Means) -> f64 {
    match means.turns {
        Turns::Length => 1.0,
        Turns::Elevation => DEGREES,
    }
}
