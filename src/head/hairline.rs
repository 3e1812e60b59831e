//! The hairline: a closed curve on the skull through named points, each side with its own.

use super::scalp::meridian_arc;
use crate::geometry::{Egg, PlanarArc, Vec3};
use std::f64::consts::{PI, TAU};

/// How far down from the high point the hairline lies, for every azimuth.
#[derive(Clone, Debug, PartialEq)]
pub struct Hairline {
    left: Curve,
    /// None where both sides are alike.
    right: Option<Curve>,
}

/// One side: a monotone cubic through its knots (Fritsch and Carlson, *SIAM J. Numer. Anal.* 17
/// (1980) 238–246), level at front and back so that the sides meet smoothly; it never swings past a
/// knot.
#[derive(Clone, Debug, PartialEq)]
struct Curve {
    /// Azimuth in radians from 0 (front) to π (nape), rising, and distance in cm.
    knots: Vec<(f64, f64)>,
    slopes: Vec<f64>,
}

impl Hairline {
    /// A hairline through these knots of the left and of the right side: azimuths in radians rising
    /// from 0 to π, each with its distance from the high point in cm, measured down the skull. Both
    /// sides begin and end with the same distance.
    pub(super) fn through(left: Vec<(f64, f64)>, right: Vec<(f64, f64)>) -> Self {
        let right = (right != left).then(|| Curve::through(right));
        let left = Curve::through(left);
        Self { left, right }
    }

    /// Arc length in cm from the high point down to the hairline at `azimuth` (radians, any turn;
    /// 0 is the front, left is positive).
    pub fn distance(&self, azimuth: f64) -> f64 {
        // Within one turn nothing is wrapped, so that the two sides read exactly alike.
        let within = if azimuth.abs() <= PI {
            azimuth
        } else {
            azimuth - TAU * (azimuth / TAU).round()
        };
        let side = match &self.right {
            Some(right) if within < 0.0 => right,
            _ => &self.left,
        };
        side.distance(within.abs())
    }
}

impl Curve {
    fn through(knots: Vec<(f64, f64)>) -> Self {
        let n = knots.len();
        let secant = |i: usize| (knots[i + 1].1 - knots[i].1) / (knots[i + 1].0 - knots[i].0);
        let mut slopes = vec![0.0; n];
        for (i, slope) in slopes.iter_mut().enumerate().take(n - 1).skip(1) {
            let (before, after) = (secant(i - 1), secant(i));
            if before * after > 0.0 {
                // The harmonic mean keeps the curve monotone between knots.
                *slope = 2.0 * before * after / (before + after);
            }
        }
        Self { knots, slopes }
    }

    /// The distance at an azimuth from 0 to π.
    fn distance(&self, at: f64) -> f64 {
        let i = self
            .knots
            .partition_point(|knot| knot.0 <= at)
            .clamp(1, self.knots.len() - 1);
        let ((x0, y0), (x1, y1)) = (self.knots[i - 1], self.knots[i]);
        let h = x1 - x0;
        let t = ((at - x0) / h).clamp(0.0, 1.0);
        let (t2, t3) = (t * t, t * t * t);
        y0 * (2.0 * t3 - 3.0 * t2 + 1.0)
            + self.slopes[i - 1] * h * (t3 - 2.0 * t2 + t)
            + y1 * (3.0 * t2 - 2.0 * t3)
            + self.slopes[i] * h * (t3 - t2)
    }
}

/// The height of the hairline at every azimuth, as a table: below it no hair grows.
///
/// Down a meridian of a convex skull the height only falls, so a place lies within the hairline
/// exactly when it lies above the hairline of its azimuth.
#[derive(Clone, Debug)]
pub(super) struct Edge {
    /// z in cm at azimuths evenly spread from the front to the back.
    left: Vec<f64>,
    /// None where both sides are alike.
    right: Option<Vec<f64>>,
}

/// Panels of the table from front to back: half a degree each, where straight lines between are
/// good to 0.002 cm.
const PANELS: usize = 360;
/// Meridians that are really walked, from front to back; between them heights follow cubics.
const WALKED: usize = 18;

impl Edge {
    /// The table of a hairline on a skull, whose two sides are alike.
    pub(super) fn new(skull: &Egg, hairline: &Hairline) -> Self {
        let arcs: Vec<PlanarArc> = (0..=WALKED)
            .map(|i| meridian_arc(skull, PI * i as f64 / WALKED as f64))
            .collect();
        let table = |sign: f64| {
            (0..=PANELS)
                .map(|i| {
                    let turn = i as f64 / PANELS as f64;
                    let distance = hairline.distance(sign * PI * turn);
                    height_down(&arcs, turn * WALKED as f64, distance)
                })
                .collect()
        };
        Self {
            left: table(1.0),
            right: hairline.right.is_some().then(|| table(-1.0)),
        }
    }

    /// Whether a place of the skull lies on or above the hairline.
    pub(super) fn encloses(&self, p: Vec3) -> bool {
        p.z >= self.height(p.x, p.y)
    }

    /// Height in cm of the hairline in the direction of (x, y) from the upright axis.
    pub(super) fn height(&self, x: f64, y: f64) -> f64 {
        let turn = x.abs().atan2(y) / PI * PANELS as f64;
        let side = match &self.right {
            Some(right) if x < 0.0 => right,
            _ => &self.left,
        };
        let i = (turn as usize).min(PANELS - 1);
        side[i] + (side[i + 1] - side[i]) * (turn - i as f64)
    }
}

/// The height `distance` cm down the meridian that stands at `at` among evenly turned `arcs`: the
/// cubic through the two on either side (Lagrange). Front and back mirror the sides.
fn height_down(arcs: &[PlanarArc], at: f64, distance: f64) -> f64 {
    let last = arcs.len() as isize - 1;
    let first = (at as isize).min(last - 1);
    let t = at - first as f64;
    let weights = [
        -t * (t - 1.0) * (t - 2.0) / 6.0,
        (t + 1.0) * (t - 1.0) * (t - 2.0) / 2.0,
        -(t + 1.0) * t * (t - 2.0) / 2.0,
        (t + 1.0) * t * (t - 1.0) / 6.0,
    ];
    (first - 1..)
        .zip(weights)
        .map(|(i, weight)| {
            let mirrored = if i > last { 2 * last - i } else { i.abs() };
            weight * arcs[mirrored as usize].at(distance).z
        })
        .sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_passes_its_knots_stays_between_them_and_each_side_is_its_own() {
        let knots = vec![
            (0.0, 10.0),
            (1.0, 11.0),
            (1.7, 16.0),
            (2.0, 14.0),
            (PI, 22.0),
        ];
        let both = Hairline::through(knots.clone(), knots.clone());
        let mut right = knots.clone();
        right[2].1 = 15.0;
        let line = Hairline::through(knots.clone(), right.clone());
        for (&(azimuth, cm), (_, right)) in knots.iter().zip(right) {
            assert!((line.distance(azimuth) - cm).abs() < 1e-12);
            assert!((line.distance(-azimuth) - right).abs() < 1e-12);
            assert!((both.distance(-azimuth) - cm).abs() < 1e-12);
        }
        for i in 0..100 {
            let at = line.distance(1.0 + 0.007 * f64::from(i));
            assert!((11.0..=16.0).contains(&at));
        }
    }
}
