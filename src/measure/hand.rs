//! Which hand does what.

use crate::words::{noted, tr};
use serde::{Deserialize, Serialize};

/// The hand that holds the scissors.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Hand {
    /// The right; the left holds the hair.
    #[default]
    Right,
    /// The left; the right holds the hair.
    Left,
}

impl Hand {
    /// Its word, for values of fields.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Right => noted("right"),
            Self::Left => noted("left"),
        }
    }

    /// The same as a person reads it.
    pub fn said(self) -> &'static str {
        tr(self.word())
    }

    /// The other hand.
    pub const fn other(self) -> Self {
        match self {
            Self::Right => Self::Left,
            Self::Left => Self::Right,
        }
    }
}
