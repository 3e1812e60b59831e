//! Runs a plan over a head of hair, step by step.

use super::actual::{Actual, same_line, sets_its_guide};
use super::guide::Setting;
use super::hold::Nudge;
use super::lengths::Lengths;
use super::line::{CuttingLine, Reach};
use super::pose::Pose;
use super::section::{LeftOn, SectionCut, SectionKey, Strand};
use super::sided::Sided;
use super::targets::Targets;
use crate::geometry::{TautError, Vec3};
use crate::hair::{BeforeError, Hair};
use crate::head::{Head, Side};
use crate::measure::Length;
use crate::plan::{ChoiceError, Choices, Held, Plan, Section, Sides, Step, sections};
use crate::words::{decimal, tr};
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
    #[error("{}", tr!("There is no hair on this head to guide by: the step “{}” has no section here.", .0))]
    NoGuide(String),
    /// The guide is too short to be held where the plan says.
    #[error("{}", tr!("The guide would be only {length} cm, too short to be held there. {advice}", length = decimal(format!("{:.1}", .length)), advice = .advice))]
    GuideTooShort {
        /// The guide's length in cm.
        length: f64,
        /// What would help.
        advice: &'static str,
    },
}

/// What sections came out at, at their long end, measured as they were held.
///
/// The first section of a step is the guide for the rest of its side, where the step itself settles how
/// long it is (a line that hair falls to, a taper, a length, a landmark, an amount off that guide): they
/// are then brought to the line that really was cut, and so are those of later steps that fall to the very
/// same line. Where hair of an earlier step guides, or in a trim, where each section loses
/// its own amount, a measured section is that section's alone; what reads its hair later goes on from it.
/// Each side follows its own guide. What nobody can have cut, such as more than there was, moves nothing
/// else.
pub type Measured = BTreeMap<SectionKey, Length>;

/// A plan worked out on a head.
#[derive(Clone, Debug)]
pub struct Outcome {
    /// Every section in the order in which it is cut.
    pub sections: Vec<SectionCut>,
    /// The hair after the last step.
    pub lengths: Lengths,
    /// The first step, by its place, after which left and right were no longer alike, as from the start on
    /// a head or in hair that are not; none so far if they still are.
    pub(super) uneven_since: Option<usize>,
    /// What was measured.
    pub(super) measured: Measured,
    /// How much longer than planned the guide of a step's side really was, cm: step, side, cm. Those
    /// that were as planned are left out.
    pub(super) guides: Vec<(usize, Side, f64)>,
    /// Sides of steps that are told as planned, because they cannot go on from what was really cut.
    pub(super) as_planned: Vec<(usize, Side)>,
    /// Sides of steps that go on from hair that the other side cut.
    pub(super) crossed: Vec<(usize, Side)>,
}

impl Outcome {
    /// The section of this key.
    pub fn section(&self, key: &SectionKey) -> Option<&SectionCut> {
        self.sections.iter().find(|s| &s.key == key)
    }

    /// The longest hair of all sections before it is cut; nothing without sections.
    pub fn longest_before(&self) -> Length {
        let strands = self.sections.iter().flat_map(|s| &s.strands);
        Length::from_cm(strands.map(|s| s.before).fold(0.0, f64::max))
    }

    /// The hair after the section at `place` of [`Outcome::sections`] was cut; of none there, after all.
    pub fn lengths_after(&self, place: usize) -> Lengths {
        let so_far = self.sections.iter().take(place.saturating_add(1));
        self.lengths.first_cuts(so_far.filter(|s| s.cuts()).count())
    }

    /// Whether the right side is the left in a mirror: head, hair and parting are even and both sides are
    /// cut alike.
    pub fn is_even(&self) -> bool {
        self.uneven_since.is_none()
    }

    /// Whether a section's target goes on from what was really cut. It does not where that is too short to
    /// be held as its step says; then its line is the planned one.
    pub fn follows(&self, section: &SectionCut) -> bool {
        !self.as_planned.contains(&(section.step, section.key.side))
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
        let even = head.is_even() && hair.sides_alike() && choices.parting(plan).azimuth() == 0.0;
        Outcome {
            sections: Vec::new(),
            lengths: Lengths::before(head, hair, choices.before(plan)),
            uneven_since: (!even).then_some(0),
            measured: self.measured.clone(),
            guides: Vec::new(),
            as_planned: Vec::new(),
            crossed: Vec::new(),
        }
    }

    /// One more step.
    pub fn step(&self, so_far: Outcome, index: usize) -> Result<Outcome, CutError> {
        self.step_but(so_far, index, &|_| None)
    }

    /// One more step, but for the sides of it that are known.
    pub fn step_but(
        &self,
        mut so_far: Outcome,
        index: usize,
        known: &dyn Fn(Side) -> Option<Sided>,
    ) -> Result<Outcome, CutError> {
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
        let even = so_far.uneven_since.is_none()
            && step.tilt.left == 0.0
            && step.sides == Sides::Both
            && self.came_out_alike(step);
        // Both sides are laid out on the hair as the earlier steps left it, so neither side's cut changes
        // the other's line.
        let mut done: Vec<Sided> = Vec::new();
        for &side in step.sides.all() {
            done.push(match (known(side), done.first()) {
                (Some(known), _) => known,
                (None, Some(left)) if even => left.twins(&of(side)),
                _ => {
                    let ours = of(side);
                    match self.side(&so_far, &so_far.lengths, index, side, &ours) {
                        // What was really cut cannot be gone on from.
                        Err(_) if !self.measured.is_empty() => {
                            self.as_planned(&so_far, index, side, &ours)?
                        }
                        there => there?,
                    }
                }
            });
        }
        for (side, done) in step.sides.all().iter().zip(done) {
            if done.as_planned {
                so_far.as_planned.push((index, *side));
            }
            if done.crossed {
                so_far.crossed.push((index, *side));
            }
            if done.longer != 0.0 {
                so_far.guides.push((index, *side, done.longer));
            }
            for (patch, line, shift) in done.changed {
                lengths = lengths.with((index, *side), patch, line, shift);
            }
            so_far.sections.extend(done.cuts);
        }
        if !even && step.held.cuts() {
            so_far.uneven_since.get_or_insert(index);
        }
        Ok(Outcome { lengths, ..so_far })
    }

    /// Whether what was measured of a step is the same on the left and on the right.
    fn came_out_alike(&self, step: &Step) -> bool {
        let ours = self.measured.iter().filter(|(key, _)| key.step == step.id);
        let mut ours = ours.map(|(key, length)| self.measured.get(&key.mirrored()) == Some(length));
        ours.all(|alike| alike)
    }

    /// One side of a step, on the hair as it is so far, guided by `guiding`.
    pub(super) fn side(
        &self,
        so_far: &Outcome,
        guiding: &Lengths,
        index: usize,
        side: Side,
        ours: &[&Section],
    ) -> Result<Sided, CutError> {
        let mut done = Sided::default();
        let Some(first) = ours.first() else {
            return Ok(done);
        };
        let Job {
            head,
            plan,
            choices,
            ..
        } = self.job;
        let before = &so_far.lengths.seen_from(side);
        let step = &plan.steps[index];
        let travels = matches!(step.held, Held::Travelling(_));
        let pose = Pose::of(head, step.tilt);
        let nudged = self.nudges.iter().find(|(step, _)| *step == index);
        let mut nudge = nudged.map(|(_, nudge)| *nudge).unwrap_or_default();
        // A line that an earlier step began goes on as it really was cut.
        let begun =
            |(of, on, _): &&(usize, Side, f64)| *on == side && same_line(&plan.steps[*of], step);
        done.longer = so_far
            .guides
            .iter()
            .rfind(begun)
            .map_or(0.0, |(.., cm)| *cm);
        nudge.longer += step.longer;
        let mut carry = None;
        // A travelling guide reads what its own sections left; every other lays one line for all.
        let guiding = guiding.seen_from(side);
        let mut own = guiding.clone();
        let mut line: Option<Arc<CuttingLine>> = None;
        let mut guide = None;
        for (i, section) in ours.iter().enumerate() {
            let setting = Setting {
                head,
                plan,
                choices,
                lengths: &own,
                pose,
                nudge,
                really: done.longer,
            };
            if travels || i == 0 {
                let laid = setting.line(&step.held, first, section, &mut carry)?;
                guide = laid.as_ref().and_then(|laid| laid.guide);
                line = laid.map(|laid| Arc::new(laid.line));
            }
            let mut cut = self.section(before, index, step, section, line.as_ref())?;
            cut.guide = guide.map(Length::from_cm);
            if let Some(laid) = &mut line {
                let measured = self.measured(&cut.key);
                let mut shift = measured.map_or(0.0, |m| cut.shift(m));
                if let Some(measured) = measured
                    && i == 0
                    && sets_its_guide(&step.held)
                    && let Some(actual) = self.actual(&setting, before, index, &cut, measured)
                {
                    let Actual {
                        laid: really,
                        carry: carried,
                        longer,
                    } = actual;
                    (shift, carry) = (0.0, carried);
                    guide = really.guide;
                    *laid = Arc::new(really.line);
                    done.longer += longer;
                }
                if travels {
                    own = own.with(
                        (index, side),
                        section.patch.clone(),
                        Arc::clone(laid),
                        shift,
                    );
                }
                let patch = section.patch.clone();
                done.changed.push((patch, Arc::clone(laid), shift));
            }
            done.cuts.push(cut);
        }
        done.crossed = before.crossed() || guiding.crossed();
        Ok(done)
    }

    pub(super) fn section(
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
