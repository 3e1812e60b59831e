//! The search for the heading of a taut path; [`super::taut`](mod@super::taut) says why it is right.

use super::shot::{CAREFUL, Care, ROUGH, Range, Shot};
use super::{Convex, Target, Taut, Vec3};

/// How much a path's kink may cost, in cm, before it counts as not yet met.
const KINK: f64 = 1e-6;
/// What the kink of a path that is returned may cost at most, in cm.
const MET: f64 = 1e-4;
/// A crow's way this much of its length off the normal has no direction along the surface.
const PLUMB: f64 = 1e-9;

/// Beyond this cosine between the root and the target, seen from inside the body, a path may run
/// round either side. This and the spacings below are the widest that miss no path in the exhaustive
/// test at the end of this file.
const FAR_ROUND: f64 = -0.1;
/// The same for the cosine between the root's normal and the crow's way to the target.
const FAR_UNDER: f64 = -0.75;
/// How far apart headings are tried when it may: 20°.
const SCAN: f64 = std::f64::consts::PI / 9.0;
/// Within this of the heading of a path found no other is looked for: 6°.
const CLEAR: f64 = std::f64::consts::PI / 30.0;
/// Up to here from it headings are tried [`CLOSE`] apart: 60°. Where geodesics have crossed once,
/// rivals may lie close to each other.
const BESIDE: f64 = std::f64::consts::FRAC_PI_3;
/// 13.5°.
const CLOSE: f64 = (BESIDE - CLEAR) / 4.0;
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

    fn shoot(&self, angle: f64, care: Care) -> Shot {
        self.range.shoot::<true>(self.heading(angle), care)
    }

    fn heading(&self, angle: f64) -> Vec3 {
        self.ahead * angle.cos() + self.left * angle.sin()
    }

    /// Its heading and where it goes.
    fn best(&self) -> Option<(f64, Shot)> {
        let all = (0.0, std::f64::consts::TAU);
        let first = self.narrow(0.0, (-std::f64::consts::PI, std::f64::consts::PI));
        // Past a focus, or not met at all: only a scan can tell.
        if first.1.turn().is_none() || first.1.excess() > MET {
            return shorter(met(first), self.scan(all, CLOSE, f64::INFINITY));
        }
        if !self.far() {
            return Some(first);
        }
        let (angle, limit) = (first.0, first.1.length());
        let back = angle + std::f64::consts::TAU;
        [
            (angle + CLEAR, angle + BESIDE, CLOSE),
            (angle + BESIDE, back - BESIDE, SCAN),
            (back - BESIDE, back - CLEAR, CLOSE),
        ]
        .into_iter()
        .map(|(from, to, apart)| self.scan((from, to), apart, limit))
        .fold(Some(first), shorter)
    }

    /// Whether a path may run round either side of the body.
    fn far(&self) -> bool {
        let Range {
            body, root, target, ..
        } = self.range;
        let nearest = target.nearest(root);
        let under = body.normal(root).dot((nearest - root).normalize_or_zero());
        let round = root.normalize().dot(nearest.normalize_or_zero());
        // A plane has no place to be round the body from.
        let plane = matches!(target, Target::Plane { .. });
        under < FAR_UNDER || (!plane && round < FAR_ROUND)
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

    /// Scans headings at most `apart` from each other between two for paths shorter than `limit` cm and narrows each pair that
    /// has the target to its left on one side and to its right on the other: the shortest path found.
    fn scan(&self, (from, to): (f64, f64), apart: f64, limit: f64) -> Option<(f64, Shot)> {
        let steps = ((to - from) / apart - 1e-9).ceil() as usize;
        let step = (to - from) / steps as f64;
        let angle = |i: usize| from + step * i as f64;
        // Half a step off its best heading a path is well under a quarter longer.
        let rough = Care {
            longest: limit * 1.25,
            ..ROUGH
        };
        let aside = |i: usize| {
            let shot = self.range.shoot::<false>(self.heading(angle(i)), rough);
            (shot.length() <= rough.longest).then_some(shot.aside)
        };
        let mut best: Option<(f64, Shot)> = None;
        let mut right = aside(0);
        for i in 0..steps {
            let left = std::mem::replace(&mut right, aside(i + 1));
            if !matches!((left, right), (Some(a), Some(b)) if a > 0.0 && b <= 0.0) {
                continue;
            }
            let pair = (angle(i), angle(i + 1));
            best = shorter(best, met(self.narrow(f64::midpoint(pair.0, pair.1), pair)));
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Egg, Ellipsoid, taut};
    use std::f64::consts::TAU;

    /// The shortest of all paths that meet the target, from headings 2° apart all round, each walked
    /// carefully and narrowed: slow, and free of every shortcut of [`taut`].
    fn exhaustive<S: Convex>(body: &S, root: Vec3, target: &Target) -> f64 {
        let search = Search::new(body, root, target);
        let angle = |i: i32| TAU * f64::from(i) / 180.0;
        (0..180)
            .filter(|&i| {
                let aside = |i| search.shoot(angle(i), CAREFUL).aside;
                aside(i) > 0.0 && aside(i + 1) <= 0.0
            })
            .map(|i| search.narrow(angle(i) + 0.01, (angle(i), angle(i + 1))).1)
            .filter(|shot| shot.excess() <= MET)
            .map(|shot| shot.length())
            .fold(f64::INFINITY, f64::min)
    }

    /// Directions spread evenly over the sphere (the golden-angle spiral).
    fn direction(i: i32, count: i32) -> Vec3 {
        let z = 1.0 - (2.0 * f64::from(i) + 1.0) / f64::from(count);
        let turn = f64::from(i) * 2.399_963_229_728_653;
        let level = (1.0 - z * z).sqrt();
        Vec3::new(level * turn.cos(), level * turn.sin(), z)
    }

    fn check<S: Convex>(body: &S) -> (usize, f64) {
        let (mut far, mut worst) = (0, 0.0_f64);
        for i in 0..14 {
            let root = body.along(direction(i, 14));
            for j in 0..60 {
                let base = body.along(direction(j, 60) + Vec3::new(0.01, 0.02, 0.03));
                let hold = base + body.normal(base) * [1.0, 6.0, 20.0][j as usize % 3];
                let target = Target::Point(hold);
                let path = taut(body, root, &target).expect("a path");
                if path.wrapped > 0.0 {
                    far += 1;
                    worst = worst.max(path.length - exhaustive(body, root, &target));
                }
            }
        }
        (far, worst)
    }

    #[test]
    fn no_path_is_missed_that_an_exhaustive_scan_finds() {
        let head = Egg::new(7.4, 9.5, (8.5, 12.5), 0.3, 0.9);
        let narrow = Egg::new(6.5, 10.4, (7.5, 11.0), 0.9, 0.7);
        let results = [
            check(&head),
            check(&narrow),
            check(&Ellipsoid::new(6.5, 10.5, 7.5)),
            check(&Ellipsoid::new(5.0, 10.0, 7.0)),
            check(&Ellipsoid::new(9.0, 9.0, 5.0)),
        ];
        for (i, (wrapped, worst)) in results.into_iter().enumerate() {
            assert!(wrapped > 300, "{wrapped}");
            assert!(worst < 1e-3, "body {i}: a path {worst} cm too long");
        }
    }
}
