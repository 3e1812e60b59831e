//! A length: centimetres inside; centimetres or inches and eighths outside.

use crate::words::{decimal, tr};
use serde::{Deserialize, Serialize};

/// One international inch in centimetres, exactly (international yard and pound agreement, 1959).
pub const CM_PER_INCH: f64 = 2.54;

/// The unit a person reads and types lengths in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Unit {
    /// Centimetres, shown to the half.
    #[default]
    Cm,
    /// Inches, shown to the eighth.
    Inches,
}

impl Unit {
    /// The word for it within a sentence: `cm` or `inches`.
    pub fn word(self) -> &'static str {
        match self {
            Self::Cm => "cm",
            Self::Inches => tr("inches"),
        }
    }

    /// The short mark that stands behind a number: `cm` or `in`.
    pub const fn mark(self) -> &'static str {
        match self {
            Self::Cm => "cm",
            Self::Inches => "in",
        }
    }
}

/// A length, in centimetres.
///
/// ```
/// use tautline::measure::{Length, Unit};
/// let target = Length::from_cm(21.6);
/// assert_eq!(target.shown(Unit::Cm), "21.5 cm");
/// assert_eq!(target.shown(Unit::Inches), "8 1/2 in");
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Length {
    cm: f64,
}

impl Length {
    /// No length at all.
    pub const ZERO: Self = Self { cm: 0.0 };

    /// A length of so many centimetres.
    pub const fn from_cm(cm: f64) -> Self {
        Self { cm }
    }

    /// A length of so many international inches.
    pub const fn from_inches(inches: f64) -> Self {
        Self {
            cm: inches * CM_PER_INCH,
        }
    }

    /// The length in centimetres.
    pub const fn cm(self) -> f64 {
        self.cm
    }

    /// The length in inches.
    pub const fn inches(self) -> f64 {
        self.cm / CM_PER_INCH
    }

    /// The length as a person reads it, with its unit: to half a centimetre or an eighth of an
    /// inch. A comb and a ruler on hair are no finer than that.
    pub fn shown(self, unit: Unit) -> String {
        format!("{} {}", self.number(unit), unit.mark())
    }

    /// The same without the unit, for big numerals and table cells.
    pub fn number(self, unit: Unit) -> String {
        // No hair is a kilometre long; a stored number may be anything.
        let shown = Self::from_cm(self.cm.clamp(-1e5, 1e5));
        match unit {
            Unit::Cm => halves(shown.cm),
            Unit::Inches => eighths(shown.inches()),
        }
    }

    /// What another length has more than this one, as both are [shown](Self::shown); below zero if it has less.
    pub fn change_shown(self, to: Self, unit: Unit) -> Self {
        Self::from_cm(to.changed(unit, 0).cm - self.changed(unit, 0).cm)
    }

    /// A length that was measured, as it is read back: to a millimetre, which is what a person may type,
    /// or an eighth of an inch.
    pub fn as_measured(self, unit: Unit) -> String {
        format!("{} {}", self.measured_number(unit), unit.mark())
    }

    /// The same without the unit.
    pub fn measured_number(self, unit: Unit) -> String {
        match unit {
            Unit::Cm => {
                let cm = self.cm.clamp(-1e5, 1e5);
                decimal(format!("{}", (cm * 10.0).round() / 10.0 + 0.0))
            }
            Unit::Inches => self.number(unit),
        }
    }

    /// The next coarser or finer value a stepper reaches: half a centimetre or an eighth of an
    /// inch up (`steps` > 0) or down, on that grid, never below zero.
    pub fn stepped(self, unit: Unit, steps: i32) -> Self {
        Self::from_cm(self.changed(unit, steps).cm.max(0.0))
    }

    /// The same in the smallest steps that are read back: a millimetre, or an eighth of an inch.
    pub fn nudged(self, unit: Unit, steps: i32) -> Self {
        match unit {
            Unit::Cm => {
                Self::from_cm((((self.cm * 10.0).round() + f64::from(steps)) / 10.0).max(0.0))
            }
            Unit::Inches => self.stepped(unit, steps),
        }
    }

    /// The same for a difference, which may be below zero.
    pub fn changed(self, unit: Unit, steps: i32) -> Self {
        let (grid, value) = match unit {
            Unit::Cm => (0.5, self.cm),
            Unit::Inches => (0.125, self.inches()),
        };
        let next = ((value / grid).round() + f64::from(steps)) * grid;
        match unit {
            Unit::Cm => Self::from_cm(next),
            Unit::Inches => Self::from_inches(next),
        }
    }
}

/// An area in the square of the unit, whole: `12 cm²`, `2 in²`.
pub fn area(cm2: f64, unit: Unit) -> String {
    match unit {
        Unit::Cm => tr!("{cm2} cm²", cm2 = format!("{cm2:.0}")),
        Unit::Inches => tr!(
            "{} in²",
            format!("{:.0}", cm2 / (CM_PER_INCH * CM_PER_INCH))
        ),
    }
}

/// Centimetres to the half: `21.5`, and `21` rather than `21.0`.
fn halves(cm: f64) -> String {
    let twice = (cm * 2.0).round();
    // Adding zero turns a rounded −0 into 0.
    decimal(format!("{}", twice / 2.0 + 0.0))
}

/// Inches to the eighth, as a tape shows them: `8 1/2`, `3/8`, `8`.
fn eighths(inches: f64) -> String {
    let count = (inches * 8.0).round();
    let sign = if count < 0.0 { "-" } else { "" };
    let count = count.abs();
    let whole = (count / 8.0).floor();
    let part = match (count - whole * 8.0) as u8 {
        1 => "1/8",
        2 => "1/4",
        3 => "3/8",
        4 => "1/2",
        5 => "5/8",
        6 => "3/4",
        7 => "7/8",
        _ => "",
    };
    match (whole > 0.0, part.is_empty()) {
        (_, true) => format!("{sign}{whole}"),
        (true, false) => format!("{sign}{whole} {part}"),
        (false, false) => format!("{sign}{part}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// NIST Special Publication 811 (2008), Appendix B.8: 1 in = 2.54 cm exactly.
    #[test]
    fn an_inch_is_the_published_one() {
        assert_eq!(Length::from_inches(1.0).cm(), 2.54);
        assert_eq!(Length::from_cm(25.4).inches(), 10.0);
    }

    #[test]
    fn what_was_measured_is_read_back_to_the_millimetre() {
        let measured = Length::from_cm(14.34);
        assert_eq!(measured.as_measured(Unit::Cm), "14.3 cm");
        assert_eq!(measured.shown(Unit::Cm), "14.5 cm");
        assert_eq!(measured.as_measured(Unit::Inches), "5 5/8 in");
        assert_eq!(Length::from_cm(-0.04).as_measured(Unit::Cm), "0 cm");
        let nudged = Length::from_cm(0.3).nudged(Unit::Cm, 1);
        assert_eq!(nudged.as_measured(Unit::Cm), "0.4 cm");
        assert_eq!(nudged.nudged(Unit::Cm, -9), Length::ZERO);
        assert_eq!(area(12.4, Unit::Cm), "12 cm²");
        assert_eq!(area(12.9, Unit::Inches), "2 in²");
    }

    #[test]
    fn a_change_adds_up_as_it_is_shown() {
        for unit in [Unit::Cm, Unit::Inches] {
            for i in 0..400 {
                let from = Length::from_cm(3.0 + 0.037 * f64::from(i));
                let to = Length::from_cm(19.0 - 0.081 * f64::from(i % 190));
                let change = from.change_shown(to, unit);
                let sum = Length::from_cm(from.changed(unit, 0).cm() + change.cm());
                assert_eq!(sum.number(unit), to.number(unit));
            }
        }
        // 18.7 and 20.3 are shown as 18.5 and 20.5.
        let change = Length::from_cm(18.7).change_shown(Length::from_cm(20.3), Unit::Cm);
        assert_eq!(change.number(Unit::Cm), "2");
    }

    /// The US hat size is the circumference in inches over pi, to the nearest eighth; the trade
    /// tables give 57 cm as 7 1/8 and 60 cm as 7 1/2 (`reference` tables of the project, read from
    /// two published converters).
    #[test]
    fn eighths_agree_with_the_hat_size_tables() {
        let rows = [
            (53.0, "6 5/8"),
            (54.0, "6 3/4"),
            (55.0, "6 7/8"),
            (56.0, "7"),
            (57.0, "7 1/8"),
            (58.0, "7 1/4"),
            (59.0, "7 3/8"),
            (60.0, "7 1/2"),
        ];
        for (cm, size) in rows {
            let hat = Length::from_cm(cm / std::f64::consts::PI);
            assert_eq!(hat.number(Unit::Inches), size, "{cm} cm");
        }
    }

    #[test]
    fn lengths_read_plainly() {
        assert_eq!(Length::from_cm(21.24).shown(Unit::Cm), "21 cm");
        assert_eq!(Length::from_cm(21.26).shown(Unit::Cm), "21.5 cm");
        assert_eq!(Length::from_cm(-0.1).shown(Unit::Cm), "0 cm");
        assert_eq!(Length::from_cm(0.95).shown(Unit::Inches), "3/8 in");
        assert_eq!(Length::from_cm(20.3).shown(Unit::Inches), "8 in");
        for endless in [1e308, -1e308, f64::INFINITY] {
            for unit in [Unit::Cm, Unit::Inches] {
                let shown = Length::from_cm(endless).shown(unit);
                assert!(shown.len() < 16 && !shown.contains("inf"), "{shown}");
            }
        }
    }

    #[test]
    fn a_stepper_walks_the_grid_and_stops_at_zero() {
        let length = Length::from_cm(21.3);
        assert_eq!(length.stepped(Unit::Cm, 1).cm(), 22.0);
        assert_eq!(length.stepped(Unit::Cm, -1).cm(), 21.0);
        assert_eq!(Length::from_cm(0.2).stepped(Unit::Cm, -1).cm(), 0.0);
        assert_eq!(
            Length::from_inches(8.5).stepped(Unit::Inches, 1).inches(),
            8.625
        );
    }
}
