//! A section with its hair before and after.

use super::line::CuttingLine;
use super::targets::{JUST, Targets};
use crate::geometry::{Taut, Vec3, trace};
use crate::hair::{Hair, Reason};
use crate::head::{Head, Side};
use crate::measure::{A_RULER, Length};
use crate::plan::Section;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// Which section: its step's id, the client's side, its number in cutting order from 1.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct SectionKey {
    /// The step's id.
    pub step: String,
    /// The client's side.
    pub side: Side,
    /// The section's number within its step and side.
    pub number: usize,
}

impl SectionKey {
    /// As it stands in an address: `STEP.SIDE.NUMBER`, such as `face-frame.left.2`.
    pub fn address(&self) -> String {
        format!("{}.{}.{}", self.step, self.side.word(), self.number)
    }

    /// What an address names; none if that is no section's.
    pub fn from_address(text: &str) -> Option<Self> {
        // A step's id may have a full stop in it.
        let (rest, number) = text.rsplit_once('.')?;
        let (step, side) = rest.rsplit_once('.')?;
        let side = Side::of_word(side)?;
        let number = number.parse().ok()?;
        let step = step.to_owned();
        Some(Self { step, side, number })
    }

    /// The same section on the other side; of the middle, itself.
    pub fn mirrored(&self) -> Self {
        Self {
            side: self.side.mirrored(),
            ..self.clone()
        }
    }
}

/// One root of a section and its hair.
#[derive(Clone, Copy, Debug)]
pub struct Strand {
    /// Where it grows, on the skull.
    pub root: Vec3,
    /// Length before this step, cm.
    pub before: f64,
    /// Length after it, cm.
    pub after: f64,
    /// The length at which it is cut if it reaches, cm; none where nothing is cut, or no length would
    /// reach, as below a level that hair is to fall to.
    pub cut_at: Option<f64>,
    /// Its way to the cutting line; of a trim, to the line that cut it before, so much further off. None
    /// where nothing is cut, or no step of this plan cut what is trimmed.
    pub path: Option<Taut>,
}

impl Strand {
    /// Whether the hair reaches the line and is cut there.
    pub fn reaches(&self) -> bool {
        self.cut_at.is_some_and(|cm| self.before >= cm - JUST)
    }
}

/// What is left on a section on purpose.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LeftOn {
    /// The most that is left on anywhere of it.
    pub most: Length,
    /// Why, each reason once.
    pub reasons: Vec<Reason>,
}

/// Less left on than this is nothing that a hand can do, cm. Judgement.
const A_TOUCH: f64 = 0.1;

impl LeftOn {
    /// Takes note of one hair, `before` cm long, that its line would cut at `cut_at` cm with `more` cm left
    /// on.
    pub(super) fn note(
        &mut self,
        before: f64,
        cut_at: Option<f64>,
        more: f64,
        hair: &Hair,
        root: Vec3,
    ) {
        let Some(cut_at) = cut_at.filter(|cm| cm.is_finite()) else {
            return;
        };
        // What was too short before is not left on.
        let stays = (before.min(cut_at) - (cut_at - more)).min(more);
        if stays >= A_TOUCH {
            self.most = Length::from_cm(self.most.cm().max(stays));
            for reason in hair.reasons(root) {
                if !self.reasons.contains(&reason) {
                    self.reasons.push(reason);
                }
            }
        }
    }
}

/// A section with its hair before and after.
#[derive(Clone, Debug)]
pub struct SectionCut {
    /// The plan's step, by its place.
    pub step: usize,
    /// Which section.
    pub key: SectionKey,
    /// The section.
    pub section: Section,
    /// The cutting line; none for a check.
    pub line: Option<Arc<CuttingLine>>,
    /// How long the guide is by which its line stands; none in its fall, for a trim or a check.
    pub guide: Option<Length>,
    /// Its hair, row by row from the edge nearest the guide to the far edge, each row from the
    /// inner to the outer end.
    pub strands: Vec<Strand>,
    /// What stays on it on purpose.
    pub(super) left_on: LeftOn,
    /// What it comes to over the whole of it.
    pub(super) targets: Targets,
}

impl SectionCut {
    /// Whether its hair is cut here; else it is only looked at.
    pub fn cuts(&self) -> bool {
        self.line.is_some()
    }

    /// Radians about the upright axis from the front to its middle; 0 if it has no hair.
    pub fn azimuth(&self) -> f64 {
        let middle = self.strands.get(self.strands.len() / 2);
        middle.map_or(0.0, |strand| strand.root.x.atan2(strand.root.y))
    }

    /// The shortest hair that is cut here: of what reaches the line, up to where it just reaches; of all
    /// if none does or nothing is cut.
    pub fn short(&self) -> Length {
        Length::from_cm(self.targets.short)
    }

    /// The longest hair that is cut here, likewise.
    pub fn long(&self) -> Length {
        Length::from_cm(self.targets.long)
    }

    /// The most that comes off.
    pub fn off(&self) -> Length {
        Length::from_cm(self.targets.off)
    }

    /// How much longer than computed it was cut when its long end came out at this, cm; shorter if below
    /// zero. Hair that is left alone was not cut longer.
    pub(super) fn shift(&self, measured: Length) -> f64 {
        let planned = if self.reach() > 0.0 {
            self.long().cm()
        } else if measured < self.long() {
            // None of it reaches, so the line is further off than the longest: it was brought nearer.
            let longest = |a: &&Strand, b: &&Strand| a.after.total_cmp(&b.after);
            let longest = self.strands.iter().max_by(longest);
            longest.and_then(|s| s.cut_at).unwrap_or(self.long().cm())
        } else {
            measured.cm()
        };
        measured.cm() - planned
    }

    /// Its hair as it came out: cut so much longer or shorter all over as its long end was measured to be.
    /// Never longer than it was before, and never less than nothing.
    pub fn as_cut(&self, measured: Length) -> Vec<Strand> {
        let shift = self.shift(measured);
        let came_out = |strand: &Strand| Strand {
            after: match strand.cut_at {
                Some(cm) if shift.is_finite() => strand.before.min((cm + shift).max(0.0)),
                _ => strand.after,
            },
            ..*strand
        };
        self.strands.iter().map(came_out).collect()
    }

    /// The longest that it can be left, cm: no cut makes hair longer than it was.
    pub fn most(&self) -> f64 {
        let before = self.strands.iter().map(|s| s.before);
        before.fold(self.long().cm(), f64::max) + A_TOUCH
    }

    /// Whether it can have come out so long: never longer than it was, but for what a ruler may be off.
    pub fn can_be(&self, measured: Length) -> bool {
        measured.cm() <= self.most() + A_RULER
    }

    /// What is left on it on purpose, over an ear or for a cowlick; none if nothing is. Its lengths have it
    /// in them.
    pub fn left_on(&self) -> Option<&LeftOn> {
        (self.left_on.most > Length::ZERO).then_some(&self.left_on)
    }

    /// The share of its hair that reaches the line, 0 to 1; 1 where nothing is cut.
    pub fn reach(&self) -> f64 {
        self.targets.reach
    }

    /// The held hair for drawing: for each strand that reaches, the points of its way to the line,
    /// about every `spacing` cm.
    pub fn held(&self, head: &Head, spacing: f64) -> Vec<Vec<Vec3>> {
        self.strands
            .iter()
            .filter(|s| s.reaches())
            .filter_map(|s| {
                s.path
                    .map(|path| trace(head.skull(), s.root, &path, spacing))
            })
            .collect()
    }
}
