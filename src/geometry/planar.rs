//! Tapes laid flat: the curve in which a plane through the body's inside cuts its surface.

use super::{Convex, Vec3};

/// The curve in which a plane cuts a convex body, measured from a start direction.
///
/// A tape laid around or over a head lies in such a plane. The curve is walked by the angle around
/// a centre inside the body, `centre + cos φ · right + sin φ · up`.
#[derive(Clone, Debug)]
pub struct PlanarArc {
    /// Points along the curve, evenly spaced in angle.
    points: Vec<Vec3>,
    /// Arc length from the first point to each, in cm.
    lengths: Vec<f64>,
}

/// Panels to a full turn. With the correction below the length is good to 1e-4 cm on a head.
const PANELS: f64 = 120.0;

/// The arc of `body` in the plane through `centre` (inside the body) of the directions `right` and
/// `up`, from angle `from` to `to` (radians; `right` is 0, `up` is π/2).
pub fn planar_arc<S: Convex>(
    body: &S,
    centre: Vec3,
    (right, up): (Vec3, Vec3),
    (from, to): (f64, f64),
) -> PlanarArc {
    let count = ((to - from).abs() / std::f64::consts::TAU * PANELS)
        .ceil()
        .max(8.0) as usize;
    // Each point is about as far out as the two before it let expect.
    let (mut before, mut reach) = (body.size(), body.size());
    let points: Vec<Vec3> = (0..=count)
        .map(|i| {
            let angle = from + (to - from) * i as f64 / count as f64;
            let d = (right * angle.cos() + up * angle.sin()).normalize();
            let guess = (2.0 * reach - before).max(0.5 * reach);
            (before, reach) = (reach, body.reach(centre, d, guess));
            centre + d * reach
        })
        .collect();
    let mut lengths = vec![0.0; points.len()];
    for i in 1..points.len() {
        let chord = points[i].distance(points[i - 1]);
        // A chord of a curve that turns by ω is shorter than its arc by ω²/24 of itself.
        let before = if i >= 2 {
            points[i - 1] - points[i - 2]
        } else {
            points[i] - points[i - 1]
        };
        let after = if i + 1 < points.len() {
            points[i + 1] - points[i]
        } else {
            points[i] - points[i - 1]
        };
        let spans = if i >= 2 && i + 1 < points.len() {
            2.0
        } else {
            1.0
        };
        let turn = before.angle_between(after) / spans;
        lengths[i] = lengths[i - 1] + chord * (1.0 + turn * turn / 24.0);
    }
    PlanarArc { points, lengths }
}

impl PlanarArc {
    /// Its whole length in cm.
    pub fn length(&self) -> f64 {
        self.lengths.last().copied().unwrap_or(0.0)
    }

    /// The points it was measured with, from its start to its end.
    pub fn points(&self) -> &[Vec3] {
        &self.points
    }

    /// The point at arc length `s` cm from the start; before the start or past the end, that end.
    /// The point lies within 0.005 cm of the curve's own.
    pub fn at(&self, s: f64) -> Vec3 {
        let i = self
            .lengths
            .partition_point(|&l| l < s)
            .clamp(1, self.points.len() - 1);
        let (from, to) = (self.lengths[i - 1], self.lengths[i]);
        let share = ((s - from) / (to - from)).clamp(0.0, 1.0);
        self.points[i - 1].lerp(self.points[i], share)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Ellipsoid;
    use std::f64::consts::{PI, TAU};

    /// Perimeter of the ellipse with semi-axes 2 and 1: 9.688448220547675 (NIST DLMF 19.9.9 with
    /// E(k) from tables; the value from memory, checked by the Gauss–Kummer series below).
    #[test]
    fn an_ellipse_has_its_known_perimeter() {
        let body = Ellipsoid::new(1.0, 2.0, 1.5);
        let ring = planar_arc(&body, Vec3::ZERO, (Vec3::X, Vec3::Y), (0.0, TAU));
        let (a, b): (f64, f64) = (2.0, 1.0);
        let h = ((a - b) / (a + b)).powi(2);
        let mut coefficient = 1.0;
        let mut sum = 1.0;
        for n in 1..40 {
            coefficient *= (0.5 - f64::from(n - 1)) / f64::from(n);
            sum += coefficient * coefficient * h.powi(n);
        }
        let series = PI * (a + b) * sum;
        assert!((series - 9.688448220547675).abs() < 1e-9);
        assert!((ring.length() - series).abs() < 1e-4, "{}", ring.length());
    }

    #[test]
    fn a_circle_is_walked_evenly() {
        let body = Ellipsoid::sphere(9.0);
        let arc = planar_arc(&body, Vec3::ZERO, (Vec3::Y, Vec3::Z), (0.0, PI));
        assert!((arc.length() - 9.0 * PI).abs() < 1e-5);
        let top = arc.at(arc.length() / 2.0);
        assert!(top.distance(Vec3::Z * 9.0) < 0.005);
    }
}
