//! The egg: a smooth convex body whose level sections may be fuller or leaner than ellipses.
//!
//! With X = x/a and Y = y/b it is the set where
//!
//! F = (1 − w)(X⁴ + 2k X²Y² + Y⁴) + w(X⁸ + Y⁸) + 2m (X² + Y²) ζ(z) + ζ(z)² ≤ 1.
//!
//! - a and b are the half-breadth and half-length of the widest level section, at z = 0.
//! - k and w follow from one number, the *fullness* f of level sections. f = 0 is an ellipse. Up to
//!   f = 0.7 sections grow square-cornered with k = 1 − f, which makes them up to 7 % longer around;
//!   from there to 1 the share w of the eighth powers grows from 0 to 1, up to 18 %. Below 0 they
//!   grow lozenge-like. The quartic form is convex for 0 ≤ k ≤ 3, the eighth powers always are, and
//!   there is curvature everywhere for 0 < k < 3, w < 1.
//! - m fills upright sections as k does level ones; 1 is an ellipse.
//! - ζ(z) = αz² + βz³ + γz⁴ is a bent z²: ζ is 1 at the top (z = c) and at the bottom (z = −d), so
//!   the body may reach further down than up and still be smooth at its widest section.
//!
//! For f = 0, m = 1, d = c and no bend it is the ellipsoid with semi-axes a, b, c. For f = 0, m = 1
//! it is convex exactly when ζ is; otherwise [`Egg::least_curvature`] measures it.

use super::{Convex, Jet, Vec3};
use glam::DMat3;

/// The share of the quartic term at the top, γc⁴. It keeps ζ convex for d/c up to about 1.7.
const QUARTIC_SHARE: f64 = 0.05;

/// The fullness up to which k alone fills level sections.
const SQUARED: f64 = 0.7;

/// A convex egg; see the module's text for its formula.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Egg {
    /// a: half the breadth, cm.
    pub half_breadth: f64,
    /// b: half the length, cm.
    pub half_length: f64,
    /// f: fullness of level sections; 0 is an ellipse, towards 1 is fuller, below 0 leaner.
    pub level_fullness: f64,
    /// m: 1 makes upright sections ellipses, smaller fills them.
    pub upright: f64,
    /// c: height of the top above the widest section, cm.
    pub top: f64,
    /// d: depth of the bottom below the widest section, cm.
    pub bottom: f64,
    /// α, β and γ of ζ.
    bend: [f64; 3],
}

impl Egg {
    /// An egg of these measures, all in cm and above zero, with the fullness f and m of the
    /// module's text.
    pub fn new(
        half_breadth: f64,
        half_length: f64,
        (top, bottom): (f64, f64),
        level_fullness: f64,
        upright: f64,
    ) -> Self {
        let q = bottom / top;
        // From ζ(c) = 1 and ζ(−d) = 1, in units of c.
        let beta = (1.0 - QUARTIC_SHARE - q.powi(-2) + QUARTIC_SHARE * q * q) / (1.0 + q);
        let alpha = 1.0 - QUARTIC_SHARE - beta;
        Self {
            half_breadth,
            half_length,
            level_fullness,
            upright,
            top,
            bottom,
            bend: [
                alpha / top.powi(2),
                beta / top.powi(3),
                QUARTIC_SHARE / top.powi(4),
            ],
        }
    }

    /// k and w.
    fn level_weights(&self) -> (f64, f64) {
        let f = self.level_fullness;
        (
            1.0 - f.min(SQUARED),
            ((f - SQUARED) / (1.0 - SQUARED)).max(0.0),
        )
    }

    /// ζ, ζ′ and ζ″ at height z.
    fn bent(&self, z: f64) -> (f64, f64, f64) {
        let [a, b, g] = self.bend;
        (
            z * z * (a + z * (b + z * g)),
            z * (2.0 * a + z * (3.0 * b + z * 4.0 * g)),
            2.0 * a + z * (6.0 * b + z * 12.0 * g),
        )
    }

    /// The least normal curvature found on a grid over the surface, in 1/cm. Above zero, the body
    /// is strictly convex.
    pub fn least_curvature(&self) -> f64 {
        let mut least = f64::INFINITY;
        for row in 0..=24 {
            let polar = std::f64::consts::PI * f64::from(row) / 24.0;
            for column in 0..=12 {
                let azimuth = std::f64::consts::FRAC_PI_2 * f64::from(column) / 12.0;
                let direction = Vec3::new(
                    polar.sin() * azimuth.sin() * self.half_breadth,
                    polar.sin() * azimuth.cos() * self.half_length,
                    polar.cos() * self.top,
                );
                let jet = self.jet(self.along(direction));
                let n = jet.gradient.normalize();
                let u = n.any_orthonormal_vector();
                let v = n.cross(u);
                let (uu, vv) = (jet.curvature_along(u), jet.curvature_along(v));
                let uv = u.dot(jet.hessian * v) / jet.gradient.length();
                let mean = (uu + vv) / 2.0;
                least = least.min(mean - ((uu - vv) / 2.0).hypot(uv));
            }
        }
        least
    }
}

impl Convex for Egg {
    const DEGREE: f64 = 4.0;

    fn jet(&self, p: Vec3) -> Jet {
        let (a, b) = (self.half_breadth, self.half_length);
        let (k, w) = self.level_weights();
        let m = self.upright;
        let (x, y) = (p.x / a, p.y / b);
        let (xx, yy) = (x * x, y * y);
        let (x6, y6) = (xx * xx * xx, yy * yy * yy);
        let (bent, bent1, bent2) = self.bent(p.z);
        let flat = xx + yy;
        let upright = 2.0 * (m * flat + bent);
        let v = 1.0 - w;
        let xy = 8.0 * v * k * x * y / (a * b);
        let xz = 4.0 * m * x * bent1 / a;
        let yz = 4.0 * m * y * bent1 / b;
        // ∂F/∂X over X, and what is left of ∂²F/∂X² beside it.
        let gx = 4.0 * (v * (xx + k * yy) + 2.0 * w * x6 + m * bent);
        let gy = 4.0 * (v * (yy + k * xx) + 2.0 * w * y6 + m * bent);
        let hx = 8.0 * v * xx + 48.0 * w * x6;
        let hy = 8.0 * v * yy + 48.0 * w * y6;
        let level = v * (xx * xx + yy * yy + 2.0 * k * xx * yy) + w * (x6 * xx + y6 * yy);
        Jet {
            value: level + bent * (2.0 * m * flat + bent),
            gradient: Vec3::new(gx * x / a, gy * y / b, upright * bent1),
            hessian: DMat3::from_cols(
                Vec3::new((gx + hx) / (a * a), xy, xz),
                Vec3::new(xy, (gy + hy) / (b * b), yz),
                Vec3::new(xz, yz, 2.0 * bent1 * bent1 + upright * bent2),
            ),
        }
    }

    fn size(&self) -> f64 {
        self.half_length
            .max(self.half_breadth)
            .max(self.top)
            .max(self.bottom)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Ellipsoid;

    fn head() -> Egg {
        Egg::new(7.4, 9.5, (8.5, 12.5), 0.3, 0.9)
    }

    #[test]
    fn derivatives_are_those_of_the_value() {
        for fullness in [-0.8, 0.3, 0.9] {
            derivatives_fit(&Egg::new(7.4, 9.5, (8.5, 12.5), fullness, 0.9));
        }
    }

    fn derivatives_fit(egg: &Egg) {
        let p = Vec3::new(3.1, -5.2, 4.4);
        let jet = egg.jet(p);
        let h = 1e-4;
        for i in 0..3 {
            let step = Vec3::AXES[i] * h;
            let slope = (egg.value(p + step) - egg.value(p - step)) / (2.0 * h);
            assert!((slope - jet.gradient[i]).abs() < 1e-6);
            let bend = (egg.jet(p + step).gradient - egg.jet(p - step).gradient) / (2.0 * h);
            assert!((bend - jet.hessian.col(i)).length() < 1e-6);
        }
    }

    #[test]
    fn the_tape_ends_lie_on_it() {
        let egg = head();
        for p in [Vec3::X * 7.4, Vec3::Y * 9.5, Vec3::Z * 8.5, Vec3::Z * -12.5] {
            assert!((egg.value(p) - 1.0).abs() < 1e-12, "{p}");
            assert!(egg.along(p).distance(p) < 1e-9, "{p}");
        }
        assert!(egg.least_curvature() > 0.02);
    }

    #[test]
    fn a_plane_touches_where_the_normal_is_its_own() {
        let egg = head();
        for d in [
            Vec3::Z,
            Vec3::new(0.3, -0.5, 0.8),
            Vec3::new(-1.0, 0.2, -0.4),
        ] {
            let d = d.normalize();
            let p = egg.touching(d);
            assert!(egg.normal(p).distance(d) < 1e-9, "{p}");
            assert!((egg.value(p) - 1.0).abs() < 1e-9);
        }
    }

    #[test]
    fn no_fullness_makes_an_ellipsoid_in_level_sections() {
        let egg = Egg::new(7.4, 9.5, (8.5, 12.5), 0.0, 1.0);
        let round = Ellipsoid::new(7.4, 9.5, 8.5);
        for d in [Vec3::new(1.0, 2.0, 0.0), Vec3::new(-3.0, 1.0, 0.0)] {
            assert!(egg.along(d).distance(round.along(d)) < 1e-9);
        }
    }
}
