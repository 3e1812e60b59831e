//! The scales that the head and its weight share: where a height and a place across lie in the picture.

use super::super::view::SCALE;
use crate::head::{Head, Landmark, Side};
use kurbo::Point;

/// The narrowest screen's picture is so many CSS pixels wide, and its words so tall.
const PHONE: f64 = 328.0;
const WORDS: f64 = 12.4;
/// Room for the numbers of the scales, in heights of a word: at the left, and below.
const NUMBERS: f64 = 2.3;
const BELOW: f64 = 1.7;
/// Room over the highest place and under the lowest level, cm.
const AIR: f64 = 1.4;
/// The levels that a picture may end at, from the top down, and how far below them, cm; no further below the
/// hair than [`MOST_UNDER`] and this, cm.
const FLOORS: [Landmark; 5] = [
    Landmark::MouthCorner,
    Landmark::Chin,
    Landmark::Shoulder,
    Landmark::Chest,
    Landmark::Waist,
];
const UNDER: f64 = 2.5;
const MOST_UNDER: f64 = 6.0;
/// Hair this far above a level ends at the level for the eye, cm.
const CLEAR: f64 = 1.0;
/// How wide the weight is drawn, as a share of the head's part, and at least, units.
const WEIGHT_SHARE: f64 = 0.42;
const WEIGHT_LEAST: f64 = 118.0;
/// Levels that are named, those first that matter more where two lie too near to each other.
const NAMED: [Landmark; 8] = [
    Landmark::Chin,
    Landmark::Shoulder,
    Landmark::Chest,
    Landmark::Waist,
    Landmark::Brow,
    Landmark::MouthCorner,
    Landmark::Occipital,
    Landmark::Nape,
];

/// Where everything lies. One centimetre of the head is ten units; heights run down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Frame {
    /// The height at the upper and at the lower edge of what is drawn, cm.
    pub top: f64,
    /// See [`Frame::top`].
    pub floor: f64,
    /// The leftmost and the rightmost place of the head's part, cm across.
    pub left: f64,
    /// See [`Frame::left`].
    pub right: f64,
    /// The height from which the scale counts down: that of the high point, cm.
    pub zero: f64,
}

impl Frame {
    /// A frame for hair that reaches across from `left` to `right` and down to `lowest`, and as far as
    /// what it is laid against, to `other`, if that is not much more.
    pub fn new(heads: &[&Head], (left, right): (f64, f64), (lowest, other): (f64, f64)) -> Self {
        let high = heads.iter().map(|head| head.skull().top);
        let high = high.fold(f64::NEG_INFINITY, f64::max);
        // The first head's levels: the second is only laid over it.
        let level = |landmark: Landmark| {
            heads
                .first()
                .map_or(0.0, |head| head.landmark(landmark, Side::Centre).z)
        };
        let below = |z: f64| {
            let clear = |landmark: &Landmark| level(*landmark) < z - CLEAR;
            FLOORS.iter().position(clear).unwrap_or(FLOORS.len() - 1)
        };
        let own = below(lowest);
        let both = below(other.min(lowest));
        let last = if both <= own + 1 { both } else { own };
        let reach = if both <= own + 1 {
            other.min(lowest)
        } else {
            lowest
        };
        let floor = level(FLOORS[last]).clamp(reach - MOST_UNDER, reach) - UNDER;
        Self {
            top: tenth(high + AIR),
            floor: tenth(floor),
            left: tenth(left),
            right: tenth(right),
            zero: high,
        }
    }

    /// The width of the head's part, units.
    pub fn across(&self) -> f64 {
        (self.right - self.left) * SCALE
    }

    /// Its height, units.
    pub fn tall(&self) -> f64 {
        (self.top - self.floor) * SCALE
    }

    /// The width of the weight's part, units.
    pub fn weight(&self) -> f64 {
        (self.across() * WEIGHT_SHARE).max(WEIGHT_LEAST).round()
    }

    /// How tall words are, units: on the narrowest screen they come out at [`WORDS`] pixels.
    pub fn words(&self) -> f64 {
        let share = WORDS / PHONE;
        let parts = self.across() + self.weight();
        (parts * share / (1.0 - share * NUMBERS)).ceil()
    }

    /// Room at the left for the numbers of the heights, units.
    pub fn numbers(&self) -> f64 {
        (self.words() * NUMBERS).round()
    }

    /// Room below for the numbers of the shares, units.
    pub fn below(&self) -> f64 {
        (self.words() * BELOW).round()
    }

    /// The whole picture's size, units.
    pub fn size(&self) -> (f64, f64) {
        (
            self.numbers() + self.across() + self.weight(),
            self.tall() + self.below(),
        )
    }

    /// Where the head's own drawing, whose origin is the middle of the head, is set in.
    pub fn origin(&self) -> Point {
        Point::new(self.numbers() - self.left * SCALE, self.top * SCALE)
    }

    /// Levels of a head that lie in the frame, far enough apart for their words, from the top down.
    pub fn levels(&self, head: &Head) -> Vec<(Landmark, f64)> {
        let mut levels: Vec<(Landmark, f64)> = Vec::new();
        for landmark in NAMED {
            let z = head.landmark(landmark, Side::Centre).z;
            let apart = |other: &(Landmark, f64)| (other.1 - z).abs() * SCALE > self.words() * 1.25;
            if z > self.floor && levels.iter().all(apart) {
                let place = levels.iter().take_while(|other| other.1 > z).count();
                levels.insert(place, (landmark, z));
            }
        }
        levels
    }
}

/// To the millimetre, so that a unit of the picture is a whole one.
fn tenth(cm: f64) -> f64 {
    (cm * 10.0).round() / 10.0
}
