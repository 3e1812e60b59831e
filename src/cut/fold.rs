//! Runs a plan over a head of hair, step by step.

use super::hold::Setting;
use super::lengths::Lengths;
use crate::geometry::{Target, Taut, TautError, Vec3, taut, trace};
use crate::hair::BeforeError;
use crate::head::{Head, Side, Spot};
use crate::measure::Length;
use crate::plan::{ChoiceError, Choices, Held, Plan, Section, sections};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Roots a side that stand for a section: 3 × 3.
const ROOTS: usize = 3;

/// Hair this little short of the line still reaches it, in cm: lines are laid no more exactly.
const JUST: f64 = 1e-4;

/// Why a plan cannot be worked out on a head.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum CutError {
    /// A choice is missing or faulty.
    #[error(transparent)]
    Choice(#[from] ChoiceError),
    /// The hair before cannot be worked out.
    #[error(transparent)]
    Before(#[from] BeforeError),
    /// A path cannot be found.
    #[error(transparent)]
    Path(#[from] TautError),
    /// The guide is too short to be held where the plan says.
    #[error("The guide would be only {length:.1} cm, too short to be held there. {advice}")]
    GuideTooShort {
        /// The guide's length in cm.
        length: f64,
        /// What would help.
        advice: &'static str,
    },
}

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

/// What sections came out at, at their long end, measured as they were held.
pub type Measured = BTreeMap<SectionKey, Length>;

/// One root of a section and its hair.
#[derive(Clone, Copy, Debug)]
pub struct Strand {
    /// Where on the scalp.
    pub spot: Spot,
    /// The same place in space.
    pub root: Vec3,
    /// Length before this step, cm.
    pub before: f64,
    /// Length after it, cm.
    pub after: f64,
    /// Its way to the cutting line; none where nothing is cut.
    pub path: Option<Taut>,
}

impl Strand {
    /// Whether the hair reaches the line and is cut there.
    pub fn reaches(&self) -> bool {
        self.path
            .is_some_and(|path| self.before >= path.length - JUST)
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
    pub line: Option<Target>,
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

    /// The shortest hair that is cut here.
    pub fn short(&self) -> Length {
        Length::from_cm(self.counted().into_iter().fold(f64::INFINITY, f64::min))
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
        if self.line.is_none() {
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
    let spare = |s: &Strand| s.path.map(|path| s.before - path.length);
    let (over, under) = (spare(a)?, spare(b)?);
    if (over >= 0.0) == (under >= 0.0) {
        return None;
    }
    let share = over / (over - under);
    Some(a.before + (b.before - a.before) * share)
}

/// A plan worked out on a head.
#[derive(Clone, Debug)]
pub struct Outcome {
    /// Every section in the order in which it is cut.
    pub sections: Vec<SectionCut>,
    /// The hair after the last step.
    pub lengths: Lengths,
}

impl Outcome {
    /// The section of this key.
    pub fn section(&self, key: &SectionKey) -> Option<&SectionCut> {
        self.sections.iter().find(|s| &s.key == key)
    }
}

/// Works a plan out on a head, from the hair before and what was measured at the chair so far.
///
/// # Errors
/// [`CutError`] with a sentence.
pub fn cut(
    head: &Head,
    plan: &Plan,
    choices: &Choices,
    measured: &Measured,
) -> Result<Outcome, CutError> {
    let start = Outcome {
        sections: Vec::new(),
        lengths: Lengths::before(choices.before(plan)),
    };
    (0..plan.steps.len()).try_fold(start, |so_far, step| {
        cut_step(head, plan, choices, measured, so_far, step)
    })
}

fn cut_step(
    head: &Head,
    plan: &Plan,
    choices: &Choices,
    measured: &Measured,
    mut so_far: Outcome,
    step_index: usize,
) -> Result<Outcome, CutError> {
    let step = &plan.steps[step_index];
    let all = sections(plan, step, choices);
    let mut lengths = so_far.lengths.clone();
    for side in [Side::Left, Side::Right] {
        let ours: Vec<&Section> = all.iter().filter(|s| s.side == side).collect();
        let Some(first) = ours.first() else { continue };
        // Both sides are laid out on the hair as the earlier steps left it, so neither side's cut
        // changes the other's line.
        let setting = Setting {
            head,
            plan,
            choices,
            lengths: &so_far.lengths,
        };
        let line = setting.line(&step.held, first)?;
        for section in ours {
            let key = SectionKey {
                step: step.id.clone(),
                side,
                number: section.number,
            };
            let cut = cut_section(head, &so_far.lengths, step_index, key, section, line)?;
            if let Some(line) = line {
                let shift = measured
                    .get(&cut.key)
                    .map_or(0.0, |m| m.cm() - cut.long().cm());
                lengths = lengths.with(section.patch, line, shift);
            }
            so_far.sections.push(cut);
        }
    }
    debug_assert!(matches!(step.held, Held::Check) || !all.is_empty());
    Ok(Outcome { lengths, ..so_far })
}

fn cut_section(
    head: &Head,
    lengths: &Lengths,
    step: usize,
    key: SectionKey,
    section: &Section,
    line: Option<Target>,
) -> Result<SectionCut, CutError> {
    let roots = if line.is_some() { ROOTS } else { 1 };
    // The roots of a row have one meridian in common.
    let spots = section.patch.roots(roots);
    let places = spots.chunks(roots).flat_map(|row| head.places(row));
    let strands = spots
        .iter()
        .zip(places)
        .map(|(&spot, root)| {
            let before = lengths.at_root(head, spot, root)?;
            let path = line
                .map(|line| taut(head.skull(), root, &line))
                .transpose()?;
            let after = path.map_or(before, |path| before.min(path.length));
            Ok(Strand {
                spot,
                root,
                before,
                after,
                path,
            })
        })
        .collect::<Result<Vec<_>, CutError>>()?;
    Ok(SectionCut {
        step,
        key,
        section: section.clone(),
        line,
        strands,
    })
}
