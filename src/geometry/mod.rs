//! Convex surfaces, geodesics on them, and taut paths around them.
//!
//! There is no hair in this room: only vectors, in centimetres, and the one question that the rest
//! of Tautline asks of geometry: *how long is a string pulled tight from here, around this convex
//! body, to there?* It depends on the vector library, and on
//! `words` for what its errors say.
//!
//! Start with [`taut()`]; [`Convex`] is what a body must offer, [`Target`] what a string may be
//! pulled to.

mod convex;
mod egg;
mod ellipsoid;
#[cfg(test)]
mod exhaustive;
mod geodesic;
mod placed;
mod planar;
mod root;
mod search;
mod shot;
mod target;
mod taut;

pub use convex::{Convex, Jet};
pub use egg::Egg;
pub use ellipsoid::Ellipsoid;
pub use geodesic::{Flow, walk};
pub use placed::Placed;
pub use planar::{PlanarArc, planar_arc};
pub use root::{Bracketless, bracketed};
pub use target::Target;
pub use taut::{Taut, TautError, taut, trace};

/// A point or direction in centimetres: x to the client's left, y forward, z up.
pub use glam::DVec3 as Vec3;
