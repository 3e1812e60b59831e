//! Whether a difference in length matters.

use crate::words::tr;
use serde::{Deserialize, Serialize};

/// What hair a difference is of: the same half centimetre shows in a fringe and not in long layers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// Beside and over the face.
    Face,
    /// The outline.
    Outline,
    /// Inside the shape.
    Inside,
    /// Inside the shape, long.
    InsideLong,
}

impl Kind {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Face, Self::Outline, Self::Inside, Self::InsideLong];

    /// Its words on the screen.
    pub fn word(self) -> &'static str {
        match self {
            Self::Face => tr("Around the face"),
            Self::Outline => tr("Outline"),
            Self::Inside => tr("Inside"),
            Self::InsideLong => tr("Inside, long hair"),
        }
    }
}

/// How far off each kind of hair may be before it is looked at again, cm. Judgement: no public standard
/// gives numbers, so a person may set them.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Tolerances {
    /// Beside and over the face.
    pub face: f64,
    /// The outline.
    pub outline: f64,
    /// Inside the shape.
    pub inside: f64,
    /// Inside the shape, long.
    pub inside_long: f64,
}

impl Default for Tolerances {
    fn default() -> Self {
        Self {
            face: 0.3,
            outline: 0.5,
            inside: 0.5,
            inside_long: 1.0,
        }
    }
}

impl Tolerances {
    /// The least and the most that may be set, cm: a ruler on combed hair is good to 2 to 3 mm, and past
    /// three centimetres anything would do. Judgement.
    pub const RANGE: (f64, f64) = (0.1, 3.0);

    /// The tolerance of a kind of hair, cm; laid into [`Tolerances::RANGE`], whatever was stored.
    pub fn of(&self, kind: Kind) -> f64 {
        let own = self.own(kind);
        if own.is_nan() {
            return Self::default().own(kind);
        }
        own.clamp(Self::RANGE.0, Self::RANGE.1)
    }

    /// Sets the tolerance of a kind of hair, cm, laid into [`Tolerances::RANGE`].
    pub fn set(&mut self, kind: Kind, cm: f64) {
        let laid = if cm.is_nan() {
            Self::default().own(kind)
        } else {
            cm.clamp(Self::RANGE.0, Self::RANGE.1)
        };
        *match kind {
            Kind::Face => &mut self.face,
            Kind::Outline => &mut self.outline,
            Kind::Inside => &mut self.inside,
            Kind::InsideLong => &mut self.inside_long,
        } = laid;
    }

    const fn own(&self, kind: Kind) -> f64 {
        match kind {
            Kind::Face => self.face,
            Kind::Outline => self.outline,
            Kind::Inside => self.inside,
            Kind::InsideLong => self.inside_long,
        }
    }
}

/// What a difference comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Nothing that shows.
    Fine,
    /// Look at it again: too long can be put right.
    LookAgain,
    /// Too short by more than twice what is allowed: it can't be put right.
    TooShort,
}

/// What a difference, as it is less as it should be, comes to. Both in cm.
pub fn verdict(difference: f64, tolerance: f64) -> Verdict {
    // Lengths are typed to a millimetre: a tenth of that is nothing.
    const HAIR: f64 = 0.01;
    if difference.abs() <= tolerance + HAIR {
        Verdict::Fine
    } else if difference < -2.0 * tolerance - HAIR {
        Verdict::TooShort
    } else {
        Verdict::LookAgain
    }
}

impl Verdict {
    /// Its words. With `seen` the client looks on, and nothing on the screen alarms.
    pub fn said(self, seen: bool) -> &'static str {
        match self {
            Self::Fine => tr("fine"),
            Self::TooShort if !seen => tr("too short"),
            Self::LookAgain | Self::TooShort => tr("look again"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn too_long_can_be_put_right_and_too_short_cannot() {
        for (difference, wanted) in [
            (0.0, Verdict::Fine),
            (0.5, Verdict::Fine),
            (-0.5, Verdict::Fine),
            (0.6, Verdict::LookAgain),
            (5.0, Verdict::LookAgain),
            (-1.0, Verdict::LookAgain),
            (-1.1, Verdict::TooShort),
            // As typed to a millimetre: 12.3 less 11.8.
            (12.3 - 11.8, Verdict::Fine),
        ] {
            assert_eq!(verdict(difference, 0.5), wanted, "{difference}");
        }
        assert_eq!(Verdict::TooShort.said(false), "too short");
        assert_eq!(Verdict::TooShort.said(true), "look again");
        assert_eq!(Verdict::Fine.said(true), "fine");
    }

    #[test]
    fn tolerances_stay_in_their_range_whatever_was_stored() {
        let mut own = Tolerances::default();
        for kind in Kind::ALL {
            for (set, wanted) in [(0.0, 0.1), (9.0, 3.0), (0.7, 0.7)] {
                own.set(kind, set);
                assert_eq!(own.of(kind), wanted);
            }
            own.set(kind, f64::NAN);
            assert_eq!(own.of(kind), Tolerances::default().of(kind));
        }
        let stored: Tolerances = serde_json::from_str(r#"{"face": -4}"#).unwrap();
        assert_eq!((stored.of(Kind::Face), stored.of(Kind::Inside)), (0.1, 0.5));
    }
}
