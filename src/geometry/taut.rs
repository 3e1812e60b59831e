//! The taut length: the shortest path from a root on a convex body, outside it, to a target.
//!
//! # Why the method is right
//! The shortest path outside a convex body from a point on its surface to a convex target is
//! straight if the target's nearest point can be seen from the root. Otherwise it is a geodesic on
//! the surface that leaves it along its tangent and then runs straight, meeting the target where
//! the target is nearest to the leaving point: at the point itself, at right angles to a line or a
//! plane, or at a line's end. These are the first-order conditions of the length (first variation);
//! a path that fails one can be shortened.
//!
//! So there is one unknown, the heading θ at the root. [`shoot`] walks the geodesic of heading θ to
//! the first place from which the nearest point of the target lies in the tangent plane, and sees
//! how far the target then lies to the side. That offset is continuous in θ and positive to one side
//! of the solution, negative to the other. Newton's step uses the Jacobi field, which is exact to
//! first order; each shot also tightens a bracket, and a step that leaves the bracket is replaced by
//! halving it, so the search cannot run away and always ends.
//!
//! Every shot is a real path outside the body with one kink where it leaves, so what is returned is
//! never shorter than the truth but for the step error of the geodesic, and longer by at most
//! [`KINK`] cm.
//!
//! Far round the body, where the path may run round either side, all headings are scanned first and
//! the shortest of the paths found wins. To a plane the path is the one that starts down the steepest
//! way towards it, as hair falls; from the very top several may be as good. The *length* is unique even where two paths share it.

use super::{
    Convex, Target, Vec3,
    geodesic::{Flow, STEP_ERROR},
};

/// How much longer than the shortest the returned path may be for its kink, in cm.
const KINK: f64 = 1e-6;
/// How exactly a geodesic is walked: the error of a step, how close to the tangent plane the target
/// must come to count as just in sight, and how long a whole path may grow, all in cm.
#[derive(Clone, Copy)]
struct Care {
    step: f64,
    sight: f64,
    longest: f64,
}

/// For the path itself.
const CAREFUL: Care = Care {
    step: STEP_ERROR,
    sight: 1e-4,
    longest: f64::INFINITY,
};
/// For seeing only to which side a heading passes.
const ROUGH: Care = Care {
    step: 1e-2,
    sight: 0.1,
    longest: f64::INFINITY,
};
/// How far a root may lie off the surface before it is refused, in cm: a hundredth of a hair's
/// section, and more than the rounding of three decimals.
const ROOT_SLACK: f64 = 0.01;
/// Beyond this cosine between the root and the target, seen from inside the body, a path may run
/// round either side.
const FAR_ROUND: f64 = 0.0;
/// Headings tried when the path may run round either side.
const SCAN: usize = 12;
/// More rounds than halving a full turn down to 1e-12 needs.
const ROUNDS: usize = 60;

/// The shortest path from a root to a target.
#[derive(Clone, Copy, Debug)]
pub struct Taut {
    /// Its whole length in cm.
    pub length: f64,
    /// How much of it lies on the body, in cm; zero when it is straight.
    pub wrapped: f64,
    /// Where it leaves the body; the root itself when it is straight.
    pub leaves: Vec3,
    /// Where it meets the target.
    pub meets: Vec3,
    /// The unit tangent at the root along which it starts.
    pub heading: Vec3,
}

/// Why there is no taut path.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum TautError {
    /// A coordinate is not a finite number.
    #[error("A coordinate is not a number.")]
    NotANumber,
    /// The root does not lie on the body.
    #[error("The root is {0:.2} cm off the surface; it must lie on it.")]
    RootOffSurface(f64),
    /// The target reaches into the body.
    #[error("The hold point lies inside the head.")]
    TargetInside,
}

/// One geodesic walked until it can see the target, and how it missed.
struct Shot {
    flow: Flow,
    /// Nearest point of the target to where the geodesic leaves.
    nearest: Vec3,
    /// From there to the target: along the tangent, and to the left of it.
    ahead: f64,
    aside: f64,
}

impl Shot {
    fn gap(&self) -> f64 {
        self.ahead.hypot(self.aside)
    }

    fn length(&self) -> f64 {
        self.flow.arc + self.gap()
    }

    /// How much the kink may cost.
    fn excess(&self) -> f64 {
        self.gap() - self.ahead
    }

    /// How far to turn the heading at the root, to first order. None past a focus, where
    /// neighbouring paths cross and the first order says nothing.
    fn turn(&self) -> Option<f64> {
        let lever = self.flow.spread + self.ahead.max(0.0) * self.flow.opening;
        (lever > 1e-3 * self.gap().max(1e-9)).then(|| self.aside / lever)
    }
}

/// The shortest path outside `body` from `root`, on its surface, to `target`.
///
/// # Errors
/// [`TautError`] when a number is not finite, the root is off the surface by more than 0.01 cm, or
/// the target's nearest point lies inside the body.
///
/// ```
/// use tautline::geometry::{Ellipsoid, Target, Vec3, taut};
/// // A quarter round a ball of 9 cm and 12 cm straight up to a point 15 cm from its centre.
/// let path = taut(
///     &Ellipsoid::sphere(9.0),
///     Vec3::new(9.0, 0.0, 0.0),
///     &Target::Point(Vec3::new(0.0, 0.0, 15.0)),
/// ).unwrap();
/// let beyond = std::f64::consts::FRAC_PI_2 - (9.0_f64 / 15.0).acos();
/// assert!((path.length - (9.0 * beyond + 12.0)).abs() < 1e-5);
/// ```
pub fn taut<S: Convex>(body: &S, root: Vec3, target: &Target) -> Result<Taut, TautError> {
    let nearest = target.nearest(root);
    if !(root.is_finite() && nearest.is_finite()) {
        return Err(TautError::NotANumber);
    }
    let off = body.height(root).abs();
    if off.is_nan() || off > ROOT_SLACK {
        return Err(TautError::RootOffSurface(off));
    }
    let root = body.settle(root);
    let normal = body.normal(root);
    let crow = nearest - root;
    if normal.dot(crow) >= 0.0 {
        return Ok(Taut {
            length: crow.length(),
            wrapped: 0.0,
            leaves: root,
            meets: nearest,
            heading: crow.try_normalize().unwrap_or(normal),
        });
    }
    if let Target::Point(point) = *target
        && body.value(point) < 1.0 - 1e-9
    {
        return Err(TautError::TargetInside);
    }
    let aim = (crow - normal * crow.dot(normal))
        .try_normalize()
        .unwrap_or_else(|| normal.any_orthonormal_vector());
    let search = Search {
        body,
        root,
        ahead: aim,
        left: normal.cross(aim),
        target,
    };
    let (heading, shot) = search.best(nearest);
    if body.value(shot.nearest) < 1.0 - 1e-6 {
        return Err(TautError::TargetInside);
    }
    Ok(Taut {
        length: shot.length(),
        wrapped: shot.flow.arc,
        leaves: shot.flow.point,
        meets: shot.nearest,
        heading: search.heading(heading),
    })
}

/// Points along a path for drawing it: the root, about every `spacing` cm on the body, where it
/// leaves, where it meets the target.
pub fn trace<S: Convex>(body: &S, root: Vec3, path: &Taut, spacing: f64) -> Vec<Vec3> {
    let mut points = vec![root];
    if path.wrapped > 0.0 {
        let mut flow = Flow::start(body, body.settle(root), path.heading);
        let parts = (path.wrapped / spacing).ceil().max(1.0);
        let h = path.wrapped / parts;
        for _ in 0..parts as usize {
            flow = flow.step(body, h).0;
            points.push(flow.point);
        }
    }
    points.push(path.meets);
    points
}

struct Search<'a, S> {
    body: &'a S,
    root: Vec3,
    /// Unit tangent towards the target at the root, heading 0.
    ahead: Vec3,
    /// Unit tangent to the left of it.
    left: Vec3,
    target: &'a Target,
}

impl<S: Convex> Search<'_, S> {
    fn heading(&self, angle: f64) -> Vec3 {
        self.ahead * angle.cos() + self.left * angle.sin()
    }

    /// The shortest path found; `nearest` is the target's point nearest to the root.
    fn best(&self, nearest: Vec3) -> (f64, Shot) {
        // A plane has no far side: the path down the steepest way is the one that hair takes.
        let far = !matches!(self.target, Target::Plane { .. })
            && self.root.normalize().dot(nearest.normalize_or_zero()) < FAR_ROUND;
        let found = self.narrow(0.0, (-std::f64::consts::PI, std::f64::consts::PI));
        // Past a focus, or not met at all: only a scan can tell.
        let astray = found.1.turn().is_none() || found.1.excess() > 10.0 * KINK;
        if !(far || astray) {
            return found;
        }
        let limit = if astray {
            f64::INFINITY
        } else {
            found.1.length()
        };
        match self.all_round(limit) {
            Some(other) if astray || other.1.length() < found.1.length() => other,
            _ => found,
        }
    }

    /// Turns the heading until the path meets the target, starting at `angle` in the bracket.
    fn narrow(&self, mut angle: f64, (mut low, mut high): (f64, f64)) -> (f64, Shot) {
        let mut best: Option<(f64, Shot)> = None;
        for _ in 0..ROUNDS {
            let shot = self.shoot(angle, CAREFUL);
            if shot.aside > 0.0 {
                low = angle;
            } else {
                high = angle;
            }
            let turned = shot.turn().map_or(f64::NAN, |turn| angle + turn);
            let done = shot.excess() <= KINK;
            let here = angle;
            angle = if turned > low && turned < high {
                turned
            } else {
                (low + high) / 2.0
            };
            if best
                .as_ref()
                .is_none_or(|(_, b)| shot.excess() < b.excess())
            {
                best = Some((here, shot));
            }
            if done || high - low < 1e-13 {
                break;
            }
        }
        // The loop runs at least once.
        best.unwrap_or_else(|| (angle, self.shoot(angle, CAREFUL)))
    }

    /// Scans all headings for paths shorter than `limit` cm and narrows each pair of headings that
    /// has the target to its left on one side and to its right on the other: the shortest path found.
    fn all_round(&self, limit: f64) -> Option<(f64, Shot)> {
        let step = std::f64::consts::TAU / SCAN as f64;
        let angles: Vec<f64> = (0..=SCAN).map(|i| (i as f64 - 0.5) * step).collect();
        // Half a step off the best heading a path is at most a few percent longer than the best.
        let rough = Care {
            longest: limit * 1.1,
            ..ROUGH
        };
        let sides: Vec<Option<f64>> = angles
            .iter()
            .map(|&a| self.shoot(a, rough))
            .map(|shot| (shot.length() <= rough.longest).then_some(shot.aside))
            .collect();
        (0..SCAN)
            .filter(
                |&i| matches!((sides[i], sides[i + 1]), (Some(a), Some(b)) if a > 0.0 && b <= 0.0),
            )
            .map(|i| {
                self.narrow(
                    (angles[i] + angles[i + 1]) / 2.0,
                    (angles[i], angles[i + 1]),
                )
            })
            .filter(|(_, shot)| shot.excess() <= 10.0 * KINK)
            .min_by(|(_, a), (_, b)| a.length().total_cmp(&b.length()))
    }

    /// How far the target's nearest point stands above the tangent plane at `p`; negative while the
    /// body hides it.
    fn seen(&self, p: Vec3) -> f64 {
        self.body.normal(p).dot(self.target.nearest(p) - p)
    }

    /// How far ahead of `flow`, along its tangent, the target's nearest point lies.
    fn ahead(&self, flow: &Flow) -> f64 {
        (self.target.nearest(flow.point) - flow.point).dot(flow.tangent)
    }

    /// Walks the geodesic of heading `angle` to the first place that sees the target, or, if it
    /// passes by without seeing it, to the place abreast of it.
    fn shoot(&self, angle: f64, care: Care) -> Shot {
        let mut flow = Flow::start(self.body, self.root, self.heading(angle));
        let longest = 4.0 * self.body.size();
        let mut h = self.body.size() / 4.0;
        let mut seen = self.seen(flow.point);
        let mut ahead = self.ahead(&flow);
        while flow.arc < longest
            && flow.arc + self.target.nearest(flow.point).distance(flow.point) <= care.longest
        {
            let next = flow.advance(self.body, &mut h, longest - flow.arc, care.step);
            let (seen_then, ahead_then) = (self.seen(next.point), self.ahead(&next));
            if seen_then >= 0.0 {
                flow = self.between((&flow, seen), (&next, seen_then), care.sight, |f| {
                    self.seen(f.point)
                });
                break;
            }
            if ahead > 0.0 && ahead_then <= 0.0 {
                let abreast = self.between((&flow, ahead), (&next, ahead_then), care.sight, |f| {
                    self.ahead(f)
                });
                // A target close to the surface may come into sight and go within one step.
                let seen_there = self.seen(abreast.point);
                flow = if seen_there > 0.0 {
                    self.between((&flow, seen), (&abreast, seen_there), care.sight, |f| {
                        self.seen(f.point)
                    })
                } else {
                    abreast
                };
                break;
            }
            (flow, seen, ahead) = (next, seen_then, ahead_then);
        }
        let nearest = self.target.nearest(flow.point);
        let to = nearest - flow.point;
        let left = self.body.normal(flow.point).cross(flow.tangent);
        Shot {
            ahead: to.dot(flow.tangent),
            aside: to.dot(left),
            nearest,
            flow,
        }
    }

    /// The place between two of a geodesic where `measure`, of opposite sign there, is zero.
    ///
    /// Where the path leaves enters its length only at third order, so `sight` is enough and two
    /// secant rounds on real steps do.
    fn between(
        &self,
        (from, mut at_low): (&Flow, f64),
        (to, mut at_high): (&Flow, f64),
        sight: f64,
        measure: impl Fn(&Flow) -> f64,
    ) -> Flow {
        let (mut low, mut high) = (0.0, to.arc - from.arc);
        let mut place = *to;
        for _ in 0..ROUNDS {
            if at_high.abs() < sight || high - low < 1e-9 {
                break;
            }
            let share = (at_low / (at_low - at_high)).clamp(0.05, 0.95);
            let h = low + (high - low) * share;
            place = from.step(self.body, h).0;
            let here = measure(&place);
            if here.abs() < sight {
                break;
            }
            if (here < 0.0) == (at_low < 0.0) {
                (low, at_low) = (h, here);
            } else {
                (high, at_high) = (h, here);
            }
        }
        place
    }
}
