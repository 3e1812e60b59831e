//! What a string may be pulled to: a point, a straight line between two points, or a plane.

use super::Vec3;

/// Where a taut path ends. Every kind is a convex set, so it has one nearest point to any place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Target {
    /// One point.
    Point(Vec3),
    /// A straight line with two ends, such as the line of the fingers.
    Segment(Vec3, Vec3),
    /// A plane through `through` with unit normal `normal`, such as a level at a landmark.
    Plane {
        /// Any point on the plane.
        through: Vec3,
        /// Its unit normal, either way round.
        normal: Vec3,
    },
}

impl Target {
    /// The level plane at height `z` in cm.
    pub const fn level(z: f64) -> Self {
        Self::Plane {
            through: Vec3::new(0.0, 0.0, z),
            normal: Vec3::Z,
        }
    }

    /// The point of the target nearest to `p`, as the crow flies.
    pub fn nearest(&self, p: Vec3) -> Vec3 {
        match *self {
            Self::Point(point) => point,
            Self::Segment(from, to) => {
                let along = to - from;
                let length = along.length_squared();
                if length <= 0.0 {
                    return from;
                }
                from + along * ((p - from).dot(along) / length).clamp(0.0, 1.0)
            }
            Self::Plane { through, normal } => p - normal * (p - through).dot(normal),
        }
    }

    /// How far the nearest point follows a place that moves one unit along the unit vector `aside`,
    /// measured along it: not at all at a point or a line's end, all the way on a plane it lies in.
    pub(super) fn follows(&self, nearest: Vec3, aside: Vec3) -> f64 {
        match *self {
            Self::Point(_) => 0.0,
            Self::Segment(from, to) if nearest == from || nearest == to => 0.0,
            Self::Segment(from, to) => {
                let along = to - from;
                aside.dot(along).powi(2) / along.length_squared()
            }
            Self::Plane { normal, .. } => 1.0 - aside.dot(normal).powi(2),
        }
    }
}
