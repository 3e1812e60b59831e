//! What a cross-check compares: places along a parting at right angles to how the hair was cut.

use super::verdict::Kind;
use crate::cut::{CutError, Job, Outcome, SectionCut};
use crate::geometry::Vec3;
use crate::measure::Length;

/// One place of a check.
#[derive(Clone, Debug, PartialEq)]
pub struct CheckPlace {
    /// Its number within the section, from 0.
    pub place: usize,
    /// Its name, by the nearest named point.
    pub name: String,
    /// How long the hair is there after the cut, as held.
    pub expected: Length,
    /// What hair it is.
    pub kind: Kind,
    /// Where it grows, on the skull.
    pub root: Vec3,
}

/// The places that the section of a check compares.
///
/// # Errors
/// [`CutError`] when a length cannot be worked out.
pub fn check_places(
    job: &Job<'_>,
    outcome: &Outcome,
    section: &SectionCut,
) -> Result<Vec<CheckPlace>, CutError> {
    let mut places = Vec::new();
    for strand in &section.strands {
        let expected = outcome.lengths.at(job.head, strand.root)?;
        places.push(CheckPlace {
            place: places.len(),
            name: section.section.name.clone(),
            expected: Length::from_cm(expected),
            kind: Kind::Inside,
            root: strand.root,
        });
    }
    Ok(places)
}
