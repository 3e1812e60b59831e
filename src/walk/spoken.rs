//! What the device reads aloud of a section.

use crate::cut::SectionCut;
use crate::measure::{Length, Unit};
use crate::plan::{Brief, Step};

/// A section as it is read aloud, `place` of `count` from 1: where, how long, what it falls to, how it is
/// held, what guides it, how it is cut, what to take care of. `falls` is a sentence that tells what it
/// falls to.
#[expect(clippy::too_many_arguments, reason = "each is one thing that is said")]
pub fn spoken(
    section: &SectionCut,
    place: usize,
    count: usize,
    step: &Step,
    brief: &Brief,
    target: Length,
    falls: Option<&str>,
    unit: Unit,
) -> String {
    let _ = (section, place, count, step, brief, target, falls, unit);
    String::new()
}
