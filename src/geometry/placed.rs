//! An ellipsoid somewhere in space: the body's parts below and beside the skull.

use super::{Convex, Ellipsoid, Jet, Vec3};
use glam::DMat3;

/// An ellipsoid moved to `centre` and leant forward or back.
///
/// It leans about the x axis only, so that a left and a right one of the same measures are mirror
/// images to the last bit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placed {
    centre: Vec3,
    /// F(p) = (p − centre)·form(p − centre).
    form: DMat3,
    size: f64,
}

impl Placed {
    /// `body` moved to `centre` (cm) with its upper end leant forward by `lean` radians.
    pub fn new(body: Ellipsoid, centre: Vec3, lean: f64) -> Self {
        let (sin, cos) = lean.sin_cos();
        let (up, ahead) = (Vec3::new(0.0, sin, cos), Vec3::new(0.0, cos, -sin));
        let weights = (body.axes * body.axes).recip();
        // Written out rather than rotated by matrices: what has to be zero stays exactly zero.
        let yz = weights.z * up.y * up.z + weights.y * ahead.y * ahead.z;
        let form = DMat3::from_cols(
            Vec3::new(weights.x, 0.0, 0.0),
            Vec3::new(
                0.0,
                weights.z * up.y * up.y + weights.y * ahead.y * ahead.y,
                yz,
            ),
            Vec3::new(
                0.0,
                yz,
                weights.z * up.z * up.z + weights.y * ahead.z * ahead.z,
            ),
        );
        Self {
            centre,
            form,
            size: body.size(),
        }
    }

    /// Its middle.
    pub fn centre(&self) -> Vec3 {
        self.centre
    }

    /// The same, moved by `by` (cm).
    pub fn moved(self, by: Vec3) -> Self {
        Self {
            centre: self.centre + by,
            ..self
        }
    }

    /// How far below `p` (cm, above zero) a plumb line from there first meets it; none if it passes
    /// by or starts inside.
    pub fn below(&self, p: Vec3) -> Option<f64> {
        let from = p - self.centre;
        let scaled = self.form * from;
        // F along the line is a t² − 2 b t + c + 1.
        let (a, b, c) = (self.form.z_axis.z, scaled.z, from.dot(scaled) - 1.0);
        let under_root = b * b - a * c;
        (b > 0.0 && c >= 0.0 && under_root > 0.0).then(|| c / (b + under_root.sqrt()))
    }

    /// How far its level section at the height `z` reaches along `across`, a level unit direction:
    /// least and greatest, in cm from the origin. None where it has no section.
    pub fn level_reach(&self, across: Vec3, z: f64) -> Option<(f64, f64)> {
        let up = z - self.centre.z;
        let f = &self.form;
        // F over the section is an ellipse about (0, y₀): f.x x² + f.yy (y − y₀)² ≤ left.
        let behind = f.y_axis.z * up / f.y_axis.y;
        let left = 1.0 - f.z_axis.z * up * up + f.y_axis.y * behind * behind;
        let spread = across.x * across.x / f.x_axis.x + across.y * across.y / f.y_axis.y;
        let middle = across.x * self.centre.x + across.y * (self.centre.y - behind);
        let half = (left > 0.0).then(|| (left * spread).sqrt())?;
        Some((middle - half, middle + half))
    }
}

impl Convex for Placed {
    const DEGREE: f64 = 2.0;

    fn jet(&self, p: Vec3) -> Jet {
        let from = p - self.centre;
        let scaled = self.form * from;
        Jet {
            value: from.dot(scaled),
            gradient: 2.0 * scaled,
            hessian: self.form * 2.0,
        }
    }

    fn size(&self) -> f64 {
        self.size
    }

    /// Where the ray from its own centre, not the origin, leaves it.
    fn along(&self, direction: Vec3) -> Vec3 {
        self.along_from(self.centre, direction)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_plumb_line_meets_it_where_a_sphere_would() {
        let ball = Placed::new(Ellipsoid::sphere(3.0), Vec3::new(1.0, 2.0, -10.0), 0.4);
        let met = ball.below(Vec3::new(2.0, 2.0, 5.0));
        assert!((met.unwrap() - (15.0 - 8.0_f64.sqrt())).abs() < 1e-12);
        assert_eq!(ball.below(Vec3::new(5.0, 2.0, 5.0)), None, "beside");
        assert_eq!(ball.below(Vec3::new(1.0, 2.0, -14.0)), None, "under");
        assert_eq!(ball.below(Vec3::new(1.0, 2.0, -9.0)), None, "inside");
    }

    #[test]
    fn its_level_sections_reach_as_far_as_its_surface() {
        let leant = Placed::new(
            Ellipsoid::new(1.0, 2.0, 5.0),
            Vec3::new(0.5, -3.0, 2.0),
            0.3,
        );
        for z in [-1.0, 2.0, 4.5] {
            for across in [Vec3::X, Vec3::Y, Vec3::new(0.6, 0.8, 0.0)] {
                let (from, to) = leant.level_reach(across, z).unwrap();
                // The least of F on the line across at that height is 1 where the section ends.
                let aside = Vec3::new(-across.y, across.x, 0.0);
                for end in [from, to] {
                    let least = (-40_000..=40_000)
                        .map(|i| {
                            let p = across * end + aside * (f64::from(i) * 2e-4);
                            leant.value(Vec3::new(p.x, p.y, z))
                        })
                        .fold(f64::INFINITY, f64::min);
                    assert!((least - 1.0).abs() < 1e-6, "{least}");
                }
            }
        }
        assert_eq!(leant.level_reach(Vec3::X, 8.0), None);
    }

    #[test]
    fn its_upper_end_leans_forward() {
        let lean = 0.3_f64;
        let leant = Placed::new(Ellipsoid::new(1.0, 2.0, 5.0), Vec3::Z, lean);
        let end = Vec3::new(0.0, lean.sin(), lean.cos());
        assert!(leant.along(end).distance(Vec3::Z + end * 5.0) < 1e-9);
        let plain = Ellipsoid::new(1.0, 2.0, 5.0);
        let jet = leant.jet(Vec3::Z + Vec3::X);
        assert!((jet.value - plain.value(Vec3::X)).abs() < 1e-12);
    }
}
