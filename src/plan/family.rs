//! Families of partings, and the edges of regions: planes side by side, half-planes about a line.

use crate::geometry::{Convex, Vec3};
use crate::head::Head;
use std::f64::consts::TAU;

/// How far over an edge a place still counts as within, cm or radians: a thousandth of a millimetre
/// or so, for partings are found no more exactly.
pub(super) const SLACK: f64 = 1e-4;

/// One edge of a region.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Edge {
    /// Keeps the places with p · normal ≥ offset.
    Half { normal: Vec3, offset: f64 },
    /// Keeps what lies within a wedge of the pencil.
    Wedge { pencil: Pencil, from: f64, to: f64 },
}

impl Edge {
    pub(super) fn holds(&self, p: Vec3) -> bool {
        match *self {
            Self::Half { normal, offset } => p.dot(normal) >= offset - SLACK,
            Self::Wedge { pencil, from, to } => within(pencil.angle(p), from, to),
        }
    }

    pub(super) fn mirrored(self) -> Self {
        match self {
            Self::Half { normal, offset } => Self::Half {
                normal: mirrored(normal),
                offset,
            },
            Self::Wedge { pencil, from, to } => Self::Wedge {
                pencil: pencil.mirrored(),
                from,
                to,
            },
        }
    }
}

/// Half-planes that turn about one line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Pencil {
    /// A point of the line inside the head.
    pub centre: Vec3,
    /// The line's direction, outward through the pivot.
    pub axis: Vec3,
    /// The direction of angle 0, square to the axis.
    pub zero: Vec3,
    /// The direction of angle 90°, square to both.
    pub side: Vec3,
}

impl Pencil {
    /// The angle of a place about the line, −π to π.
    pub fn angle(&self, p: Vec3) -> f64 {
        let from = p - self.centre;
        from.dot(self.side).atan2(from.dot(self.zero))
    }

    fn mirrored(self) -> Self {
        Self {
            centre: mirrored(self.centre),
            axis: mirrored(self.axis),
            zero: mirrored(self.zero),
            side: mirrored(self.side),
        }
    }
}

/// The partings of a step: planes side by side, or half-planes about a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Family {
    /// p · normal = value; planes of the greatest and the least value touch the skull at `ends`.
    Parallel {
        normal: Vec3,
        ends: [Vec3; 2],
        /// +1, or −1 in a mirror: which way round its partings are walked.
        hand: f64,
    },
    /// Angle about the pencil's line = value.
    Pencil(Pencil),
}

impl Family {
    /// Planes square to `normal` on this head.
    pub fn parallel(head: &Head, normal: Vec3) -> Self {
        Self::Parallel {
            normal,
            ends: [normal, -normal].map(|n| head.skull().touching(n)),
            hand: 1.0,
        }
    }

    /// The value whose parting runs through a place.
    pub fn value(&self, p: Vec3) -> f64 {
        match self {
            Self::Parallel { normal, .. } => p.dot(*normal),
            Self::Pencil(pencil) => pencil.angle(p),
        }
    }

    pub(super) fn mirrored(self) -> Self {
        match self {
            Self::Parallel { normal, ends, hand } => Self::Parallel {
                normal: mirrored(normal),
                ends: ends.map(mirrored),
                hand: -hand,
            },
            Self::Pencil(pencil) => Self::Pencil(pencil.mirrored()),
        }
    }

    pub(super) fn holds(&self, p: Vec3, from: f64, to: f64) -> bool {
        match self {
            Self::Parallel { .. } => {
                let value = self.value(p);
                (from.min(to) - SLACK..=from.max(to) + SLACK).contains(&value)
            }
            Self::Pencil(_) => within(self.value(p), from, to),
        }
    }
}

/// Whether an angle lies between two, of which one may be written past ±π.
fn within(angle: f64, from: f64, to: f64) -> bool {
    let (low, high) = (from.min(to) - SLACK, from.max(to) + SLACK);
    [angle, angle + TAU, angle - TAU]
        .iter()
        .any(|a| (low..=high).contains(a))
}

/// Left and right changed over.
pub(super) fn mirrored(p: Vec3) -> Vec3 {
    Vec3::new(-p.x, p.y, p.z)
}
