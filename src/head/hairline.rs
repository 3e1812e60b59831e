//! The hairline: a closed curve on the skull through named points, the same on both sides.

use std::f64::consts::PI;

/// How far down from the high point the hairline lies, for every azimuth.
///
/// Through its knots runs a monotone cubic (Fritsch and Carlson, *SIAM J. Numer. Anal.* 17 (1980)
/// 238–246), mirrored at front and back, so it never swings past a knot.
#[derive(Clone, Debug, PartialEq)]
pub struct Hairline {
    /// Azimuth in radians from 0 (front) to π (nape), rising, and distance in cm.
    knots: Vec<(f64, f64)>,
    slopes: Vec<f64>,
}

impl Hairline {
    /// A hairline through these knots: azimuths in radians rising from 0 to π, each with its
    /// distance from the high point in cm, measured down the skull.
    pub(super) fn through(knots: Vec<(f64, f64)>) -> Self {
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

    /// Arc length in cm from the high point down to the hairline at `azimuth` (radians, any turn).
    pub fn distance(&self, azimuth: f64) -> f64 {
        let turned = azimuth.rem_euclid(2.0 * PI);
        let at = if turned > PI {
            2.0 * PI - turned
        } else {
            turned
        };
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_passes_its_knots_stays_between_them_and_is_mirrored() {
        let knots = vec![
            (0.0, 10.0),
            (1.0, 11.0),
            (1.7, 16.0),
            (2.0, 14.0),
            (PI, 22.0),
        ];
        let line = Hairline::through(knots.clone());
        for (azimuth, cm) in knots {
            assert!((line.distance(azimuth) - cm).abs() < 1e-12);
            assert!((line.distance(-azimuth) - cm).abs() < 1e-12);
        }
        for i in 0..100 {
            let at = line.distance(1.0 + 0.007 * f64::from(i));
            assert!((11.0..=16.0).contains(&at));
        }
    }
}
