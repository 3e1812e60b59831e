//! The regions of the scalp by which hair differs.

use super::{Head, Landmark, Side};
use crate::geometry::Vec3;
use serde::{Deserialize, Serialize};

/// A region of the scalp. Regions do not overlap and cover all of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Region {
    /// The front of the top, where a fringe grows: up to 5 cm behind the front hairline.
    Front,
    /// The rest of the top, above the ridge and before the crown.
    Top,
    /// Beside and behind the high point, above the level of the ridge.
    Crown,
    /// Below the ridge, before the ear-to-ear line.
    Side,
    /// Behind the ear-to-ear line, between the ridge and the occipital bone.
    Back,
    /// Below the occipital bone.
    Nape,
}

/// How far behind the front hairline a fringe reaches, cm: 3 to 5, common practice, no source.
const FRINGE: f64 = 5.0;

impl Region {
    /// All of them, from the front to the nape.
    pub const ALL: [Self; 6] = [
        Self::Front,
        Self::Top,
        Self::Crown,
        Self::Side,
        Self::Back,
        Self::Nape,
    ];
}

/// The levels and lines between the regions of one head.
#[derive(Clone, Copy, Debug)]
pub struct Regions {
    ridge: f64,
    occipital: f64,
    ear_line: f64,
    crown: f64,
    fringe: f64,
}

impl Regions {
    /// The regions of this head.
    pub fn of(head: &Head) -> Self {
        let front = head.landmark(Landmark::FrontHairline, Side::Centre);
        Self {
            ridge: head.landmark(Landmark::ParietalRidge, Side::Left).z,
            occipital: head.landmark(Landmark::Occipital, Side::Centre).z,
            ear_line: head.landmark(Landmark::AboveEar, Side::Left).y,
            crown: head.landmark(Landmark::HighPoint, Side::Centre).y,
            fringe: front.y - FRINGE,
        }
    }

    /// The region that a place of the scalp lies in.
    pub fn at(&self, root: Vec3) -> Region {
        if root.z >= self.ridge {
            if root.y >= self.fringe {
                Region::Front
            } else if root.y >= self.crown {
                Region::Top
            } else {
                Region::Crown
            }
        } else if root.y >= self.ear_line {
            Region::Side
        } else if root.z >= self.occipital {
            Region::Back
        } else {
            Region::Nape
        }
    }
}
