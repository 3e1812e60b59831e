//! What a hair does where it touches one part of the body, or two.
//!
//! Parts go by place: the skull is [`SKULL`], part i of [`Body::parts`] has place i + 1.

use super::step;
use crate::geometry::{Convex, Vec3, bracketed};
use crate::hair::Worn;
use crate::head::Body;

/// The skull's place among the parts.
pub(super) const SKULL: usize = 0;

/// What the hair does next.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Next {
    /// Slides over this part.
    Over(usize),
    /// Slides along the crease between these two.
    Crease(usize, usize),
    /// Hangs plumb, having left these two (the same one twice if it left one).
    Hang(usize, usize),
    /// Is as long as it gets, or has nowhere to go.
    Stop,
}

/// A body with hair worn some way, asked part by part.
#[derive(Debug)]
pub(super) struct Contact<'a, S> {
    pub body: &'a Body<S>,
    pub worn: &'a Worn,
}

impl<S: Convex> Contact<'_, S> {
    /// How far `p` is from a part, in cm to first order, negative inside.
    pub(super) fn height(&self, part: usize, p: Vec3) -> f64 {
        match part {
            SKULL => self.body.skull().height(p),
            _ => self.body.parts()[part - 1].1.height(p),
        }
    }

    /// The outward unit normal of a part.
    pub(super) fn normal(&self, part: usize, p: Vec3) -> Vec3 {
        match part {
            SKULL => self.body.skull().normal(p),
            _ => self.body.parts()[part - 1].1.normal(p),
        }
    }

    /// How far below `p` a plumb line meets a part; none if it passes by or starts inside.
    pub(super) fn below(&self, part: usize, p: Vec3) -> Option<f64> {
        if part != SKULL {
            return self.body.parts()[part - 1].1.below(p);
        }
        // The skull is widest at z = 0: only its upper half can be met from above.
        let skull = self.body.skull();
        let off = |down: f64| skull.value(p - Vec3::Z * down) - 1.0;
        if p.z <= 0.0 || off(p.z) >= 0.0 || off(0.0) < 0.0 {
            return None;
        }
        bracketed((0.0, p.z), 1e-9, off).ok()
    }

    /// What drives the hair where it lies on `part` with normal `n`, not yet laid into the surface.
    fn drive(&self, part: usize, p: Vec3, n: Vec3) -> Vec3 {
        if part == SKULL && n.z > 0.0 {
            // Laid into the surface already; the normal's share keeps it pressed on.
            self.worn.drive(p, n) - n * n.z
        } else {
            Vec3::NEG_Z
        }
    }

    /// The direction in which it slides over `part` at `p`.
    pub(super) fn heading(&self, part: usize, p: Vec3) -> Vec3 {
        match part {
            SKULL => step::heading(self.body.skull(), Some(self.worn), p),
            _ => step::heading(&self.body.parts()[part - 1].1, None, p),
        }
    }

    /// One step of `h` cm over `part` from a point with its heading, and its estimated error in cm.
    pub(super) fn stepped(&self, part: usize, from: (Vec3, Vec3), h: f64) -> (Vec3, f64) {
        match part {
            SKULL => step::stepped(self.body.skull(), Some(self.worn), from, h),
            _ => step::stepped(&self.body.parts()[part - 1].1, None, from, h),
        }
    }

    /// The same without the error.
    pub(super) fn advanced(&self, part: usize, from: (Vec3, Vec3), h: f64) -> Vec3 {
        match part {
            SKULL => step::advanced(self.body.skull(), Some(self.worn), from, h),
            _ => step::advanced(&self.body.parts()[part - 1].1, None, from, h),
        }
    }

    /// What a hair does that touches this part only.
    pub(super) fn after_touching(&self, part: usize, p: Vec3) -> Next {
        if self.normal(part, p).z > 0.0 {
            Next::Over(part)
        } else {
            Next::Hang(part, part)
        }
    }

    /// What a hair does that touches two parts: the drive's projection on what both leave open.
    pub(super) fn between(&self, a: usize, b: usize, p: Vec3) -> Next {
        let (na, nb) = (self.normal(a, p), self.normal(b, p));
        let drive = match (a, b) {
            (SKULL, _) => self.drive(a, p, na),
            (_, SKULL) => self.drive(b, p, nb),
            _ => Vec3::NEG_Z,
        };
        let (ga, gb) = (drive.dot(na), drive.dot(nb));
        if ga >= 0.0 && gb >= 0.0 {
            return Next::Hang(a, b);
        }
        // Sliding over one presses on it and does not lead into the other.
        if gb < 0.0 && (drive - nb * gb).dot(na) >= 0.0 {
            return Next::Over(b);
        }
        if ga < 0.0 && (drive - na * ga).dot(nb) >= 0.0 {
            return Next::Over(a);
        }
        Next::Crease(a, b)
    }

    /// The way along the crease of two parts, or none where it is level.
    pub(super) fn crease_heading(&self, (a, b): (usize, usize), p: Vec3) -> Option<Vec3> {
        let along = self.normal(a, p).cross(self.normal(b, p)).try_normalize()?;
        let na = self.normal(a, p);
        let drive = if a == SKULL {
            self.drive(a, p, na)
        } else {
            Vec3::NEG_Z
        };
        let share = drive.dot(along);
        (share.abs() > 1e-6).then(|| along * share.signum())
    }

    /// What a hair does that came along a crease to a third part: the way that the third and one of
    /// the two leave, if it leads off the other; else it lies in a pit.
    pub(super) fn out_of(&self, (a, b): (usize, usize), third: usize, p: Vec3) -> Next {
        let ways = [(a, b), (b, a)].map(|(with, off)| {
            let next = self.between(third, with, p);
            let way = match next {
                Next::Over(part) => Some(self.heading(part, p)),
                Next::Crease(x, y) => self.crease_heading((x.min(y), x.max(y)), p),
                Next::Hang(..) => Some(Vec3::NEG_Z),
                Next::Stop => None,
            };
            way.filter(|way| way.dot(self.normal(off, p)) >= 0.0)
                .map(|_| next)
        });
        ways.into_iter().flatten().next().unwrap_or(Next::Stop)
    }

    /// Brings a point near the crease of two parts onto both.
    pub(super) fn settle_both(&self, (a, b): (usize, usize), mut p: Vec3) -> Vec3 {
        for _ in 0..4 {
            let (na, nb) = (self.normal(a, p), self.normal(b, p));
            let (ha, hb) = (self.height(a, p), self.height(b, p));
            let shared = na.dot(nb);
            let det = (1.0 - shared * shared).max(1e-6);
            p -= na * ((ha - shared * hb) / det) + nb * ((hb - shared * ha) / det);
        }
        p
    }
}
