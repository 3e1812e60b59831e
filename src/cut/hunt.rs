//! One goal sought within bounds, slice by slice: down the slope first, then in strides.

use super::fold::Job;
use super::seek::{SPARE, Search};
use cobyla::{Func, RhoBeg, StopTols, minimize};

/// How often one stride is tried again while it still leads on.
const REPEATS: usize = 4;
/// The same where it only matters whether a goal can be met at all.
const BRIEFLY: usize = 1;
/// Rounds of the search for one goal with one stride.
const ROUNDS: usize = 60;
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

/// A goal that must stay within so many cm.
pub(super) type Bound = (usize, f64);

/// One goal sought within bounds, in slices.
pub(super) struct Hunt {
    pub goal: usize,
    bounds: Vec<Bound>,
    /// The best place so far.
    pub best: Vec<f64>,
    /// Means that stay as they are.
    still: Vec<bool>,
    way: Way,
    /// How nearly it must be met, cm.
    enough: f64,
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
            enough: NEARLY,
        }
    }

    /// Only to see whether it can be met within so many cm.
    pub fn whether(enough: f64, goal: usize, bounds: Vec<Bound>, at: &[f64]) -> Self {
        Self {
            enough,
            ..Self::from(goal, bounds, at)
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
                let met = self.met(search, job, self.enough);
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
        let asked = |goal: usize| goal == self.goal || self.bounds.iter().any(|b| b.0 == goal);
        let misses = search.misses(job, &self.best, &asked);
        let slopes = search.slopes(job, &self.best, ASIDE, &asked);
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
        let briefly = self.enough > NEARLY;
        let next = if stride == 2 || (briefly && stride == 1) {
            Way::Done
        } else {
            Way::Stride(stride + 1, 0)
        };
        if self.met(search, job, if briefly { self.enough } else { SPARE }) {
            self.way = Way::Done;
            return;
        }
        if times == if briefly { BRIEFLY } else { REPEATS } {
            self.way = next;
            return;
        }
        let goal = self.goal;
        let objective = |x: &[f64], _: &mut ()| {
            let far: f64 = x.iter().map(|u| u * u).sum();
            let look = search.look(job, goal, x);
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
        let pivot = m[i].clone();
        for (j, line) in m.iter_mut().enumerate() {
            if i != j {
                let share = line[i] / pivot[i];
                for (value, p) in line.iter_mut().zip(&pivot) {
                    *value -= share * p;
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
