//! An ellipsoid somewhere in space: the body's parts below and beside the skull.

use super::{Convex, Ellipsoid, Jet, Vec3};
use glam::{DMat2, DMat3, DVec2};

/// An ellipsoid moved to `centre` and leant over.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placed {
    centre: Vec3,
    /// F(p) = (p − centre)·form (p − centre).
    form: DMat3,
    size: f64,
    /// Half its height, cm.
    half_height: f64,
}

impl Placed {
    /// `body` moved to `centre` (cm), upright.
    pub fn new(body: Ellipsoid, centre: Vec3) -> Self {
        Self {
            centre,
            form: DMat3::from_diagonal((body.axes * body.axes).recip()),
            size: body.size(),
            half_height: body.axes.z,
        }
    }

    /// The same with its upper end leant forward by `angle` radians, if it was upright before.
    pub fn leant_forward(self, angle: f64) -> Self {
        self.leant(Vec3::Y, angle)
    }

    /// The same with its upper end leant to the client's left by `angle` radians, if it was upright
    /// before. Angles of opposite sign give mirror images to the last bit.
    pub fn leant_left(self, angle: f64) -> Self {
        self.leant(Vec3::X, angle)
    }

    /// Leans an upright one towards a level axis. Written out rather than rotated by matrices, so
    /// that what has to be zero stays exactly zero.
    fn leant(self, towards: Vec3, angle: f64) -> Self {
        let (sin, cos) = angle.sin_cos();
        let weights = self.form * Vec3::ONE;
        let (level, upright) = (weights.dot(towards), weights.z);
        let aside = Vec3::ONE - towards - Vec3::Z;
        let along = level * cos * cos + upright * sin * sin;
        let up = level * sin * sin + upright * cos * cos;
        let mixed = (upright - level) * sin * cos;
        let diagonal = aside * weights + towards * along + Vec3::Z * up;
        let mut form = DMat3::from_diagonal(diagonal);
        form.z_axis += towards * mixed;
        form.x_axis.z += towards.x * mixed;
        form.y_axis.z += towards.y * mixed;
        // The greatest z on r·A r = 1 is the root of A⁻¹'s last entry.
        let half_height = form.inverse().z_axis.z.sqrt();
        Self {
            form,
            half_height,
            ..self
        }
    }

    /// Its middle.
    pub fn centre(&self) -> Vec3 {
        self.centre
    }

    /// The heights of its lowest and its highest point, cm.
    pub fn heights(&self) -> (f64, f64) {
        (
            self.centre.z - self.half_height,
            self.centre.z + self.half_height,
        )
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
        // Over the section F is r·A r + 2 b·r + c with r level, an ellipse about −A⁻¹ b.
        let inverse = DMat2::from_cols(f.x_axis.truncate(), f.y_axis.truncate()).inverse();
        let b: DVec2 = f.z_axis.truncate() * up;
        let left = 1.0 - f.z_axis.z * up * up + b.dot(inverse * b);
        let flat = across.truncate();
        let middle = flat.dot(self.centre.truncate() - inverse * b);
        let half = (left > 0.0).then(|| (left * flat.dot(inverse * flat)).sqrt())?;
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

    fn middle(&self) -> Vec3 {
        self.centre
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_plumb_line_meets_it_where_a_sphere_would() {
        let ball = Placed::new(Ellipsoid::sphere(3.0), Vec3::new(1.0, 2.0, -10.0));
        let met = ball.below(Vec3::new(2.0, 2.0, 5.0));
        assert!((met.unwrap() - (15.0 - 8.0_f64.sqrt())).abs() < 1e-12);
        assert_eq!(ball.below(Vec3::new(5.0, 2.0, 5.0)), None, "beside");
        assert_eq!(ball.below(Vec3::new(1.0, 2.0, -14.0)), None, "under");
        assert_eq!(ball.below(Vec3::new(1.0, 2.0, -9.0)), None, "inside");
    }

    #[test]
    fn its_level_sections_reach_as_far_as_its_surface() {
        let upright = Placed::new(Ellipsoid::new(1.0, 2.0, 5.0), Vec3::new(0.5, -3.0, 2.0));
        level_reach_fits(&upright.leant_forward(0.3));
        level_reach_fits(&upright.leant_left(-0.5));
        assert_eq!(upright.level_reach(Vec3::X, 8.0), None);
    }

    fn level_reach_fits(leant: &Placed) {
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
    }

    /// An ellipsoid with half axes a, b, c reaches √((a·x)² + (b·y)² + (c·z)²) from its middle towards (x, y, z).
    #[test]
    fn a_plane_touches_it_where_the_closed_form_says() {
        let (axes, centre) = (Vec3::new(1.0, 2.0, 5.0), Vec3::new(4.0, -7.0, -11.0));
        let body = Placed::new(Ellipsoid::new(axes.x, axes.y, axes.z), centre);
        for direction in [
            Vec3::X,
            Vec3::new(0.6, -0.64, 0.48),
            Vec3::NEG_Z,
            Vec3::new(-0.8, 0.0, 0.6),
        ] {
            let touched = body.touching(direction);
            assert!((body.value(touched) - 1.0).abs() < 1e-9);
            let reach = (touched - centre).dot(direction);
            assert!(
                (reach - (axes * direction).length()).abs() < 1e-9,
                "{direction}"
            );
        }
    }

    #[test]
    fn its_upper_end_leans_where_it_is_told() {
        let (sin, cos) = 0.3_f64.sin_cos();
        let upright = Placed::new(Ellipsoid::new(1.0, 2.0, 5.0), Vec3::Z);
        for (leant, end, aside) in [
            (
                upright.leant_forward(0.3),
                Vec3::new(0.0, sin, cos),
                Vec3::X,
            ),
            (
                upright.leant_left(0.3),
                Vec3::new(sin, 0.0, cos),
                Vec3::Y * 2.0,
            ),
            (
                upright.leant_left(-0.3),
                Vec3::new(-sin, 0.0, cos),
                Vec3::Y * 2.0,
            ),
        ] {
            assert!(leant.along(end).distance(Vec3::Z + end * 5.0) < 1e-9);
            assert!((leant.value(Vec3::Z + aside) - 1.0).abs() < 1e-12);
            let (low, high) = leant.heights();
            assert!(leant.level_reach(Vec3::Y, high - 1e-9).is_some());
            assert!(leant.level_reach(Vec3::Y, high + 1e-9).is_none());
            assert!((low + high - 2.0).abs() < 1e-12);
        }
    }
}
