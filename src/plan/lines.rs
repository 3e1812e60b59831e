//! Where the partings of a step lie on one head: data into planes.
//!
//! Everything is laid out for the left side and mirrored for the right, so that both sides are
//! parted alike.

use super::family::{Edge, Pencil, mirrored};
use super::partings::{Bound, Edge as At, Line};
use crate::geometry::{Convex, Vec3};
use crate::head::{Head, Landmark, Sample, Side, Spot};
use std::f64::consts::{PI, TAU};

/// One side of one head, laid out as the left one, to lay partings on.
pub(super) struct Lay<'a> {
    pub head: &'a Head,
    /// Whether it is both sides in one.
    pub across: bool,
    /// Azimuth of the worn parting, radians, above zero on this side of the middle.
    pub parting: f64,
}

impl Lay<'_> {
    /// A named point, between where it lies on the left and on the right.
    fn landmark(&self, landmark: Landmark) -> Vec3 {
        let [left, right] =
            [Side::Left, Side::Right].map(|side| self.head.landmark(landmark, side));
        left.midpoint(mirrored(right))
    }

    /// Half-planes about the upright axis: their angle is the azimuth.
    pub fn upright(&self) -> Pencil {
        Pencil {
            centre: Vec3::ZERO,
            axis: Vec3::Z,
            zero: Vec3::Y,
            side: Vec3::X,
        }
    }

    /// Half-planes about the normal of a named point; angle 0 looks to the face.
    pub fn pivot(&self, about: Landmark) -> Pencil {
        let p = self.head.skull().settle(self.landmark(about));
        let axis = self.head.skull().normal(p);
        let forward = Vec3::Y - axis * axis.y;
        // On the very front or back the way to the face is up or down.
        let zero = forward
            .try_normalize()
            .filter(|_| forward.length() > 0.1)
            .unwrap_or_else(|| (Vec3::Z - axis * axis.z).normalize());
        Pencil {
            // As near to the middle of the head as the axis comes.
            centre: p - axis * p.dot(axis),
            axis,
            zero,
            side: zero.cross(axis) * self.turn(zero, axis),
        }
    }

    /// The sign that makes `side` look to the client's left for every pivot.
    fn turn(&self, zero: Vec3, axis: Vec3) -> f64 {
        if zero.cross(axis).x < 0.0 { -1.0 } else { 1.0 }
    }

    /// Azimuth in radians of an edge in the left-hand layout.
    pub fn azimuth(&self, edge: At) -> f64 {
        // Every landmark named here has one.
        let of = |landmark: Landmark| landmark.hairline_azimuth().unwrap_or_default();
        match edge {
            At::Parting => self.parting,
            At::Temple => of(Landmark::Temple),
            At::InFrontOfEar => of(Landmark::InFrontOfEar),
            At::AboveEar => of(Landmark::AboveEar),
            At::BehindEar => of(Landmark::BehindEar),
            At::NapeCorner => of(Landmark::NapeCorner),
            At::Behind(share) => {
                let ear = of(Landmark::BehindEar);
                ear + (PI - ear) * share.clamp(0.0, 1.0)
            }
            At::BackCentre => PI,
        }
    }

    /// The region's edges on this side: its bounds, and the parting and the middle of the back where
    /// it is one of two sides.
    pub fn region(&self, bounds: &[Bound]) -> Vec<Edge> {
        let mut edges: Vec<Edge> = bounds.iter().map(|bound| self.bound(*bound)).collect();
        if self.across {
            // Across the middle a triangle and a strip have both of their edges.
            let two = |bound: &&Bound| {
                let (Bound::Before(line)
                | Bound::Behind(line)
                | Bound::Above(line)
                | Bound::Below(line)
                | Bound::Within(line)
                | Bound::Outside(line)) = bound;
                matches!(line, Line::Fringe { .. } | Line::Beside { .. })
            };
            let twins = bounds.iter().filter(two).map(|b| self.bound(*b).mirrored());
            edges.extend(twins.collect::<Vec<_>>());
        } else {
            edges.push(Edge::Wedge {
                pencil: self.upright(),
                from: self.parting,
                to: PI,
            });
        }
        edges
    }

    fn bound(&self, bound: Bound) -> Edge {
        let (line, keep) = match bound {
            Bound::Before(line) => (line, Vec3::Y),
            Bound::Behind(line) => (line, Vec3::NEG_Y),
            Bound::Above(line) => (line, Vec3::Z),
            Bound::Below(line) => (line, Vec3::NEG_Z),
            Bound::Within(line) => (line, Vec3::NEG_X),
            Bound::Outside(line) => (line, Vec3::X),
        };
        if let Line::ToHighPoint(edge) = line {
            let azimuth = self.azimuth(edge);
            let before = matches!(bound, Bound::Before(_) | Bound::Within(_));
            let (from, to) = match (before, self.across) {
                // Over the front to the parting, but not so far round as to meet the middle of the back.
                (true, false) => (-PI / 2.0, azimuth),
                (false, false) => (azimuth, PI),
                (true, true) => (-azimuth.abs(), azimuth.abs()),
                (false, true) => (azimuth.abs(), TAU - azimuth.abs()),
            };
            return Edge::Wedge {
                pencil: self.upright(),
                from,
                to,
            };
        }
        let (normal, offset) = self.plane(line);
        // Turned so that what is kept lies on its positive side.
        let keep = if normal.dot(keep) < 0.0 { -1.0 } else { 1.0 };
        Edge::Half {
            normal: normal * keep,
            offset: offset * keep,
        }
    }

    /// A line's plane: normal and offset.
    fn plane(&self, line: Line) -> (Vec3, f64) {
        match line {
            Line::EarToEar => {
                let ear = self.landmark(Landmark::AboveEar);
                let top = self.head.landmark(Landmark::HighPoint, Side::Centre);
                // Through both ears and the high point, the same on both sides.
                let normal = Vec3::X.cross(top - ear).normalize();
                (normal, normal.dot(top))
            }
            Line::Level { at, up } => {
                let level = self.landmark(at).z;
                (Vec3::Z, level + up)
            }
            Line::Horseshoe => self.horseshoe(),
            Line::Beside { cm } => (Vec3::X, cm),
            Line::Fringe { depth, width } => match self.fringe(depth, width) {
                Edge::Half { normal, offset } => (normal, offset),
                Edge::Wedge { .. } => (Vec3::Y, 0.0),
            },
            // A wedge, told above.
            Line::ToHighPoint(_) => (Vec3::Y, 0.0),
        }
    }

    /// The plane of the horseshoe: through both temples and, behind the crown, the level of the
    /// ridge.
    pub fn horseshoe(&self) -> (Vec3, f64) {
        let temple = self.landmark(Landmark::Temple);
        let front = Vec3::new(0.0, temple.y, temple.z);
        let ridge = self.head.landmark(Landmark::ParietalRidge, Side::Left).z;
        let back = self
            .head
            .skull()
            .along_from(Vec3::new(0.0, 0.0, ridge), Vec3::NEG_Y);
        let normal = Vec3::X.cross(back - front).normalize();
        let normal = if normal.z < 0.0 { -normal } else { normal };
        (normal, normal.dot(back))
    }

    /// The far edge of a fringe's half triangle; it keeps the forehead's side.
    pub fn fringe(&self, depth: f64, width: f64) -> Edge {
        let meridian = self.head.meridian(self.parting);
        let out = 1.0 - (depth / meridian.hairline()).clamp(0.05, 0.95);
        let point = self.head.skull().settle(meridian.at(out));
        let corner = self.head.place(Spot {
            azimuth: self.parting + width.to_radians(),
            out: 1.0,
        });
        let middle = self.head.skull().settle(point.lerp(corner, 0.5));
        let across = (corner - point).cross(self.head.skull().normal(middle));
        let normal = across.try_normalize().unwrap_or(Vec3::Y);
        let front = self.head.meridian(self.parting).at(1.0);
        let keep = if normal.dot(front - point) < 0.0 {
            -1.0
        } else {
            1.0
        };
        Edge::Half {
            normal: normal * keep,
            offset: normal.dot(point) * keep,
        }
    }

    /// Level, along the head towards the face, in the middle of a region of the left side.
    pub fn towards_face(&self, inside: &[&Sample]) -> Vec3 {
        let sum: Vec3 = inside.iter().map(|s| s.root).sum();
        let out = Vec3::new(sum.x, sum.y, 0.0)
            .try_normalize()
            .unwrap_or(Vec3::X);
        Vec3::new(-out.y, out.x, 0.0)
    }
}
