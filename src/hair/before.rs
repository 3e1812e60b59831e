//! How long the hair is before the cut.

use crate::geometry::{Target, TautError, Vec3, taut};
use crate::head::{Head, Landmark, Side};
use crate::measure::Length;
use crate::words::tr;
use serde::{Deserialize, Serialize};

/// The length of the hair before the cut, everywhere on the scalp.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Before {
    /// One level: combed down, everything ends at the height of this landmark.
    EndsAt(Landmark),
    /// Every hair has the same length, as on most new practice heads.
    Everywhere(Length),
}

/// Why hair cannot be as it was said to be.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum BeforeError {
    /// The path to the level could not be found.
    #[error("{}", tr!("The hair's length could not be worked out: {}", .0))]
    Path(#[from] TautError),
}

impl Before {
    /// Length in cm of the hair that grows at `root` on this head.
    ///
    /// # Errors
    /// [`BeforeError`] when the root does not lie on the skull.
    pub fn at(self, head: &Head, root: Vec3) -> Result<f64, BeforeError> {
        match self {
            Self::Everywhere(length) => Ok(length.cm()),
            Self::EndsAt(landmark) => {
                let level = head.landmark(landmark, Side::Centre).z;
                // A root below the level hangs no longer than nothing.
                if root.z <= level {
                    return Ok(0.0);
                }
                Ok(taut(head.skull(), root, &Target::level(level))?.length)
            }
        }
    }
}
