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

use super::{Convex, Jet, Vec3};

/// Largest estimated error of a point that one step of a walk may make, in cm.
const WALK_ERROR: f64 = 2e-6;
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

    /// The rate of change here, where the body's function is this. Without FIELD the Jacobi field
    /// stands still.
    #[inline(always)]
    fn rate<const FIELD: bool>(&self, jet: &Jet) -> Rate {
        let g = jet.gradient;
        let bend = self.tangent.dot(jet.hessian * self.tangent) / g.length_squared();
        let (mut spread, mut opening) = (0.0, 0.0);
        if FIELD {
            spread = self.opening;
            opening = -jet.gaussian_curvature() * self.spread;
        }
        Rate {
            point: self.tangent,
            tangent: g * -bend,
            spread,
            opening,
        }
    }

    /// Brings the point back onto the surface, near which the body's function is this, and the tangent
    /// back to a unit tangent.
    #[inline(always)]
    fn settle(&mut self, jet: &Jet) {
        let g = jet.gradient / jet.gradient.length_squared();
        self.point -= g * (jet.value - 1.0);
        let along = self.tangent.dot(g);
        self.tangent = (self.tangent - jet.gradient * along).normalize();
    }

    #[inline(always)]
    fn moved<const FIELD: bool, const N: usize>(&self, h: f64, parts: [(f64, &Rate); N]) -> Self {
        let mut next = *self;
        for (weight, rate) in parts {
            let w = h * weight;
            next.point += rate.point * w;
            next.tangent += rate.tangent * w;
            if FIELD {
                next.spread += rate.spread * w;
                next.opening += rate.opening * w;
            }
        }
        next
    }
}

/// A place on a geodesic, ready to go on. With FIELD it carries the Jacobi field along.
#[derive(Clone, Copy)]
pub(super) struct Walker<const FIELD: bool> {
    pub flow: Flow,
    /// The outward unit normal.
    pub normal: Vec3,
    rate: Rate,
}

/// One step: from where and where to, its error, and what it needs to tell what lies between.
pub(super) struct Stride<const FIELD: bool> {
    from: Walker<FIELD>,
    pub end: Walker<FIELD>,
    /// Estimated error of the end point in cm.
    error: f64,
    /// Its third to seventh rates.
    rates: [Rate; 5],
}

/// What lies between the ends of a step: the coefficients of point and tangent that Hairer calls rcont1
/// to rcont5.
pub(super) struct Between([(Vec3, Vec3); 5]);

impl<const FIELD: bool> Walker<FIELD> {
    /// At the start of a geodesic, as [`Flow::start`].
    pub(super) fn start<S: Convex>(body: &S, point: Vec3, heading: Vec3) -> Self {
        Self::at(Flow::start(body, point, heading), &body.jet(point))
    }

    /// At a place of a geodesic where the body's function is this.
    #[inline(always)]
    pub(super) fn at(flow: Flow, jet: &Jet) -> Self {
        Self {
            flow,
            normal: jet.gradient.normalize(),
            rate: flow.rate::<FIELD>(jet),
        }
    }

    /// One step of `h` cm.
    #[inline(always)]
    pub(super) fn step<S: Convex>(&self, body: &S, h: f64) -> Stride<FIELD> {
        let at = &self.flow;
        let rate = |place: Flow| place.rate::<FIELD>(&body.jet(place.point));
        let k1 = self.rate;
        let k2 = rate(at.moved::<FIELD, _>(h, [(0.2, &k1)]));
        let k3 = rate(at.moved::<FIELD, _>(h, [(3.0 / 40.0, &k1), (9.0 / 40.0, &k2)]));
        let k4 = rate(at.moved::<FIELD, _>(
            h,
            [(44.0 / 45.0, &k1), (-56.0 / 15.0, &k2), (32.0 / 9.0, &k3)],
        ));
        let k5 = rate(at.moved::<FIELD, _>(
            h,
            [
                (19372.0 / 6561.0, &k1),
                (-25360.0 / 2187.0, &k2),
                (64448.0 / 6561.0, &k3),
                (-212.0 / 729.0, &k4),
            ],
        ));
        let k6 = rate(at.moved::<FIELD, _>(
            h,
            [
                (9017.0 / 3168.0, &k1),
                (-355.0 / 33.0, &k2),
                (46732.0 / 5247.0, &k3),
                (49.0 / 176.0, &k4),
                (-5103.0 / 18656.0, &k5),
            ],
        ));
        let mut flow = at.moved::<FIELD, _>(
            h,
            [
                (35.0 / 384.0, &k1),
                (500.0 / 1113.0, &k3),
                (125.0 / 192.0, &k4),
                (-2187.0 / 6784.0, &k5),
                (11.0 / 84.0, &k6),
            ],
        );
        let jet = body.jet(flow.point);
        let mut k7 = flow.rate::<FIELD>(&jet);
        let error = h
            * (k1.point * (71.0 / 57600.0) - k3.point * (71.0 / 16695.0)
                + k4.point * (71.0 / 1920.0)
                - k5.point * (17253.0 / 339200.0)
                + k6.point * (22.0 / 525.0)
                - k7.point * (1.0 / 40.0))
                .length();
        flow.settle(&jet);
        flow.arc += h;
        k7.point = flow.tangent;
        Stride {
            from: *self,
            end: Self {
                flow,
                normal: jet.gradient.normalize(),
                rate: k7,
            },
            error,
            rates: [k3, k4, k5, k6, k7],
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
            // The error grows with the fifth power of the step; the fourth root is cheaper and errs
            // to the safe side where it matters, on the way down.
            let fit = 0.8 * (allowed / stride.error.max(1e-12)).sqrt().sqrt();
            if stride.error <= allowed || tried <= LEAST_STEP * body.size() {
                // A step cut short by `longest` says little about the next one.
                if tried == *h || fit < 1.0 {
                    *h = tried * fit.clamp(0.2, 1.6);
                }
                return stride;
            }
            *h = tried * fit.clamp(0.1, 0.9);
        }
    }
}

impl<const FIELD: bool> Stride<FIELD> {
    /// How long the step is, in cm.
    pub(super) fn length(&self) -> f64 {
        self.end.flow.arc - self.from.flow.arc
    }

    /// What lies between its ends.
    #[inline(always)]
    pub(super) fn between(&self) -> Between {
        let h = self.length();
        let [k3, k4, k5, k6, k7] = &self.rates;
        let k1 = &self.from.rate;
        let between = |y0: Vec3, y1: Vec3, of: fn(&Rate) -> Vec3| {
            let moved = y1 - y0;
            let bent = of(k1) * h - moved;
            let fifth = (of(k1) * (-12715105075.0 / 11282082432.0)
                + of(k3) * (87487479700.0 / 32700410799.0)
                - of(k4) * (10690763975.0 / 1880347072.0)
                + of(k5) * (701980252875.0 / 199316789632.0)
                - of(k6) * (1453857185.0 / 822651844.0)
                + of(k7) * (69997945.0 / 29380423.0))
                * h;
            [y0, moved, bent, moved - of(k7) * h - bent, fifth]
        };
        let (from, to) = (&self.from.flow, &self.end.flow);
        let points = between(from.point, to.point, |k| k.point);
        let tangents = between(from.tangent, to.tangent, |k| k.tangent);
        Between(std::array::from_fn(|i| (points[i], tangents[i])))
    }

    /// The place at this share of the step: with FIELD by a real step, without it by what lies between
    /// the ends.
    #[inline(always)]
    pub(super) fn place<S: Convex>(&self, body: &S, between: &Between, share: f64) -> Flow {
        let h = share * self.length();
        if FIELD {
            return self.from.step(body, h).end.flow;
        }
        let mut flow = self.from.flow;
        (flow.point, flow.tangent) = between.at(share);
        flow.arc += h;
        flow.settle(&body.jet(flow.point));
        flow
    }

    /// The same step as far as this share of it.
    pub(super) fn part<S: Convex>(&self, body: &S, share: f64) -> Self {
        self.from.step(body, share * self.length())
    }
}

impl Between {
    /// Point and tangent at this share of the step, to order 4; not quite on the surface.
    #[inline(always)]
    pub(super) fn at(&self, share: f64) -> (Vec3, Vec3) {
        let rest = 1.0 - share;
        let [a, b, c, d, e] = &self.0;
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
    let mut h = body.size() / 8.0;
    while distance - walker.flow.arc > 1e-12 {
        let left = distance - walker.flow.arc;
        walker = walker.advance(body, &mut h, left, WALK_ERROR).end;
    }
    walker.flow
}
