//! What a convex body must offer: a function that is 1 on its surface, with its derivatives.

use super::Vec3;
use glam::DMat3;

/// The value, gradient and second derivatives of a body's function at a point.
#[derive(Clone, Copy, Debug)]
pub struct Jet {
    /// F(p): below 1 inside, 1 on the surface, above 1 outside.
    pub value: f64,
    /// ∇F(p), which points outward.
    pub gradient: Vec3,
    /// The symmetric matrix of second derivatives of F.
    pub hessian: DMat3,
}

impl Jet {
    /// Curvature of the surface along the unit tangent `t`, in 1/cm; positive on a convex body.
    pub fn curvature_along(&self, t: Vec3) -> f64 {
        t.dot(self.hessian * t) / self.gradient.length()
    }

    /// Gaussian curvature of the level surface, in 1/cm².
    ///
    /// Goldman, *Curvature formulas for implicit curves and surfaces* (2005), eq. 4.1:
    /// K = ∇F · adj(H) ∇F / |∇F|⁴.
    pub fn gaussian_curvature(&self) -> f64 {
        let g = self.gradient;
        let [x, y, z] = [
            self.hessian.x_axis,
            self.hessian.y_axis,
            self.hessian.z_axis,
        ];
        let adjugate = DMat3::from_cols(y.cross(z), z.cross(x), x.cross(y));
        // H is symmetric, so its adjugate is too and the order of rows and columns is free.
        g.dot(adjugate * g) / g.length_squared().powi(2)
    }
}

/// A smooth, strictly convex body around the origin, as the set where F ≤ 1.
pub trait Convex {
    /// F grows like this power of the distance from the origin; it makes ray solves nearly linear.
    const DEGREE: f64;

    /// Whether the body is its own mirror image in the plane x = 0, as heads are. Then no shortest path
    /// to a plane that is so too leaves its side.
    const MIRRORED: bool = true;

    /// F and its derivatives at `p`.
    fn jet(&self, p: Vec3) -> Jet;

    /// F alone.
    fn value(&self, p: Vec3) -> f64 {
        self.jet(p).value
    }

    /// A length that says how big the body is, in cm: about its largest half-width.
    fn size(&self) -> f64;

    /// The outward unit normal at a point on or near the surface.
    fn normal(&self, p: Vec3) -> Vec3 {
        self.jet(p).gradient.normalize()
    }

    /// Where the ray from the origin along `direction` (not zero, any length) leaves the body.
    fn along(&self, direction: Vec3) -> Vec3 {
        self.along_from(Vec3::ZERO, direction)
    }

    /// Where the ray from `centre`, inside the body, along `direction` leaves it.
    ///
    /// Newton on F^(1/degree), which is all but straight along a ray, so few rounds are needed.
    fn along_from(&self, centre: Vec3, direction: Vec3) -> Vec3 {
        let d = direction.normalize();
        let mut reach = self.size();
        for _ in 0..60 {
            let jet = self.jet(centre + d * reach);
            if jet.value <= 0.0 {
                reach *= 2.0;
                continue;
            }
            // Powers are dear, roots cheap, and this is asked for a great many rays.
            let root = match Self::DEGREE {
                2.0 => jet.value.sqrt(),
                4.0 => jet.value.sqrt().sqrt(),
                degree => jet.value.powf(degree.recip()),
            };
            let slope = root / (Self::DEGREE * jet.value) * jet.gradient.dot(d);
            let step = (root - 1.0) / slope;
            reach = (reach - step).max(reach * 0.2);
            // The error is at most about the square of the step before, both as shares of the reach.
            if step.abs() < 1e-7 * reach {
                break;
            }
        }
        centre + d * reach
    }

    /// Brings a point near the surface onto it, along the gradient.
    fn settle(&self, mut p: Vec3) -> Vec3 {
        for _ in 0..8 {
            let jet = self.jet(p);
            let step = jet.gradient * ((jet.value - 1.0) / jet.gradient.length_squared());
            p -= step;
            if step.length_squared() < 1e-26 * self.size().powi(2) {
                break;
            }
        }
        p
    }

    /// About how far `p` is from the surface, in cm, positive outside. Exact to first order.
    fn height(&self, p: Vec3) -> f64 {
        let jet = self.jet(p);
        (jet.value - 1.0) / jet.gradient.length()
    }
}
