//! Looks for how the means must be turned: what a try comes to, and one goal sought in slices.

use super::fold::{CutError, Job, Measured, Outcome, ROOTS, Run};
use super::goal::{Goal, Judge, most_off};
use super::hold::Nudge;
use super::means::{Means, Turns};
use cobyla::{Func, RhoBeg, StopTols, minimize};
use std::cell::RefCell;
use std::collections::HashMap;

/// How far a goal that is met may be worsened for a later one, cm.
pub(super) const SPARE: f64 = 0.05;
/// One unit of the search: a centimetre of guide, or so many degrees of elevation.
pub(super) const DEGREES: f64 = 10.0;
/// Rounds of the search for one goal with one stride.
const ROUNDS: usize = 60;
/// How often one stride is tried again while it still leads on.
const REPEATS: usize = 6;
/// What a plan that cannot be held counts as, cm off every goal.
const CANNOT: f64 = 60.0;
/// How much a goal's pull counts beside its miss.
const PULL: f64 = 0.3;
/// How much a unit of change must be worth, cm: of two ways to meet a goal, the nearer to the plan.
const CHANGE: f64 = 0.005;
/// Slopes tried at most before other ways are.
const SLOPES: usize = 8;
/// A goal this nearly met by slopes is left, cm: a third of what a ruler tells.
const NEARLY: f64 = 0.08;
/// How far to one side a slope is looked at, units.
const ASIDE: f64 = 0.2;
/// The furthest one slope is followed, units.
const FURTHEST: f64 = 8.0;
/// Rows of roots a section while seeking: its corners tell the most that comes off.
const CORNERS: usize = 2;

/// A goal that must stay within so many cm.
pub(super) type Bound = (usize, f64);

/// One goal as it was seen at a place.
#[derive(Clone, Copy)]
struct Look {
    miss: f64,
    pull: f64,
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
    /// Misses at places that were looked at: bounds and aim ask for the same ones.
    seen: RefCell<HashMap<Vec<u64>, Vec<Look>>>,
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

    pub fn loss(&self, job: &Job<'_>, goal: usize, at: &[f64]) -> f64 {
        self.goals[goal].loss(self.looks(job, at)[goal].miss)
    }

    /// Misses seen quickly.
    pub fn misses(&self, job: &Job<'_>, at: &[f64]) -> Vec<f64> {
        self.looks(job, at).iter().map(|look| look.miss).collect()
    }

    /// Misses of a plan that was worked out whole.
    pub fn judged(&self, job: &Job<'_>, outcome: &Outcome) -> Result<Vec<f64>, CutError> {
        self.judge.misses(job, &self.goals, outcome)
    }

    fn looks(&self, job: &Job<'_>, at: &[f64]) -> Vec<Look> {
        let key: Vec<u64> = at.iter().map(|u| u.to_bits()).collect();
        if let Some(looks) = self.seen.borrow().get(&key) {
            return looks.clone();
        }
        let look = |outcome: Outcome| {
            let misses = self.judge.misses(job, &self.goals, &outcome)?;
            let looks = misses.iter().zip(&self.goals).map(|(&miss, goal)| Look {
                miss: match goal {
                    Goal::NoMoreOff(_) => miss + self.unseen,
                    _ => miss,
                },
                pull: Judge::pull(job, goal, &outcome),
            });
            Ok::<_, CutError>(looks.collect())
        };
        let cannot = Look {
            miss: CANNOT,
            pull: 0.0,
        };
        let looks: Vec<Look> = self
            .quick(job, at)
            .and_then(look)
            .unwrap_or_else(|_| vec![cannot; self.goals.len()]);
        self.seen.borrow_mut().insert(key, looks.clone());
        looks
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
    pub fn slopes(&self, job: &Job<'_>, at: &[f64], half: f64) -> Vec<Vec<f64>> {
        let mut all = vec![vec![0.0; self.goals.len()]; at.len()];
        // Late steps first: the earlier ones are then as they were.
        for i in (0..at.len()).rev() {
            let moved = |by: f64| {
                let mut there = at.to_vec();
                let (low, high) = self.range(i);
                there[i] = (there[i] + by).clamp(low, high);
                (there[i], self.misses(job, &there))
            };
            let ((from, before), (to, after)) = (moved(-half), moved(half));
            if to > from {
                let slope = before
                    .iter()
                    .zip(&after)
                    .map(|(b, a)| (a - b) / (to - from));
                all[i] = slope.collect();
            }
        }
        all
    }

    /// What one of the means may be, units.
    fn range(&self, means: usize) -> (f64, f64) {
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

/// One goal sought within bounds, in slices.
pub(super) struct Hunt {
    pub goal: usize,
    bounds: Vec<Bound>,
    /// The best place so far.
    pub best: Vec<f64>,
    /// Means that stay as they are.
    still: Vec<bool>,
    way: Way,
}

/// How it is sought next.
#[derive(Clone, Copy, PartialEq)]
enum Way {
    /// By the slope, so many times already; on to strides, or not.
    Slope(usize, bool),
    /// By strides: which, and how often already.
    Stride(usize, usize),
    /// No more.
    Done,
}

impl Hunt {
    /// From a place, by slopes first, then by strides.
    pub fn from(goal: usize, bounds: Vec<Bound>, at: &[f64]) -> Self {
        Self {
            goal,
            bounds,
            best: at.to_vec(),
            still: vec![false; at.len()],
            way: Way::Slope(0, true),
        }
    }

    /// By slopes alone, with some of the means left as they are.
    pub fn gently(goal: usize, bounds: Vec<Bound>, at: &[f64], still: Vec<bool>) -> Self {
        Self {
            still,
            way: Way::Slope(0, false),
            ..Self::from(goal, bounds, at)
        }
    }

    fn kept(&self, search: &Search, job: &Job<'_>, at: &[f64]) -> bool {
        let within = |&(g, most): &Bound| search.loss(job, g, at) <= most + SPARE;
        self.bounds.iter().all(within)
    }

    /// One slice of the search; true when there is no more to do.
    pub fn slice(&mut self, search: &Search, job: &Job<'_>) -> bool {
        match self.way {
            Way::Slope(times, strides) => {
                let met = self.met(search, job, NEARLY);
                if met || times == SLOPES || !self.slope(search, job) {
                    self.way = if strides && !met {
                        Way::Stride(0, 0)
                    } else {
                        Way::Done
                    };
                } else {
                    self.way = Way::Slope(times + 1, strides);
                }
            }
            Way::Stride(stride, times) => self.stride(search, job, stride, times),
            Way::Done => {}
        }
        self.way == Way::Done
    }

    fn met(&self, search: &Search, job: &Job<'_>, within: f64) -> bool {
        search.loss(job, self.goal, &self.best) <= within && self.kept(search, job, &self.best)
    }

    /// One step down the slope, the shortest that would meet the goal and the bounds if all were
    /// straight; false if it leads nowhere.
    fn slope(&mut self, search: &Search, job: &Job<'_>) -> bool {
        let misses = search.misses(job, &self.best);
        let slopes = search.slopes(job, &self.best, ASIDE);
        let mut still = self.still.clone();
        let before = search.loss(job, self.goal, &self.best);
        // Means that end at their range are left there, and the rest made to do.
        for _ in 0..4 {
            let mut step = self.step(search, &misses, &slopes, &still);
            let mut stopped = false;
            for (i, by) in step.iter_mut().enumerate() {
                let (low, high) = search.range(i);
                let there = (self.best[i] + *by).clamp(low, high);
                if by.abs() > 1e-6 && (there - self.best[i]).abs() < 1e-9 {
                    (still[i], stopped) = (true, true);
                }
                *by = there - self.best[i];
            }
            if stopped {
                continue;
            }
            for share in [1.0, 0.5, 0.2] {
                let there: Vec<f64> = self
                    .best
                    .iter()
                    .zip(&step)
                    .map(|(at, by)| at + by * share)
                    .collect();
                let loss = search.loss(job, self.goal, &there);
                if loss < 0.9 * before && self.kept(search, job, &there) {
                    self.best = there;
                    return true;
                }
            }
            return false;
        }
        false
    }

    /// The shortest step by slopes that meets the goal and keeps the bounds.
    fn step(
        &self,
        search: &Search,
        misses: &[f64],
        slopes: &[Vec<f64>],
        still: &[bool],
    ) -> Vec<f64> {
        let means = slopes.len();
        let row = |goal: usize| -> Vec<f64> {
            let own = (0..means).map(|i| if still[i] { 0.0 } else { slopes[i][goal] });
            own.collect()
        };
        // What must be just so, and the goal itself; limits only where the step would break them.
        let mut rows: Vec<(Vec<f64>, f64)> = vec![(row(self.goal), -misses[self.goal])];
        let one_way = |g: usize| search.goals[g].loss(-1.0) == 0.0;
        for &(g, _) in self.bounds.iter().filter(|(g, _)| !one_way(*g)) {
            rows.push((row(g), -misses[g]));
        }
        let mut step = shortest(&rows, means);
        let mut limits: Vec<usize> = self.bounds.iter().map(|b| b.0).collect();
        limits.retain(|&g| one_way(g));
        for _ in 0..limits.len() {
            let after = |g: &usize| misses[*g] + dot(&row(*g), &step);
            let Some(place) = limits.iter().position(|g| after(g) > SPARE) else {
                break;
            };
            let g = limits.swap_remove(place);
            rows.push((row(g), -misses[g]));
            step = shortest(&rows, means);
        }
        let longest = step.iter().map(|by| by.abs()).fold(0.0, f64::max);
        if longest > FURTHEST {
            step.iter_mut().for_each(|by| *by *= FURTHEST / longest);
        }
        step
    }

    /// One stride: far ones first, short ones from where they led: losses have kinks, at which one
    /// search may stick.
    fn stride(&mut self, search: &Search, job: &Job<'_>, stride: usize, times: usize) {
        let ranges: Vec<(f64, f64)> = (0..search.means.len()).map(|i| search.range(i)).collect();
        let widest = ranges.iter().map(|r| r.1 - r.0).fold(0.0, f64::max);
        let far = [(widest / 4.0).max(1.0), 1.0, 0.3][stride];
        let before = search.loss(job, self.goal, &self.best);
        let next = if stride == 2 {
            Way::Done
        } else {
            Way::Stride(stride + 1, 0)
        };
        if times == REPEATS || (before <= SPARE && far < 1.0 && self.met(search, job, SPARE)) {
            self.way = next;
            return;
        }
        let goal = self.goal;
        let objective = |x: &[f64], _: &mut ()| {
            let far: f64 = x.iter().map(|u| u * u).sum();
            let look = search.looks(job, x)[goal];
            search.goals[goal].loss(look.miss) + PULL * look.pull + CHANGE * far
        };
        let keeps: Vec<_> = self
            .bounds
            .iter()
            .map(|&(other, most)| move |x: &[f64], _: &mut ()| most - search.loss(job, other, x))
            .collect();
        let keeps: Vec<&dyn Func<()>> = keeps.iter().map(|k| k as &dyn Func<()>).collect();
        let stop = StopTols {
            xtol_abs: vec![1e-3; self.best.len()],
            ..StopTols::default()
        };
        let found = minimize(
            objective,
            &self.best,
            &ranges,
            &keeps,
            (),
            ROUNDS,
            RhoBeg::All(far),
            Some(stop),
        );
        let (Ok((_, there, _)) | Err((_, there, _))) = found;
        let loss = search.loss(job, goal, &there);
        let sane = there.iter().all(|u| u.is_finite());
        if sane
            && self.kept(search, job, &there)
            && (loss <= before || !self.kept(search, job, &self.best))
        {
            self.best = there;
        }
        self.way = if loss > 0.9 * before {
            next
        } else {
            Way::Stride(stride, times + 1)
        };
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// The shortest step that brings each row's product to its value, as near as may be:
/// Aᵀ(AAᵀ + λ)⁻¹b, by elimination.
fn shortest(rows: &[(Vec<f64>, f64)], means: usize) -> Vec<f64> {
    let n = rows.len();
    let mut m: Vec<Vec<f64>> = rows
        .iter()
        .enumerate()
        .map(|(i, (a, value))| {
            let mut line: Vec<f64> = rows.iter().map(|(b, _)| dot(a, b)).collect();
            line[i] += 1e-3;
            line.push(*value);
            line
        })
        .collect();
    // The matrix is positive: no rows need change places.
    for i in 0..n {
        for j in 0..n {
            if i != j {
                let share = m[j][i] / m[i][i];
                for k in i..=n {
                    m[j][k] -= share * m[i][k];
                }
            }
        }
    }
    let mut step = vec![0.0; means];
    for (i, (row, _)) in rows.iter().enumerate() {
        let weight = m[i][n] / m[i][i];
        for (by, a) in step.iter_mut().zip(row) {
            *by += a * weight;
        }
    }
    step
}
