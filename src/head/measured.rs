//! A tape with how sure it is.

use super::survey::Estimate;
use crate::measure::{Length, Unit};
use crate::words::decimal;

/// A tape of this head, as entered or as estimated.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measure {
    /// Its value in cm.
    pub cm: f64,
    /// Its standard error in cm; zero when it was measured.
    pub error: f64,
}

impl Measure {
    /// A measure in cm that was taken; or, if it was not, one of this standard error in cm.
    pub(super) fn new(cm: f64, measured: bool, error: f64) -> Self {
        let error = if measured { 0.0 } else { error };
        Self { cm, error }
    }

    /// Whether it was estimated rather than measured.
    pub fn estimated(&self) -> bool {
        self.error > 0.0
    }

    /// The measure as a person reads it: to the millimetre or the eighth of an inch, and with its
    /// standard error, at least one of those, if it was estimated.
    ///
    /// ```
    /// use tautline::{head::Measure, measure::Unit};
    /// let guess = Measure { cm: 56.78, error: 1.91 };
    /// assert_eq!(guess.shown(Unit::Cm), "56.8 ± 1.9 cm");
    /// assert_eq!(guess.shown(Unit::Inches), "22 3/8 ± 3/4 in");
    /// assert_eq!(Measure { error: 0.0, ..guess }.shown(Unit::Cm), "56.8 cm");
    /// ```
    pub fn shown(&self, unit: Unit) -> String {
        let number = |cm: f64| match unit {
            Unit::Cm => decimal(format!("{cm:.1}")),
            Unit::Inches => Length::from_cm(cm).number(unit),
        };
        let finest = match unit {
            Unit::Cm => 0.1,
            Unit::Inches => Length::from_inches(0.125).cm(),
        };
        let error = if self.estimated() {
            format!(" ± {}", number(self.error.max(finest)))
        } else {
            String::new()
        };
        format!("{}{error} {}", number(self.cm), unit.mark())
    }
}

impl From<Estimate> for Measure {
    fn from(estimate: Estimate) -> Self {
        Self {
            cm: estimate.cm,
            error: estimate.error,
        }
    }
}
