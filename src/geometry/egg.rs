//! The egg: a smooth convex body whose level sections may be fuller or leaner than ellipses.
//!
//! With X = x/a and Y = y/b it is the set where
//!
//! F = (1 − w)(X⁴ + 2k X²Y² + Y⁴) + w(X⁸ + Y⁸) + 2M (X² + Y²) ζ(z) + ζ(z)² ≤ 1.
//!
//! - a and b are the half-breadth and half-length of the widest level section, at z = 0.
//! - k and w follow from one number, the *fullness* f of level sections. f = 0 is an ellipse. Up to
//!   f = 0.7 sections grow square-cornered with k = 1 − f, which makes them up to 7 % longer around;
//!   from there to 1 the share w of the eighth powers grows from 0 to 1, up to 18 %. Below 0 they
//!   grow lozenge-like. The quartic form is convex for 0 ≤ k ≤ 3, the eighth powers always are, and
//!   there is curvature everywhere for 0 < k < 3, w < 1.
//! - M = m + κ σ(−Y) + λ σ(z/c) fills upright sections as k does level ones; 1 is an ellipse, less is
//!   squarer, more is leaner. m holds everywhere, κ is what the back has of its own and λ the top:
//!   σ(u) = (½ + u/(1 + u²))² is 0 at u = −1, a quarter at 0, 1 at u = 1 and never leaves 0 to 1, so
//!   that M stays above zero however far outside the body it is asked. The widest level section does
//!   not know M, and surface normals stay level all along it, since ζ and ζ′ are zero there.
//! - ζ(z) = αz² + βz³ + γz⁴ is a bent z²: ζ is 1 at the top (z = c) and at the bottom (z = −d), so
//!   the body may reach further down than up and still be smooth at its widest section.
//!
//! For f = 0, M = 1, d = c and no bend it is the ellipsoid with semi-axes a, b, c. For f = 0, M = 1
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
    /// κ and λ: how much leaner (above 0) or squarer (below) the upright profile is at the back and
    /// at the top; both 0 unless [`Egg::shaped`].
    own: Option<(f64, f64)>,
    /// α, β and γ of ζ.
    bend: [f64; 3],
    /// 1/a, 1/b and 1/c, since the function is asked for millions of times.
    inverse: Vec3,
    /// k and w.
    level: (f64, f64),
}

/// M of the module's text at a place, with its slope and bend along Y and along z.
struct Upright {
    m: f64,
    along_y: [f64; 2],
    along_z: [f64; 2],
}

/// σ of the module's text and its first and second derivative, given r = 1/(1 + u²) too.
fn swell(u: f64, r: f64) -> [f64; 3] {
    let g = 0.5 + u * r;
    let g1 = (1.0 - u * u) * r * r;
    let g2 = 2.0 * u * (u * u - 3.0) * r * r * r;
    [g * g, 2.0 * g * g1, 2.0 * (g1 * g1 + g * g2)]
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
            own: None,
            bend: [
                alpha / top.powi(2),
                beta / top.powi(3),
                QUARTIC_SHARE / top.powi(4),
            ],
            inverse: Vec3::new(1.0 / half_breadth, 1.0 / half_length, 1.0 / top),
            level: (
                1.0 - level_fullness.min(SQUARED),
                ((level_fullness - SQUARED) / (1.0 - SQUARED)).max(0.0),
            ),
        }
    }

    /// The same egg with κ for the back and λ for the top, both without a unit. m − |κ| − |λ| has
    /// to stay above zero; zero for both is the egg itself.
    #[must_use]
    pub fn shaped(self, back: f64, top: f64) -> Self {
        let own = (back != 0.0 || top != 0.0).then_some((back, top));
        Self { own, ..self }
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

    /// M and its derivatives at Y and z.
    #[inline]
    fn upright_at(&self, y: f64, z: f64) -> Upright {
        let (back, top) = self.own.unwrap_or_default();
        let ic = self.inverse.z;
        let t = z * ic;
        // One division for both: it is the dearest step here.
        let (of_y, of_t) = (1.0 + y * y, 1.0 + t * t);
        let r = 1.0 / (of_y * of_t);
        let [at_back, back1, back2] = swell(-y, r * of_t);
        let [at_top, top1, top2] = swell(t, r * of_y);
        Upright {
            m: self.upright + back * at_back + top * at_top,
            along_y: [-back * back1, back * back2],
            along_z: [top * top1 * ic, top * top2 * ic * ic],
        }
    }

    /// F and its derivatives; `SHAPED` tells whether M changes along Y and z, and what is added for
    /// that is left out when it does not.
    #[inline]
    fn jet_of<const SHAPED: bool>(&self, p: Vec3) -> Jet {
        let Vec3 { x: ia, y: ib, .. } = self.inverse;
        let (k, w) = self.level;
        let (x, y) = (p.x * ia, p.y * ib);
        let Upright {
            m,
            along_y: [my, myy],
            along_z: [mz, mzz],
        } = if SHAPED {
            self.upright_at(y, p.z)
        } else {
            Upright {
                m: self.upright,
                along_y: [0.0; 2],
                along_z: [0.0; 2],
            }
        };
        let plus = |even: f64, own: f64| if SHAPED { even + own } else { even };
        let (xx, yy) = (x * x, y * y);
        let (x6, y6) = (xx * xx * xx, yy * yy * yy);
        let (bent, bent1, bent2) = self.bent(p.z);
        let flat = xx + yy;
        let upright = 2.0 * (m * flat + bent);
        // ∂(M ζ)/∂z.
        let risen = plus(m * bent1, mz * bent);
        let v = 1.0 - w;
        let xy = plus(8.0 * v * k * x * y, 4.0 * x * bent * my) * ia * ib;
        let xz = 4.0 * x * risen * ia;
        let yz = plus(4.0 * y * risen, 2.0 * flat * my * bent1) * ib;
        // ∂F/∂X over X, and what is left of ∂²F/∂X² beside it.
        let gx = 4.0 * (v * (xx + k * yy) + 2.0 * w * x6 + m * bent);
        let gy = 4.0 * (v * (yy + k * xx) + 2.0 * w * y6 + m * bent);
        let hx = 8.0 * v * xx + 48.0 * w * x6;
        let hy = plus(
            8.0 * v * yy + 48.0 * w * y6,
            2.0 * bent * (4.0 * y * my + flat * myy),
        );
        let level = v * (xx * xx + yy * yy + 2.0 * k * xx * yy) + w * (x6 * xx + y6 * yy);
        let zz = plus(
            2.0 * bent1 * bent1 + upright * bent2,
            2.0 * flat * (2.0 * mz * bent1 + mzz * bent),
        );
        Jet {
            value: level + bent * (2.0 * m * flat + bent),
            gradient: Vec3::new(
                gx * x * ia,
                plus(gy * y, 2.0 * bent * flat * my) * ib,
                plus(upright * bent1, 2.0 * flat * mz * bent),
            ),
            hessian: DMat3::from_cols(
                Vec3::new((gx + hx) * ia * ia, xy, xz),
                Vec3::new(xy, (gy + hy) * ib * ib, yz),
                Vec3::new(xz, yz, zz),
            ),
        }
    }

    /// The least normal curvature found on a grid over the surface, in 1/cm. Above zero, the body
    /// is strictly convex.
    pub fn least_curvature(&self) -> f64 {
        let mut least = f64::INFINITY;
        // Left and right are alike; front and back are too, unless shaped.
        let last = if self.own.is_some() { 24 } else { 12 };
        for row in 0..=24 {
            let polar = std::f64::consts::PI * f64::from(row) / 24.0;
            for column in 0..=last {
                let azimuth = std::f64::consts::PI * f64::from(column) / 24.0;
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
        if self.own.is_some() {
            self.jet_of::<true>(p)
        } else {
            self.jet_of::<false>(p)
        }
    }

    fn slope(&self, p: Vec3) -> (f64, Vec3) {
        // The second derivatives are left out where nobody asks for them.
        let jet = if self.own.is_some() {
            self.jet_of::<true>(p)
        } else {
            self.jet_of::<false>(p)
        };
        (jet.value, jet.gradient)
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
            for (back, top) in [(0.0, 0.0), (-0.3, 0.0), (0.25, -0.3), (0.0, 0.3)] {
                let egg = Egg::new(7.4, 9.5, (8.5, 12.5), fullness, 0.9).shaped(back, top);
                for p in [Vec3::new(3.1, -5.2, 4.4), Vec3::new(-5.0, 4.0, -3.0)] {
                    derivatives_fit(&egg, p);
                }
            }
        }
    }

    fn derivatives_fit(egg: &Egg, p: Vec3) {
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

    /// Shaping the back and the top leaves the widest level section, the tape ends and the mirror
    /// image exactly as they are, and a place far away stays outside.
    #[test]
    fn shapes_keep_the_widest_section() {
        let even = head();
        let shaped = even.shaped(-0.35, 0.3);
        assert_eq!(even, even.shaped(0.0, 0.0));
        for degrees in 0..36 {
            let turn = f64::from(degrees * 10).to_radians();
            let level = Vec3::new(turn.sin(), turn.cos(), 0.0);
            let on = shaped.along(level);
            assert!(on.distance(even.along(level)) < 1e-12);
            assert_eq!(shaped.jet(on).gradient.z, 0.0);
            for z in [-60.0, -20.0, 0.0, 20.0, 60.0] {
                assert!(shaped.value(level * 30.0 + Vec3::Z * z) > 1.0);
            }
            let up = Vec3::new(turn.sin(), turn.cos(), 0.7);
            let mirrored = shaped.along(Vec3::new(-up.x, up.y, up.z));
            assert_eq!(shaped.along(up) * Vec3::new(-1.0, 1.0, 1.0), mirrored);
        }
        for p in [Vec3::Z * 8.5, Vec3::Z * -12.5] {
            assert!((shaped.value(p) - 1.0).abs() < 1e-12);
        }
    }

    /// Upright profiles through the middle: a flat back runs straighter up and down and turns
    /// later than an even one, a full one rounds at once; the top likewise.
    #[test]
    fn flat_is_flat_and_full_is_round() {
        let bends = |egg: Egg| {
            [Vec3::NEG_Y, Vec3::Z].map(|d| {
                let on = egg.along(d);
                let along = if d == Vec3::Z { Vec3::Y } else { Vec3::Z };
                egg.jet(on).curvature_along(along)
            })
        };
        let [flat, even, round] = [-0.3, 0.0, 0.3].map(|s| bends(head().shaped(s, s)));
        for i in 0..2 {
            assert!(flat[i] < 0.85 * even[i] && even[i] < 0.9 * round[i], "{i}");
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
