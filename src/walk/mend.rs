//! What can still be done where hair came out too short.

use super::run::Walk;
use crate::cut::{Agreed, CutError, Job, Outcome, SectionKey};
use crate::measure::{Length, Unit};

/// What can still be done where a section came out shorter than agreed.
#[derive(Clone, Debug, PartialEq)]
pub struct Mend {
    /// How much shorter than agreed it hangs, cm.
    pub short_by: f64,
    /// Sections beside it that come back to the plan step by step: key, name, what to cut them at.
    pub blend: Vec<(SectionKey, String, Length)>,
    /// Later sections that would hang shorter than agreed too if they followed: key and name.
    pub leave: Vec<(SectionKey, String)>,
    /// How many weeks it takes to grow back.
    pub weeks: u32,
}

/// What can still be done about a section that was measured; none if it hangs as agreed.
///
/// # Errors
/// [`CutError`] when the plan cannot be worked out.
pub fn mend(
    job: &Job<'_>,
    agreed: &Agreed,
    outcome: &Outcome,
    walk: &Walk,
    key: &SectionKey,
) -> Result<Option<Mend>, CutError> {
    let _ = (job, agreed, outcome, walk, key);
    Ok(None)
}

impl Mend {
    /// It in short plain sentences, lengths in the unit.
    pub fn said(&self, unit: Unit) -> Vec<String> {
        let _ = unit;
        Vec::new()
    }
}
