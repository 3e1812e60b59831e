//! What a plan leaves, for the next visit to begin with.

use super::fold::{CutError, Outcome};
use super::lengths::Lengths;
use crate::hair::LengthMap;
use crate::head::{Head, Side};

impl Outcome {
    /// Its hair everywhere as numbers that can be kept, for the next visit to begin with.
    ///
    /// # Errors
    /// [`CutError`] when a length cannot be worked out.
    pub fn left_map(&self, head: &Head) -> Result<LengthMap, CutError> {
        let sides = self.sides();
        LengthMap::of(head, self.is_even(), &mut |side, root| {
            own(&sides, side).at(head, root)
        })
    }

    /// The same with few numbers, to compare cuts with each other.
    ///
    /// # Errors
    /// As [`Outcome::left_map`].
    pub fn coarse_map(&self, head: &Head) -> Result<LengthMap, CutError> {
        let sides = self.sides();
        LengthMap::coarse(head, self.is_even(), &mut |side, root| {
            own(&sides, side).at(head, root)
        })
    }

    /// Its hair as each side finds it.
    fn sides(&self) -> [Lengths; 2] {
        [Side::Left, Side::Right].map(|side| self.lengths.seen_from(side))
    }

    /// How much longer than its plan says the guide of a step's side, by the step's place, really was cut,
    /// cm; 0 where it was cut as planned.
    pub fn guide_longer(&self, step: usize, side: Side) -> f64 {
        let found = self
            .guides
            .iter()
            .rfind(|(of, on, _)| (*of, *on) == (step, side));
        found.map_or(0.0, |(.., cm)| *cm)
    }
}

const fn own(sides: &[Lengths; 2], side: Side) -> &Lengths {
    let [left, right] = sides;
    match side {
        Side::Right => right,
        Side::Left | Side::Centre => left,
    }
}
