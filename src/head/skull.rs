//! Fits the skull to the tapes.
//!
//! Each tape has its own freedom of the [`Egg`], so that every one that was entered is given back:
//!
//! | tape | what it settles |
//! | --- | --- |
//! | breadth, length | half-breadth and half-length of the widest level section |
//! | circumference | the fullness of level sections |
//! | ear to ear over the top | the height of the top above the ears |
//! | front hairline to nape | where the nape hairline lies on the middle line |
//! | front hairline to chin | where the chin lies |
//!
//! What was not measured is filled from the surveys ([`super::survey`]) and marked.

use super::hairline::Hairline;
use super::points;
use super::samples::Sample;
use super::survey::{Estimate, estimate};
use super::tapes::{Tape, Tapes};
use crate::geometry::{Convex, Egg, PlanarArc, Vec3, bracketed, planar_arc};
use std::collections::BTreeMap;
use std::f64::consts::{FRAC_PI_2, PI};
use std::sync::OnceLock;

/// Fullness of level sections: the range in which sections are plainly convex.
const LEVEL_FULLNESS: (f64, f64) = (-1.4, 0.985);
/// How upright sections are filled; set so that the ear-to-ear arcs of the mean woman and the mean
/// man of ANSUR II come out within 0.3 cm of what NIOSH measured (34.1 and 35.1 cm).
const UPRIGHT: f64 = 0.80;
/// Share of the height of the top above the ear opening that lies below the widest level: the ring
/// of the 10-05 electrode template lies 3.9 to 6.3 cm above its ear points, of 14.9 cm (Oostenveld
/// and Praamstra, *Clin. Neurophysiol.* 112:713, 2001).
const EAR_SHARE: f64 = 0.30;
/// How far behind the middle of the length the ear opening lies, as a share of the length (same).
const EAR_BEHIND: f64 = 0.033;
/// How far the body reaches below its widest level, over how far above: down to the nape. Invented.
const BELOW_OVER_ABOVE: f64 = 1.47;
/// Brow to front hairline along the skin, cm: women 5.83, men 6.14 (*Surg. Radiol. Anat.* 2016,
/// doi 10.1007/s00276-016-1771-1).
const FOREHEAD: f64 = 5.985;
/// Top of the head to the chin over top to ear opening: women 21.8 and 12.65 cm, men 23.2 and 13.11,
/// derived from ANSUR II.
const CHIN_OVER_EAR: f64 = 1.747;
/// Front hairline to nape hairline over circumference. No survey has it; invented.
const HAIRLINE_TO_NAPE: f64 = 0.60;
/// Standard errors in cm of the two tapes that no survey gives. Judgement.
const UNSURVEYED_ERRORS: (f64, f64) = (2.0, 1.2);
/// How far behind the brow the chin lies, as a share of the length. Judgement.
const CHIN_BEHIND: f64 = 0.02;
/// The least curvature in 1/cm that still counts as strictly convex: a radius of fifty metres.
const LEAST_CURVATURE: f64 = 2e-4;

/// A tape of this head, as entered or as estimated.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measure {
    /// Its value in cm.
    pub cm: f64,
    /// Its standard error in cm; zero when it was measured.
    pub error: f64,
}

impl Measure {
    /// Whether it was estimated rather than measured.
    pub fn estimated(&self) -> bool {
        self.error > 0.0
    }
}

/// Why the tapes do not make a head. Each says in a sentence which to take again.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum HeadError {
    /// The circumference does not go with the length and breadth.
    #[error(
        "Around the head reads {circumference} cm, but a head {length:.1} cm long and {breadth:.1} cm broad is between {} and {} cm around. Measure these again.", up(.low), down(.high)
    )]
    Ring {
        /// Circumference given, cm.
        circumference: f64,
        /// Length, cm.
        length: f64,
        /// Breadth, cm.
        breadth: f64,
        /// The least circumference that goes with them, cm.
        low: f64,
        /// The greatest, cm.
        high: f64,
    },
    /// The ear-to-ear arc does not go with the rest.
    #[error(
        "Ear to ear over the top reads {arc} cm; on a head of this breadth it is between {} and {} cm. Measure again.", up(.low), down(.high)
    )]
    EarToEar {
        /// The arc given, cm.
        arc: f64,
        /// The least that goes with the rest, cm.
        low: f64,
        /// The greatest, cm.
        high: f64,
    },
    /// The hairline tape does not end at the back of the head.
    #[error(
        "Front hairline to nape reads {tape} cm; on a head of this size it is between {} and {} cm. Measure again.", up(.low), down(.high)
    )]
    Nape {
        /// The tape given, cm.
        tape: f64,
        /// The least that ends at the back, cm.
        low: f64,
        /// The greatest, cm.
        high: f64,
    },
    /// The face is too short.
    #[error(
        "Front hairline to chin reads {tape} cm; it is at least {} cm. Measure again.", up(.low)
    )]
    Chin {
        /// The tape given, cm.
        tape: f64,
        /// The least, cm.
        low: f64,
    },
    /// The measures make a body that is not convex.
    #[error("These measures don't make one head together. Measure them again.")]
    NotOneHead,
}

/// Bounds as they are said: rounded to the millimetre, inward, so that a value on a bound is within.
fn up(cm: &f64) -> f64 {
    (cm * 10.0).ceil() / 10.0
}

fn down(cm: &f64) -> f64 {
    (cm * 10.0).floor() / 10.0
}

/// One head: its tapes, its skull, its hairline and its named points.
#[derive(Clone, Debug)]
pub struct Head {
    measures: BTreeMap<Tape, Measure>,
    skull: Egg,
    hairline: Hairline,
    middle_line: MiddleLine,
    ear: Vec3,
    chin: Vec3,
    /// Filled when it is first asked for.
    grid: OnceLock<Vec<Sample>>,
}

/// The line over the middle of the head: from the high point forward and backward.
#[derive(Clone, Debug)]
struct MiddleLine {
    front: PlanarArc,
    back: PlanarArc,
    /// Arc lengths in cm from the high point to the front and to the nape hairline.
    to_front: f64,
    to_nape: f64,
}

impl Head {
    /// Fits a head to what was measured.
    ///
    /// # Errors
    /// A [`HeadError`] when what was entered cannot belong to one head. Estimates of circumference,
    /// length and breadth give way to what was entered as far as a head allows.
    pub fn from_tapes(tapes: &Tapes) -> Result<Self, HeadError> {
        let given = [Tape::Circumference, Tape::Length, Tape::Breadth].map(|tape| tapes.get(tape));
        let arc = tapes.get(Tape::EarToEar);
        let [circumference, length, breadth, top, _] =
            estimate([given[0], given[1], given[2], None, arc]);
        let [circumference, length, breadth] =
            give_way([circumference, length, breadth], given.map(|g| g.is_some()));
        let (a, b) = (breadth.cm / 2.0, length.cm / 2.0);
        let fullness = level_fullness(a, b, circumference.cm)?;
        let skull_of = |height: f64| skull(a, b, fullness, height);
        let height = match arc {
            None => top.cm,
            Some(arc) => height_for_arc(arc, &skull_of)?,
        };
        let skull = skull_of(height);
        if skull.least_curvature() < LEAST_CURVATURE {
            return Err(HeadError::NotOneHead);
        }
        let ear_to_ear = Measure {
            cm: ear_to_ear(&skull, height),
            // An arc that follows from a height inherits its uncertainty on both sides.
            error: if arc.is_some() { 0.0 } else { 2.0 * top.error },
        };
        let middle_line = MiddleLine::new(&skull, circumference.cm, tapes)?;
        let nape_tape = Measure {
            cm: middle_line.to_front + middle_line.to_nape,
            error: unless(tapes.get(Tape::HairlineToNape), UNSURVEYED_ERRORS.0),
        };
        let (chin, chin_cm) = chin(&skull, height, tapes.get(Tape::HairlineToChin))?;
        let chin_tape = Measure {
            cm: chin_cm,
            error: unless(tapes.get(Tape::HairlineToChin), UNSURVEYED_ERRORS.1),
        };
        let ear = ear_opening(&skull, height);
        let hairline = points::hairline(&skull, ear, middle_line.to_front, middle_line.to_nape);
        let measures = BTreeMap::from([
            (Tape::Circumference, measure(circumference)),
            (Tape::EarToEar, ear_to_ear),
            (Tape::Length, measure(length)),
            (Tape::Breadth, measure(breadth)),
            (Tape::HairlineToNape, nape_tape),
            (Tape::HairlineToChin, chin_tape),
        ]);
        Ok(Self {
            measures,
            skull,
            hairline,
            middle_line,
            ear,
            chin,
            grid: OnceLock::new(),
        })
    }

    /// The tape as entered or estimated.
    pub fn measure(&self, tape: Tape) -> Measure {
        // Every tape is put in by `from_tapes`.
        self.measures.get(&tape).copied().unwrap_or(Measure {
            cm: 0.0,
            error: 0.0,
        })
    }

    /// The tape measured again on the finished model, in cm: what an entered tape is held against.
    pub fn model_tape(&self, tape: Tape) -> f64 {
        match tape {
            Tape::Circumference => ring(&self.skull),
            Tape::EarToEar => {
                let height = self.skull.top - self.ear.z;
                ear_to_ear(&self.skull, height)
            }
            Tape::Length => self.skull.along(Vec3::Y).y - self.skull.along(Vec3::NEG_Y).y,
            Tape::Breadth => self.skull.along(Vec3::X).x - self.skull.along(Vec3::NEG_X).x,
            Tape::HairlineToNape => {
                let [front, nape] = [0.0, PI].map(|azimuth| self.meridian(azimuth).hairline());
                front + nape
            }
            Tape::HairlineToChin => FOREHEAD + self.brow().distance(self.chin),
        }
    }

    /// Some 600 places spread evenly over the scalp.
    pub fn grid(&self) -> &[Sample] {
        self.grid.get_or_init(|| self.samples(600))
    }

    /// The skull's surface.
    pub fn skull(&self) -> &Egg {
        &self.skull
    }

    /// The hairline.
    pub fn hairline(&self) -> &Hairline {
        &self.hairline
    }

    /// The front of the left ear's opening.
    pub fn ear_opening(&self) -> Vec3 {
        self.ear
    }

    /// Between the brows.
    pub(super) fn brow(&self) -> Vec3 {
        Vec3::new(0.0, self.skull.half_length, 0.0)
    }

    /// Under the chin, in the middle.
    pub(super) fn chin(&self) -> Vec3 {
        self.chin
    }

    /// The place on the middle line `share` of the way from the high point to the nape hairline.
    pub(super) fn behind(&self, share: f64) -> Vec3 {
        self.skull
            .settle(self.middle_line.back.at(self.middle_line.to_nape * share))
    }

    /// The middle line from the front hairline over the high point to the nape hairline.
    pub fn middle_line(&self) -> Vec<Vec3> {
        let line = &self.middle_line;
        let steps = 40;
        let share = |i: i32| f64::from(i) / f64::from(steps);
        let front = (0..steps).map(|i| line.front.at(line.to_front * (1.0 - share(i))));
        let back = (0..=steps).map(|i| line.back.at(line.to_nape * share(i)));
        front.chain(back).collect()
    }
}

impl MiddleLine {
    fn new(skull: &Egg, circumference: f64, tapes: &Tapes) -> Result<Self, HeadError> {
        let front = super::scalp::meridian_arc(skull, 0.0);
        let back = super::scalp::meridian_arc(skull, PI);
        let to_brow = planar_arc(skull, Vec3::ZERO, (Vec3::Z, Vec3::Y), (0.0, FRAC_PI_2)).length();
        let to_front = to_brow - FOREHEAD;
        // The nape lies on the back, below its fullest part and above the end of the body.
        let low = to_front
            + planar_arc(skull, Vec3::ZERO, (Vec3::Z, Vec3::NEG_Y), (0.0, FRAC_PI_2)).length();
        let high = to_front + back.length();
        let tape = match tapes.get(Tape::HairlineToNape) {
            Some(tape) if !(low..=high).contains(&tape) => {
                return Err(HeadError::Nape { tape, low, high });
            }
            Some(tape) => tape,
            None => (HAIRLINE_TO_NAPE * circumference).clamp(low, high),
        };
        Ok(Self {
            front,
            back,
            to_front,
            to_nape: tape - to_front,
        })
    }
}

fn measure(estimate: Estimate) -> Measure {
    Measure {
        cm: estimate.cm,
        error: estimate.error,
    }
}

fn unless(measured: Option<f64>, error: f64) -> f64 {
    if measured.is_some() { 0.0 } else { error }
}

fn skull(a: f64, b: f64, fullness: f64, height: f64) -> Egg {
    let top = height * (1.0 - EAR_SHARE);
    Egg::new(a, b, (top, top * BELOW_OVER_ABOVE), fullness, UPRIGHT)
}

fn ring(skull: &Egg) -> f64 {
    // The four quarters are alike.
    4.0 * planar_arc(skull, Vec3::ZERO, (Vec3::X, Vec3::Y), (0.0, FRAC_PI_2)).length()
}

/// The circumferences that go with a half-breadth and half-length, least and greatest.
fn ring_range(a: f64, b: f64) -> (f64, f64) {
    let of = |fullness| ring(&skull(a, b, fullness, a + b));
    (of(LEVEL_FULLNESS.0), of(LEVEL_FULLNESS.1))
}

fn level_fullness(a: f64, b: f64, circumference: f64) -> Result<f64, HeadError> {
    bracketed(LEVEL_FULLNESS, 1e-9, |fullness| {
        ring(&skull(a, b, fullness, a + b)) - circumference
    })
    .map_err(|_| {
        let (low, high) = ring_range(a, b);
        HeadError::Ring {
            circumference,
            length: 2.0 * b,
            breadth: 2.0 * a,
            low,
            high,
        }
    })
}

/// Lets estimates of circumference, length and breadth give way where they contradict what was
/// measured, so that only measures can contradict each other.
fn give_way(estimates: [Estimate; 3], measured: [bool; 3]) -> [Estimate; 3] {
    let [mut circumference, mut length, mut breadth] = estimates;
    let range = |length: f64, breadth: f64| ring_range(breadth / 2.0, length / 2.0);
    if !measured[0] {
        let (low, high) = range(length.cm, breadth.cm);
        circumference.cm = circumference.cm.clamp(low, high);
    } else if !(measured[1] && measured[2]) {
        let scaled = |factor: f64| {
            let of = |e: Estimate, fixed: bool| if fixed { e.cm } else { e.cm * factor };
            (of(length, measured[1]), of(breadth, measured[2]))
        };
        let fits = |factor: f64| {
            let (length, breadth) = scaled(factor);
            let (low, high) = range(length, breadth);
            (circumference.cm - low).min(high - circumference.cm)
        };
        // The factor nearest to 1 that fits with a millimetre to spare, tried outward in steps.
        let factor = (0..120)
            .flat_map(|i| [1.0 + 0.005 * f64::from(i), 1.0 - 0.005 * f64::from(i)])
            .find(|&factor| fits(factor) > 0.1)
            .unwrap_or(1.0);
        (length.cm, breadth.cm) = scaled(factor);
    }
    [circumference, length, breadth]
}

/// The front of the left ear's opening on a skull whose top stands `height` cm above it.
fn ear_opening(skull: &Egg, height: f64) -> Vec3 {
    let centre = Vec3::new(
        0.0,
        -EAR_BEHIND * 2.0 * skull.half_length,
        skull.top - height,
    );
    skull.along_from(centre, Vec3::X)
}

/// The tape from ear opening to ear opening over the top, upright, in cm.
fn ear_to_ear(skull: &Egg, height: f64) -> f64 {
    let ear = ear_opening(skull, height);
    let centre = Vec3::new(0.0, ear.y, 0.0);
    let below = ear.z.atan2(ear.x);
    planar_arc(skull, centre, (Vec3::X, Vec3::Z), (below, PI - below)).length()
}

fn height_for_arc(arc: f64, skull_of: &impl Fn(f64) -> Egg) -> Result<f64, HeadError> {
    let range = (7.0, 21.0);
    let of = |height: f64| ear_to_ear(&skull_of(height), height);
    bracketed(range, 1e-9, |height| of(height) - arc).map_err(|_| HeadError::EarToEar {
        arc,
        low: of(range.0),
        high: of(range.1),
    })
}

/// The chin, and the tape from the front hairline down to it in cm.
fn chin(skull: &Egg, height: f64, tape: Option<f64>) -> Result<(Vec3, f64), HeadError> {
    let b = skull.half_length;
    let y = b * (1.0 - 2.0 * CHIN_BEHIND);
    // A face is at least as long below the brow as half the forehead is high: this catches slips.
    let shortest = 5.0;
    let down = match tape {
        None => CHIN_OVER_EAR * height - skull.top,
        Some(tape) => {
            let straight = tape - FOREHEAD;
            if straight < shortest {
                return Err(HeadError::Chin {
                    tape,
                    low: FOREHEAD + shortest,
                });
            }
            (straight.powi(2) - (b - y).powi(2)).sqrt()
        }
    };
    let chin = Vec3::new(0.0, y, -down);
    Ok((chin, FOREHEAD + Vec3::new(0.0, b, 0.0).distance(chin)))
}
