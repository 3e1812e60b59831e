//! The named points of a head, and the hairline through them.
//!
//! Levels of the face and body come from ANSUR II and NIOSH 2003 (means of women and men) where a
//! survey has them; positions marked *judgement* have no published figure.

use super::fit::MiddleLine;
use super::hairline::Hairline;
use super::scalp::meridian_arc;
use super::{Head, Kind};
use crate::geometry::{Convex, Egg, Vec3, bracketed};
use crate::words::noted;
use serde::{Deserialize, Serialize};
use std::f64::consts::PI;

/// The client's left or right, or the middle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Side {
    /// The client's left.
    Left,
    /// The middle line.
    Centre,
    /// The client's right.
    Right,
}

impl Side {
    /// +1 on the client's left, −1 on the right, 0 in the middle.
    pub const fn sign(self) -> f64 {
        match self {
            Self::Left => 1.0,
            Self::Centre => 0.0,
            Self::Right => -1.0,
        }
    }

    /// `left`, `centre` or `right`: for values of fields. A person reads [`Side::said`].
    pub const fn word(self) -> &'static str {
        match self {
            Self::Left => noted("left"),
            Self::Centre => noted("centre"),
            Self::Right => noted("right"),
        }
    }

    /// The side of a [word](Self::word); none if it is no side's.
    pub fn of_word(word: &str) -> Option<Self> {
        let all = [Self::Left, Self::Centre, Self::Right];
        all.into_iter().find(|side| side.word() == word)
    }

    /// The other side; the middle is its own.
    pub const fn mirrored(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Centre => Self::Centre,
            Self::Right => Self::Left,
        }
    }
}

/// A named point of the head or body.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Landmark {
    /// Middle of the front hairline.
    FrontHairline,
    /// The hairline at the temple.
    Temple,
    /// Where a comb laid flat on top touches.
    HighPoint,
    /// Between the high point and the back, where the top turns down.
    Crown,
    /// Where a comb held flat to the side leaves the head, above the ear.
    ParietalRidge,
    /// The bump of the occipital bone.
    Occipital,
    /// Middle of the nape hairline.
    Nape,
    /// The corner of the nape hairline.
    NapeCorner,
    /// The hairline in front of the ear.
    InFrontOfEar,
    /// The hairline above the ear.
    AboveEar,
    /// The hairline behind the ear.
    BehindEar,
    /// Between the brows, or the brow's end at a side.
    Brow,
    /// The cheekbone.
    Cheekbone,
    /// The corner of the mouth.
    MouthCorner,
    /// The corner of the jaw.
    JawCorner,
    /// Under the chin.
    Chin,
    /// The notch between the collarbones.
    Collarbone,
    /// The point of the shoulder.
    Shoulder,
    /// The level of the armpits.
    Chest,
    /// The waist.
    Waist,
}

/// Azimuths (degrees) of hairline points and of the ridge: judgement, from the look of heads.
const TEMPLE_AZIMUTH: f64 = 52.0;
const IN_FRONT_OF_EAR_AZIMUTH: f64 = 82.0;
const ABOVE_EAR_AZIMUTH: f64 = 96.0;
const RIDGE_AZIMUTH: f64 = 92.0;
const BEHIND_EAR_AZIMUTH: f64 = 114.0;
const NAPE_CORNER_AZIMUTH: f64 = 152.0;

/// Ear opening down to the notch of the collarbones and to the shoulder point, cm: ANSUR II, top to
/// notch (women 29.88, men 31.76) and to shoulder (29.34, 31.55) less top to ear opening (12.65,
/// 13.11). Taken from the ear so that a taller head stands higher over the same shoulders.
const EAR_TO_COLLARBONE: f64 = 17.9;
const EAR_TO_SHOULDER: f64 = 17.6;
/// Ear opening down to the level of the armpits and to the waist, cm. Judgement.
const EAR_TO_CHEST: f64 = 31.0;
const EAR_TO_WAIST: f64 = 49.0;
/// Half of the distance between the shoulder points, cm: ANSUR II, women 36.5, men 41.6.
const HALF_SHOULDERS: f64 = 19.5;

/// How high hair grows round the ear and at the corners. All judgement or invented.
struct Growth {
    /// Height of the temple's hairline, as a share of the middle of the front's.
    temple: f64,
    /// Heights of the hairline over the ear's opening in front of, above and behind the ear, cm.
    round_ear: [f64; 3],
    /// Height of the nape's corner over the middle of the nape, cm.
    nape_corner: f64,
}

/// A person. The recession lies a little higher than the middle of the front; the ear stands about
/// 3 cm above its opening (half of 5.9 to 6.4 cm, ANSUR II) and hair starts at its top. Judgement.
const PERSON: Growth = Growth {
    temple: 0.55,
    round_ear: [1.0, 3.1, 0.6],
    nape_corner: 0.3,
};

/// A practice head, whose hair is put in along a straighter line: less of a step at the temple,
/// round the ear and at the nape's corner. Invented. That the hair stands denser there is no matter
/// of shape.
const PRACTICE: Growth = Growth {
    temple: 0.75,
    round_ear: [1.4, 2.7, 1.0],
    nape_corner: 0.1,
};

/// The hairline of a skull: through the middle of the front and the nape, and the points round the
/// left and the right ear's opening.
pub(super) fn hairline(skull: &Egg, kind: Kind, ears: [Vec3; 2], line: &MiddleLine) -> Hairline {
    let growth = match kind {
        Kind::Person => PERSON,
        Kind::Practice => PRACTICE,
    };
    let at_level = |degrees: f64, z: f64| {
        let azimuth = degrees.to_radians();
        (azimuth, distance_to_level(skull, azimuth, z))
    };
    let (to_front, to_nape) = (line.to_front, line.to_nape);
    let front_z = line.front.at(to_front).z;
    let nape_z = line.back.at(to_nape).z;
    let temple = at_level(TEMPLE_AZIMUTH, front_z * growth.temple);
    let corner = at_level(NAPE_CORNER_AZIMUTH, nape_z + growth.nape_corner);
    let [in_front, above, behind] = growth.round_ear;
    let [left, right] = ears.map(|ear| ear.z);
    // The skull's sides are alike, so knots of the right are found at the left's azimuths.
    let knots = |z: f64| {
        vec![
            (0.0, to_front),
            temple,
            at_level(IN_FRONT_OF_EAR_AZIMUTH, z + in_front),
            at_level(ABOVE_EAR_AZIMUTH, z + above),
            at_level(BEHIND_EAR_AZIMUTH, z + behind),
            corner,
            (PI, to_nape),
        ]
    };
    let of_left = knots(left);
    let of_right = if left == right {
        of_left.clone()
    } else {
        knots(right)
    };
    Hairline::through(of_left, of_right)
}

/// Arc length from the high point down the meridian at `azimuth` to the height `z`, in cm.
fn distance_to_level(skull: &Egg, azimuth: f64, z: f64) -> f64 {
    let arc = meridian_arc(skull, azimuth);
    bracketed((0.0, arc.length()), 1e-9, |s| z - arc.at(s).z).unwrap_or_else(|_| arc.length())
}

impl Landmark {
    /// Those whose levels hair ends are told by, from the top down.
    pub const LEVELS: [Self; 9] = [
        Self::Brow,
        Self::Cheekbone,
        Self::MouthCorner,
        Self::JawCorner,
        Self::Chin,
        Self::Shoulder,
        Self::Collarbone,
        Self::Chest,
        Self::Waist,
    ];

    /// Azimuth about the high point, in radians, of a point of the left hairline that a parting may
    /// run to; none for any other point. The ear-to-ear parting runs to [`Landmark::AboveEar`].
    pub fn hairline_azimuth(self) -> Option<f64> {
        let degrees = match self {
            Self::FrontHairline => 0.0,
            Self::Temple => TEMPLE_AZIMUTH,
            Self::InFrontOfEar => IN_FRONT_OF_EAR_AZIMUTH,
            Self::AboveEar => ABOVE_EAR_AZIMUTH,
            Self::BehindEar => BEHIND_EAR_AZIMUTH,
            Self::NapeCorner => NAPE_CORNER_AZIMUTH,
            Self::Nape => 180.0,
            _ => return None,
        };
        Some(f64::to_radians(degrees))
    }
}

impl Head {
    /// Where a named point lies. Points of the middle line are the same for every side; of the
    /// others, `Side::Centre` gives the place on the middle line at their level.
    pub fn landmark(&self, landmark: Landmark, side: Side) -> Vec3 {
        let sided = |azimuth: f64, out: f64| {
            self.place(super::Spot::at_degrees(azimuth * side.sign(), out))
        };
        // From the brow (0) to the chin (1), down the face.
        let face = |down: f64, aside: f64, behind: f64| {
            let (brow, chin) = (self.brow(), self.chin());
            let middle = brow.lerp(chin, down);
            self.outside(middle + Vec3::new(aside * side.sign(), -behind, 0.0))
        };
        let breadth = 2.0 * self.skull().half_breadth;
        let body = |down: f64, aside: f64, y: f64| {
            Vec3::new(
                aside * side.sign(),
                y,
                self.ear_opening(Side::Centre).z - down,
            )
        };
        match landmark {
            Landmark::FrontHairline => self.meridian(0.0).at(1.0),
            Landmark::Temple => sided(TEMPLE_AZIMUTH, 1.0),
            Landmark::HighPoint => self.skull().along(Vec3::Z),
            Landmark::Crown => self.behind(0.26),
            Landmark::ParietalRidge => sided(RIDGE_AZIMUTH, self.ridge(side)),
            Landmark::Occipital => {
                let level =
                    distance_to_level(self.skull(), PI, self.ear_opening(Side::Centre).z + 2.1);
                self.meridian(PI).at(level / self.meridian(PI).hairline())
            }
            Landmark::Nape => self.behind(1.0),
            Landmark::NapeCorner => sided(NAPE_CORNER_AZIMUTH, 1.0),
            Landmark::InFrontOfEar => sided(IN_FRONT_OF_EAR_AZIMUTH, 1.0),
            Landmark::AboveEar => sided(ABOVE_EAR_AZIMUTH, 1.0),
            Landmark::BehindEar => sided(BEHIND_EAR_AZIMUTH, 1.0),
            Landmark::Brow => face(0.0, 0.0, 0.0),
            // Bizygomatic breadth is 0.91 of head breadth (ANSUR II); the point that hair is cut
            // to lies before it.
            Landmark::Cheekbone => face(0.32, 0.40 * breadth, 2.6),
            Landmark::MouthCorner => face(0.66, 2.5, 0.3),
            // Bigonial breadth 11.16 and 12.07 cm (NIOSH 2003).
            Landmark::JawCorner => face(0.78, 5.8, 6.5),
            Landmark::Chin => face(1.0, 0.0, 0.0),
            Landmark::Collarbone => body(EAR_TO_COLLARBONE, 0.0, 3.0),
            Landmark::Shoulder => body(EAR_TO_SHOULDER, HALF_SHOULDERS, -2.0),
            Landmark::Chest => body(EAR_TO_CHEST, 0.0, 6.0),
            Landmark::Waist => body(EAR_TO_WAIST, 0.0, 6.0),
        }
    }

    /// Share of the way out at which the surface above the ear leans 45° from level: where a comb
    /// held upright leaves the head.
    fn ridge(&self, side: Side) -> f64 {
        let sign = if side == Side::Right { -1.0 } else { 1.0 };
        let meridian = self.meridian(sign * RIDGE_AZIMUTH.to_radians());
        bracketed((0.01, 1.0), 1e-6, |out| {
            0.5_f64.sqrt() - self.skull().normal(meridian.at(out)).z
        })
        .unwrap_or(0.5)
    }

    /// A point of the face, moved straight out from the upright axis if the model's skull, which
    /// has no jaw to draw in, should cover it.
    fn outside(&self, p: Vec3) -> Vec3 {
        let least = 0.2;
        if self.skull().height(p) >= least {
            return p;
        }
        let level = Vec3::new(p.x, p.y, 0.0);
        let surface = self.skull().along_from(Vec3::new(0.0, 0.0, p.z), level);
        surface + level.normalize() * least
    }
}
