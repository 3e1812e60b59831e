//! What a walk itself tells of a cut: the facts that stand beside a mark.

use super::ready::Ready;
use crate::cut::{Outcome, SectionKey};
use crate::walk::{Spent, Walk, compare, furthest, order};

/// The facts of a walk.
#[derive(Clone, Debug, PartialEq)]
pub struct Evidence {
    /// How long was cut, without pauses, seconds.
    pub seconds: u64,
    /// How long the plan usually takes, seconds; none if nobody said.
    pub planned: Option<u64>,
    /// When half of the sections were done, seconds of cutting; none before that.
    pub half: Option<u64>,
    /// How many sections are done.
    pub done: usize,
    /// How many there are.
    pub sections: usize,
    /// The section that was measured furthest from its plan, its name, and by how much it came out longer, cm.
    pub largest: Option<(SectionKey, String, f64)>,
}

impl Evidence {
    /// The facts of a walk up to `now`, an ISO 8601 time. `planned` is the plan with nothing measured,
    /// `followed` what the walk made of it.
    pub fn of(
        walk: &Walk,
        ready: &Ready,
        planned: &Outcome,
        followed: &Outcome,
        now: &str,
    ) -> Self {
        let keys = order(planned);
        let end = walk.finished_at.as_deref().unwrap_or(now);
        let spent = Spent::of(walk, &ready.plan, followed, end);
        let done = walk.count_done(&keys);
        let mut rows = compare(planned, followed, walk);
        rows.retain(|row| row.measured && row.off().is_finite());
        let largest = furthest(&rows).and_then(|row| {
            let cm = row.difference()?;
            Some((row.key.clone(), row.name.clone(), cm))
        });
        Self {
            seconds: spent.total,
            planned: spent.planned,
            half: half(walk, ready, followed, keys.len()),
            done,
            sections: keys.len(),
            largest,
        }
    }
}

/// When half of the sections were done: the time of the walk had it ended there.
fn half(walk: &Walk, ready: &Ready, followed: &Outcome, sections: usize) -> Option<u64> {
    let count = sections.div_ceil(2);
    let mut first = walk.clone();
    first.done.truncate(count);
    let at = first.done.last().filter(|_| first.done.len() == count)?;
    let at = at.at.clone();
    first.finished_at = Some(at.clone());
    Some(Spent::of(&first, &ready.plan, followed, &at).total)
}
