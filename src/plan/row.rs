//! Rows: partings on the skull within a patch.

use super::family::{Family, mirrored};
use crate::geometry::{Convex, Vec3};
use crate::head::Head;
use std::f64::consts::{PI, TAU};

/// Steps to a full turn in which a parting is walked to find where it enters and leaves a region.
const STEPS: usize = 24;
/// How many times more steps where nothing was seen: 0.6 cm.
const FINER: usize = 4;
/// Halvings by which an end is found: 15° / 2¹⁰ is two hundredths of a millimetre.
const HALVINGS: usize = 10;
/// Points of a row.
const POINTS: usize = 9;
/// Wedges run together at their pivot; rows start this share of the way from it.
const PIVOT: f64 = 0.1;
/// Wedges run together once more opposite their pivot; rows end so many radians before.
const ANTIPODE: f64 = 0.015;
/// How far beside a pivot it is looked whether a wedge starts from it, in steps: half a millimetre.
const BESIDE: f64 = 0.02;

/// A parting within a patch.
#[derive(Clone, Debug, Default)]
pub struct Row {
    /// A point of its plane inside the head.
    centre: Vec3,
    points: Vec<Vec3>,
    lengths: Vec<f64>,
}

impl Row {
    pub(super) fn through(centre: Vec3, points: Vec<Vec3>) -> Self {
        let mut lengths = vec![0.0; points.len()];
        for i in 1..points.len() {
            lengths[i] = lengths[i - 1] + points[i].distance(points[i - 1]);
        }
        Self {
            centre,
            points,
            lengths,
        }
    }

    /// The same on the other side of the head.
    pub fn mirrored(&self) -> Self {
        Self {
            centre: mirrored(self.centre),
            points: self.points.iter().map(|&p| mirrored(p)).collect(),
            lengths: self.lengths.clone(),
        }
    }

    /// Points along it, from its inner to its outer end.
    pub fn points(&self) -> &[Vec3] {
        &self.points
    }

    /// Its length along the scalp, cm.
    pub fn length(&self) -> f64 {
        self.lengths.last().copied().unwrap_or(0.0)
    }

    /// The place `along` of the way from the inner (0) to the outer end (1); none in an empty row.
    pub fn at(&self, head: &Head, along: f64) -> Option<Vec3> {
        let (first, last) = (*self.points.first()?, *self.points.last()?);
        let s = self.length() * along;
        let i = self.lengths.partition_point(|&l| l < s);
        if i == 0 {
            return Some(first);
        }
        if i >= self.points.len() {
            return Some(last);
        }
        let (from, to) = (self.lengths[i - 1], self.lengths[i]);
        let share = (s - from) / (to - from).max(f64::MIN_POSITIVE);
        let between = self.points[i - 1].lerp(self.points[i], share);
        // Out along its own plane.
        let out = between - self.centre;
        let guess = out.length();
        let direction = out / guess;
        Some(self.centre + direction * head.skull().reach(self.centre, direction, guess))
    }

    /// The share of the way along of the row's point nearest to `p`.
    pub fn share(&self, p: Vec3) -> f64 {
        let mut best = (f64::INFINITY, 0.0);
        for i in 1..self.points.len() {
            let (from, to) = (self.points[i - 1], self.points[i]);
            let along = to - from;
            let t = ((p - from).dot(along) / along.length_squared().max(f64::MIN_POSITIVE))
                .clamp(0.0, 1.0);
            let distance = p.distance_squared(from.lerp(to, t));
            if distance < best.0 {
                best = (distance, self.lengths[i - 1] + along.length() * t);
            }
        }
        best.1 / self.length().max(f64::MIN_POSITIVE)
    }
}

/// A parting on the skull, walked by an angle about a centre inside.
pub(super) struct Curve {
    pub centre: Vec3,
    right: Vec3,
    up: Vec3,
    /// From where to where it runs; a closed curve runs a full turn.
    from: f64,
    to: f64,
}

impl Curve {
    /// The parting of this value; none where its plane passes the head by.
    pub fn of(family: &Family, value: f64) -> Option<Self> {
        Some(match *family {
            Family::Parallel { normal, ends, hand } => {
                let (right, up) = frame(normal);
                let right = right * hand;
                // On the way from the middle of the head to where such a plane would touch.
                let end = ends[usize::from(value < 0.0)];
                let share = value / normal.dot(end);
                if share.is_nan() || share > 0.9999 {
                    return None;
                }
                Self {
                    centre: end * share,
                    right,
                    up,
                    from: 0.0,
                    to: TAU,
                }
            }
            Family::Pencil(pencil) => Self {
                centre: pencil.centre,
                right: pencil.axis,
                up: pencil.zero * value.cos() + pencil.side * value.sin(),
                from: 0.0,
                to: PI - ANTIPODE,
            },
        })
    }

    fn at(&self, head: &Head, angle: f64, near: &mut f64) -> Vec3 {
        let direction = self.right * angle.cos() + self.up * angle.sin();
        *near = head.skull().reach(self.centre, direction, *near);
        self.centre + direction * *near
    }

    fn closed(&self) -> bool {
        self.to - self.from > PI
    }

    /// Whether any of it is inside, as far as its first look shows.
    pub fn meets(&self, head: &Head, inside: &impl Fn(Vec3) -> bool) -> bool {
        let mut near = head.skull().size();
        self.seen(head, inside, 1, &mut near).0.contains(&true)
    }

    /// At even steps of its angle, `finer` times as many as usual, whether it is inside; and the size
    /// of a step in radians.
    fn seen(
        &self,
        head: &Head,
        inside: &impl Fn(Vec3) -> bool,
        finer: usize,
        near: &mut f64,
    ) -> (Vec<bool>, f64) {
        let closed = self.closed();
        let steps = if closed { STEPS } else { STEPS / 2 } * finer;
        let step = (self.to - self.from) / steps as f64;
        let mut seen: Vec<bool> = (0..=steps)
            .map(|i| inside(self.at(head, self.from + step * i as f64, near)))
            .collect();
        if !closed {
            // The pivot lies on the edge of every wedge: it belongs to those that start from it.
            seen[0] = seen[1] && inside(self.at(head, self.from + step * BESIDE, near));
        }
        (seen, step)
    }

    /// Where it leaves the inside between an angle within and one without.
    fn end(
        &self,
        head: &Head,
        inside: &impl Fn(Vec3) -> bool,
        (mut within, mut without): (f64, f64),
        near: &mut f64,
    ) -> f64 {
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(within, without);
            if inside(self.at(head, middle, near)) {
                within = middle;
            } else {
                without = middle;
            }
        }
        within
    }

    /// The longest run of it that is inside, as points from its inner to its outer end, and `beyond`
    /// radians more at each end.
    pub fn within(&self, head: &Head, inside: &impl Fn(Vec3) -> bool, beyond: f64) -> Vec<Vec3> {
        let mut near = head.skull().size();
        let (mut seen, mut step) = self.seen(head, inside, 1, &mut near);
        if !seen.contains(&true) {
            // A piece smaller than a step, as near the point of a fringe.
            (seen, step) = self.seen(head, inside, FINER, &mut near);
        }
        let closed = self.closed();
        let steps = seen.len() - 1;
        let Some((first, last)) = longest(&seen, closed) else {
            return Vec::new();
        };
        let angle = |i: isize| self.from + step * i as f64;
        let whole = (last - first) as usize >= steps;
        let (mut from, mut to) = (angle(first), angle(last));
        if !whole && (closed || first > 0) {
            from = self.end(head, inside, (from, angle(first - 1)), &mut near);
        }
        if !whole && (closed || (last as usize) < steps) {
            to = self.end(head, inside, (to, angle(last + 1)), &mut near);
        }
        let pivots = !closed && first == 0;
        let laid = |from: f64, to: f64, near: &mut f64| -> (Vec<f64>, Vec<Vec3>) {
            let start = if pivots {
                from + (to - from) * PIVOT
            } else {
                from
            };
            (0..POINTS)
                .map(|i| {
                    let angle = start + (to - start) * i as f64 / (POINTS - 1) as f64;
                    (angle, self.at(head, angle, near))
                })
                .unzip()
        };
        let (angles, mut points) = laid(from, to, &mut near);
        // A hairline that bends inward may part the run once more; the ends were just found.
        let mut seen: Vec<bool> = points.iter().map(|&p| inside(p)).collect();
        (seen[0], seen[POINTS - 1]) = (true, true);
        if !seen.iter().all(|&s| s)
            && let Some((first, last)) = longest(&seen, false)
        {
            let (first, last) = (first as usize, last as usize);
            if first > 0 {
                let edge = (angles[first], angles[first - 1]);
                from = self.end(head, inside, edge, &mut near);
            }
            if last + 1 < POINTS {
                to = self.end(head, inside, (angles[last], angles[last + 1]), &mut near);
            }
            points = laid(from, to, &mut near).1;
        }
        if beyond > 0.0 {
            let room = if closed {
                TAU - (to - from)
            } else {
                self.to - to
            };
            let more = beyond.min(room / 2.0).max(0.0);
            let less = if pivots || !closed { 0.0 } else { more };
            points = laid(from - less, to + more, &mut near).1;
        }
        if closed && outward(&points) {
            points.reverse();
        }
        points
    }
}

/// Whether a row runs from its outer to its inner end: from the lower to the higher, from the side to
/// the middle where both are level, from the back to the front where both are as far aside, from right to
/// left across the middle. A row from middle to middle, round one half of the head, runs from its higher
/// end, or from the back. Both sides of a head must run alike, so that no rounding may decide.
fn outward(points: &[Vec3]) -> bool {
    let (Some(a), Some(b)) = (points.first(), points.last()) else {
        return false;
    };
    let (rises, nears) = (b.z - a.z, a.x.abs() - b.x.abs());
    let middle = a.x.abs() < 1e-2 && b.x.abs() < 1e-2;
    if middle && rises.abs() < 1e-2 {
        a.y > b.y
    } else if middle || rises.abs() > 0.5 {
        rises > 0.0
    } else if nears.abs() > 1e-3 {
        nears > 0.0
    } else if (a.y - b.y).abs() > 1e-2 {
        a.y < b.y
    } else if rises.abs() > 1e-2 {
        rises > 0.0
    } else {
        b.x - a.x > 1e-2
    }
}

/// First and last place of the longest run of what is seen; in a closed curve a run may go on past
/// the end, and then its last place is counted on.
fn longest(seen: &[bool], closed: bool) -> Option<(isize, isize)> {
    let steps = seen.len() - 1;
    let at = |i: usize| seen[if closed { i % steps } else { i }];
    let reach = if closed { 2 * steps } else { steps + 1 };
    let mut best: Option<(usize, usize)> = None;
    let mut start = None;
    for i in 0..=reach {
        if i < reach && at(i) {
            start.get_or_insert(i);
        } else if let Some(from) = start.take() {
            let to = (i - 1).min(from + steps);
            if best.is_none_or(|(a, b)| to - from > b - a) {
                best = Some((from, to));
            }
        }
    }
    best.map(|(a, b)| (a as isize, b as isize))
}

/// Two directions square to `normal` and each other. A cross product turns round in a mirror: the first
/// is mirrored the wrong way where the normal is.
fn frame(normal: Vec3) -> (Vec3, Vec3) {
    let start = if normal.z.abs() < 0.9 {
        Vec3::Z
    } else {
        Vec3::Y
    };
    let up = (start - normal * start.dot(normal)).normalize();
    (up.cross(normal), up)
}
