//! The tape measures that describe a head, any of which may be missing.

use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// One tape measure.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Tape {
    /// Around the widest level of the head, above the brow.
    Circumference,
    /// From the front of one ear opening over the top to the other.
    EarToEar,
    /// Straight from the brow to the furthest point of the back (calipers, or two books).
    Length,
    /// Straight across the widest place above the ears (calipers, or two books).
    Breadth,
    /// From the front hairline over the top to the nape hairline.
    HairlineToNape,
    /// From the front hairline down the middle of the face to the chin.
    HairlineToChin,
}

impl Tape {
    /// All of them, in the order in which they are asked for.
    pub const ALL: [Self; 6] = [
        Self::Circumference,
        Self::EarToEar,
        Self::HairlineToNape,
        Self::Length,
        Self::Breadth,
        Self::HairlineToChin,
    ];

    /// Its key in a head file.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Circumference => "circumference",
            Self::EarToEar => "ear_to_ear",
            Self::Length => "length",
            Self::Breadth => "breadth",
            Self::HairlineToNape => "hairline_to_nape",
            Self::HairlineToChin => "hairline_to_chin",
        }
    }

    /// Its name on the screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Circumference => "Around the head",
            Self::EarToEar => "Ear to ear over the top",
            Self::Length => "Front to back, straight",
            Self::Breadth => "Side to side, straight",
            Self::HairlineToNape => "Front hairline to nape",
            Self::HairlineToChin => "Front hairline to chin",
        }
    }

    /// Where the tape goes, in one sentence.
    pub const fn how(self) -> &'static str {
        match self {
            Self::Circumference => {
                "Level around the widest place: above the brows and over the fullest part of the back. Press the hair flat."
            }
            Self::EarToEar => {
                "From the small flap in front of one ear opening, straight up over the top, to the other."
            }
            Self::Length => {
                "From between the brows to the furthest point of the back. A book held upright at each end helps."
            }
            Self::Breadth => {
                "Across the widest place above the ears. A book held upright on each side helps."
            }
            Self::HairlineToNape => {
                "From the middle of the front hairline over the top down to where the hair ends at the nape."
            }
            Self::HairlineToChin => {
                "From the middle of the front hairline down the middle of the face to under the chin."
            }
        }
    }

    /// The least and the most that a head, from a toddler's or a small practice head's to the
    /// largest, may read, in cm. Wider than any survey: these only catch slips.
    pub const fn range(self) -> (f64, f64) {
        match self {
            Self::Circumference => (40.0, 75.0),
            Self::EarToEar => (22.0, 48.0),
            Self::Length => (13.0, 27.0),
            Self::Breadth => (10.0, 21.0),
            Self::HairlineToNape => (20.0, 48.0),
            Self::HairlineToChin => (10.0, 27.0),
        }
    }
}

/// Why a measure was refused.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum TapeError {
    /// The file is not a JSON object of numbers.
    #[error(
        "This is not a head file: {0}. It holds measures in cm, like {{\"circumference\": 56.1}}."
    )]
    NotAHead(String),
    /// A key that is not a tape measure.
    #[error("There is no measure called “{0}”. The measures are {known}.", known = known())]
    Unknown(String),
    /// A value no head has.
    #[error("{name} reads {cm} cm; heads lie between {low} and {high} cm. Measure again.", name = .tape.name(), low = .tape.range().0, high = .tape.range().1)]
    Impossible {
        /// Which measure.
        tape: Tape,
        /// What was given, in cm.
        cm: f64,
    },
}

fn known() -> String {
    let keys: Vec<&str> = Tape::ALL.iter().map(|tape| tape.key()).collect();
    keys.join(", ")
}

/// What was measured on one head: any of the tapes, in cm, each within its range.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Tapes {
    measured: BTreeMap<Tape, f64>,
}

impl Tapes {
    /// Puts down one measure in cm.
    ///
    /// # Errors
    /// [`TapeError::Impossible`] when no head reads so.
    pub fn set(&mut self, tape: Tape, cm: f64) -> Result<(), TapeError> {
        let (low, high) = tape.range();
        if !(low..=high).contains(&cm) {
            return Err(TapeError::Impossible { tape, cm });
        }
        self.measured.insert(tape, cm);
        Ok(())
    }

    /// The same, for building a value in one breath.
    ///
    /// # Errors
    /// As [`Tapes::set`].
    pub fn with(mut self, tape: Tape, cm: f64) -> Result<Self, TapeError> {
        self.set(tape, cm)?;
        Ok(self)
    }

    /// What a tape read, in cm, if it was measured.
    pub fn get(&self, tape: Tape) -> Option<f64> {
        self.measured.get(&tape).copied()
    }

    /// Reads a head file: `{"circumference":56.1,"ear_to_ear":34.1,…}` in cm, any key missing or
    /// null.
    ///
    /// # Errors
    /// A [`TapeError`] with a sentence.
    pub fn from_json(text: &str) -> Result<Self, TapeError> {
        let values: BTreeMap<String, Option<f64>> =
            serde_json::from_str(text).map_err(|e| TapeError::NotAHead(e.to_string()))?;
        let mut tapes = Self::default();
        for (key, value) in values {
            let tape = Tape::ALL
                .into_iter()
                .find(|tape| tape.key() == key)
                .ok_or(TapeError::Unknown(key))?;
            if let Some(cm) = value {
                tapes.set(tape, cm)?;
            }
        }
        Ok(tapes)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_head_file_is_read_and_nonsense_refused_with_a_sentence() {
        let tapes = Tapes::from_json(r#"{"circumference":56.1,"breadth":null}"#).unwrap();
        assert_eq!(tapes.get(Tape::Circumference), Some(56.1));
        assert_eq!(tapes.get(Tape::Breadth), None);
        let refused = |text| Tapes::from_json(text).unwrap_err().to_string();
        assert!(refused(r#"{"girth":56.1}"#).contains("no measure called “girth”"));
        assert!(refused(r#"{"circumference":-56.1}"#).contains("Measure again"));
        assert!(refused(r#"{"circumference":561}"#).contains("561 cm"));
        assert!(refused(r#"{"circumference":"wide"}"#).contains("not a head file"));
        assert!(refused("[]").contains("not a head file"));
    }
}
