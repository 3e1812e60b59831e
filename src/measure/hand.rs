//! Which hand does what.

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
    /// Its word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Right => "right",
            Self::Left => "left",
        }
    }

    /// The other hand.
    pub const fn other(self) -> Self {
        match self {
            Self::Right => Self::Left,
            Self::Left => Self::Right,
        }
    }
}
