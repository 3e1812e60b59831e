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
//! error estimate of order 4. The last of a step's seven evaluations is the first of the next step's,
//! and it settles the point back onto the surface too, so a step costs six. Between its ends a step
//! is known to order 4 for nothing (Hairer, Nørsett and Wanner, *Solving Ordinary Differential
//! Equations I*, 1993, section II.6).

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

    /// The rate of change here, and what brings a point near the surface back onto it: the gradient
    /// over its square, and F − 1. Without FIELD the Jacobi field stands still.
    #[inline(always)]
    fn rate<S: Convex, const FIELD: bool>(&self, body: &S) -> (Rate, Vec3, f64) {
        let jet = body.jet(self.point);
        let g = jet.gradient / jet.gradient.length_squared();
        let bend = self.tangent.dot(jet.hessian * self.tangent);
        let rate = Rate {
            point: self.tangent,
            tangent: g * -bend,
            spread: if FIELD { self.opening } else { 0.0 },
            opening: if FIELD {
                -jet.gaussian_curvature() * self.spread
            } else {
                0.0
            },
        };
        (rate, g, jet.value - 1.0)
    }

    #[inline(always)]
    fn moved<const N: usize>(&self, h: f64, parts: [(f64, &Rate); N]) -> Self {
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
}

/// A place on a geodesic, ready to go on. With FIELD it carries the Jacobi field along.
#[derive(Clone, Copy)]
pub(super) struct Walker<const FIELD: bool> {
    pub flow: Flow,
    rate: Rate,
}

/// One step: where it leads, its error, and what lies between.
pub(super) struct Stride<const FIELD: bool> {
    pub end: Walker<FIELD>,
    /// Estimated error of the end point in cm.
    pub error: f64,
    /// Point and tangent between the ends: the coefficients that Hairer calls rcont1 to rcont5.
    between: [(Vec3, Vec3); 5],
}

impl<const FIELD: bool> Walker<FIELD> {
    /// At the start of a geodesic, as [`Flow::start`].
    pub(super) fn start<S: Convex>(body: &S, point: Vec3, heading: Vec3) -> Self {
        let flow = Flow::start(body, point, heading);
        let rate = flow.rate::<S, FIELD>(body).0;
        Self { flow, rate }
    }

    /// One step of `h` cm.
    #[inline(always)]
    pub(super) fn step<S: Convex>(&self, body: &S, h: f64) -> Stride<FIELD> {
        let at = &self.flow;
        let rate = |place: Flow| place.rate::<S, FIELD>(body).0;
        let k1 = self.rate;
        let k2 = rate(at.moved(h, [(0.2, &k1)]));
        let k3 = rate(at.moved(h, [(3.0 / 40.0, &k1), (9.0 / 40.0, &k2)]));
        let k4 = rate(at.moved(
            h,
            [(44.0 / 45.0, &k1), (-56.0 / 15.0, &k2), (32.0 / 9.0, &k3)],
        ));
        let k5 = rate(at.moved(
            h,
            [
                (19372.0 / 6561.0, &k1),
                (-25360.0 / 2187.0, &k2),
                (64448.0 / 6561.0, &k3),
                (-212.0 / 729.0, &k4),
            ],
        ));
        let k6 = rate(at.moved(
            h,
            [
                (9017.0 / 3168.0, &k1),
                (-355.0 / 33.0, &k2),
                (46732.0 / 5247.0, &k3),
                (49.0 / 176.0, &k4),
                (-5103.0 / 18656.0, &k5),
            ],
        ));
        let mut flow = at.moved(
            h,
            [
                (35.0 / 384.0, &k1),
                (500.0 / 1113.0, &k3),
                (125.0 / 192.0, &k4),
                (-2187.0 / 6784.0, &k5),
                (11.0 / 84.0, &k6),
            ],
        );
        let (k7, g, height) = flow.rate::<S, FIELD>(body);
        let error = h
            * (k1.point * (71.0 / 57600.0) - k3.point * (71.0 / 16695.0)
                + k4.point * (71.0 / 1920.0)
                - k5.point * (17253.0 / 339200.0)
                + k6.point * (22.0 / 525.0)
                - k7.point * (1.0 / 40.0))
                .length();
        let dense = |y0: Vec3, y1: Vec3, of: fn(&Rate) -> Vec3| {
            let moved = y1 - y0;
            let bent = of(&k1) * h - moved;
            let fifth = (of(&k1) * (-12715105075.0 / 11282082432.0)
                + of(&k3) * (87487479700.0 / 32700410799.0)
                - of(&k4) * (10690763975.0 / 1880347072.0)
                + of(&k5) * (701980252875.0 / 199316789632.0)
                - of(&k6) * (1453857185.0 / 822651844.0)
                + of(&k7) * (69997945.0 / 29380423.0))
                * h;
            [y0, moved, bent, moved - of(&k7) * h - bent, fifth]
        };
        let points = dense(at.point, flow.point, |k| k.point);
        let tangents = dense(at.tangent, flow.tangent, |k| k.tangent);
        // Back onto the surface, and to a unit tangent.
        flow.arc += h;
        flow.point -= g * height;
        let along = g.dot(flow.tangent) / g.length_squared();
        flow.tangent = (flow.tangent - g * along).normalize();
        let rate = Rate {
            point: flow.tangent,
            ..k7
        };
        Stride {
            end: Self { flow, rate },
            error,
            between: std::array::from_fn(|i| (points[i], tangents[i])),
        }
    }

    /// A step whose error is at most `allowed` cm, no longer than `longest`; `h` is the length to try
    /// first and becomes the length to try next.
    #[inline(always)]
    pub(super) fn advance<S: Convex>(
        &self,
        body: &S,
        h: &mut f64,
        longest: f64,
        allowed: f64,
    ) -> Stride<FIELD> {
        loop {
            let tried = h.min(longest);
            let stride = self.step(body, tried);
            let fit = 0.9 * (allowed / stride.error.max(1e-12)).powf(0.2);
            if stride.error <= allowed || tried <= LEAST_STEP * body.size() {
                // A step cut short by `longest` says little about the next one.
                if tried == *h || fit < 1.0 {
                    *h = tried * fit.clamp(0.2, 3.0);
                }
                return stride;
            }
            *h = tried * fit.clamp(0.1, 0.9);
        }
    }
}

impl<const FIELD: bool> Stride<FIELD> {
    /// Point and tangent at this share of the step, to order 4; not quite on the surface.
    #[inline(always)]
    pub(super) fn at(&self, share: f64) -> (Vec3, Vec3) {
        let rest = 1.0 - share;
        let [a, b, c, d, e] = &self.between;
        let sum = |a: Vec3, b: Vec3, c: Vec3, d: Vec3, e: Vec3| {
            a + (b + (c + (d + e * rest) * share) * rest) * share
        };
        (sum(a.0, b.0, c.0, d.0, e.0), sum(a.1, b.1, c.1, d.1, e.1))
    }
}

/// Walks `distance` cm along the geodesic that starts at `point` (on the surface) towards `heading`
/// (laid into the tangent plane).
pub fn walk<S: Convex>(body: &S, point: Vec3, heading: Vec3, distance: f64) -> Flow {
    let mut walker = Walker::<true>::start(body, point, heading);
    let mut h = body.size() / 4.0;
    while distance - walker.flow.arc > 1e-12 {
        let left = distance - walker.flow.arc;
        walker = walker.advance(body, &mut h, left, STEP_ERROR).end;
    }
    walker.flow
}
