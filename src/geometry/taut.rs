//! The taut length: the shortest path from a root on a convex body, outside it, to a target.
//!
//! # Why the method is right
//! The shortest path outside a convex body from a point on its surface to a convex target is
//! straight if the target's nearest point can be seen from the root. Otherwise it is a geodesic on
//! the surface that leaves it along its tangent and then runs straight, meeting the target where
//! the target is nearest to the leaving point: at the point itself, at right angles to a line or a
//! plane, or at a line's end. These are the first-order conditions of the length (first variation);
//! a path that fails one can be shortened.
//!
//! So there is one unknown, the heading θ at the root. `search.rs` walks the geodesic of heading θ to
//! the first place from which the nearest point of the target lies in the tangent plane, and sees
//! how far the target then lies to the side. That offset is continuous in θ and positive to one side
//! of the solution, negative to the other. Newton's step uses the Jacobi field, which is exact to
//! first order; each shot also tightens a bracket, and a step that leaves the bracket is replaced by
//! halving it, so the search cannot run away and always ends.
//!
//! Every shot is a real path outside the body with one kink where it leaves, so what is returned is
//! never shorter than the truth but for the step error of the geodesic, and its kink costs at most a
//! millionth of a centimetre.
//!
//! Far round the body, where a path may run round either side, other headings are tried too and the
//! shortest of the paths found wins; `exhaustive.rs` holds that against a scan of all headings. To a plane
//! the path starts down the steepest way towards it, as hair falls, but on top of the body, where the
//! headings of the root's own side are tried. A plane has no place to aim at: there the direction to it
//! is what a shot misses by. The *length* is unique even where two paths share it.

use super::geodesic::Walker;
use super::search::{MET, Search};
use super::{Convex, Target, Vec3};
use crate::words::tr;

/// How far a root may lie off the surface, or a point inside it, before it is refused, in cm: more
/// than two decimals round off. A little more than the 0.01 cm that is promised.
const SLACK: f64 = 0.0101;

/// The shortest path from a root to a target.
#[derive(Clone, Copy, Debug)]
pub struct Taut {
    /// Its whole length in cm.
    pub length: f64,
    /// How much of it lies on the body, in cm; zero when it is straight.
    pub wrapped: f64,
    /// Where it leaves the body; the root itself when it is straight.
    pub leaves: Vec3,
    /// Where it meets the target.
    pub meets: Vec3,
    /// The unit tangent at the root along which it starts.
    pub heading: Vec3,
}

/// Why there is no taut path.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum TautError {
    /// A coordinate is not a number, or too large to be one of a head.
    #[error("{}", tr("A coordinate is not a number, or far too large."))]
    NotANumber,
    /// The root does not lie on the body.
    #[error(
        "{}",
        tr("The root lies off the surface by more than 0.01 cm; it must lie on it.")
    )]
    RootOffSurface,
    /// The target reaches into the body.
    #[error("{}", tr("The hold point lies inside the head."))]
    TargetInside,
    /// No heading leads to the target; it does not happen on a body like a head.
    #[error("{}", tr("No taut way to the hold point was found."))]
    NoWay,
}

/// The shortest path outside `body` from `root`, on its surface, to `target`.
///
/// # Errors
/// [`TautError`] when a number is not finite, the root is off the surface by more than 0.01 cm, or
/// the target's nearest point lies inside the body.
///
/// ```
/// use tautline::geometry::{Ellipsoid, Target, Vec3, taut};
/// // A quarter round a ball of 9 cm and 12 cm straight up to a point 15 cm from its centre.
/// let path = taut(
///     &Ellipsoid::sphere(9.0),
///     Vec3::new(9.0, 0.0, 0.0),
///     &Target::Point(Vec3::new(0.0, 0.0, 15.0)),
/// ).unwrap();
/// let beyond = std::f64::consts::FRAC_PI_2 - (9.0_f64 / 15.0).acos();
/// assert!((path.length - (9.0 * beyond + 12.0)).abs() < 1e-5);
/// ```
pub fn taut<S: Convex>(body: &S, root: Vec3, target: &Target) -> Result<Taut, TautError> {
    let given = root;
    let nearest = target.nearest(root);
    // Beyond this, squares of distances are no longer numbers.
    let sane = |p: Vec3| p.is_finite() && p.length() < 1e9;
    if !(sane(root) && sane(nearest)) {
        return Err(TautError::NotANumber);
    }
    let off = body.height(root).abs();
    if off.is_nan() || off > SLACK {
        return Err(TautError::RootOffSurface);
    }
    let root = body.settle(root);
    let target = match *target {
        Target::Point(point) if body.value(point) < 1.0 => {
            if body.height(point).abs() > SLACK {
                return Err(TautError::TargetInside);
            }
            Target::Point(body.settle(point))
        }
        other => other,
    };
    let normal = body.normal(root);
    if normal.dot(nearest - root) >= 0.0 {
        let crow = nearest - given;
        return Ok(Taut {
            length: crow.length(),
            wrapped: 0.0,
            leaves: root,
            meets: nearest,
            heading: crow.try_normalize().unwrap_or(normal),
        });
    }
    let path = Search::new(body, root, &target)
        .solve()
        .ok_or(TautError::NoWay)?;
    if body.height(path.meets) < -MET {
        return Err(TautError::TargetInside);
    }
    Ok(path)
}

/// Points along a path for drawing it: the root, about every `spacing` cm on the body, where it
/// leaves, where it meets the target.
pub fn trace<S: Convex>(body: &S, root: Vec3, path: &Taut, spacing: f64) -> Vec<Vec3> {
    let mut points = vec![root];
    if path.wrapped > 0.0 {
        let mut walker = Walker::<false>::start(body, body.settle(root), path.heading);
        let parts = (path.wrapped / spacing).ceil().max(1.0);
        let h = path.wrapped / parts;
        for _ in 0..parts as usize {
            walker = walker.step(body, h).end;
            points.push(walker.flow.point);
        }
    }
    points.push(path.meets);
    points
}
