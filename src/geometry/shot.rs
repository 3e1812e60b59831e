//! One shot: a geodesic walked until it can see the target, and how it missed;
//! [`super::taut`](mod@super::taut) says what for.

use super::geodesic::{Flow, Stride, Walker};
use super::{Convex, Jet, Target, Vec3};

/// More rounds than halving a step down to nothing needs.
const ROUNDS: usize = 60;

/// How exactly a geodesic is walked.
#[derive(Clone, Copy)]
pub(super) struct Care {
    /// Error of a step, cm.
    pub step: f64,
    /// What leaving at not quite the right place may cost, cm.
    pub kink: f64,
    /// How much longer than the path that meets the target a path may be and count as met, cm.
    pub met: f64,
    /// How long a whole path may grow, cm.
    pub longest: f64,
    /// The step to try first, as a share of the body's size.
    pub first: f64,
}

/// For the path itself. The error of a step is estimated for the fourth order; the fifth, with which
/// the walk goes on, errs by less than a tenth of it.
pub(super) const CAREFUL: Care = Care {
    step: 3e-5,
    kink: 1e-7,
    met: 1e-6,
    longest: f64::INFINITY,
    first: 0.2,
};

/// For coming close to a heading.
pub(super) const MIDDLE: Care = Care {
    step: 3e-3,
    kink: 1e-5,
    met: 2e-3,
    longest: f64::INFINITY,
    first: 0.35,
};

/// For seeing only to which side a heading passes.
pub(super) const ROUGH: Care = Care {
    step: 1e-2,
    kink: 1e-3,
    met: 1e-1,
    longest: f64::INFINITY,
    first: 0.5,
};

/// Where a shot ended and how it missed.
#[derive(Clone, Copy)]
pub(super) struct Shot {
    pub flow: Flow,
    /// Nearest point of the target to where the geodesic leaves.
    pub nearest: Vec3,
    /// The straight part of the path, in cm.
    gap: f64,
    /// Towards the target: along the tangent, and to the left of it. In cm, but for a plane, whose
    /// direction alone counts: it is the same however near the plane is.
    pub ahead: f64,
    pub aside: f64,
    /// How far `aside` changes for a radian of turn at the root.
    pub lever: f64,
    /// Whether the target is a plane.
    plane: bool,
}

impl Shot {
    pub(super) fn length(&self) -> f64 {
        self.flow.arc + self.gap
    }

    /// How long what it misses by is measured against.
    fn reach(&self) -> f64 {
        (self.ahead * self.ahead + self.aside * self.aside).sqrt()
    }

    /// How far to turn the heading at the root, to first order. None past a focus, where
    /// neighbouring paths cross and the first order says nothing.
    pub(super) fn turn(&self) -> Option<f64> {
        let reach = self.reach();
        (self.lever > 1e-3 * reach.max(1e-9)).then(|| self.aside / self.lever)
    }

    /// How far the path's end moves aside for a radian of turn at the root, as a share of its length;
    /// to a plane, how much its direction there turns.
    pub(super) fn spreads(&self) -> f64 {
        self.lever / if self.plane { 1.0 } else { self.length() }
    }

    /// What a path that starts within `turn` of this one and meets the target will not come below, in
    /// cm: the length changes by J sin of what it misses by, J is no longer than the arc, and it misses
    /// by less all the way there.
    pub(super) fn least(&self, turn: f64) -> f64 {
        let reach = self.reach().max(1e-9);
        self.length() - self.flow.arc * (self.aside / reach).abs() * turn
    }

    /// How much longer than the path that meets the target it may be, to second order, in cm: what
    /// the kink costs, and what is gained by turning the heading.
    pub(super) fn excess(&self) -> f64 {
        let reach = self.reach();
        if reach <= 0.0 {
            return 0.0;
        }
        let bend = 1.0 - self.ahead / reach;
        let arm = if self.lever > 0.0 {
            reach * self.flow.spread / self.lever
        } else {
            0.0
        };
        bend * self.gap.max(arm)
    }
}

/// From where to what is shot.
pub(super) struct Range<'a, S> {
    pub body: &'a S,
    pub root: Vec3,
    pub target: &'a Target,
    /// Towards a plane, from the root's side; zero for other targets.
    pub down: Vec3,
    /// The body's function at the root.
    jet: Jet,
}

impl<'a, S: Convex> Range<'a, S> {
    pub(super) fn new(body: &'a S, root: Vec3, target: &'a Target) -> Self {
        let down = match *target {
            Target::Plane { through, normal } => normal * (through - root).dot(normal).signum(),
            _ => Vec3::ZERO,
        };
        Self {
            body,
            root,
            target,
            down,
            jet: body.jet(root),
        }
    }

    /// Above zero where the target can be seen: how far its nearest point stands above the tangent
    /// plane at `p`, in cm. A plane is seen where the surface turns under towards it, or crosses it.
    #[inline(always)]
    fn seen(&self, p: Vec3, normal: Vec3) -> f64 {
        match *self.target {
            Target::Plane { through, .. } => {
                let under = normal.dot(self.down) * self.body.size();
                under.max((p - through).dot(self.down))
            }
            _ => normal.dot(self.target.nearest(p) - p),
        }
    }

    /// How far ahead, along `tangent`, the target's nearest point lies from `p`, in cm.
    #[inline(always)]
    fn ahead(&self, (p, tangent): (Vec3, Vec3)) -> f64 {
        match *self.target {
            Target::Plane { .. } => self.down.dot(tangent),
            _ => (self.target.nearest(p) - p).dot(tangent),
        }
    }

    /// Walks the geodesic that starts along the unit tangent `heading` to the first place that sees the
    /// target, or, if it passes by without seeing it, to the place abreast of it.
    pub(super) fn shoot<const FIELD: bool>(&self, heading: Vec3, care: Care) -> Shot {
        let start = Flow {
            point: self.root,
            tangent: heading,
            spread: 0.0,
            opening: 1.0,
            arc: 0.0,
        };
        let mut walker = Walker::<FIELD>::at(start, &self.jet);
        let longest = 4.0 * self.body.size();
        let mut h = self.body.size() * care.first;
        let mut seen = self.seen(self.root, walker.normal);
        let mut ahead = self.ahead((self.root, heading));
        while walker.flow.arc < longest
            && walker.flow.arc + self.gap(walker.flow.point) <= care.longest
        {
            let left = longest - walker.flow.arc;
            let stride = walker.advance(self.body, &mut h, left, care.step);
            let end = &stride.end;
            let seen_then = self.seen(end.flow.point, end.normal);
            let ahead_then = self.ahead((end.flow.point, end.flow.tangent));
            if seen_then >= 0.0 {
                return self.measured(self.sight(&stride, (seen, seen_then), care));
            }
            // Abreast of it on this side of the body, not across the body from it.
            if ahead > 0.0 && ahead_then <= 0.0 && self.this_side(end.flow.point) {
                let (abreast, share) = self.abreast(&stride, (ahead, ahead_then), care);
                // A target close to the surface may come into sight and go within one step.
                let seen_there = self.seen(abreast.point, self.body.normal(abreast.point));
                return self.measured(if seen_there > 0.0 {
                    let short = stride.part(self.body, share);
                    self.sight(&short, (seen, seen_there), care)
                } else {
                    abreast
                });
            }
            (walker, seen, ahead) = (stride.end, seen_then, ahead_then);
        }
        self.measured(walker.flow)
    }

    fn gap(&self, p: Vec3) -> f64 {
        self.target.nearest(p).distance(p)
    }

    fn this_side(&self, p: Vec3) -> bool {
        matches!(self.target, Target::Plane { .. }) || p.dot(self.target.nearest(p)) > 0.0
    }

    /// How a geodesic that leaves here misses.
    fn measured(&self, flow: Flow) -> Shot {
        let nearest = self.target.nearest(flow.point);
        let gap = nearest.distance(flow.point);
        let jet = self.body.jet(flow.point);
        let normal = jet.gradient.normalize();
        let left = normal.cross(flow.tangent);
        if let Target::Plane { .. } = self.target {
            let above = -self.down.dot(normal);
            let slope = (1.0 - above * above).max(1e-12).sqrt();
            let (ahead, aside) = (self.down.dot(flow.tangent), self.down.dot(left));
            // Where the plane cuts the body, the way to it turns with the surface.
            let turns = above.max(0.0) * jet.curvature_along(left) / slope;
            return Shot {
                ahead: ahead / slope,
                aside: aside / slope,
                lever: flow.opening - turns * flow.spread,
                plane: true,
                nearest,
                gap,
                flow,
            };
        }
        let to = nearest - flow.point;
        let ahead = to.dot(flow.tangent);
        let shift = flow.spread * (1.0 - self.target.follows(flow.point, left));
        Shot {
            ahead,
            aside: to.dot(left),
            lever: shift + ahead.max(0.0) * flow.opening,
            plane: false,
            nearest,
            gap,
            flow,
        }
    }

    /// The place within a step where the target comes into sight, given how far it is seen at the ends.
    fn sight<const FIELD: bool>(
        &self,
        stride: &Stride<FIELD>,
        ends: (f64, f64),
        care: Care,
    ) -> Flow {
        let measure = |place: (Vec3, Vec3)| {
            let m = self.seen(place.0, self.body.normal(place.0));
            if let Target::Plane { .. } = self.target {
                return (m, m.abs() <= 100.0 * care.kink);
            }
            // A gap of g whose end is m out of line is m²/2g longer than straight. A target goes out
            // of sight behind as it came into sight ahead.
            let near = m * m <= 2.0 * care.kink * self.gap(place.0) && self.ahead(place) >= 0.0;
            (m, near)
        };
        self.within(stride, ends, measure).0
    }

    /// The place within a step where the target lies abreast, and at which share of it, given how far
    /// ahead it lies at the ends.
    fn abreast<const FIELD: bool>(
        &self,
        stride: &Stride<FIELD>,
        ends: (f64, f64),
        care: Care,
    ) -> (Flow, f64) {
        let measure = |place: (Vec3, Vec3)| {
            let m = self.ahead(place);
            (m, m * m <= 2.0 * care.kink * self.gap(place.0))
        };
        self.within(stride, ends, measure)
    }

    /// The place within a step where a measure, of opposite sign at its ends, is near enough to zero, as
    /// it says itself: first by what the step says lies between its ends, then, where that was not near
    /// enough, by real steps.
    #[inline(always)]
    fn within<const FIELD: bool>(
        &self,
        stride: &Stride<FIELD>,
        ends: (f64, f64),
        measure: impl Fn((Vec3, Vec3)) -> (f64, bool),
    ) -> (Flow, f64) {
        let between = stride.between();
        let share = illinois(ends, |share| measure(between.at(share)));
        let there = stride.place(self.body, &between, share);
        if !FIELD || measure((there.point, there.tangent)).1 {
            return (there, share);
        }
        let mut place = there;
        let share = illinois(ends, |share| {
            place = stride.place(self.body, &between, share);
            measure((place.point, place.tangent))
        });
        (place, share)
    }
}

/// Where between 0 and 1 `f`, which has these values of opposite sign there, is near enough to zero,
/// as it says itself. Regula falsi with the Illinois rule (Dowell and Jarratt, *BIT* 11 (1971)
/// 168–174). The place returned is the last that was asked for.
#[inline(always)]
fn illinois((mut at_low, mut at_high): (f64, f64), mut f: impl FnMut(f64) -> (f64, bool)) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    let mut before = at_high;
    let mut share = 1.0;
    for _ in 0..ROUNDS {
        share = low + (high - low) * (at_low / (at_low - at_high)).clamp(0.02, 0.98);
        let (here, near) = f(share);
        if near || high - low < 1e-10 {
            break;
        }
        let same_side = (here < 0.0) == (before < 0.0);
        before = here;
        if (here < 0.0) == (at_low < 0.0) {
            (low, at_low) = (share, here);
            at_high = if same_side { at_high / 2.0 } else { at_high };
        } else {
            (high, at_high) = (share, here);
            at_low = if same_side { at_low / 2.0 } else { at_low };
        }
    }
    share
}
