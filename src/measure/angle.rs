//! An angle: radians inside, degrees outside.

use serde::{Deserialize, Serialize};

/// An angle. Stored and typed in degrees, computed with in radians.
///
/// ```
/// use tautline::measure::Angle;
/// assert!((Angle::from_degrees(180.0).radians() - std::f64::consts::PI).abs() < 1e-12);
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Angle {
    degrees: f64,
}

impl Angle {
    /// An angle of so many degrees.
    pub const fn from_degrees(degrees: f64) -> Self {
        Self { degrees }
    }

    /// The angle in degrees, as it was given.
    pub const fn degrees(self) -> f64 {
        self.degrees
    }

    /// The angle in radians.
    pub const fn radians(self) -> f64 {
        self.degrees.to_radians()
    }
}
