//! The few lines that make a head a face: closed eyes, brows, mouth, the wings of the nose, ears.

use super::sculpt::Sculpt;
use crate::geometry::{Convex, Vec3};
use crate::head::{Head, Side};

/// One line on the surface.
#[derive(Clone, Debug)]
pub(super) struct Feature {
    /// Its places, each with the way in which the surface looks there.
    pub places: Vec<(Vec3, Vec3)>,
    /// Whether it is seen from behind its surface too, as the rim of an ear is.
    pub both: bool,
}

/// How far the lines stand off the surface, cm.
const OFF: f64 = 0.03;

/// Lines of the face as places: cm aside and share of the way down from brow to chin.
const EYE: [(f64, f64); 6] = [
    (1.65, 0.215),
    (2.2, 0.228),
    (2.9, 0.238),
    (3.6, 0.237),
    (4.2, 0.225),
    (4.6, 0.208),
];
const BROW: [(f64, f64); 5] = [
    (1.5, 0.085),
    (2.4, 0.05),
    (3.5, 0.033),
    (4.4, 0.045),
    (5.2, 0.085),
];
const WING: [(f64, f64); 4] = [(1.5, 0.485), (1.78, 0.515), (1.68, 0.55), (1.25, 0.56)];
const NOSTRIL: [(f64, f64); 3] = [(0.5, 0.553), (0.85, 0.545), (1.15, 0.556)];
const MOUTH: [(f64, f64); 5] = [
    (0.0, 0.697),
    (0.5, 0.692),
    (1.1, 0.697),
    (1.8, 0.694),
    (2.45, 0.682),
];
const UPPER_LIP: [(f64, f64); 4] = [(0.0, 0.652), (0.45, 0.641), (1.2, 0.658), (2.0, 0.677)];
const LOWER_LIP: [(f64, f64); 3] = [(0.0, 0.764), (0.7, 0.76), (1.3, 0.744)];

/// The ear's rim and its fold: cm behind and above the front of its opening, as the flat drawing has them.
const RIM: [(f64, f64); 9] = [
    (-0.1, 0.5),
    (0.2, 2.3),
    (1.2, 3.0),
    (2.4, 2.4),
    (2.5, 0.9),
    (1.6, -0.6),
    (1.0, -2.0),
    (0.2, -2.4),
    (-0.1, -1.5),
];
const FOLD: [(f64, f64); 5] = [(0.7, 1.4), (1.5, 1.9), (1.8, 1.1), (1.2, 0.1), (0.5, -0.3)];
/// How far an ear stands off where it grows, and with each cm behind there, cm.
const STANDS: f64 = 0.15;
const FLARES: f64 = 0.45;

/// The lines of a face.
pub(super) fn face(sculpt: &Sculpt) -> Vec<Feature> {
    let mut lines = Vec::new();
    for side in [1.0, -1.0] {
        for line in [&EYE[..], &BROW, &WING, &NOSTRIL] {
            lines.push(on_face(sculpt, line, side));
        }
    }
    for line in [&MOUTH[..], &UPPER_LIP, &LOWER_LIP] {
        let mut whole: Vec<(f64, f64)> = line.iter().skip(1).rev().map(|p| (-p.0, p.1)).collect();
        whole.extend(line);
        lines.push(on_face(sculpt, &whole, 1.0));
    }
    lines
}

/// The jaw on both sides, one line from corner to corner.
pub(super) fn jaw(sculpt: &Sculpt) -> Feature {
    let left = sculpt.jaw();
    let right = left.iter().skip(1).rev().map(|p| Vec3::new(-p.x, p.y, p.z));
    let mut whole: Vec<Vec3> = right.collect();
    whole.extend(&left);
    let looks = |p: Vec3| (p, Vec3::new(p.x, 2.0, -3.0).normalize());
    Feature {
        places: whole.into_iter().map(looks).collect(),
        both: true,
    }
}

fn on_face(sculpt: &Sculpt, line: &[(f64, f64)], side: f64) -> Feature {
    let place = |(aside, down): (f64, f64)| {
        let (p, normal) = sculpt.face(sculpt.level(down), aside * side);
        (p + normal * OFF, normal)
    };
    Feature {
        places: finer(line).into_iter().map(place).collect(),
        both: false,
    }
}

/// An ear: its rim and its fold.
pub(super) fn ear(head: &Head, side: Side) -> [Feature; 2] {
    let opening = head.ear_opening(side);
    let sign = side.sign();
    let looks = Vec3::new(sign, FLARES, 0.0).normalize();
    let place = |(behind, above): (f64, f64)| {
        let (y, z) = (opening.y - behind, opening.z + above);
        let skin = head
            .skull()
            .along_from(Vec3::new(0.0, y, z), Vec3::X * sign);
        let out = STANDS + FLARES * (behind + 0.1);
        (skin + Vec3::X * (out * sign), looks)
    };
    [(&RIM[..], true), (&FOLD[..], false)].map(|(line, both)| Feature {
        places: finer(line).into_iter().map(place).collect(),
        both,
    })
}

/// A smooth line through places, three more between two (Catmull and Rom, 1974).
fn finer(line: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let at = |i: usize| line[i.min(line.len() - 1)];
    let mut all = Vec::new();
    for i in 0..line.len().saturating_sub(1) {
        let (before, from, to, after) = (at(i.saturating_sub(1)), at(i), at(i + 1), at(i + 2));
        for step in 0..4 {
            let t = f64::from(step) / 4.0;
            let rest = 1.0 - t;
            let between = |b: f64, p: f64, q: f64, a: f64| {
                let (one, two) = (p + (q - b) / 6.0, q - (a - p) / 6.0);
                p * rest.powi(3)
                    + one * 3.0 * rest * rest * t
                    + two * 3.0 * rest * t * t
                    + q * t.powi(3)
            };
            all.push((
                between(before.0, from.0, to.0, after.0),
                between(before.1, from.1, to.1, after.1),
            ));
        }
    }
    all.extend(line.last());
    all
}
