//! The search for the heading of a taut path; [`super::taut`](mod@super::taut) says why it is right.

use super::shot::{CAREFUL, Care, MIDDLE, ROUGH, Range, Shot};
use super::{Convex, Target, Taut, Vec3};
use std::f64::consts::{PI, TAU};

/// What the kink of a path that is returned may cost at most, in cm.
pub(super) const MET: f64 = 1e-4;
/// A crow's way this much of its length off the normal has no direction along the surface.
const PLUMB: f64 = 1e-9;

/// A path may run round either side of the body only if the target lies far round and far under: if
/// these two cosines together are less than this. One is between root and target, seen from inside the
/// body, the other between the root's normal and the crow's way to the target. This, the next ones and
/// the spacings below miss no path in the exhaustive tests of `exhaustive.rs`, and leave room to
/// the nearest cases where a rival won: -1.26 here, and 0.51 for the next.
const FAR: f64 = -1.05;
/// And if the normals where the path begins and where it leaves have this cosine, or less.
const FAR_TURNED: f64 = 0.6;
/// A line may be met at two places by paths that are each the shortest nearby. So these two hold for
/// the place where it was met, in place of [`FAR`] and [`FAR_TURNED`].
const FAR_LINE: f64 = -0.5;
const FAR_TURNED_LINE: f64 = 0.2;
/// A path whose end moves aside by less than this share of its length for a radian of turn is close
/// to a focus, and rivals may start close to it.
const NEAR_FOCUS: f64 = 0.2;
/// A path that starts further than this, in radians, from the crow's way is unlikely to be the shortest.
const ASTRAY: f64 = 1.2;
/// How far apart headings are tried: 20°.
const SCAN: f64 = PI / 9.0;
/// Within this of the heading of a path found no other is looked for: 20°; near a focus 4°.
const CLEAR: f64 = SCAN;
const CLEAR_NEAR: f64 = PI / 45.0;
/// Near a focus, up to here from it headings are tried [`CLOSE`] apart: 40°.
const BESIDE: f64 = 2.0 * SCAN;
/// 6°.
const CLOSE: f64 = (BESIDE - CLEAR_NEAR) / 6.0;
/// How much longer than a path that meets the target one may be that starts half a step aside, as a
/// share of the body's size times the step.
const SWING: f64 = 0.4;
/// What a rough shot may be out by, in cm.
const BLUR: f64 = 0.1;
/// A root whose normal has this cosine, or less, with the way down to a plane lies near the top of the
/// body as seen from the plane: several ways may compete.
const ON_TOP: f64 = -0.85;
/// How far either way of straight outward the shortest path to a plane may start: 100°.
const OWN_SIDE: f64 = 5.0 * SCAN;
/// More rounds than halving a full turn down to 1e-12 needs.
const ROUNDS: usize = 60;

/// All that a search needs to know.
pub(super) struct Search<'a, S> {
    range: Range<'a, S>,
    /// Unit tangent towards the target at the root, heading 0.
    ahead: Vec3,
    /// Unit tangent to the left of it.
    left: Vec3,
}

impl<'a, S: Convex> Search<'a, S> {
    /// The search from a root on the body's surface that does not see the target.
    pub(super) fn new(body: &'a S, root: Vec3, target: &'a Target) -> Self {
        let normal = body.normal(root);
        let crow = target.nearest(root) - root;
        let along = crow - normal * crow.dot(normal);
        // Straight below the root only rounding would give a direction; any is as good then.
        let ahead = if along.length() > PLUMB * crow.length() {
            along.normalize()
        } else {
            normal.any_orthonormal_vector()
        };
        Self {
            range: Range::new(body, root, target),
            ahead,
            left: normal.cross(ahead),
        }
    }

    /// The shortest path found; none if no heading meets the target.
    pub(super) fn solve(&self) -> Option<Taut> {
        let (angle, shot) = self.best()?;
        Some(Taut {
            length: shot.length(),
            wrapped: shot.flow.arc,
            leaves: shot.flow.point,
            meets: shot.nearest,
            heading: self.heading(angle),
        })
    }

    /// The angle of a heading.
    #[cfg(test)]
    pub(super) fn angle(&self, heading: Vec3) -> f64 {
        heading.dot(self.left).atan2(heading.dot(self.ahead))
    }

    pub(super) fn shoot(&self, angle: f64, care: Care) -> Shot {
        self.range.shoot::<true>(self.heading(angle), care)
    }

    fn heading(&self, angle: f64) -> Vec3 {
        self.ahead * angle.cos() + self.left * angle.sin()
    }

    /// Its heading and where it goes.
    fn best(&self) -> Option<(f64, Shot)> {
        let all = (0.0, TAU);
        if let Target::Plane { normal, .. } = *self.range.target {
            return self
                .down_to_plane(normal)
                .or_else(|| self.scan(all, CLOSE, None));
        }
        let first = self.narrow(0.0, (-PI, PI), f64::INFINITY);
        // Past a focus, or not met at all: only a scan can tell.
        if first.1.turn().is_none() || first.1.excess() > MET {
            return self.scan(all, CLOSE, met(first));
        }
        let spread = first.1.spreads() > NEAR_FOCUS;
        if spread && first.0.abs() < ASTRAY && !self.far(&first.1) {
            return Some(first);
        }
        let (angle, back) = (first.0, first.0 + TAU);
        if spread {
            return self.scan((angle + CLEAR, back - CLEAR), SCAN, Some(first));
        }
        let best = self.scan((angle + CLEAR_NEAR, angle + BESIDE), CLOSE, Some(first));
        let best = self.scan((angle + BESIDE, back - BESIDE), SCAN, best);
        self.scan((back - BESIDE, back - CLEAR_NEAR), CLOSE, best)
    }

    /// The path to a plane. It starts down the steepest way, but on top of the body it may be shorter
    /// down another side.
    fn down_to_plane(&self, normal: Vec3) -> Option<(f64, Shot)> {
        let Range { body, root, .. } = self.range;
        let mut known = None;
        if body.normal(root).dot(self.range.down) > ON_TOP {
            let first = self.narrow(0.0, (-PI, PI), f64::INFINITY);
            if first.1.turn().is_some() && first.1.excess() <= MET {
                return Some(first);
            }
            // The longest of its neighbours rather than the shortest: there is a shorter one close by.
            known = self.scan((first.0 - BESIDE, first.0 + BESIDE), CLOSE, met(first));
        }
        // What crosses the middle of a body that is its own mirror image has a mirrored part of the
        // same length, and a kink there: the shortest path stays on its own side.
        let outward = Vec3::X * if root.x < 0.0 { -1.0 } else { 1.0 };
        let (along, aside) = (outward.dot(self.ahead), outward.dot(self.left));
        if S::MIRRORED && normal.x == 0.0 && along.hypot(aside) > 0.5 {
            let out = aside.atan2(along);
            self.scan((out - OWN_SIDE, out + OWN_SIDE), SCAN, known)
        } else {
            self.scan((0.0, TAU), SCAN, known)
        }
    }

    /// Whether a path may run round the other side of the body and be shorter than this one.
    fn far(&self, path: &Shot) -> bool {
        let Range {
            body, root, target, ..
        } = self.range;
        let (normal, out) = (body.normal(root), root.normalize());
        let turned = normal.dot(body.normal(path.flow.point));
        if turned > FAR_TURNED {
            return false;
        }
        let far_round = |place: Vec3| {
            let under = normal.dot((place - root).normalize_or_zero());
            under + out.dot(place.normalize_or_zero())
        };
        match *target {
            // A rival to one place of a line must be shorter than the plain path to the same place.
            Target::Segment(from, to) => {
                (0..=4).any(|i| far_round(from.lerp(to, f64::from(i) / 4.0)) < FAR)
                    || (turned < FAR_TURNED_LINE && far_round(path.nearest) < FAR_LINE)
            }
            _ => far_round(path.nearest) < FAR,
        }
    }

    /// Turns the heading until the path meets the target, starting at `angle` in the bracket: with
    /// long steps first and then, unless it comes out longer than `limit` cm, with careful ones.
    fn narrow(&self, angle: f64, bracket: (f64, f64), limit: f64) -> (f64, Shot) {
        let (near, shot) = self.turn(angle, bracket, MIDDLE);
        if shot.length() - BLUR > limit {
            return (near, shot);
        }
        self.turn(near + shot.turn().unwrap_or(0.0), bracket, CAREFUL)
    }

    /// Newton's method on the heading; a step that leaves the bracket, and every fourth, is replaced
    /// by halving it.
    pub(super) fn turn(
        &self,
        mut angle: f64,
        (mut low, mut high): (f64, f64),
        care: Care,
    ) -> (f64, Shot) {
        let mut best = (angle, self.shoot(angle, care));
        let mut shot = best.1;
        for round in 1..ROUNDS {
            if shot.excess() <= care.met || high - low < 1e-13 {
                break;
            }
            if shot.aside > 0.0 {
                low = angle;
            } else {
                high = angle;
            }
            let turned = shot.turn().map_or(f64::NAN, |turn| angle + turn);
            angle = if turned > low && turned < high && round % 4 != 0 {
                turned
            } else {
                f64::midpoint(low, high)
            };
            shot = self.shoot(angle, care);
            if shot.excess() < best.1.excess() {
                best = (angle, shot);
            }
        }
        best
    }

    /// Scans headings at most `apart` from each other between two for paths shorter than the best so
    /// far, and narrows each pair that has the target to its left on one side and to its right on the
    /// other: the shortest path now known.
    fn scan(
        &self,
        (from, to): (f64, f64),
        apart: f64,
        mut best: Option<(f64, Shot)>,
    ) -> Option<(f64, Shot)> {
        let steps = ((to - from) / apart - 1e-9).ceil() as usize;
        let step = (to - from) / steps as f64;
        let angle = |i: usize| from + step * i as f64;
        let limit = |best: &Option<(f64, Shot)>| best.map_or(f64::INFINITY, |b| b.1.length());
        let shoot = |i: usize, limit: f64| {
            // A path that meets the target lies within half a step of a shot, whose path is at most so
            // much longer.
            let longest = limit + SWING * self.range.body.size() * step;
            let shot = self
                .range
                .shoot::<false>(self.heading(angle(i)), Care { longest, ..ROUGH });
            (shot.length() <= longest).then_some(shot)
        };
        let mut right = shoot(0, limit(&best));
        for i in 0..steps {
            let left = std::mem::replace(&mut right, shoot(i + 1, limit(&best)));
            // One end of the two may have been given up for growing too long.
            let least = [left, right]
                .into_iter()
                .flatten()
                .map(|shot| shot.least(step));
            let Some(least) = least.reduce(f64::max) else {
                continue;
            };
            let between =
                left.is_none_or(|a| a.aside > 0.0) && right.is_none_or(|b| b.aside <= 0.0);
            if between && least < limit(&best) + BLUR {
                // Rough shots may be out by a little.
                let pair = (angle(i) - 0.1 * step, angle(i + 1) + 0.1 * step);
                let found = self.narrow(f64::midpoint(pair.0, pair.1), pair, limit(&best));
                best = shorter(best, met(found));
            }
        }
        best
    }
}

/// A path that meets its target, but for a kink that does not count.
fn met(found: (f64, Shot)) -> Option<(f64, Shot)> {
    (found.1.excess() <= MET).then_some(found)
}

/// The shorter of two paths, if there is any.
fn shorter(a: Option<(f64, Shot)>, b: Option<(f64, Shot)>) -> Option<(f64, Shot)> {
    match (a, b) {
        (Some(a), Some(b)) => Some(if b.1.length() < a.1.length() { b } else { a }),
        (a, b) => a.or(b),
    }
}
