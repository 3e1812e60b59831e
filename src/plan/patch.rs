//! A section's patch of scalp: what lies between two partings and within a region.

use crate::geometry::{Convex, Vec3};
use crate::head::Head;
use std::f64::consts::{PI, TAU};
use std::sync::Arc;

/// How far over an edge a place still counts as within, cm or radians: a hundredth of a millimetre or
/// so, for partings are found no more exactly.
const SLACK: f64 = 1e-3;
/// Steps to a full turn in which a parting is walked to find where it enters and leaves a region.
const STEPS: usize = 24;
/// Halvings by which an end is found: 15° / 2¹⁶ is less than a thousandth of a millimetre.
const HALVINGS: usize = 16;
/// Points of a row.
const POINTS: usize = 9;
/// How far a section's spine runs on beyond its ends, radians about its centre: about 5 cm.
const BEYOND: f64 = 0.5;
/// Wedges run together at their pivot; rows start this share of the way from it.
const PIVOT: f64 = 0.1;

/// One edge of a region.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Edge {
    /// Keeps the places with p · normal ≥ offset.
    Half { normal: Vec3, offset: f64 },
    /// Keeps what lies within a wedge of the pencil.
    Wedge { pencil: Pencil, from: f64, to: f64 },
}

impl Edge {
    pub(super) fn holds(&self, p: Vec3) -> bool {
        match *self {
            Self::Half { normal, offset } => p.dot(normal) >= offset - SLACK,
            Self::Wedge { pencil, from, to } => within(pencil.angle(p), from, to),
        }
    }

    pub(super) fn mirrored(self) -> Self {
        match self {
            Self::Half { normal, offset } => Self::Half {
                normal: mirrored(normal),
                offset,
            },
            Self::Wedge { pencil, from, to } => Self::Wedge {
                pencil: pencil.mirrored(),
                from,
                to,
            },
        }
    }
}

/// Half-planes that turn about one line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Pencil {
    /// A point of the line inside the head.
    pub centre: Vec3,
    /// The line's direction, outward through the pivot.
    pub axis: Vec3,
    /// The direction of angle 0, square to the axis.
    pub zero: Vec3,
    /// The direction of angle 90°, square to both.
    pub side: Vec3,
}

impl Pencil {
    /// The angle of a place about the line, −π to π.
    pub fn angle(&self, p: Vec3) -> f64 {
        let from = p - self.centre;
        from.dot(self.side).atan2(from.dot(self.zero))
    }

    fn mirrored(self) -> Self {
        Self {
            centre: mirrored(self.centre),
            axis: mirrored(self.axis),
            zero: mirrored(self.zero),
            side: mirrored(self.side),
        }
    }
}

/// The partings of a step: planes side by side, or half-planes about a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Family {
    /// p · normal = value; planes of the greatest and the least value touch the skull at `ends`.
    Parallel { normal: Vec3, ends: [Vec3; 2] },
    /// Angle about the pencil's line = value.
    Pencil(Pencil),
}

impl Family {
    /// Planes square to `normal` on this head.
    pub fn parallel(head: &Head, normal: Vec3) -> Self {
        Self::Parallel {
            normal,
            ends: [normal, -normal].map(|n| head.skull().touching(n)),
        }
    }

    /// The value whose parting runs through a place.
    pub fn value(&self, p: Vec3) -> f64 {
        match self {
            Self::Parallel { normal, .. } => p.dot(*normal),
            Self::Pencil(pencil) => pencil.angle(p),
        }
    }

    pub(super) fn mirrored(self) -> Self {
        match self {
            Self::Parallel { normal, ends } => Self::Parallel {
                normal: mirrored(normal),
                ends: ends.map(mirrored),
            },
            Self::Pencil(pencil) => Self::Pencil(pencil.mirrored()),
        }
    }

    fn holds(&self, p: Vec3, from: f64, to: f64) -> bool {
        match self {
            Self::Parallel { .. } => {
                let value = self.value(p);
                (from.min(to) - SLACK..=from.max(to) + SLACK).contains(&value)
            }
            Self::Pencil(_) => within(self.value(p), from, to),
        }
    }
}

/// Whether an angle lies between two, of which one may be written past ±π.
fn within(angle: f64, from: f64, to: f64) -> bool {
    let (low, high) = (from.min(to) - SLACK, from.max(to) + SLACK);
    [angle, angle + TAU, angle - TAU]
        .iter()
        .any(|a| (low..=high).contains(a))
}

/// Left and right changed over.
pub(super) fn mirrored(p: Vec3) -> Vec3 {
    Vec3::new(-p.x, p.y, p.z)
}

/// A patch of scalp.
///
/// Within it a place has two shares: *across*, from the edge nearest the guide (0) to the far edge
/// (1), and *along* its row, a parting between the two, from the inner end (0: nearest the pivot, or
/// the higher end, or the one nearer the middle) to the outer (1).
#[derive(Clone, Debug, PartialEq)]
pub struct Patch(Kind);

#[derive(Clone, Debug, PartialEq)]
enum Kind {
    Place(Vec3),
    Slice {
        family: Family,
        /// Partings of the near and the far edge.
        near: f64,
        far: f64,
        /// The same for the test whether a place lies within: beyond the region for its outermost
        /// sections, so that sections cover the region whole.
        keeps: (f64, f64),
        region: Arc<[Edge]>,
    },
}

/// A parting within a patch.
#[derive(Clone, Debug, Default)]
pub struct Row {
    /// A point of its plane inside the head.
    centre: Vec3,
    points: Vec<Vec3>,
    lengths: Vec<f64>,
}

impl Row {
    fn through(centre: Vec3, points: Vec<Vec3>) -> Self {
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
        Some(head.skull().along_from(self.centre, between - self.centre))
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

impl Patch {
    /// A single place on the skull.
    pub fn place(p: Vec3) -> Self {
        Self(Kind::Place(p))
    }

    pub(super) fn slice(
        family: Family,
        (near, far): (f64, f64),
        keeps: (f64, f64),
        region: Arc<[Edge]>,
    ) -> Self {
        Self(Kind::Slice {
            family,
            near,
            far,
            keeps,
            region,
        })
    }

    /// The same on the other side of the head.
    pub(super) fn mirrored(&self) -> Self {
        match &self.0 {
            Kind::Place(p) => Self::place(mirrored(*p)),
            Kind::Slice {
                family,
                near,
                far,
                keeps,
                region,
            } => Self::slice(
                family.mirrored(),
                (*near, *far),
                *keeps,
                region.iter().map(|edge| edge.mirrored()).collect(),
            ),
        }
    }

    /// Whether a place on the skull lies in it, its edges included. The hairline is not asked: a
    /// patch holds what lies beyond it too.
    pub fn holds(&self, p: Vec3) -> bool {
        match &self.0 {
            Kind::Place(place) => place.distance(p) < SLACK,
            Kind::Slice {
                family,
                keeps: (from, to),
                region,
                ..
            } => family.holds(p, *from, *to) && region.iter().all(|edge| edge.holds(p)),
        }
    }

    /// The row at a share of the way across. Empty where the parting does not meet the region.
    pub fn row(&self, head: &Head, across: f64) -> Row {
        self.row_and(head, across, 0.0)
    }

    /// The row in the middle, and so much of its parting beyond its ends (but not beyond a pivot) that
    /// every place of the patch lies abreast of it.
    pub fn spine(&self, head: &Head) -> Row {
        self.row_and(head, 0.5, BEYOND)
    }

    fn row_and(&self, head: &Head, across: f64, beyond: f64) -> Row {
        match &self.0 {
            Kind::Place(p) => Row::through(Vec3::ZERO, vec![*p]),
            Kind::Slice {
                family,
                near,
                far,
                region,
                ..
            } => {
                let value = near + (far - near) * across;
                let inside =
                    |p: Vec3| region.iter().all(|edge| edge.holds(p)) && head.grows_hair(p);
                Curve::of(family, value).map_or_else(Row::default, |curve| {
                    Row::through(curve.centre, curve.within(head, &inside, beyond))
                })
            }
        }
    }

    /// The place at these shares of the way across and along. Where the parting misses the region, as
    /// it may at an edge that is a single point, the nearest row that does not.
    pub fn at(&self, head: &Head, across: f64, along: f64) -> Vec3 {
        let tried = (0..=8).map(|i| across + (0.5 - across) * f64::from(i) / 8.0);
        tried
            .filter_map(|across| self.row(head, across).at(head, along))
            .next()
            .unwrap_or_else(|| self.anywhere(head))
    }

    /// Some place of the skull near it, for a patch without scalp.
    fn anywhere(&self, head: &Head) -> Vec3 {
        match &self.0 {
            Kind::Place(p) => *p,
            Kind::Slice { family, .. } => match family {
                Family::Parallel { ends, .. } => ends[0],
                Family::Pencil(pencil) => head.skull().along_from(pencil.centre, pencil.axis),
            },
        }
    }

    /// Roots that stand for it: `rows` rows side by side, each in the middle of its share of the
    /// patch so that no root lies on an edge two sections have in common; in each row as many roots
    /// from the inner to the outer end. None if the patch has no scalp.
    pub fn roots(&self, head: &Head, rows: usize) -> Vec<Vec3> {
        if let Kind::Place(p) = &self.0 {
            return vec![*p];
        }
        let mut roots = Vec::with_capacity(rows * rows);
        for r in 0..rows {
            let row = self.row(head, (r as f64 + 0.5) / rows as f64);
            for i in 0..rows {
                let along = if rows < 2 {
                    0.5
                } else {
                    i as f64 / (rows - 1) as f64
                };
                match row.at(head, along) {
                    Some(root) => roots.push(root),
                    None => return self.roots_of_longest(head, rows),
                }
            }
        }
        roots
    }

    /// The same where a row missed the region: all roots stand on the longest row there is.
    fn roots_of_longest(&self, head: &Head, rows: usize) -> Vec<Vec3> {
        let longest = (0..=16)
            .map(|i| self.row(head, f64::from(i) / 16.0))
            .max_by(|a, b| a.length().total_cmp(&b.length()))
            .unwrap_or_default();
        let share = |i: usize| (i as f64 + 0.5) / rows as f64;
        (0..rows * rows)
            .filter_map(|i| longest.at(head, share(i % rows)))
            .collect()
    }

    /// Its edge: along the near row, over the outer ends, back along the far row, over the inner
    /// ends. Empty if it has no scalp.
    pub fn outline(&self, head: &Head) -> Vec<Vec3> {
        let rows: Vec<Row> = (0..=8)
            .map(|i| self.row(head, f64::from(i) / 8.0))
            .filter(|row| !row.points.is_empty())
            .collect();
        let (Some(near), Some(far)) = (rows.first(), rows.last()) else {
            return Vec::new();
        };
        let mut edge = near.points.clone();
        edge.extend(rows.iter().filter_map(|row| row.points.last()));
        edge.extend(far.points.iter().rev());
        edge.extend(rows.iter().rev().filter_map(|row| row.points.first()));
        edge
    }

    /// Its area, cm²: four-cornered pieces between `rows` rows.
    pub fn area(&self, head: &Head, rows: usize) -> f64 {
        let lattice: Vec<Vec<Vec3>> = (0..=rows)
            .map(|r| {
                let row = self.row(head, r as f64 / rows as f64);
                (0..=rows)
                    .filter_map(|i| row.at(head, i as f64 / rows as f64))
                    .collect()
            })
            .collect();
        let mut area = 0.0;
        for pair in lattice.windows(2) {
            let count = pair[0].len().min(pair[1].len());
            for i in 1..count {
                let (a, b) = (pair[1][i] - pair[0][i - 1], pair[1][i - 1] - pair[0][i]);
                // Half the cross product of the diagonals.
                area += a.cross(b).length() / 2.0;
            }
        }
        area
    }
}

/// A parting on the skull, walked by an angle about a centre inside.
struct Curve {
    centre: Vec3,
    right: Vec3,
    up: Vec3,
    /// From where to where it runs; a closed curve runs a full turn.
    from: f64,
    to: f64,
}

impl Curve {
    /// The parting of this value; none where its plane passes the head by.
    fn of(family: &Family, value: f64) -> Option<Self> {
        Some(match *family {
            Family::Parallel { normal, ends } => {
                let (right, up) = frame(normal);
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
                to: PI,
            },
        })
    }

    fn at(&self, head: &Head, angle: f64, near: &mut f64) -> Vec3 {
        let direction = self.right * angle.cos() + self.up * angle.sin();
        *near = head.skull().reach(self.centre, direction, *near);
        self.centre + direction * *near
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
    fn within(&self, head: &Head, inside: &impl Fn(Vec3) -> bool, beyond: f64) -> Vec<Vec3> {
        let closed = self.to - self.from > PI + SLACK;
        let steps = if closed { STEPS } else { STEPS / 2 };
        let step = (self.to - self.from) / steps as f64;
        let mut near = head.skull().size();
        let mut seen: Vec<bool> = (0..=steps)
            .map(|i| inside(self.at(head, self.from + step * i as f64, &mut near)))
            .collect();
        if !closed {
            // The pivot lies on the edge of every wedge: it belongs to those that start from it.
            seen[0] = seen[1];
        }
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
            let room = if closed { TAU - (to - from) } else { PI - to };
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
/// the middle where both are level, from right to left where both are as far aside.
fn outward(points: &[Vec3]) -> bool {
    let (Some(a), Some(b)) = (points.first(), points.last()) else {
        return false;
    };
    if (a.z - b.z).abs() > 0.5 {
        a.z < b.z
    } else if (a.x.abs() - b.x.abs()).abs() > 1e-3 {
        a.x.abs() > b.x.abs()
    } else {
        a.x < b.x
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

/// Two directions square to `normal` and each other, mirrored where the normal is.
fn frame(normal: Vec3) -> (Vec3, Vec3) {
    // The axis least along the normal; x last, so that mirrored normals get mirrored frames.
    let start = if normal.z.abs() < 0.9 {
        Vec3::Z
    } else {
        Vec3::Y
    };
    let up = (start - normal * start.dot(normal)).normalize();
    let right = up.cross(normal);
    // A cross product turns round in a mirror: it is kept to the side that the normal's own x says.
    let keep = if normal.x < 0.0 { -1.0 } else { 1.0 };
    (right * keep, up)
}
