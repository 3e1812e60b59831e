//! The ellipsoid: the body that closed forms and published tables speak of.

use super::{Convex, Jet, Vec3};
use glam::DMat3;

/// An ellipsoid around the origin with its axes along x, y and z.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ellipsoid {
    /// Semi-axes in cm, each above zero.
    pub axes: Vec3,
}

impl Ellipsoid {
    /// An ellipsoid with these semi-axes in cm.
    pub const fn new(a: f64, b: f64, c: f64) -> Self {
        Self {
            axes: Vec3::new(a, b, c),
        }
    }

    /// A sphere of this radius in cm.
    pub const fn sphere(radius: f64) -> Self {
        Self::new(radius, radius, radius)
    }
}

impl Convex for Ellipsoid {
    const DEGREE: f64 = 2.0;

    fn jet(&self, p: Vec3) -> Jet {
        let weights = (self.axes * self.axes).recip();
        let scaled = p * weights;
        Jet {
            value: p.dot(scaled),
            gradient: 2.0 * scaled,
            hessian: DMat3::from_diagonal(2.0 * weights),
        }
    }

    fn size(&self) -> f64 {
        self.axes.max_element()
    }
}
