//! The roots of a line of the head, told by how far along it they grow.

use super::along::AlongLine;
use crate::geometry::{Convex, Vec3};
use crate::head::{Head, Landmark, Side, Spot};
use crate::words::{tr, tr_in};
use std::f64::consts::PI;

/// How far beside the middle a line of one side keeps, cm: hair on the parting itself may fall to either side.
const ASIDE: f64 = 0.2;
/// Places of a course are about so far apart, cm.
const APART: f64 = 0.25;

/// One half of a line of the head.
#[derive(Clone, Debug)]
pub(super) struct Course {
    /// Places on the skull, each with how far along the line it is, cm.
    places: Vec<(f64, Vec3)>,
}

/// A named place: what it is, its short name and its name, cm along the line.
pub(super) type Named = (Landmark, &'static str, &'static str, f64);

impl Course {
    /// The half of a line on the left (`sign` 1) or on the right (−1).
    pub fn of(head: &Head, line: AlongLine, sign: f64) -> Self {
        let skull = head.skull();
        let aside = |p: Vec3| {
            if p.x * sign < ASIDE {
                skull.settle(Vec3::new(ASIDE * sign, p.y, p.z))
            } else {
                p
            }
        };
        let places = match line {
            AlongLine::Centre => middle(head).into_iter().map(aside).collect(),
            AlongLine::EarToEar => from_the_top(head, sign).into_iter().map(aside).collect(),
            AlongLine::Hairline => round(head, sign).into_iter().map(aside).collect::<Vec<_>>(),
        };
        let mut far = 0.0;
        let mut last: Option<Vec3> = None;
        let told = |p: Vec3| {
            far += last.map_or(0.0, |last| last.distance(p));
            last = Some(p);
            (far, p)
        };
        Self {
            places: places.into_iter().map(told).collect(),
        }
    }

    /// How long it is, cm.
    pub fn long(&self) -> f64 {
        self.places.last().map_or(0.0, |(far, _)| *far)
    }

    /// The root so many cm along it; laid into its ends.
    pub fn root(&self, head: &Head, at: f64) -> Vec3 {
        let next = self
            .places
            .partition_point(|(far, _)| *far <= at)
            .clamp(1, self.places.len().saturating_sub(1).max(1));
        let (Some(a), Some(b)) = (self.places.get(next - 1), self.places.get(next)) else {
            return head.skull().along(Vec3::Z);
        };
        let share = ((at - a.0) / (b.0 - a.0).max(1e-9)).clamp(0.0, 1.0);
        head.skull().settle(a.1.lerp(b.1, share))
    }

    /// How far along it the place nearest to `p` is, cm.
    pub fn nearest(&self, p: Vec3) -> f64 {
        let mut best = (f64::INFINITY, 0.0);
        for pair in self.places.windows(2) {
            let ((from, a), (to, b)) = (pair[0], pair[1]);
            let way = b - a;
            let share = ((p - a).dot(way) / way.length_squared().max(1e-12)).clamp(0.0, 1.0);
            let far = p.distance(a + way * share);
            if far < best.0 {
                best = (far, from + (to - from) * share);
            }
        }
        best.1
    }

    /// The named places of a line in their order.
    pub fn marks(&self, head: &Head, line: AlongLine, side: Side) -> Vec<Named> {
        use Landmark as L;
        let side = if side == Side::Right {
            side
        } else {
            Side::Left
        };
        let front = (
            L::FrontHairline,
            tr("front"),
            tr_in("after “the”", "front hairline"),
        );
        let ear = (L::AboveEar, tr("ear"), tr_in("after “the”", "ear"));
        let nape = (L::Nape, tr("nape"), tr_in("after “the”", "nape"));
        let named = match line {
            AlongLine::Centre => vec![
                front,
                (
                    L::HighPoint,
                    tr("high point"),
                    tr_in("after “the”", "high point"),
                ),
                (L::Crown, tr("crown"), tr_in("after “the”", "crown")),
                (
                    L::Occipital,
                    tr("occipital"),
                    tr_in("after “the”", "occipital bone"),
                ),
                nape,
            ],
            AlongLine::EarToEar => vec![
                (L::HighPoint, tr("top"), tr_in("after “the”", "top")),
                (
                    L::ParietalRidge,
                    tr("ridge"),
                    tr_in("after “the”", "parietal ridge"),
                ),
                ear,
            ],
            AlongLine::Hairline => vec![
                front,
                (L::Temple, tr("temple"), tr_in("after “the”", "temple")),
                (
                    L::InFrontOfEar,
                    "",
                    tr_in("after “the”", "hairline in front of the ear"),
                ),
                ear,
                (
                    L::BehindEar,
                    "",
                    tr_in("after “the”", "hairline behind the ear"),
                ),
                (
                    L::NapeCorner,
                    tr("corner"),
                    tr_in("after “the”", "nape corner"),
                ),
                nape,
            ],
        };
        let at = |place| self.nearest(head.landmark(place, side));
        named
            .into_iter()
            .map(|(place, short, name)| (place, short, name, at(place)))
            .collect()
    }
}

/// The middle line from the front to the nape.
fn middle(head: &Head) -> Vec<Vec3> {
    let (front, back) = (head.meridian(0.0), head.meridian(PI));
    let of = |long: f64| (long / APART).ceil().max(1.0) as usize;
    let (fore, aft) = (of(front.hairline()), of(back.hairline()));
    let front = (0..fore).map(|i| front.at(1.0 - i as f64 / fore as f64));
    let back = (0..=aft).map(|i| back.at(i as f64 / aft as f64));
    front.chain(back).collect()
}

/// Where the tape from ear to ear lies, from the top down to the hairline.
fn from_the_top(head: &Head, sign: f64) -> Vec<Vec3> {
    let mut tape = head.over_the_top();
    if sign > 0.0 {
        tape.reverse();
    }
    let mut places: Vec<Vec3> = Vec::new();
    for pair in tape.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        if b.x * sign <= 0.0 {
            continue;
        }
        if a.x * sign <= 0.0 {
            places.push(head.skull().settle(a.lerp(b, a.x / (a.x - b.x))));
        }
        if !head.grows_hair(b) {
            // The hairline lies between the two.
            let (mut grows, mut bare) = (0.0, 1.0);
            for _ in 0..20 {
                let share = f64::midpoint(grows, bare);
                if head.grows_hair(head.skull().settle(a.lerp(b, share))) {
                    grows = share;
                } else {
                    bare = share;
                }
            }
            places.push(head.skull().settle(a.lerp(b, grows)));
            break;
        }
        places.push(b);
    }
    places
}

/// The hairline from the front round to the nape.
fn round(head: &Head, sign: f64) -> Vec<Vec3> {
    // A hairline is some 30 cm long from the front to the nape.
    const PIECES: usize = 120;
    (0..=PIECES)
        .map(|i| {
            let azimuth = sign * PI * (i as f64 / PIECES as f64);
            head.place(Spot { azimuth, out: 1.0 })
        })
        .collect()
}
