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

    /// F and its gradient alone, which is less work where a body says so.
    fn slope(&self, p: Vec3) -> (f64, Vec3) {
        let jet = self.jet(p);
        (jet.value, jet.gradient)
    }

    /// F alone.
    fn value(&self, p: Vec3) -> f64 {
        self.slope(p).0
    }

    /// A length that says how big the body is, in cm: about its largest half-width.
    fn size(&self) -> f64;

    /// The outward unit normal at a point on or near the surface.
    fn normal(&self, p: Vec3) -> Vec3 {
        self.slope(p).1.normalize()
    }

    /// A place well inside the body, from which rays are sent out: the origin.
    fn middle(&self) -> Vec3 {
        Vec3::ZERO
    }

    /// Where the ray from the middle along `direction` (not zero, any length) leaves the body.
    fn along(&self, direction: Vec3) -> Vec3 {
        self.along_from(self.middle(), direction)
    }

    /// Where the ray from `centre`, inside the body, along `direction` leaves it.
    fn along_from(&self, centre: Vec3, direction: Vec3) -> Vec3 {
        let d = direction.normalize();
        centre + d * self.reach(centre, d, self.size())
    }

    /// How far the body reaches from `centre`, inside it, along the unit vector `d`, in cm; `guess`
    /// is about how far, above zero.
    ///
    /// Newton on F^(1/degree), which is all but straight along a ray, so few rounds are needed.
    fn reach(&self, centre: Vec3, d: Vec3, guess: f64) -> f64 {
        let mut reach = guess;
        for _ in 0..60 {
            let (value, gradient) = self.slope(centre + d * reach);
            if value <= 0.0 {
                reach *= 2.0;
                continue;
            }
            // Powers are dear, roots cheap, and this is asked for a great many rays.
            let root = match Self::DEGREE {
                2.0 => value.sqrt(),
                4.0 => value.sqrt().sqrt(),
                degree => value.powf(degree.recip()),
            };
            let slope = root / (Self::DEGREE * value) * gradient.dot(d);
            let step = (root - 1.0) / slope;
            reach = (reach - step).max(reach * 0.2);
            // The error is at most about the square of the step before, both as shares of the reach.
            if step.abs() < 1e-7 * reach {
                break;
            }
        }
        reach
    }

    /// Where a plane square to the unit vector `direction` touches the body from outside.
    ///
    /// Newton on the normal, with the surface's curvature; a step that does not lead further out is
    /// halved.
    fn touching(&self, direction: Vec3) -> Vec3 {
        let mut p = self.along(direction);
        for _ in 0..100 {
            let jet = self.jet(p);
            let steep = jet.gradient.length();
            let normal = jet.gradient / steep;
            let aside = direction - normal * direction.dot(normal);
            if aside.length_squared() < 1e-20 {
                break;
            }
            let u = normal.any_orthonormal_vector();
            let v = normal.cross(u);
            let bend = |a: Vec3, b: Vec3| a.dot(jet.hessian * b) / steep;
            let (uu, uv, vv) = (bend(u, u), bend(u, v), bend(v, v));
            let determinant = (uu * vv - uv * uv).max(1e-9);
            let (du, dv) = (direction.dot(u), direction.dot(v));
            let step = (u * (vv * du - uv * dv) + v * (uu * dv - uv * du)) / determinant;
            let mut step = step.clamp_length_max(0.5 * self.size());
            let out = p.dot(direction);
            let mut next = self.along(p + step - self.middle());
            while next.dot(direction) < out && step.length_squared() > 1e-20 {
                step /= 2.0;
                next = self.along(p + step - self.middle());
            }
            p = next;
        }
        p
    }

    /// Brings a point near the surface onto it, along the gradient.
    fn settle(&self, mut p: Vec3) -> Vec3 {
        for _ in 0..8 {
            let (value, gradient) = self.slope(p);
            let step = gradient * ((value - 1.0) / gradient.length_squared());
            p -= step;
            if step.length_squared() < 1e-26 * self.size().powi(2) {
                break;
            }
        }
        p
    }

    /// About how far `p` is from the surface, in cm, positive outside. Exact to first order.
    fn height(&self, p: Vec3) -> f64 {
        let (value, gradient) = self.slope(p);
        (value - 1.0) / gradient.length()
    }
}
