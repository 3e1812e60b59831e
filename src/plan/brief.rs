//! A step in a few words: what must be read from where the hands are.

use super::model::Plan;
use crate::measure::Unit;

/// What must be read from 80 cm away: each a few words, without a full stop.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Brief {
    /// How high the hair is held.
    pub lift: String,
    /// Where it is combed to.
    pub comb: String,
    /// How the fingers lie.
    pub fingers: String,
    /// What guides it.
    pub guide: String,
    /// How it is cut.
    pub technique: String,
    /// How hard it is held.
    pub tension: String,
    /// What to take care of.
    pub caution: Vec<&'static str>,
}

impl Plan {
    /// A step in a few words, told from its data; lengths in the unit. Of no step: nothing.
    pub fn brief(&self, step: usize, unit: Unit) -> Brief {
        let _ = (step, unit);
        Brief::default()
    }
}
