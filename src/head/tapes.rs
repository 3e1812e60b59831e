//! The tape measures that describe a head, any of which may be missing, and its shape.

use super::shape::{Back, Kind, Top};
use crate::words::{decimal, tr};
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
    pub fn name(self) -> &'static str {
        match self {
            Self::Circumference => tr("Around the head"),
            Self::EarToEar => tr("Ear to ear over the top"),
            Self::Length => tr("Front to back, straight"),
            Self::Breadth => tr("Side to side, straight"),
            Self::HairlineToNape => tr("Front hairline to nape"),
            Self::HairlineToChin => tr("Front hairline to chin"),
        }
    }

    /// Where the tape goes, in one sentence.
    pub fn how(self) -> &'static str {
        match self {
            Self::Circumference => tr(
                "Level around the widest place: above the brows and over the fullest part of the back. Press the hair flat.",
            ),
            Self::EarToEar => tr(
                "From the small flap in front of one ear opening, straight up over the top, to the other.",
            ),
            Self::Length => tr(
                "From between the brows to the furthest point of the back. A book held upright at each end helps.",
            ),
            Self::Breadth => tr(
                "Across the widest place above the ears. A book held upright on each side helps.",
            ),
            Self::HairlineToNape => tr(
                "From the middle of the front hairline over the top down to where the hair ends at the nape.",
            ),
            Self::HairlineToChin => tr(
                "From the middle of the front hairline down the middle of the face to under the chin.",
            ),
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
    /// The file is not a JSON object of measures and shapes.
    #[error(
        "This is not a head file: {0}. It holds measures in cm, like {{\"circumference\": 56.1}}."
    )]
    NotAHead(String),
    /// A key that is neither a tape measure nor a shape.
    #[error("There is no measure called “{0}”. The measures are {known}.", known = known())]
    Unknown(String),
    /// A key that stands in the file more than once.
    #[error("“{0}” stands in this head file twice. Leave only the one that holds.")]
    Twice(String),
    /// A word that a shape does not know.
    #[error("“{key}” is “{word}”; it may be {known}.")]
    Word {
        /// The key in the file.
        key: &'static str,
        /// What it was given.
        word: String,
        /// What it may be, as a sentence lists it.
        known: String,
    },
    /// Ears further apart in height than any head's, in cm.
    #[error(
        "{}", tr!("The left ear is given as {} cm higher than the right; it lies between −{most} and {most} cm. Measure again.", typed(.0), most = EAR_UP))]
    Ears(f64),
    /// A value no head has.
    #[error("{}", tr!("{name} reads {cm} cm; heads lie between {low} and {high} cm. Measure again.", name = .tape.name(), cm = typed(.cm), low = .tape.range().0, high = .tape.range().1))]
    Impossible {
        /// Which measure.
        tape: Tape,
        /// What was given, in cm.
        cm: f64,
    },
}

/// The keys of a head file, as a sentence lists them.
fn known() -> String {
    let keys: Vec<&str> = Tape::ALL.iter().map(|tape| tape.key()).collect();
    format!("{}, back, top, left_ear_up and kind", keys.join(", "))
}

/// What was typed, as it was.
fn typed(cm: &f64) -> String {
    decimal(cm.to_string())
}

/// The most that one ear may lie higher than the other, in cm either way. Judgement: it only
/// catches slips.
const EAR_UP: f64 = 2.0;

/// What was measured and seen on one head: any of the tapes, in cm, each within its range; the
/// shape of its back and top; how much higher its left ear lies; and whose head it is.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Tapes {
    measured: BTreeMap<Tape, f64>,
    back: Back,
    top: Top,
    left_ear_up: f64,
    kind: Kind,
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

    /// The shape of the back; even if nothing was said.
    pub fn back(&self) -> Back {
        self.back
    }

    /// Says what shape the back has.
    pub fn set_back(&mut self, back: Back) {
        self.back = back;
    }

    /// The shape of the top; even if nothing was said.
    pub fn top(&self) -> Top {
        self.top
    }

    /// Says what shape the top has.
    pub fn set_top(&mut self, top: Top) {
        self.top = top;
    }

    /// Whose head it is; a person's if nothing was said.
    pub fn kind(&self) -> Kind {
        self.kind
    }

    /// Says whose head it is.
    pub fn set_kind(&mut self, kind: Kind) {
        self.kind = kind;
    }

    /// How many cm the left ear lies higher than the right, below 0 if lower; 0 if nothing was said.
    pub fn left_ear_up(&self) -> f64 {
        self.left_ear_up
    }

    /// Puts down how many cm the left ear lies higher than the right, from −2 to 2.
    ///
    /// # Errors
    /// [`TapeError::Ears`] outside that range.
    pub fn set_left_ear_up(&mut self, cm: f64) -> Result<(), TapeError> {
        if !(-EAR_UP..=EAR_UP).contains(&cm) {
            return Err(TapeError::Ears(cm));
        }
        self.left_ear_up = cm;
        Ok(())
    }
}
