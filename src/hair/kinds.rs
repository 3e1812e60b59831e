//! The two lengths that must never be taken for each other.

use crate::measure::Length;
use serde::{Deserialize, Serialize};

/// A length as it is cut: combed straight between the fingers, in the state (wet or dry) and at the
/// tension of the cut.
///
/// Nothing turns it into a [`FallsTo`] but [`super::Hair::falls_to`]:
///
/// ```compile_fail
/// use tautline::{hair::{CutAt, FallsTo}, measure::Length};
/// let cut = CutAt(Length::from_cm(20.0));
/// let hangs: FallsTo = cut;
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(transparent)]
pub struct CutAt(pub Length);

/// A length as it hangs: dry and let go.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(transparent)]
pub struct FallsTo(pub Length);

impl CutAt {
    /// So many centimetres, as cut.
    pub const fn from_cm(cm: f64) -> Self {
        Self(Length::from_cm(cm))
    }

    /// Centimetres, as cut.
    pub const fn cm(self) -> f64 {
        self.0.cm()
    }
}

impl FallsTo {
    /// So many centimetres, hanging.
    pub const fn from_cm(cm: f64) -> Self {
        Self(Length::from_cm(cm))
    }

    /// Centimetres, hanging.
    pub const fn cm(self) -> f64 {
        self.0.cm()
    }
}
