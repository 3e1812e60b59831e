//! A section's patch of scalp: what lies between two partings and within a region.

use super::family::{Edge, Family, SLACK, mirrored};
use super::row::{Curve, Row};
use crate::geometry::{Convex, Vec3};
use crate::head::Head;
use std::sync::Arc;

/// How far a section's spine runs on beyond its ends, radians about its centre: about 5 cm.
const BEYOND: f64 = 0.5;
/// How far within its near and far edge a patch's outer roots stand, as a share of the way across.
const INSET: f64 = 0.002;
/// How far within the ends of a row they stand, cm.
const HAIRS_BREADTH: f64 = 0.01;

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

    /// Whether a family's parting of this value meets a region's scalp.
    pub(super) fn meets(head: &Head, family: &Family, value: f64, region: &[Edge]) -> bool {
        let inside = |p: Vec3| region.iter().all(|edge| edge.holds(p)) && head.grows_hair(p);
        Curve::of(family, value).is_some_and(|curve| curve.meets(head, &inside))
    }

    /// The row in the middle, and so much of its parting beyond its ends (but not beyond a pivot) that
    /// every place of the patch lies abreast of it. Where the middle misses the region, the nearest row
    /// that does not; empty if there is none.
    pub fn spine(&self, head: &Head) -> Row {
        Self::from_the_middle()
            .map(|across| self.row_and(head, across, BEYOND))
            .find(|row| !row.points().is_empty())
            .unwrap_or_default()
    }

    /// Whether any of its rows has scalp. A first look at the middle is nearly always enough.
    pub(super) fn has_scalp(&self, head: &Head) -> bool {
        if let Kind::Slice {
            family,
            near,
            far,
            region,
            ..
        } = &self.0
            && Self::meets(head, family, f64::midpoint(*near, *far), region)
        {
            return true;
        }
        Self::from_the_middle().any(|across| !self.row(head, across).points().is_empty())
    }

    /// Shares of the way across, from the middle to the edges.
    fn from_the_middle() -> impl Iterator<Item = f64> {
        (0..=8).flat_map(|i| {
            let aside = f64::from(i) / 16.0;
            let twice = (i > 0).then_some(0.5 + aside);
            [Some(0.5 - aside), twice].into_iter().flatten()
        })
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

    /// Roots that stand for it: `rows` rows side by side from its near to its far edge, in each as many
    /// roots from the inner to the outer end, one in the middle if `rows` is 1. The shortest and the
    /// longest hair of a section mostly grow at its edges; but what two sections have in common belongs
    /// to both, so roots stand a hair's breadth within. None if the patch has no scalp.
    pub fn roots(&self, head: &Head, rows: usize) -> Vec<Vec3> {
        if let Kind::Place(p) = &self.0 {
            return vec![*p];
        }
        let share = |i: usize, inset: f64| {
            if rows < 2 {
                0.5
            } else {
                inset + (1.0 - 2.0 * inset) * i as f64 / (rows - 1) as f64
            }
        };
        let mut roots = Vec::with_capacity(rows * rows);
        for r in 0..rows {
            let row = self.row_near(head, share(r, INSET));
            let inset = (HAIRS_BREADTH / row.length().max(HAIRS_BREADTH)).min(0.25);
            for i in 0..rows {
                match row.at(head, share(i, inset)) {
                    Some(root) => roots.push(root),
                    None => return self.roots_of_longest(head, rows),
                }
            }
        }
        roots
    }

    /// The row at a share of the way across or, where the parting misses the region there, as in the
    /// corner of a triangle, the nearest to it that does not.
    fn row_near(&self, head: &Head, across: f64) -> Row {
        let row = self.row(head, across);
        if !row.points().is_empty() {
            return row;
        }
        let (mut misses, mut meets) = (across, 0.5);
        let mut best = self.row(head, meets);
        if best.points().is_empty() {
            return row;
        }
        for _ in 0..10 {
            let middle = f64::midpoint(misses, meets);
            let row = self.row(head, middle);
            if row.points().is_empty() {
                misses = middle;
            } else {
                (meets, best) = (middle, row);
            }
        }
        best
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
            .filter(|row| !row.points().is_empty())
            .collect();
        let (Some(near), Some(far)) = (rows.first(), rows.last()) else {
            return Vec::new();
        };
        let mut edge = near.points().to_vec();
        edge.extend(rows.iter().filter_map(|row| row.points().last()));
        edge.extend(far.points().iter().rev());
        edge.extend(rows.iter().rev().filter_map(|row| row.points().first()));
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
