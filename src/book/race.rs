//! The order in which the most cuts can be made on hair that does not grow.

use super::ledger::{Possible, REACHES, STILL, Tried};
use crate::cut::{Outcome, Strand};
use crate::hair::LengthMap;
use crate::head::Head;

/// What lengths read off a coarse map may be off, cm.
const OFF: f64 = 0.3;

/// Cuts that could be made, and of each what the others would leave of its hair.
pub(super) struct Race {
    runners: Vec<Runner>,
}

/// One of them.
struct Runner {
    possible: Possible,
    /// The mean that it leaves, cm.
    leaves: f64,
    /// Section by section, for each hair how long it is, at which length it is cut, and how long each of the
    /// cuts, by its place, leaves it, cm.
    needs: Vec<Vec<Need>>,
}

struct Need {
    before: f64,
    line: f64,
    left: Vec<f64>,
}

/// No more cuts than this are put into an order: there are so many subsets of them.
const MOST: usize = 16;

impl Race {
    /// Cuts that were tried on a head.
    pub fn of<'a>(head: &Head, tried: impl Iterator<Item = &'a Tried>) -> Self {
        let mut all = Vec::new();
        for one in tried.take(MOST) {
            if let Some(outcome) = &one.outcome
                && let Ok(map) = outcome.coarse_map(head)
            {
                all.push((one, outcome, map));
            }
        }
        let runner = |(one, outcome, _): &(&Tried, &Outcome, LengthMap)| {
            let need = |strand: &Strand| {
                let spot = head.spot(strand.root);
                Need {
                    before: strand.before,
                    line: strand.cut_at.unwrap_or(f64::INFINITY),
                    left: all.iter().map(|(.., map)| map.at(spot)).collect(),
                }
            };
            let cutting = outcome.sections.iter().filter(|s| s.cuts());
            let needs = cutting.map(|s| s.strands.iter().map(need).collect());
            Runner {
                possible: one.possible.clone(),
                leaves: one.leaves,
                needs: needs.collect(),
            }
        };
        Self {
            runners: all.iter().map(runner).collect(),
        }
    }

    /// The longest order in which each can be made after all those before it: of all sets of cuts the largest
    /// that can be built one by one, the shortest always last.
    pub fn order(self) -> Vec<Possible> {
        let sets = 1_usize << self.runners.len();
        let mut built = vec![false; sets];
        let mut largest = 0_usize;
        for set in 0..sets {
            let there = set == 0 || self.last_of(set, &built).is_some();
            if let Some(built) = built.get_mut(set) {
                *built = there;
            }
            if there && set.count_ones() > largest.count_ones() {
                largest = set;
            }
        }
        let mut order = Vec::new();
        while let Some(last) = self.last_of(largest, &built) {
            largest &= !(1 << last);
            if let Some(runner) = self.runners.get(last) {
                order.insert(0, runner.possible.clone());
            }
        }
        order
    }

    /// The one of a set that may be cut last, after all others of it; of several the one that leaves the
    /// least.
    fn last_of(&self, set: usize, built: &[bool]) -> Option<usize> {
        let mut best: Option<(f64, usize)> = None;
        for (place, runner) in self.runners.iter().enumerate() {
            let others = set & !(1 << place);
            let may = set != others
                && best.is_none_or(|(leaves, _)| runner.leaves < leaves)
                && built.get(others).copied().unwrap_or(false)
                && runner.can_after(others);
            if may {
                best = Some((runner.leaves, place));
            }
        }
        best.map(|(_, place)| place)
    }
}

impl Runner {
    /// Whether it can be made after all cuts of a set: nothing gets longer, so what they leave is the shortest
    /// that any of them leaves.
    fn can_after(&self, set: usize) -> bool {
        let there = |need: &&Need| {
            let mut long = need.before;
            for (place, left) in need.left.iter().enumerate() {
                if set & (1 << place) != 0 {
                    long = long.min(*left);
                }
            }
            // What a map is off is no hair that is missing.
            long + OFF >= need.line
        };
        let reaches = |hairs: &&Vec<Need>| {
            hairs.iter().filter(there).count() as f64 >= REACHES * hairs.len() as f64
        };
        let reach = self.needs.iter().filter(reaches).count();
        reach as f64 >= STILL * self.possible.meant * self.needs.len() as f64
    }
}
