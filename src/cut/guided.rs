//! What a section guides.

use super::again::cut_on;
use super::fold::{CutError, Job, Outcome};
use super::section::SectionKey;
use crate::measure::Length;

/// How much shorter a section is cut to see what follows it, cm; half of it where it is shorter than two.
const TRIED: f64 = 1.0;
/// A target that moves by less than this does not follow, cm.
const MOVED: f64 = 0.01;

/// The later sections whose targets depend on how long this one comes out: cut it a centimetre shorter,
/// and they change. In the order in which they are cut; checks, which cut nothing, are left out. `outcome`
/// is the plan worked out with what was measured so far.
///
/// # Errors
/// [`CutError`] as [`super::cut`].
pub fn guided_by(
    job: &Job<'_>,
    outcome: &Outcome,
    key: &SectionKey,
) -> Result<Vec<SectionKey>, CutError> {
    let Some(own) = outcome.section(key).filter(|own| own.cuts()) else {
        return Ok(Vec::new());
    };
    let so_far = outcome.measured.get(key).copied().unwrap_or(own.long());
    let shorter = Length::from_cm(so_far.cm() - TRIED.min(so_far.cm() / 2.0));
    let mut measured = outcome.measured.clone();
    measured.insert(key.clone(), shorter);
    let tried = cut_on(job, outcome, &measured)?;
    let pairs = outcome.sections.iter().zip(&tried.sections);
    let later = pairs.skip_while(|(section, _)| section.key != *key).skip(1);
    let moved = later.filter(|(is, would)| {
        let by = |a: Length, b: Length| (a.cm() - b.cm()).abs() > MOVED;
        is.cuts() && (by(is.long(), would.long()) || by(is.short(), would.short()))
    });
    let mut keys = Vec::new();
    keys.extend(moved.map(|(section, _)| section.key.clone()));
    Ok(keys)
}
