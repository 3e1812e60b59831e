//! What falling hair meets: skull, face, ears, neck, shoulders and trunk, each a convex part.
//!
//! Levels and widths come from ANSUR II (Gordon et al. 2014) and NIOSH 2003, means of women and men
//! weighed alike; what is marked *judgement* has no published figure. The body below the ears hangs
//! from the ear opening, as the landmarks do, and the parts pass through the landmarks of the
//! shoulder, the collarbones, the chest and the waist.

use super::{Head, Landmark, Side};
use crate::geometry::{Convex, Egg, Ellipsoid, Placed, Vec3};

/// A part of the body that hair can rest on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum BodyPart {
    /// The skull, with the scalp.
    Skull,
    /// Cheeks, jaw and chin.
    Face,
    /// The client's left ear.
    LeftEar,
    /// The client's right ear.
    RightEar,
    /// The neck.
    Neck,
    /// The shoulders, with what slopes to them from the neck.
    Shoulders,
    /// Chest and back.
    Trunk,
}

/// Half the breadth over the cheekbones, as a share of head breadth: 13.82 and 15.12 cm (ANSUR II,
/// women 13.38 of 14.78, men 14.26 of 15.43).
const HALF_CHEEKS: f64 = 0.457;
/// Middle of the face before the middle of the head and half its depth, as shares of half the
/// head's length. Judgement: brow and chin lie on it, the nose a little within it.
const FACE_AHEAD: f64 = 0.45;
const FACE_DEPTH: f64 = 0.73;

/// Half an ear's height and breadth, and how far it stands out, cm: ANSUR II, women 5.94, 3.32 and
/// 2.04, men 6.42, 3.61 and 2.32.
const HALF_EAR_HEIGHT: f64 = 3.09;
const HALF_EAR_BREADTH: f64 = 1.73;
const EAR_STANDS_OUT: f64 = 2.18;
/// How far an ear's upper end leans towards the head, radians. Judgement: hair from above comes to
/// lie over it, as a curtain of hair does, rather than all before and behind it.
const EAR_LEAN: f64 = 0.52;
/// The ear's middle behind and below the front of its opening, cm. Judgement; the surveys give the
/// opening only.
const EAR_BEHIND: f64 = 0.6;
const EAR_BELOW: f64 = 0.5;

/// Ear opening down to the bone at the foot of the neck, cm: ANSUR II, top of the head to cervicale
/// (women 23.28, men 23.89) less top to ear opening (12.65, 13.11).
const EAR_TO_NECK_BONE: f64 = 10.7;
/// Radius of the neck at its foot, cm: ANSUR II, base of the neck, women 37.1 and men 43.5 around.
/// As it narrows upward it is 5.8 cm five centimetres higher, as ANSUR II has it (33.0 and 39.8).
const NECK_FOOT: f64 = 6.4;
/// Half the length of the neck's ellipsoid, cm, and its lean forward, radians. Judgement.
const NECK_HALF_LENGTH: f64 = 12.5;
const NECK_LEAN: f64 = 0.22;
/// How far the nape hairline stands out from the neck, cm. Judgement.
const NAPE_CLEARANCE: f64 = 0.1;

/// Half the breadth over the upper arms, cm: ANSUR II, women 45.0, men 51.0.
const HALF_BIDELTOID: f64 = 24.0;
/// Half the depth of the shoulders, and half their height, cm. Judgement: with them the line from
/// the neck drops 5 cm on its 14.3 cm to the shoulder point (ANSUR II, 13.5 and 15.0 long).
const SHOULDER_DEPTH: f64 = 8.0;
const SHOULDER_HEIGHT: f64 = 12.0;
/// Half breadth, depth and height of the trunk, cm. Judgement.
const TRUNK: Vec3 = Vec3::new(16.0, 10.2, 25.0);

/// The skull and the convex parts around and below it.
#[derive(Clone, Debug)]
pub struct Body<S = Egg> {
    skull: S,
    parts: Vec<(BodyPart, Placed)>,
}

impl Body {
    /// The body of this head.
    pub fn of(head: &Head) -> Self {
        let neck = neck(head);
        let shoulders = shoulders(head);
        Self {
            skull: *head.skull(),
            parts: vec![
                (BodyPart::Face, face(head)),
                (BodyPart::LeftEar, ear(head, Side::Left)),
                (BodyPart::RightEar, ear(head, Side::Right)),
                (BodyPart::Neck, neck),
                (BodyPart::Shoulders, shoulders),
                (BodyPart::Trunk, trunk(head)),
            ],
        }
    }
}

impl<S: Convex> Body<S> {
    /// A skull with nothing below it, as closed forms have it.
    pub fn bare(skull: S) -> Self {
        Self {
            skull,
            parts: Vec::new(),
        }
    }

    /// The same with one more part.
    pub fn with(mut self, part: BodyPart, shape: Placed) -> Self {
        self.parts.push((part, shape));
        self
    }

    /// The skull.
    pub fn skull(&self) -> &S {
        &self.skull
    }

    /// The parts besides the skull, with their shapes.
    pub fn parts(&self) -> &[(BodyPart, Placed)] {
        &self.parts
    }

    /// How far `p` is from the nearest part, in cm to first order, negative inside.
    pub fn height(&self, p: Vec3) -> f64 {
        let parts = self.parts.iter().map(|(_, shape)| shape.height(p));
        parts.fold(self.skull.height(p), f64::min)
    }
}

/// Through brow and chin, and as broad as the cheekbones.
fn face(head: &Head) -> Placed {
    let skull = head.skull();
    let chin = head.landmark(Landmark::Chin, Side::Centre);
    let b = skull.half_length;
    let centre = Vec3::new(0.0, FACE_AHEAD * b, chin.z / 2.0);
    let forward = ((chin.y - centre.y) / (FACE_DEPTH * b)).clamp(-0.9, 0.9);
    let half_height = (chin.z / 2.0).abs() / (1.0 - forward * forward).sqrt();
    let shape = Ellipsoid::new(
        HALF_CHEEKS * 2.0 * skull.half_breadth,
        FACE_DEPTH * b,
        half_height,
    );
    Placed::new(shape, centre)
}

/// A dome on the side of the skull.
fn ear(head: &Head, side: Side) -> Placed {
    let opening = head.ear_opening(side);
    let middle = Vec3::new(0.0, opening.y - EAR_BEHIND, opening.z - EAR_BELOW);
    let centre = head.skull().along_from(middle, Vec3::X * side.sign());
    // The half-axes of the leant ellipsoid that reaches so far out and so far up and down.
    let (out, up) = (EAR_STANDS_OUT.powi(2), HALF_EAR_HEIGHT.powi(2));
    let (sum, difference) = (out + up, (up - out) / (2.0 * EAR_LEAN).cos());
    let thick = ((sum - difference) / 2.0).sqrt();
    let long = ((sum + difference) / 2.0).sqrt();
    Placed::new(Ellipsoid::new(thick, HALF_EAR_BREADTH, long), centre)
        .leant_left(-side.sign() * EAR_LEAN)
}

/// Leaning forward into the skull, its back just inside the nape hairline.
fn neck(head: &Head) -> Placed {
    let nape = head.landmark(Landmark::Nape, Side::Centre);
    let foot = Vec3::new(
        0.0,
        0.0,
        head.ear_opening(Side::Centre).z - EAR_TO_NECK_BONE,
    );
    let shape = Ellipsoid::new(NECK_FOOT, NECK_FOOT, NECK_HALF_LENGTH);
    let placed = Placed::new(shape, foot).leant_forward(NECK_LEAN);
    // On any head the nape lies between the ends of the neck's ellipsoid; the clamp only makes sure.
    let reach = 0.8 * NECK_HALF_LENGTH;
    let up = (nape.z - foot.z).clamp(-reach, reach);
    let axis = foot + Vec3::new(0.0, up * NECK_LEAN.tan(), up);
    let back = placed.along_from(axis, Vec3::NEG_Y);
    placed.moved(Vec3::Y * (nape.y + NAPE_CLEARANCE - back.y))
}

/// Through the shoulder points and the notch of the collarbones.
fn shoulders(head: &Head) -> Placed {
    let shoulder = head.landmark(Landmark::Shoulder, Side::Left);
    let notch = head.landmark(Landmark::Collarbone, Side::Centre);
    let shape = Ellipsoid::new(HALF_BIDELTOID, SHOULDER_DEPTH, SHOULDER_HEIGHT);
    // The height from the shoulder point, as if it lay on the ridge; the depth from the notch. One
    // round more for what the shoulder point lies off the ridge.
    let aside = (shoulder.x / HALF_BIDELTOID).powi(2);
    let mut centre = Vec3::ZERO;
    let mut off = 0.0;
    for _ in 0..12 {
        centre.z = shoulder.z - SHOULDER_HEIGHT * (1.0 - aside - off).max(0.0).sqrt();
        let up = ((notch.z - centre.z) / SHOULDER_HEIGHT).powi(2);
        centre.y = notch.y - SHOULDER_DEPTH * (1.0 - up).max(0.0).sqrt();
        off = ((shoulder.y - centre.y) / SHOULDER_DEPTH).powi(2);
    }
    Placed::new(shape, centre)
}

/// Through the landmarks of the chest and the waist.
fn trunk(head: &Head) -> Placed {
    let chest = head.landmark(Landmark::Chest, Side::Centre);
    let waist = head.landmark(Landmark::Waist, Side::Centre);
    let up = ((chest.z - waist.z) / 2.0 / TRUNK.z).powi(2);
    let centre = Vec3::new(
        0.0,
        chest.y - TRUNK.y * (1.0 - up).max(0.0).sqrt(),
        (chest.z + waist.z) / 2.0,
    );
    Placed::new(Ellipsoid { axes: TRUNK }, centre)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::head::{Spot, Tape, Tapes};

    fn heads() -> Vec<Head> {
        [None, Some(50.0), Some(53.0), Some(60.0), Some(64.0)]
            .into_iter()
            .map(|around| {
                let mut tapes = Tapes::default();
                if let Some(cm) = around {
                    tapes.set(Tape::Circumference, cm).unwrap();
                }
                Head::from_tapes(&tapes).unwrap()
            })
            .collect()
    }

    #[test]
    fn the_landmarks_of_the_body_lie_on_it() {
        for head in heads() {
            let body = Body::of(&head);
            for landmark in [
                Landmark::Shoulder,
                Landmark::Collarbone,
                Landmark::Chest,
                Landmark::Waist,
            ] {
                let off = body.height(head.landmark(landmark, Side::Left));
                assert!(off.abs() < 0.05, "{landmark:?}: {off}");
            }
            for landmark in [Landmark::Cheekbone, Landmark::JawCorner, Landmark::Chin] {
                let off = body.height(head.landmark(landmark, Side::Left));
                assert!(off.abs() < 1.5, "{landmark:?}: {off}");
            }
        }
    }

    #[test]
    fn the_scalp_is_not_covered() {
        for head in heads() {
            let body = Body::of(&head);
            for i in 0..=72 {
                for out in [0.5, 0.9, 1.0] {
                    let root = head.place(Spot::at_degrees(5.0 * f64::from(i) - 180.0, out));
                    for (part, shape) in body.parts() {
                        let off = shape.height(root);
                        assert!(off > -0.15, "{part:?} covers {root} by {off}");
                    }
                }
            }
        }
    }

    #[test]
    fn left_and_right_are_mirror_images() {
        let body = Body::of(&heads()[0]);
        for p in [Vec3::new(8.0, -1.0, -3.0), Vec3::new(12.0, 3.0, -22.0)] {
            let mirrored = Vec3::new(-p.x, p.y, p.z);
            assert_eq!(body.height(p), body.height(mirrored));
        }
    }
}
