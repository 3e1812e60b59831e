//! The inverse: from where things should end to how they must be held.
//!
//! Goals come in order of importance, the most important first. One after the other each is met as
//! well as the ones before it allow; one that cannot be met gives way, and we say to which. What may
//! be turned for it are the *means*: the guide length and the elevation of steps of the plan. Slopes
//! lead to most goals in a few tries; where they stick, the search is COBYLA (Powell, *Advances in
//! Optimization and Numerical Analysis*, 1994, 51–67) from the `cobyla` crate: it needs no derivatives
//! and keeps each earlier goal as a bound of its own. What is found is then rounded to what a hand
//! can do, and judged so.

use super::fold::{CutError, Job, Outcome, before};
use super::goal::Goal;
use super::hunt::{Bound, Hunt};
use super::means::{Change, Means, Turns, by_hand};
use super::seek::{SPARE, Search, unit};
use crate::plan::{Held, Step};
use crate::words::tr;

/// A goal missed by no more than this counts as met, cm: a ruler on combed hair is good to 2 to 3 mm.
pub const MET: f64 = 0.25;
/// How far to either side of the answer slopes are told by, units of the search.
const TOLD: f64 = 0.25;

/// What became of one goal.
#[derive(Clone, Debug, PartialEq)]
pub struct Met {
    /// The goal.
    pub goal: Goal,
    /// How far off it is, cm: above zero too high, too short or too much.
    pub miss: f64,
    /// The goals, by their places, that stand against it: without one of them it would be met, or
    /// without all if they stand `together`. Empty if it is met, or cannot be by these means at all.
    pub against: Vec<usize>,
    /// Whether none of those against it does it alone.
    pub together: bool,
    /// Whether the hair is too short for it, uncut as it is.
    pub too_short: bool,
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
    /// What was turned.
    pub means: Vec<Means>,
    /// How much longer (cm, to the millimetre) or higher (to the whole degree as it is held) than
    /// planned, for each of the means.
    pub by: Vec<f64>,
    /// What became of each goal.
    pub goals: Vec<Met>,
    /// The plan with these changes, worked out.
    pub outcome: Outcome,
}

impl Aimed {
    /// What must be changed in the plan.
    pub fn changes(&self) -> Vec<Change> {
        let change = |(means, &by): (&Means, &f64)| {
            (by != 0.0).then(|| Change {
                step: means.step.clone(),
                turns: means.turns,
                by,
            })
        };
        let all = self.means.iter().zip(&self.by);
        all.filter_map(change).collect()
    }
}

/// Why no answer was found.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum AimError {
    /// The plan itself cannot be worked out.
    #[error(transparent)]
    Cut(#[from] CutError),
    /// Nothing may be turned.
    #[error(
        "{}",
        tr(
            "Nothing in this plan may be changed for these goals. Free a guide length or an elevation."
        )
    )]
    NoMeans,
    /// The means name a step that is not in the plan, or that has no such thing.
    #[error("{}", tr!("The step “{}” has nothing like that to change.", .0))]
    NotThere(String),
}

/// Finds how the means must be turned for the goals, the most important goal first.
///
/// # Errors
/// [`AimError`] with a sentence.
pub fn aim(job: &Job<'_>, goals: &[Goal], means: &[Means]) -> Result<Aimed, AimError> {
    let mut aiming = Aiming::start(job, goals, means)?;
    while !aiming.advance(job) {}
    aiming.answer(job)
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

/// A search in slices, so that a screen stays alive and may stop it. Every call takes the same job.
pub struct Aiming {
    search: Search,
    stage: Stage,
    hunt: Option<Hunt>,
    /// The best place so far, in units of the search.
    at: Vec<f64>,
    bounds: Vec<Bound>,
    /// Misses of the answer.
    misses: Vec<f64>,
    against: Vec<(Vec<usize>, bool)>,
    slopes: Vec<Vec<f64>>,
}

/// What is done next.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Stage {
    /// A goal is sought.
    Meeting(usize),
    /// Degrees are made whole and the lengths fitted to that, goal by goal.
    Settling(usize),
    /// How the goals hang on the means is looked at.
    Telling,
    /// Whether a goal that gives way would be met by itself.
    Alone(usize),
    /// Whether it would without one of those before it.
    Without(usize, usize),
    Done,
}

impl Aiming {
    /// Makes ready.
    ///
    /// # Errors
    /// [`AimError`] with a sentence.
    pub fn start(job: &Job<'_>, goals: &[Goal], means: &[Means]) -> Result<Self, AimError> {
        if means.is_empty() {
            return Err(AimError::NoMeans);
        }
        let steps = means
            .iter()
            .map(|m| place(job.plan.steps.as_slice(), m))
            .collect::<Result<Vec<usize>, AimError>>()?;
        let mut search = Search::new(job, goals, means, steps);
        // As planned, or the nearest to it that may be.
        let start = |means: &Means| {
            let (low, high) = means.bounds();
            0.0_f64.clamp(low, high) / unit(means)
        };
        // A plan that cannot be worked out as it is has no better one near it to look for.
        search.compare(job, &vec![0.0; means.len()])?;
        Ok(Self {
            at: means.iter().map(start).collect(),
            stage: if goals.is_empty() {
                Stage::Telling
            } else {
                Stage::Meeting(0)
            },
            hunt: None,
            bounds: Vec::new(),
            misses: Vec::new(),
            against: vec![(Vec::new(), false); goals.len()],
            slopes: Vec::new(),
            search,
        })
    }

    /// Ways of holding that were tried so far.
    pub fn tries(&self) -> usize {
        self.search.tries()
    }

    /// One slice: a few dozen tries at most. True when there is no more to do.
    pub fn advance(&mut self, job: &Job<'_>) -> bool {
        if let Some(mut hunt) = self.hunt.take() {
            if hunt.slice(&self.search, job) {
                self.conclude(job, hunt);
            } else {
                self.hunt = Some(hunt);
            }
        } else {
            self.begin(job);
        }
        self.stage == Stage::Done
    }

    /// Begins the stage that is due.
    fn begin(&mut self, job: &Job<'_>) {
        let earlier = |goal: usize| self.bounds[..goal].to_vec();
        self.hunt = match self.stage {
            Stage::Meeting(goal) => Some(Hunt::from(goal, earlier(goal), &self.at)),
            Stage::Settling(goal) => {
                let lifts = |m: &Means| m.turns == Turns::Elevation;
                let still = self.search.means.iter().map(lifts).collect();
                Some(Hunt::gently(goal, earlier(goal), &self.at, still))
            }
            Stage::Telling => {
                self.slopes = self.search.slopes(job, &self.at, TOLD, &|_| true);
                self.stage = self.giving_way(0);
                None
            }
            Stage::Alone(goal) => Some(Hunt::whether(MET, goal, Vec::new(), &self.at)),
            Stage::Without(goal, other) => {
                let mut others = earlier(goal);
                others.retain(|(g, _)| *g != other);
                Some(Hunt::whether(MET, goal, others, &self.at))
            }
            Stage::Done => None,
        };
    }

    /// Takes up what a hunt found and goes on to the next stage.
    fn conclude(&mut self, job: &Job<'_>, hunt: Hunt) {
        let goal = hunt.goal;
        let loss = self.search.loss(job, goal, &hunt.best);
        self.stage = match self.stage {
            Stage::Meeting(_) => {
                self.at = hunt.best;
                self.bounds.push((goal, loss.max(SPARE) + SPARE));
                if goal + 1 < self.search.goals.len() {
                    Stage::Meeting(goal + 1)
                } else {
                    self.round(job, Turns::Elevation);
                    Stage::Settling(0)
                }
            }
            Stage::Settling(_) => {
                self.at = hunt.best;
                if goal + 1 < self.search.goals.len() {
                    Stage::Settling(goal + 1)
                } else {
                    self.round(job, Turns::Length);
                    let whole = self.search.outcome(job, &self.at);
                    let judged = whole.and_then(|whole| self.search.judged(job, &whole));
                    let quick = || self.search.misses(job, &self.at, &|_| true);
                    self.misses = judged.unwrap_or_else(|_| quick());
                    Stage::Telling
                }
            }
            Stage::Alone(_) if loss > MET => self.giving_way(goal + 1),
            Stage::Alone(_) if goal > 0 => Stage::Without(goal, 0),
            Stage::Without(_, other) => {
                if loss <= MET {
                    self.against[goal].0.push(other);
                }
                if other + 1 < goal {
                    Stage::Without(goal, other + 1)
                } else {
                    if self.against[goal].0.is_empty() {
                        self.against[goal] = ((0..goal).collect(), goal > 1);
                    }
                    self.giving_way(goal + 1)
                }
            }
            _ => self.giving_way(goal + 1),
        };
    }

    /// The next goal from this one on that gives way.
    fn giving_way(&self, from: usize) -> Stage {
        let gives = |&g: &usize| {
            let miss = self.misses.get(g).copied().unwrap_or_default();
            self.search.goals[g].loss(miss) > MET
        };
        let next = (from..self.search.goals.len()).find(gives);
        next.map_or(Stage::Done, Stage::Alone)
    }

    /// To what a hand can do.
    fn round(&mut self, job: &Job<'_>, turns: Turns) {
        let by = self.search.changes(&self.at);
        for (i, means) in self.search.means.iter().enumerate() {
            if means.turns == turns {
                let (low, high) = means.bounds();
                let hand = by_hand(job.plan, means, by[i]);
                // A range that no such value lies in keeps its own end.
                let hand = if (low..=high).contains(&hand) {
                    hand
                } else {
                    by[i]
                };
                self.at[i] = hand / unit(means);
            }
        }
    }

    /// What was found.
    ///
    /// # Errors
    /// [`AimError`] with a sentence.
    pub fn answer(&self, job: &Job<'_>) -> Result<Aimed, AimError> {
        let outcome = self.search.outcome(job, &self.at)?;
        let misses = self.search.judged(job, &outcome)?;
        let uncut = self.search.judged(job, &before(job))?;
        let told = |goal: usize| {
            let means = self.search.means.iter().zip(&self.slopes);
            means.map(|(m, slope)| slope[goal] / unit(m)).collect()
        };
        let goals = self.search.goals.iter().enumerate();
        Ok(Aimed {
            means: self.search.means.clone(),
            by: self.search.changes(&self.at),
            goals: goals
                .map(|(i, goal)| Met {
                    goal: goal.clone(),
                    miss: misses[i],
                    against: self.against[i].0.clone(),
                    together: self.against[i].1,
                    too_short: uncut.get(i).is_some_and(|&miss| {
                        goal.at_a_place() && miss > MET && goal.loss(misses[i]) > MET
                    }),
                    sensitivity: told(i),
                })
                .collect(),
            outcome,
        })
    }
}
