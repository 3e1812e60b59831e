//! A section with its hair before and after.

use super::line::CuttingLine;
use crate::geometry::{Taut, Vec3, trace};
use crate::head::{Head, Side};
use crate::measure::Length;
use crate::plan::Section;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// Hair this little short of the line still reaches it, in cm: lines are laid no more exactly.
const JUST: f64 = 1e-4;

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

/// One root of a section and its hair.
#[derive(Clone, Copy, Debug)]
pub struct Strand {
    /// Where it grows, on the skull.
    pub root: Vec3,
    /// Length before this step, cm.
    pub before: f64,
    /// Length after it, cm.
    pub after: f64,
    /// The length at which it is cut if it reaches, cm; none where nothing is cut.
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
}

impl SectionCut {
    /// Lengths after the cut of the hair that counts: what reaches the line, up to where it just
    /// reaches; or all of it if none does or nothing is cut.
    fn counted(&self) -> Vec<f64> {
        if !self.strands.iter().any(Strand::reaches) {
            return self.strands.iter().map(|s| s.after).collect();
        }
        let reached = self.strands.iter().filter(|s| s.reaches()).map(|s| s.after);
        reached
            .chain(self.neighbours().filter_map(|(a, b)| just_reaching(a, b)))
            .collect()
    }

    /// Pairs of strands next to each other, along rows and across them.
    fn neighbours(&self) -> impl Iterator<Item = (&Strand, &Strand)> {
        let side = self.strands.len().isqrt();
        let strand = move |row: usize, i: usize| &self.strands[row * side + i];
        let along =
            (0..side).flat_map(move |r| (1..side).map(move |i| (strand(r, i - 1), strand(r, i))));
        let across =
            (1..side).flat_map(move |r| (0..side).map(move |i| (strand(r - 1, i), strand(r, i))));
        along.chain(across)
    }

    /// Whether its hair is cut here; else it is only looked at.
    pub fn cuts(&self) -> bool {
        self.line.is_some()
    }

    /// Radians about the upright axis from the front to its middle; 0 if it has no hair.
    pub fn azimuth(&self) -> f64 {
        let middle = self.strands.get(self.strands.len() / 2);
        middle.map_or(0.0, |strand| strand.root.x.atan2(strand.root.y))
    }

    /// The shortest hair that is cut here.
    pub fn short(&self) -> Length {
        let least = self.counted().into_iter().reduce(f64::min);
        Length::from_cm(least.unwrap_or(0.0))
    }

    /// The longest hair that is cut here.
    pub fn long(&self) -> Length {
        Length::from_cm(self.counted().into_iter().fold(0.0, f64::max))
    }

    /// The most that comes off.
    pub fn off(&self) -> Length {
        Length::from_cm(
            self.strands
                .iter()
                .map(|s| s.before - s.after)
                .fold(0.0, f64::max),
        )
    }

    /// The share of its hair that reaches the line, 0 to 1; 1 where nothing is cut.
    pub fn reach(&self) -> f64 {
        if self.line.is_none() || self.strands.is_empty() {
            return 1.0;
        }
        let reached = self.strands.iter().filter(|s| s.reaches()).count();
        reached as f64 / self.strands.len() as f64
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

/// The length in cm of the hair between two strands that only just reaches the line, if one of them
/// reaches and the other does not.
fn just_reaching(a: &Strand, b: &Strand) -> Option<f64> {
    let spare = |s: &Strand| s.cut_at.map(|cm| s.before - cm);
    let (over, under) = (spare(a)?, spare(b)?);
    if (over >= 0.0) == (under >= 0.0) {
        return None;
    }
    let share = over / (over - under);
    Some(a.before + (b.before - a.before) * share)
}
