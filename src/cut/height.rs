//! A height as people say it: a landmark's, or so much below or above it.

use crate::head::{Head, Landmark, Side, away_from};
use crate::measure::{CM_PER_INCH, Length, LengthError, Unit, read_change};
use crate::words::tr;
use serde::{Deserialize, Serialize};

/// A dragged height this near to a landmark is the landmark's, cm. Judgement.
const SNAP: f64 = 0.7;
/// Heights between landmarks are told to this, cm.
const GRID: f64 = 0.5;
/// Less below or above a landmark than this is at it, cm.
const AT: f64 = 0.05;

/// A height on a head: so far below a landmark.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Height {
    /// The landmark.
    pub landmark: Landmark,
    /// How far below it, cm; above it if below zero.
    #[serde(default)]
    pub below: f64,
}

impl From<Landmark> for Height {
    fn from(landmark: Landmark) -> Self {
        Self {
            landmark,
            below: 0.0,
        }
    }
}

impl Height {
    /// The height in cm in the frame of this head: z. What is not a number counts as no way below.
    pub fn z(&self, head: &Head) -> f64 {
        let below = if self.below.is_finite() {
            self.below
        } else {
            0.0
        };
        head.landmark(self.landmark, Side::Centre).z - below
    }

    /// The same so many cm lower.
    pub fn lower(&self, cm: f64) -> Self {
        Self {
            below: self.below + cm,
            ..*self
        }
    }

    /// The height `z` told by the nearest of these landmarks, to the millimetre.
    pub fn near(head: &Head, among: &[Landmark], z: f64) -> Self {
        let below = |landmark| Self {
            landmark,
            below: head.landmark(landmark, Side::Centre).z - z,
        };
        let nearest = among.iter().copied().map(below).min_by(|a, b| {
            let (a, b) = (a.below.abs(), b.below.abs());
            a.total_cmp(&b)
        });
        let mut nearest = nearest.unwrap_or(below(Landmark::Chin));
        nearest.below = (nearest.below * 10.0).round() / 10.0;
        nearest
    }

    /// The same, drawn to the landmark within 0.7 cm of it and else to the half centimetre.
    pub fn snapped(head: &Head, among: &[Landmark], z: f64) -> Self {
        let mut near = Self::near(head, among, z);
        near.below = if near.below.abs() <= SNAP {
            0.0
        } else {
            (near.below / GRID).round() * GRID
        };
        near
    }

    /// The height so many steps higher, lower if below zero: half a centimetre or a quarter of an inch
    /// each, told by the nearest of these landmarks.
    pub fn stepped(&self, head: &Head, among: &[Landmark], steps: i32, unit: Unit) -> Self {
        let step = match unit {
            Unit::Cm => GRID,
            Unit::Inches => CM_PER_INCH / 4.0,
        };
        Self::near(head, among, self.z(head) + f64::from(steps) * step)
    }

    /// The next of these landmarks above it, or below.
    pub fn next(&self, head: &Head, among: &[Landmark], up: bool) -> Self {
        let z = self.z(head);
        let beyond = |&l: &Landmark| {
            let rise = Self::from(l).z(head) - z;
            let rise = if up { rise } else { -rise };
            (rise > AT).then_some((rise, l))
        };
        let next = among.iter().filter_map(beyond);
        let next = next.min_by(|a, b| a.0.total_cmp(&b.0));
        next.map_or(*self, |(_, landmark)| landmark.into())
    }

    /// How far below its landmark, as typed: `2.5 cm`; with a minus if above.
    pub fn typed(&self, unit: Unit) -> String {
        let sign = if self.below < -AT { "−" } else { "" };
        format!("{sign}{}", fine(self.below.abs(), unit))
    }

    /// Reads that again, cm. Bare numbers are in `unit`.
    ///
    /// # Errors
    /// [`LengthError`] with a sentence.
    pub fn read_below(text: &str, unit: Unit) -> Result<f64, LengthError> {
        Ok(read_change(text, unit)?.cm())
    }

    /// `at the chin`, or `2.5 cm below the chin`.
    pub fn said(&self, unit: Unit) -> String {
        let place = self.place(unit);
        if self.below.abs() < AT {
            tr!("at {place}", place)
        } else {
            place
        }
    }

    /// `the chin`, or `2.5 cm below the chin`.
    pub fn place(&self, unit: Unit) -> String {
        let place = self.landmark.the();
        let off = fine(self.below.abs(), unit);
        match self.below {
            below if below.abs() < AT => place.to_owned(),
            below => away_from(place, &off, below),
        }
    }
}

/// A length to the millimetre, or to the eighth of an inch, with its unit.
pub(super) fn fine(cm: f64, unit: Unit) -> String {
    Length::from_cm(cm).as_measured(unit)
}
