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
            Self::Segment(from, to) => from + (to - from) * share(p, from, to),
            Self::Plane { through, normal } => p - normal * (p - through).dot(normal),
        }
    }

    /// How far the point nearest to `p` follows when `p` moves one unit along the unit vector
    /// `aside`, measured along it: not at all at a point or a line's end.
    pub(super) fn follows(&self, p: Vec3, aside: Vec3) -> f64 {
        match *self {
            Self::Point(_) => 0.0,
            Self::Segment(from, to) => {
                let along = to - from;
                let inside = (1e-9..1.0 - 1e-9).contains(&share(p, from, to));
                let share = aside.dot(along).powi(2) / along.length_squared();
                if inside { share } else { 0.0 }
            }
            Self::Plane { normal, .. } => 1.0 - aside.dot(normal).powi(2),
        }
    }
}

/// How far along the line between two points its point nearest to `p` lies, 0 to 1.
fn share(p: Vec3, from: Vec3, to: Vec3) -> f64 {
    let along = to - from;
    let length = along.length_squared();
    if length <= 0.0 {
        return 0.0;
    }
    ((p - from).dot(along) / length).clamp(0.0, 1.0)
}
