//! A geodesic on a convex body, walked forward together with its Jacobi field.
//!
//! On the surface F = 1 a curve of unit speed is a geodesic when it bends only along the normal:
//!
//! p″ = −(t·H t / |∇F|²) ∇F, with t = p′ and H the second derivatives of F.
//!
//! The Jacobi field J says how far a neighbouring geodesic, started at the same point with a heading
//! turned by one radian, has moved aside: J″ = −K J, J(0) = 0, J′(0) = 1, with K the Gaussian
//! curvature (do Carmo, *Differential Geometry of Curves and Surfaces*, 1976, section 5-5).
//!
//! Steps are those of Dormand and Prince, *J. Comput. Appl. Math.* 6 (1980) 19–26, order 5 with an
//! error estimate of order 4; after each the point is settled back onto the surface.

use super::{Convex, Vec3};

/// Largest error of a point that one step of a path may make, in cm. A path takes about ten steps.
pub(super) const STEP_ERROR: f64 = 2e-6;
/// Steps shorter than this share of the body are taken whatever the error: it only happens where a
/// body is far sharper than any head.
const LEAST_STEP: f64 = 1e-5;

/// A place on a geodesic.
#[derive(Clone, Copy, Debug)]
pub struct Flow {
    /// Where, on the surface.
    pub point: Vec3,
    /// The unit tangent there, in the direction of travel.
    pub tangent: Vec3,
    /// J: sideways shift for one radian of turn at the start, in cm.
    pub spread: f64,
    /// J′: how fast the shift grows, without unit.
    pub opening: f64,
    /// Arc length from the start, in cm.
    pub arc: f64,
}

/// What changes with arc length: point, tangent, J and J′.
#[derive(Clone, Copy)]
struct Rate {
    point: Vec3,
    tangent: Vec3,
    spread: f64,
    opening: f64,
}

impl Flow {
    /// The start of a geodesic at `point` on the surface, in the direction of `heading`, which is
    /// laid into the tangent plane.
    pub fn start<S: Convex>(body: &S, point: Vec3, heading: Vec3) -> Self {
        let n = body.normal(point);
        let tangent = heading - n * heading.dot(n);
        Self {
            point,
            tangent: tangent.normalize(),
            spread: 0.0,
            opening: 1.0,
            arc: 0.0,
        }
    }

    fn rate<S: Convex>(&self, body: &S) -> Rate {
        let jet = body.jet(self.point);
        let g = jet.gradient;
        let bend = self.tangent.dot(jet.hessian * self.tangent) / g.length_squared();
        Rate {
            point: self.tangent,
            tangent: g * -bend,
            spread: self.opening,
            opening: -jet.gaussian_curvature() * self.spread,
        }
    }

    fn moved(&self, h: f64, parts: &[(f64, Rate)]) -> Self {
        let mut next = *self;
        for (weight, rate) in parts {
            let w = h * weight;
            next.point += rate.point * w;
            next.tangent += rate.tangent * w;
            next.spread += rate.spread * w;
            next.opening += rate.opening * w;
        }
        next
    }

    /// One step of `h` cm, and the estimated error of its point in cm.
    pub(super) fn step<S: Convex>(&self, body: &S, h: f64) -> (Self, f64) {
        let k1 = self.rate(body);
        let k2 = self.moved(h, &[(0.2, k1)]).rate(body);
        let k3 = self
            .moved(h, &[(3.0 / 40.0, k1), (9.0 / 40.0, k2)])
            .rate(body);
        let k4 = self
            .moved(
                h,
                &[(44.0 / 45.0, k1), (-56.0 / 15.0, k2), (32.0 / 9.0, k3)],
            )
            .rate(body);
        let k5 = self
            .moved(
                h,
                &[
                    (19372.0 / 6561.0, k1),
                    (-25360.0 / 2187.0, k2),
                    (64448.0 / 6561.0, k3),
                    (-212.0 / 729.0, k4),
                ],
            )
            .rate(body);
        let k6 = self
            .moved(
                h,
                &[
                    (9017.0 / 3168.0, k1),
                    (-355.0 / 33.0, k2),
                    (46732.0 / 5247.0, k3),
                    (49.0 / 176.0, k4),
                    (-5103.0 / 18656.0, k5),
                ],
            )
            .rate(body);
        let mut next = self.moved(
            h,
            &[
                (35.0 / 384.0, k1),
                (500.0 / 1113.0, k3),
                (125.0 / 192.0, k4),
                (-2187.0 / 6784.0, k5),
                (11.0 / 84.0, k6),
            ],
        );
        let k7 = next.rate(body);
        let error = h
            * (k1.point * (71.0 / 57600.0) - k3.point * (71.0 / 16695.0)
                + k4.point * (71.0 / 1920.0)
                - k5.point * (17253.0 / 339200.0)
                + k6.point * (22.0 / 525.0)
                - k7.point * (1.0 / 40.0))
                .length();
        next.arc += h;
        next.settle(body);
        (next, error)
    }

    /// Brings the point back onto the surface and the tangent back to a unit tangent.
    fn settle<S: Convex>(&mut self, body: &S) {
        let jet = body.jet(self.point);
        let g = jet.gradient / jet.gradient.length_squared();
        self.point -= g * (jet.value - 1.0);
        let aside = self.tangent - g * self.tangent.dot(jet.gradient);
        self.tangent = aside.normalize();
    }

    /// A step whose error is at most `allowed` cm, no longer than `longest`; `h` is the length to try
    /// first and becomes the length to try next.
    pub(super) fn advance<S: Convex>(
        &self,
        body: &S,
        h: &mut f64,
        longest: f64,
        allowed: f64,
    ) -> Self {
        loop {
            let tried = h.min(longest);
            let (next, error) = self.step(body, tried);
            let fit = 0.9 * (allowed / error.max(1e-12)).powf(0.2);
            if error <= allowed || tried <= LEAST_STEP * body.size() {
                // A step cut short by `longest` says little about the next one.
                if tried == *h || fit < 1.0 {
                    *h = tried * fit.clamp(0.2, 3.0);
                }
                return next;
            }
            *h = tried * fit.clamp(0.1, 0.9);
        }
    }
}

/// Walks `distance` cm along the geodesic that starts at `point` (on the surface) towards `heading`
/// (laid into the tangent plane).
pub fn walk<S: Convex>(body: &S, point: Vec3, heading: Vec3, distance: f64) -> Flow {
    let mut flow = Flow::start(body, point, heading);
    let mut h = body.size() / 4.0;
    while distance - flow.arc > 1e-12 {
        flow = flow.advance(body, &mut h, distance - flow.arc, STEP_ERROR);
    }
    flow
}
