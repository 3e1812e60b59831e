//! A height on head and body as a stylist names it: by the landmark nearest to it.

use super::points::{Landmark, Side};
use super::skull::Head;
use crate::measure::{Length, Unit};
use crate::words::tr;

/// A height told by the landmark nearest to it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Level {
    /// Its height, cm in the head's frame.
    pub z: f64,
    /// The landmark of face or body whose level lies nearest.
    pub landmark: Landmark,
    /// How far below the landmark's level it is, cm; above it if below zero.
    pub below: f64,
}

impl Level {
    /// A height `z` (cm) of this head.
    pub fn of(head: &Head, z: f64) -> Self {
        let below = |landmark| (landmark, head.landmark(landmark, Side::Centre).z - z);
        let (landmark, below) = Landmark::LEVELS
            .map(below)
            .into_iter()
            .min_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))
            .unwrap_or(below(Landmark::Chin));
        Self { z, landmark, below }
    }

    /// `the chin`, or `2 cm below the chin`.
    pub fn place(&self, unit: Unit) -> String {
        match self.off(unit) {
            None => self.landmark.the().to_owned(),
            Some(off) => away_from(self.landmark.the(), &off, self.below),
        }
    }

    /// `at the chin`, or `2 cm below the chin`.
    pub fn said(&self, unit: Unit) -> String {
        let place = self.place(unit);
        match self.off(unit) {
            None => tr!("at {place}", place),
            Some(_) => place,
        }
    }

    /// How far it is from its landmark, if that reads as anything at all.
    fn off(&self, unit: Unit) -> Option<String> {
        let off = Length::from_cm(self.below.abs());
        (off.number(unit) != "0").then(|| off.shown(unit))
    }
}

/// `2 cm below the chin`: a height so far below a place, or above it if `below` is less than zero.
pub fn away_from(place: &str, off: &str, below: f64) -> String {
    if below < 0.0 {
        tr!("{off} above {place}", off, place)
    } else {
        tr!("{off} below {place}", off, place)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn chin(below: f64) -> Level {
        Level {
            z: 0.0,
            landmark: Landmark::Chin,
            below,
        }
    }

    #[test]
    fn a_level_is_said_by_its_landmark() {
        let said = |below| chin(below).said(Unit::Cm);
        assert_eq!(said(2.0), "2 cm below the chin");
        assert_eq!(said(-1.6), "1.5 cm above the chin");
        // What reads as nothing is at it.
        assert_eq!([said(0.2), said(-0.2)], ["at the chin", "at the chin"]);
        assert_eq!(chin(0.2).place(Unit::Cm), "the chin");
    }

    #[test]
    fn the_landmark_is_the_nearest() {
        let head = Head::from_tapes(&super::super::Tapes::default()).unwrap();
        for landmark in Landmark::LEVELS {
            let at = head.landmark(landmark, Side::Centre).z;
            let level = Level::of(&head, at - 0.1);
            let nearest = head.landmark(level.landmark, Side::Centre).z;
            assert!((nearest - level.z).abs() <= 0.1 + 1e-9, "{landmark:?}");
            assert!((level.z + level.below - nearest).abs() < 1e-9);
        }
    }
}
