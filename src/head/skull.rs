//! A head as the tapes settle it.
//!
//! Each tape has its own freedom of the [`Egg`], so that every one that was entered is given back:
//!
//! | tape | what it settles |
//! | --- | --- |
//! | breadth, length | half-breadth and half-length of the widest level section |
//! | circumference | the fullness of level sections |
//! | ear to ear over the top | the height of the top above the ears |
//! | shape of the back and the top | how square upright sections are there |
//! | left ear up | how far the ears, and the hairline round each, lie above and below their mean level |
//! | front hairline to nape | where the nape hairline lies on the middle line |
//! | front hairline to chin | where the chin lies |
//!
//! The shapes leave the widest level section alone and the ear-to-ear tape is fitted over them, so
//! they change no tape that was entered. What was not measured is filled from the surveys
//! ([`super::survey`]), of a practice head from invented figures, and marked; it gives way where the
//! likeliest head could not carry what was measured.

use super::Side;
use super::error::HeadError;
use super::fit::{self, Fit};
use super::hairline::{Edge, Hairline};
use super::measured::Measure;
use super::points;
use super::samples::Sample;
use super::shape::Kind;
use super::tapes::{Tape, Tapes};
use crate::geometry::{Convex, Egg, Vec3};
use std::f64::consts::PI;
use std::sync::OnceLock;

/// One head: its tapes, its skull, its hairline and its named points.
#[derive(Clone, Debug)]
pub struct Head {
    fit: Fit,
    kind: Kind,
    hairline: Hairline,
    edge: Edge,
    /// Filled when it is first asked for.
    grid: OnceLock<Vec<Sample>>,
}

impl Head {
    /// Fits a head to what was measured.
    ///
    /// # Errors
    /// A [`HeadError`] when what was entered cannot belong to one head. Estimates give way to what
    /// was entered as far as a head allows.
    pub fn from_tapes(tapes: &Tapes) -> Result<Self, HeadError> {
        let fit = fit::fit(tapes)?;
        let kind = tapes.kind();
        let hairline = points::hairline(&fit.skull, kind, fit.ears, &fit.middle_line);
        let edge = Edge::new(&fit.skull, &hairline);
        Ok(Self {
            fit,
            kind,
            hairline,
            edge,
            grid: OnceLock::new(),
        })
    }

    /// The tape as entered or estimated.
    pub fn measure(&self, tape: Tape) -> Measure {
        let [circumference, ear_to_ear, nape, length, breadth, chin] = self.fit.measures;
        match tape {
            Tape::Circumference => circumference,
            Tape::EarToEar => ear_to_ear,
            Tape::HairlineToNape => nape,
            Tape::Length => length,
            Tape::Breadth => breadth,
            Tape::HairlineToChin => chin,
        }
    }

    /// The tape measured again on the finished model, in cm: what an entered tape is held against.
    pub fn model_tape(&self, tape: Tape) -> f64 {
        let skull = self.skull();
        match tape {
            Tape::Circumference => fit::ring(skull),
            Tape::EarToEar => fit::ear_to_ear(&self.fit.ears, skull).length(),
            Tape::Length => skull.along(Vec3::Y).y - skull.along(Vec3::NEG_Y).y,
            Tape::Breadth => skull.along(Vec3::X).x - skull.along(Vec3::NEG_X).x,
            Tape::HairlineToNape => {
                let [front, nape] = [0.0, PI].map(|azimuth| self.meridian(azimuth).hairline());
                front + nape
            }
            Tape::HairlineToChin => fit::forehead(self.kind) + self.brow().distance(self.chin()),
        }
    }

    /// Some 600 places spread evenly over the scalp.
    pub fn grid(&self) -> &[Sample] {
        self.grid.get_or_init(|| self.samples(600))
    }

    /// Whether its left and right are each other's mirror image.
    pub fn is_even(&self) -> bool {
        let [left, right] = self.fit.ears;
        left.x == -right.x && left.y == right.y && left.z == right.z
    }

    /// The skull's surface.
    pub fn skull(&self) -> &Egg {
        &self.fit.skull
    }

    /// The hairline.
    pub fn hairline(&self) -> &Hairline {
        &self.hairline
    }

    /// The height of the hairline at every azimuth.
    pub(super) fn edge(&self) -> &Edge {
        &self.edge
    }

    /// The front of an ear's opening, in cm; for [`Side::Centre`] the place inside the head midway
    /// between the two, whose height is their mean level.
    pub fn ear_opening(&self, side: Side) -> Vec3 {
        let [left, right] = self.fit.ears;
        match side {
            Side::Left => left,
            Side::Centre => left.midpoint(right),
            Side::Right => right,
        }
    }

    /// The line of the tape from the left ear's opening over the top to the right's: places on the
    /// skull, in cm.
    pub fn over_the_top(&self) -> Vec<Vec3> {
        fit::ear_to_ear(&self.fit.ears, self.skull())
            .points()
            .to_vec()
    }

    /// Between the brows.
    pub(super) fn brow(&self) -> Vec3 {
        Vec3::new(0.0, self.skull().half_length, 0.0)
    }

    /// Under the chin, in the middle.
    pub(super) fn chin(&self) -> Vec3 {
        self.fit.chin
    }

    /// The place on the middle line `share` of the way from the high point to the nape hairline.
    pub(super) fn behind(&self, share: f64) -> Vec3 {
        let line = &self.fit.middle_line;
        self.skull().settle(line.back.at(line.to_nape * share))
    }

    /// The middle line from the front hairline over the high point to the nape hairline.
    pub fn middle_line(&self) -> Vec<Vec3> {
        let line = &self.fit.middle_line;
        let steps = 40;
        let share = |i: i32| f64::from(i) / f64::from(steps);
        let front = (0..steps).map(|i| line.front.at(line.to_front * (1.0 - share(i))));
        let back = (0..=steps).map(|i| line.back.at(line.to_nape * share(i)));
        front.chain(back).collect()
    }
}
