//! Fits the skull to the tapes: one freedom of the egg after the other.

use super::error::HeadError;
use super::measured::Measure;
use super::shape::Kind;
use super::survey::{Estimate, estimate};
use super::tapes::{Tape, Tapes};
use crate::geometry::{Convex, Egg, PlanarArc, Vec3, bracketed, planar_arc};
use std::f64::consts::{FRAC_PI_2, PI};

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
/// doi 10.1007/s00276-016-1771-1). On a practice head the hair begins lower; invented.
const FOREHEAD: (f64, f64) = (5.985, 5.4);
/// Top of the head to the chin over top to ear opening: women 21.8 and 12.65 cm, men 23.2 and 13.11,
/// derived from ANSUR II.
const CHIN_OVER_EAR: f64 = 1.747;
/// Front hairline to nape hairline over circumference, of a person and of a practice head. No survey
/// has it; invented.
const HAIRLINE_TO_NAPE: (f64, f64) = (0.60, 0.61);
/// Standard errors in cm of the two tapes that no survey gives, hairline to nape and to chin, of a
/// person whose size is known. Judgement.
const PERSON_ERRORS: (f64, f64) = (2.0, 1.2);
/// The same of a practice head. Invented.
const PRACTICE_ERRORS: (f64, f64) = (2.5, 1.6);
/// How far behind the brow the chin lies, as a share of the length. Judgement.
const CHIN_BEHIND: f64 = 0.02;
/// The least curvature in 1/cm that still counts as strictly convex: a radius of fifty metres.
const LEAST_CURVATURE: f64 = 2e-4;

/// What the tapes settle of a head.
#[derive(Clone, Debug)]
pub(super) struct Fit {
    /// Every tape, as entered or as estimated, in the order of [`Tape::ALL`].
    pub(super) measures: [Measure; 6],
    pub(super) skull: Egg,
    /// The fronts of the left and of the right ear's opening.
    pub(super) ears: [Vec3; 2],
    pub(super) middle_line: MiddleLine,
    pub(super) chin: Vec3,
}

/// The line over the middle of the head: from the high point forward and backward.
#[derive(Clone, Debug)]
pub(super) struct MiddleLine {
    pub(super) front: PlanarArc,
    pub(super) back: PlanarArc,
    /// Arc lengths in cm from the high point to the front and to the nape hairline.
    pub(super) to_front: f64,
    pub(super) to_nape: f64,
}

/// Estimates are tried this much smaller and larger, as a share, in steps, until they carry what was
/// measured. Judgement: 5 % is under two standard deviations of a circumference, and heads 40 % off
/// the usual are none.
const STEP: f64 = 0.05;
const STEPS: i32 = 8;

/// Fits a head to what was measured. Where the likeliest head cannot carry it, what was only
/// estimated gives way: the size nearest to the likeliest that can is taken.
///
/// # Errors
/// That of the likeliest head when no size helps.
pub(super) fn fit(tapes: &Tapes) -> Result<Fit, HeadError> {
    let refused = match fit_size(tapes, 1.0) {
        Ok(fit) => return Ok(fit),
        Err(e) => e,
    };
    let ways: &[f64] = match refused {
        // Neither depends on the size of what was not measured.
        HeadError::Ring { .. } | HeadError::Chin { .. } => &[],
        HeadError::EarToEar { arc, high, .. } => &[(arc - high).signum()],
        HeadError::Nape { tape, high, .. } => &[(tape - high).signum()],
        HeadError::NotOneHead => &[1.0, -1.0],
    };
    let sizes = [
        Tape::Circumference,
        Tape::Length,
        Tape::Breadth,
        Tape::EarToEar,
    ];
    if sizes.iter().all(|&tape| tapes.get(tape).is_some()) {
        return Err(refused);
    }
    let of = |step: f64| fit_size(tapes, 1.0 + STEP * step).ok();
    let found = (1..=STEPS)
        .flat_map(|i| ways.iter().map(move |way| way * f64::from(i)))
        .find_map(|step| of(step).map(|fit| (step, fit)));
    let Some((step, mut fit)) = found else {
        return Err(refused);
    };
    // Nearer to the likeliest, by halves of the step that was too far.
    let (mut fails, mut holds) = (step - step.signum(), step);
    for _ in 0..5 {
        let middle = (fails + holds) / 2.0;
        match of(middle) {
            Some(better) => (fit, holds) = (better, middle),
            None => fails = middle,
        }
    }
    Ok(fit)
}

/// The head whose estimates are `size` times the likeliest.
fn fit_size(tapes: &Tapes, size: f64) -> Result<Fit, HeadError> {
    let kind = tapes.kind();
    let given = [Tape::Circumference, Tape::Length, Tape::Breadth].map(|tape| tapes.get(tape));
    let measured = given.map(|g| g.is_some());
    let arc = tapes.get(Tape::EarToEar);
    let likeliest = estimate(kind, [given[0], given[1], given[2], None, arc]);
    let mut estimates = likeliest;
    for (guess, fixed) in estimates
        .iter_mut()
        .zip(measured.into_iter().chain([false]))
    {
        if !fixed {
            guess.cm *= size;
        }
    }
    let [circumference, length, breadth, top, mut guessed_arc] = estimates;
    let mut ring = give_way([circumference, length, breadth], measured);
    // A guess that had to move is less sure by as much as it moved.
    for (moved, likeliest) in ring.iter_mut().zip(likeliest) {
        moved.error = moved.error.hypot(moved.cm - likeliest.cm);
    }
    guessed_arc.error = guessed_arc.error.hypot(guessed_arc.cm - likeliest[4].cm);
    let [circumference, length, breadth] = ring;
    let (a, b) = (breadth.cm / 2.0, length.cm / 2.0);
    let fullness = level_fullness(a, b, circumference.cm)?;
    let (back, crest) = (tapes.back().leaner(), tapes.top().leaner());
    let skull_of = |height: f64| skull(a, b, fullness, height).shaped(back, crest);
    let up = tapes.left_ear_up();
    let (height, height_error) = match arc {
        None => (top.cm, top.error.hypot(top.cm - likeliest[3].cm)),
        Some(arc) => (height_for_arc(arc, up, &skull_of)?, 0.0),
    };
    let skull = skull_of(height);
    let ears = ear_openings(&skull, height, up);
    let middle_line = MiddleLine::new(&skull, circumference.cm, tapes)?;
    let (chin, chin_cm) = chin(&skull, height, kind, tapes.get(Tape::HairlineToChin))?;
    // Costly, so last.
    if skull.least_curvature() < LEAST_CURVATURE {
        return Err(HeadError::NotOneHead);
    }
    let own = match kind {
        Kind::Person => PERSON_ERRORS,
        Kind::Practice => PRACTICE_ERRORS,
    };
    // Each carries the error of what it was guessed from.
    let nape_error = own.0.hypot(nape_over_ring(kind) * circumference.error);
    let chin_error = own
        .1
        .hypot((CHIN_OVER_EAR - (1.0 - EAR_SHARE)) * height_error);
    let of = |tape: Tape| match tape {
        Tape::Circumference => circumference.into(),
        Tape::Length => length.into(),
        Tape::Breadth => breadth.into(),
        Tape::EarToEar => Measure::new(
            ear_to_ear(&ears, &skull).length(),
            arc.is_some(),
            guessed_arc.error,
        ),
        Tape::HairlineToNape => Measure::new(
            middle_line.to_front + middle_line.to_nape,
            tapes.get(tape).is_some(),
            nape_error,
        ),
        Tape::HairlineToChin => Measure::new(chin_cm, tapes.get(tape).is_some(), chin_error),
    };
    Ok(Fit {
        measures: Tape::ALL.map(of),
        skull,
        ears,
        middle_line,
        chin,
    })
}

/// Brow to front hairline along the skin, in cm.
pub(super) fn forehead(kind: Kind) -> f64 {
    match kind {
        Kind::Person => FOREHEAD.0,
        Kind::Practice => FOREHEAD.1,
    }
}

/// Front hairline to nape hairline over circumference.
fn nape_over_ring(kind: Kind) -> f64 {
    match kind {
        Kind::Person => HAIRLINE_TO_NAPE.0,
        Kind::Practice => HAIRLINE_TO_NAPE.1,
    }
}

impl MiddleLine {
    fn new(skull: &Egg, circumference: f64, tapes: &Tapes) -> Result<Self, HeadError> {
        let front = super::scalp::meridian_arc(skull, 0.0);
        let back = super::scalp::meridian_arc(skull, PI);
        let to_brow = planar_arc(skull, Vec3::ZERO, (Vec3::Z, Vec3::Y), (0.0, FRAC_PI_2)).length();
        let to_front = to_brow - forehead(tapes.kind());
        // The nape lies on the back, below its fullest part and above the end of the body.
        let low = to_front
            + planar_arc(skull, Vec3::ZERO, (Vec3::Z, Vec3::NEG_Y), (0.0, FRAC_PI_2)).length();
        let high = to_front + back.length();
        let tape = match tapes.get(Tape::HairlineToNape) {
            Some(tape) if !(low..=high).contains(&tape) => {
                return Err(HeadError::Nape { tape, low, high });
            }
            Some(tape) => tape,
            None => (nape_over_ring(tapes.kind()) * circumference).clamp(low, high),
        };
        Ok(Self {
            front,
            back,
            to_front,
            to_nape: tape - to_front,
        })
    }
}

fn skull(a: f64, b: f64, fullness: f64, height: f64) -> Egg {
    let top = height * (1.0 - EAR_SHARE);
    Egg::new(a, b, (top, top * BELOW_OVER_ABOVE), fullness, UPRIGHT)
}

/// The tape around the widest level, in cm.
pub(super) fn ring(skull: &Egg) -> f64 {
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

/// The fronts of the left and of the right ear's opening on a skull whose top stands `height` cm
/// above the middle between their levels; the left lies `up` cm higher. Both stand equally far back.
fn ear_openings(skull: &Egg, height: f64, up: f64) -> [Vec3; 2] {
    [1.0, -1.0].map(|side| {
        let centre = Vec3::new(
            0.0,
            -EAR_BEHIND * 2.0 * skull.half_length,
            skull.top - height + side * up / 2.0,
        );
        skull.along_from(centre, Vec3::X * side)
    })
}

/// The tape from the left ear's opening over the top to the right's, laid upright.
pub(super) fn ear_to_ear([left, right]: &[Vec3; 2], skull: &Egg) -> PlanarArc {
    let centre = Vec3::new(0.0, left.y, 0.0);
    let ends = (left.z.atan2(left.x), PI - right.z.atan2(-right.x));
    planar_arc(skull, centre, (Vec3::X, Vec3::Z), ends)
}

fn height_for_arc(arc: f64, up: f64, skull_of: &impl Fn(f64) -> Egg) -> Result<f64, HeadError> {
    let range = (7.0, 21.0);
    let of = |height: f64| {
        let skull = skull_of(height);
        ear_to_ear(&ear_openings(&skull, height, up), &skull).length()
    };
    bracketed(range, 1e-9, |height| of(height) - arc).map_err(|_| HeadError::EarToEar {
        arc,
        low: of(range.0),
        high: of(range.1),
    })
}

/// The chin, and the tape from the front hairline down to it in cm.
fn chin(skull: &Egg, height: f64, kind: Kind, tape: Option<f64>) -> Result<(Vec3, f64), HeadError> {
    let forehead = forehead(kind);
    let b = skull.half_length;
    let y = b * (1.0 - 2.0 * CHIN_BEHIND);
    // A face is at least as long below the brow as half the forehead is high: this catches slips.
    let shortest = 5.0;
    let down = match tape {
        None => CHIN_OVER_EAR * height - skull.top,
        Some(tape) => {
            let straight = tape - forehead;
            if straight < shortest {
                return Err(HeadError::Chin {
                    tape,
                    low: forehead + shortest,
                });
            }
            (straight.powi(2) - (b - y).powi(2)).sqrt()
        }
    };
    let chin = Vec3::new(0.0, y, -down);
    Ok((chin, forehead + Vec3::new(0.0, b, 0.0).distance(chin)))
}
