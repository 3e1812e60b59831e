//! Runs a plan over a head of hair, step by step.

use super::guide::Setting;
use super::hold::Nudge;
use super::lengths::Lengths;
use super::line::{CuttingLine, Reach};
use super::mirror::Mirrored;
use super::pose::Pose;
use super::section::{LeftOn, SectionCut, SectionKey, Strand};
use super::targets::Targets;
use crate::geometry::{TautError, Vec3};
use crate::hair::{BeforeError, Hair};
use crate::head::{Head, Side};
use crate::measure::Length;
use crate::plan::{ChoiceError, Choices, Held, Plan, Section, Sides, Step, sections};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Rows of roots that stand for a section, and roots in a row: 3 × 3.
pub(super) const ROOTS: usize = 3;

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
    /// A step follows one that has no section on this head.
    #[error("There is no hair on this head to guide by: the step “{0}” has no section here.")]
    NoGuide(String),
    /// The guide is too short to be held where the plan says.
    #[error("The guide would be only {length:.1} cm, too short to be held there. {advice}")]
    GuideTooShort {
        /// The guide's length in cm.
        length: f64,
        /// What would help.
        advice: &'static str,
    },
}

/// What sections came out at, at their long end, measured as they were held.
pub type Measured = BTreeMap<SectionKey, Length>;

/// A plan worked out on a head.
#[derive(Clone, Debug)]
pub struct Outcome {
    /// Every section in the order in which it is cut.
    pub sections: Vec<SectionCut>,
    /// The hair after the last step.
    pub lengths: Lengths,
    /// Whether left and right are cut alike so far, on a head and in hair that are.
    pub(super) even: bool,
}

impl Outcome {
    /// The section of this key.
    pub fn section(&self, key: &SectionKey) -> Option<&SectionCut> {
        self.sections.iter().find(|s| &s.key == key)
    }
}

/// What a plan is worked out from.
#[derive(Clone, Copy, Debug)]
pub struct Job<'a> {
    /// The head.
    pub head: &'a Head,
    /// The hair on it.
    pub hair: &'a Hair,
    /// The plan.
    pub plan: &'a Plan,
    /// What was chosen in it.
    pub choices: &'a Choices,
}

/// Works a plan out on a head, from the hair before and what was measured at the chair so far.
///
/// # Errors
/// [`CutError`] with a sentence.
pub fn cut(job: &Job<'_>, measured: &Measured) -> Result<Outcome, CutError> {
    Run {
        job: *job,
        measured,
        rows: ROOTS,
        quick: false,
        nudges: &[],
    }
    .all()
}

/// The hair before the first step.
pub fn before(job: &Job<'_>) -> Outcome {
    Run {
        job: *job,
        measured: &Measured::new(),
        rows: ROOTS,
        quick: false,
        nudges: &[],
    }
    .start()
}

/// One run of the fold.
pub(super) struct Run<'a> {
    pub job: Job<'a>,
    pub measured: &'a Measured,
    /// Rows of roots a section.
    pub rows: usize,
    /// Whether targets are told from the roots alone.
    pub quick: bool,
    /// Steps, by their places, that are moved from what the plan says.
    pub nudges: &'a [(usize, Nudge)],
}

impl Run<'_> {
    /// The whole plan.
    pub fn all(&self) -> Result<Outcome, CutError> {
        (0..self.job.plan.steps.len())
            .try_fold(self.start(), |so_far, step| self.step(so_far, step))
    }

    /// The hair before the first step.
    pub fn start(&self) -> Outcome {
        let Job {
            head,
            hair,
            plan,
            choices,
        } = self.job;
        Outcome {
            sections: Vec::new(),
            lengths: Lengths::before(head, hair, choices.before(plan)),
            even: head.is_even()
                && hair.sides_alike()
                && self.measured.is_empty()
                && choices.parting(plan).azimuth() == 0.0,
        }
    }

    /// One more step.
    pub fn step(&self, mut so_far: Outcome, index: usize) -> Result<Outcome, CutError> {
        let Job {
            head,
            plan,
            choices,
            ..
        } = self.job;
        let step = &plan.steps[index];
        let all = sections(head, plan, step, choices);
        let mut lengths = so_far.lengths.clone();
        let of = |side| all.iter().filter(|s| s.side == side).collect::<Vec<_>>();
        let even = so_far.even && step.tilt.left == 0.0 && step.sides == Sides::Both;
        for &side in step.sides.all() {
            // Both sides are laid out on the hair as the earlier steps left it, so neither side's cut
            // changes the other's line.
            let (cut, changed) = if even && side == Side::Right {
                self.twins(&so_far.sections, index, &of(side))
            } else {
                self.side(&so_far.lengths, index, &of(side))?
            };
            for (patch, line, shift) in changed {
                lengths = lengths.with(index, patch, line, shift);
            }
            so_far.sections.extend(cut);
        }
        so_far.even = even || (so_far.even && !step.held.cuts());
        Ok(Outcome { lengths, ..so_far })
    }

    /// The right side of a step whose left was just cut, where both are alike.
    fn twins(
        &self,
        so_far: &[SectionCut],
        index: usize,
        ours: &[&Section],
    ) -> (Vec<SectionCut>, Vec<Cutting>) {
        let left = so_far.iter().filter(|s| s.step == index);
        // Sections of a step share a line; so do their twins.
        let mut last: Option<(Arc<CuttingLine>, Arc<CuttingLine>)> = None;
        let (mut cuts, mut changed) = (Vec::new(), Vec::new());
        for (twin, section) in left.zip(ours) {
            let line = twin.line.as_ref().map(|line| match &last {
                Some((of, mirrored)) if Arc::ptr_eq(of, line) => Arc::clone(mirrored),
                _ => {
                    let mirrored = Arc::new(line.mirrored());
                    last = Some((Arc::clone(line), Arc::clone(&mirrored)));
                    mirrored
                }
            });
            if let Some(line) = &line {
                changed.push((section.patch.clone(), Arc::clone(line), 0.0));
            }
            cuts.push(SectionCut {
                key: SectionKey {
                    side: Side::Right,
                    ..twin.key.clone()
                },
                section: (*section).clone(),
                line,
                strands: twin.strands.iter().map(Strand::mirrored).collect(),
                ..twin.clone()
            });
        }
        (cuts, changed)
    }

    fn side(
        &self,
        before: &Lengths,
        index: usize,
        ours: &[&Section],
    ) -> Result<(Vec<SectionCut>, Vec<Cutting>), CutError> {
        let Some(first) = ours.first() else {
            return Ok((Vec::new(), Vec::new()));
        };
        let Job {
            head,
            plan,
            choices,
            ..
        } = self.job;
        let step = &plan.steps[index];
        let travels = matches!(step.held, Held::Travelling(_));
        let pose = Pose::of(head, step.tilt);
        let nudged = self.nudges.iter().find(|(step, _)| *step == index);
        let mut nudge = nudged.map(|(_, nudge)| *nudge).unwrap_or_default();
        nudge.longer += step.longer;
        let (mut cuts, mut changed) = (Vec::new(), Vec::new());
        let mut carry = None;
        // A travelling guide reads what its own sections left; every other lays one line for all.
        let mut own = before.clone();
        let mut line: Option<Arc<CuttingLine>> = None;
        let mut guide = None;
        for (i, section) in ours.iter().enumerate() {
            if travels || i == 0 {
                let setting = Setting {
                    head,
                    plan,
                    choices,
                    lengths: &own,
                    pose,
                    nudge,
                };
                let laid = setting.line(&step.held, first, section, &mut carry)?;
                guide = laid.as_ref().and_then(|laid| laid.guide);
                line = laid.map(|laid| Arc::new(laid.line));
            }
            let mut cut = self.section(before, index, step, section, line.as_ref())?;
            cut.guide = guide.map(Length::from_cm);
            if let Some(line) = &line {
                let shift = self
                    .measured
                    .get(&cut.key)
                    .map_or(0.0, |m| m.cm() - cut.long().cm());
                if travels {
                    own = own.with(index, section.patch.clone(), Arc::clone(line), shift);
                }
                changed.push((section.patch.clone(), Arc::clone(line), shift));
            }
            cuts.push(cut);
        }
        Ok((cuts, changed))
    }

    fn section(
        &self,
        lengths: &Lengths,
        index: usize,
        step: &Step,
        section: &Section,
        line: Option<&Arc<CuttingLine>>,
    ) -> Result<SectionCut, CutError> {
        let head = self.job.head;
        let strands = section
            .patch
            .roots(head, if line.is_some() { self.rows } else { 1 })
            .into_iter()
            .map(|root| {
                let before = lengths.at(head, root)?;
                let reach = line
                    .map(|line| line.reach(head, &lengths.hair, root, before))
                    .transpose()?;
                let path = match reach {
                    // A trim is held as it was cut before.
                    Some(Reach { path: None, .. }) => lengths.way(head, root, before)?,
                    reach => reach.and_then(|reach| reach.path),
                };
                Ok(Strand {
                    root,
                    before,
                    after: reach.map_or(before, |reach| before.min(reach.length)),
                    cut_at: reach.map(|reach| reach.length).filter(|cm| cm.is_finite()),
                    path,
                })
            })
            .collect::<Result<Vec<_>, CutError>>()?;
        let targets = match line {
            Some(_) if self.quick => Targets::among(&strands, true),
            Some(line) => Targets::of(head, lengths, &section.patch, line, &strands)?,
            None => Targets::among(&strands, false),
        };
        Ok(SectionCut {
            step: index,
            key: SectionKey {
                step: step.id.clone(),
                side: section.side,
                number: section.number,
            },
            section: section.clone(),
            line: line.cloned(),
            guide: None,
            left_on: self.left_on(lengths, section, line, &strands)?,
            strands,
            targets,
        })
    }

    /// What stays on a section on purpose: looked at in its strands, and in the middle of every place that
    /// is left longer.
    fn left_on(
        &self,
        lengths: &Lengths,
        section: &Section,
        line: Option<&Arc<CuttingLine>>,
        strands: &[Strand],
    ) -> Result<LeftOn, CutError> {
        let mut left_on = LeftOn::default();
        let hair = &lengths.hair;
        let (Some(line), false) = (line, hair.hair.is_cut_as_held()) else {
            return Ok(left_on);
        };
        for strand in strands {
            let more = line.left_on(hair, strand.root);
            left_on.note(strand.before, strand.cut_at, more, &hair.hair, strand.root);
        }
        for allowance in &hair.hair.allowances {
            let root = Vec3::from(allowance.at);
            if section.patch.holds(root) {
                let before = lengths.at(self.job.head, root)?;
                let reach = line.reach(self.job.head, hair, root, before)?;
                let more = line.left_on(hair, root);
                left_on.note(before, Some(reach.length), more, &hair.hair, root);
            }
        }
        Ok(left_on)
    }
}

/// A patch, the line it was cut along and how much longer it came out, cm.
type Cutting = (crate::plan::Patch, Arc<CuttingLine>, f64);
