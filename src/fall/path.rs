//! Natural fall: where hair comes to lie when it is let go.
//!
//! From its root a hair goes away from the part, then the steepest way down over the body until the
//! surface turns under, then plumb, resting on ear, face, neck or shoulders where it meets them and
//! going on down the steepest way there, until its length is used up. Hairs do not push each other.

use super::contact::SKULL;
use super::slide::{End, LONGEST_HAIR, Slide};
use crate::geometry::{Convex, Vec3};
use crate::hair::{FallsTo, Worn};
use crate::head::{Body, BodyPart};

/// What is left of a length by rounding alone, cm.
const ROUNDING: f64 = 1e-9;

/// One hair let go.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hanging {
    /// Its root, on the skull. One off it is brought onto it; one that is not a number counts as
    /// the high point.
    pub root: Vec3,
    /// Its length as it hangs, dry; none, below zero or not a number counts as zero.
    pub length: FallsTo,
}

impl Hanging {
    /// A hair of `cm` centimetres, as it hangs dry, at `root`.
    pub const fn new(root: Vec3, cm: f64) -> Self {
        Self {
            root,
            length: FallsTo::from_cm(cm),
        }
    }
}

/// Where one hair came to lie.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fallen {
    /// Its end.
    pub tip: Vec3,
    /// What its end lies on; none if it hangs free.
    pub rests: Option<BodyPart>,
    /// The greatest height of its way, cm: that of its root but where it goes over the top.
    pub highest: f64,
    /// What found no way down, cm: zero but in a pit between parts, where its end lies in a heap.
    pub heaped: f64,
}

/// Lets hairs go.
///
/// Left and right are mirror images to rounding when body and wear are, but for roots exactly on
/// the part, which go to the client's left.
pub fn natural_fall<S: Convex>(body: &Body<S>, worn: &Worn, hairs: &[Hanging]) -> Vec<Fallen> {
    hairs
        .iter()
        .map(|hair| {
            let length = length(hair);
            let end = Slide::new(body, worn, on_skull(body, hair.root), length, |_| ()).run();
            fallen(body, length, end)
        })
        .collect()
}

/// The way of one hair as points from its root to its tip, at most `spacing` cm apart where it lies
/// on the body (0.05 at least) and straight between them.
pub fn fall_path<S: Convex>(
    body: &Body<S>,
    worn: &Worn,
    hair: Hanging,
    spacing: f64,
) -> (Vec<Vec3>, Fallen) {
    let root = on_skull(body, hair.root);
    let length = length(&hair);
    let mut points = vec![root];
    let slide = Slide::new(body, worn, root, length, |p| points.push(p));
    let end = slide.in_steps_of(spacing).run();
    (points, fallen(body, length, end))
}

/// How long hair at `root` must hang, dry, to end at the height `z`.
///
/// It is the length at which the hair's way first comes down through `z`. Hair *reaches a level*
/// when it is at least that long; what is longer ends lower, or as low where it lies level. None if
/// no hair from there comes down to `z`: the root lies below it, or the body holds hair up above it.
pub fn length_to_level<S: Convex>(
    body: &Body<S>,
    worn: &Worn,
    root: Vec3,
    z: f64,
) -> Option<FallsTo> {
    if !z.is_finite() {
        return None;
    }
    let root = on_skull(body, root);
    let slide = Slide::new(body, worn, root, LONGEST_HAIR, |_| ()).ending_at(z);
    let end = slide.run();
    end.at_level.then(|| FallsTo::from_cm(end.arc))
}

fn length(hair: &Hanging) -> f64 {
    let cm = hair.length.cm();
    if cm > 0.0 { cm.min(LONGEST_HAIR) } else { 0.0 }
}

fn on_skull<S: Convex>(body: &Body<S>, root: Vec3) -> Vec3 {
    let skull = body.skull();
    if !root.is_finite() || root == Vec3::ZERO {
        return skull.along(Vec3::Z);
    }
    let off = skull.height(root).abs();
    if off < 1e-9 {
        root
    } else if off < 0.5 {
        skull.settle(root)
    } else {
        skull.along(root)
    }
}

fn fallen<S: Convex>(body: &Body<S>, length: f64, end: End) -> Fallen {
    Fallen {
        tip: end.point,
        rests: end.on.map(|part| match part {
            SKULL => BodyPart::Skull,
            _ => body.parts()[part - 1].0,
        }),
        highest: end.highest,
        heaped: if length - end.arc > ROUNDING {
            length - end.arc
        } else {
            0.0
        },
    }
}
