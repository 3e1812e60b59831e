//! One step of a hair over one convex part, the steepest way down or the way it is worn.
//!
//! Steps are those of Dormand and Prince, *J. Comput. Appl. Math.* 6 (1980) 19–26, order 5 with an
//! error estimate of order 4; after each the point is settled back onto the surface.

use crate::geometry::{Convex, Vec3};
use crate::hair::Worn;

/// A last correction onto a part this small leaves a point on it to 1e-10, in cm.
const SETTLED: f64 = 1e-5;

/// The unit direction in which hair slides over `shape` at `p`; `worn` has a say where the surface
/// points upward.
#[inline]
pub(super) fn heading<C: Convex>(shape: &C, worn: Option<&Worn>, p: Vec3) -> Vec3 {
    let n = shape.normal(p);
    let way = match worn {
        Some(worn) if n.z > 0.0 => worn.drive(p, n),
        _ => n * n.z - Vec3::Z,
    };
    way.try_normalize().unwrap_or_else(|| {
        // On the very top of a part: outward to the side on which it lies.
        let out = if p.x < 0.0 { Vec3::NEG_X } else { Vec3::X };
        (out - n * out.dot(n)).normalize_or(Vec3::NEG_Z)
    })
}

/// The stages of a step of `h` cm from a point with its heading: those that tell its error, and
/// the mean heading.
#[inline]
fn stages<C: Convex>(
    shape: &C,
    worn: Option<&Worn>,
    (from, k1): (Vec3, Vec3),
    h: f64,
) -> ([Vec3; 5], Vec3) {
    let at = |off: Vec3| heading(shape, worn, from + off * h);
    let k2 = at(k1 * 0.2);
    let k3 = at(k1 * (3.0 / 40.0) + k2 * (9.0 / 40.0));
    let k4 = at(k1 * (44.0 / 45.0) - k2 * (56.0 / 15.0) + k3 * (32.0 / 9.0));
    let k5 = at(
        k1 * (19372.0 / 6561.0) - k2 * (25360.0 / 2187.0) + k3 * (64448.0 / 6561.0)
            - k4 * (212.0 / 729.0),
    );
    let k6 = at(k1 * (9017.0 / 3168.0) - k2 * (355.0 / 33.0)
        + k3 * (46732.0 / 5247.0)
        + k4 * (49.0 / 176.0)
        - k5 * (5103.0 / 18656.0));
    let mean = k1 * (35.0 / 384.0) + k3 * (500.0 / 1113.0) + k4 * (125.0 / 192.0)
        - k5 * (2187.0 / 6784.0)
        + k6 * (11.0 / 84.0);
    ([k1, k3, k4, k5, k6], mean)
}

/// The point `h` cm further than one with its heading, settled.
pub(super) fn advanced<C: Convex>(
    shape: &C,
    worn: Option<&Worn>,
    from: (Vec3, Vec3),
    h: f64,
) -> Vec3 {
    let (_, mean) = stages(shape, worn, from, h);
    settled(shape, from.0 + mean * h)
}

/// The same, and its estimated error in cm.
pub(super) fn stepped<C: Convex>(
    shape: &C,
    worn: Option<&Worn>,
    from: (Vec3, Vec3),
    h: f64,
) -> (Vec3, f64) {
    let ([k1, k3, k4, k5, k6], mean) = stages(shape, worn, from, h);
    let to = from.0 + mean * h;
    let k7 = heading(shape, worn, to);
    let error = k1 * (71.0 / 57600.0) - k3 * (71.0 / 16695.0) + k4 * (71.0 / 1920.0)
        - k5 * (17253.0 / 339200.0)
        + k6 * (22.0 / 525.0)
        - k7 * (1.0 / 40.0);
    (settled(shape, to), error.length() * h)
}

/// Brings a point near a part onto it. A step leaves it so little off that one or two rounds of
/// Newton's method do.
fn settled<C: Convex>(shape: &C, mut p: Vec3) -> Vec3 {
    for _ in 0..3 {
        let jet = shape.jet(p);
        let off = jet.gradient * ((jet.value - 1.0) / jet.gradient.length_squared());
        p -= off;
        if off.length_squared() < SETTLED * SETTLED {
            break;
        }
    }
    p
}
