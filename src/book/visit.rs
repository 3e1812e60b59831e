//! What a saved cut is kept with once it is somebody's visit.

use super::criteria::Judged;
use crate::head::{Landmark, Side};
use crate::measure::{Day, Length, LengthError, Unit, read_length, storable};
use serde::{Deserialize, Serialize};

/// Whose a cut is, and what was put down of it beside the plan and the walk. What was asked stands in the
/// consultation, the private note too; what was cut in the walk.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Visit {
    /// The id of the client or the practice head; empty while it is nobody's.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub of: String,
    /// The day of the visit, as `2026-11-25`; empty for the day on which the walk began.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub day: String,
    /// Notes that the client may see.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub notes: String,
    /// Words to find it by.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub tags: Vec<String>,
    /// The day agreed for the next visit, as `2026-11-25`; empty if none was.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub return_on: String,
    /// Lengths measured at named places.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub measures: Vec<Measure>,
    /// What was said of it by criteria, and what its maker makes of it.
    #[serde(skip_serializing_if = "Judged::is_empty")]
    pub judged: Judged,
    /// Whether it belongs to the invented salon.
    #[serde(skip_serializing_if = "is_false")]
    pub invented: bool,
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "serde hands a reference over"
)]
pub(super) fn is_false(flag: &bool) -> bool {
    !*flag
}

/// When a length was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum When {
    /// Before the cut.
    Before,
    /// After it.
    After,
}

/// How a lock was held when it was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum How {
    /// Combed taut, as it is held when it is cut.
    Combed,
    /// Dry and let go.
    Hanging,
}

/// The length of one lock, measured.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Measure {
    /// Where it grows: one of [`crate::cut::TOLD`].
    pub place: Landmark,
    /// On which side; the middle is `Centre`.
    pub side: Side,
    /// When.
    pub when: When,
    /// How it was held.
    pub how: How,
    /// The length as typed.
    pub typed: String,
    /// What it was to be by what was worked out when it was put down, held alike; none if that could not
    /// be told. Kept, so that a plan that is changed later does not change what was judged.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub expected: Option<Length>,
}

impl Measure {
    /// The length, read.
    ///
    /// # Errors
    /// [`LengthError`] with a sentence.
    pub fn length(&self) -> Result<Length, LengthError> {
        read_length(&self.typed, Unit::Cm)
    }

    /// How much longer it came out than it was to be, cm; none where either is not known.
    pub fn difference(&self) -> Option<f64> {
        Some(self.length().ok()?.cm() - self.expected?.cm())
    }
}

/// Tags as they are typed, with commas between: each once, without spaces about it.
///
/// ```
/// assert_eq!(tautline::book::read_tags(" curls, bob,, curls "), ["curls", "bob"]);
/// ```
pub fn read_tags(typed: &str) -> Vec<String> {
    let mut tags: Vec<String> = Vec::new();
    for tag in typed.split(',').map(str::trim) {
        if !tag.is_empty() && !tags.iter().any(|other| other == tag) {
            tags.push(tag.to_owned());
        }
    }
    tags
}

impl Visit {
    /// Whether nothing was put down.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// What was measured at a place.
    pub fn measure(&self, place: Landmark, side: Side, when: When, how: How) -> Option<&Measure> {
        let is = |m: &&Measure| (m.place, m.side, m.when, m.how) == (place, side, when, how);
        self.measures.iter().find(is)
    }

    /// How many lengths were measured otherwise than combed after the cut.
    pub fn measured_beside(&self) -> usize {
        let after = |m: &&Measure| (m.when, m.how) != (When::After, How::Combed);
        self.measures.iter().filter(after).count()
    }

    /// Puts a measure down in the place of the one before; an empty one takes it back.
    pub fn put(&mut self, measure: Measure) {
        let same = |m: &Measure| {
            (m.place, m.side, m.when, m.how)
                == (measure.place, measure.side, measure.when, measure.how)
        };
        self.measures.retain(|m| !same(m));
        if !measure.typed.trim().is_empty() {
            // A document gives back no more digits than that.
            let expected = measure.expected.map(|e| Length::from_cm(storable(e.cm())));
            self.measures.push(Measure {
                expected,
                ..measure
            });
        }
    }

    /// The day agreed for the next visit.
    pub fn returns(&self) -> Option<Day> {
        Day::read(&self.return_on)
    }
}
