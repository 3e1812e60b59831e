//! What guides a line: a hair, and how long it is to be left.

use super::fold::CutError;
use super::hold::Nudge;
use super::lengths::Lengths;
use super::line::OnHead;
use super::pose::Pose;
use crate::geometry::{Convex, Target, Vec3, taut};
use crate::head::{Head, Side};
use crate::plan::{Choices, Plan, Rule, Section, Step, sections};
use crate::words::tr;

/// How far across an edge the hair beside it is looked at, cm.
const HAIRS_BREADTH: f64 = 0.02;
/// What is left on is never taken for more than all but so much of the hair that guides, cm.
const LEAST_GUIDE: f64 = 1.0;

/// What the engine needs to lay the lines of a step on one side.
pub(super) struct Setting<'a> {
    pub head: &'a Head,
    pub plan: &'a Plan,
    pub choices: &'a Choices,
    /// The hair as the steps before, and the sections before on this side, left it.
    pub lengths: &'a Lengths,
    /// How the head is held.
    pub pose: Pose,
    /// How far this step is moved from what the plan says.
    pub nudge: Nudge,
    /// How much longer than it says this step's guide really was cut, cm.
    pub really: f64,
}

/// A hair and how long it is to be.
pub(super) struct Guide {
    pub root: Vec3,
    /// How far off it the line stands, cm: how long it is cut but for what is left on there on purpose.
    pub length: f64,
    /// What helps if it is too short to be held.
    pub advice: &'static str,
}

impl Guide {
    /// How long it is cut, cm.
    pub fn cut_at(&self, hair: &OnHead) -> f64 {
        self.length + hair.hair.allowance(self.root)
    }

    /// That it is too short to be held: only so many cm would be left.
    pub fn too_short(&self, left: f64) -> CutError {
        CutError::GuideTooShort {
            length: left.max(0.0),
            advice: self.advice,
        }
    }
}

impl Setting<'_> {
    /// The guide that a rule names for a step whose first section this is.
    pub fn guide(&self, rule: &Rule, first: &Section) -> Result<Guide, CutError> {
        let mut guide = self.ruled(rule, first)?;
        guide.length += self.nudge.longer + self.really;
        Ok(guide)
    }

    fn ruled(&self, rule: &Rule, first: &Section) -> Result<Guide, CutError> {
        let edge = || first.patch.at(self.head, 0.0, 1.0);
        Ok(match rule {
            Rule::AsStep(step) => {
                let root = self.guide_of(step, first.side)?;
                Guide {
                    root,
                    length: self.guiding(root)?,
                    advice: tr(
                        "Choose a lower point of the face, or look again how long the hair is now.",
                    ),
                }
            }
            Rule::Beside => {
                let root = edge();
                Guide {
                    root,
                    length: self.beside(first, 1.0)?,
                    advice: tr("Leave the step before longer."),
                }
            }
            Rule::AmountOff(off) => {
                let root = first.patch.at(self.head, 0.5, 0.5);
                let off = self.choices.cm(self.plan, off)?;
                Guide {
                    root,
                    length: self.guiding(root)? - off,
                    advice: tr("Take less off."),
                }
            }
            Rule::Length(length) => Guide {
                root: first.patch.at(self.head, 0.0, 0.5),
                length: self.choices.cm(self.plan, length)?,
                advice: tr("Leave it longer."),
            },
            Rule::EndsAt(landmark) => {
                let root = edge();
                let landmark = self.choices.landmark(self.plan, landmark)?;
                let through = self.pose.landmark(self.head, landmark, first.side);
                let normal = self.pose.up;
                let hanging = if (root - through).dot(normal) <= 0.0 {
                    0.0
                } else {
                    taut(self.head.skull(), root, &Target::Plane { through, normal })?.length
                };
                Guide {
                    root,
                    length: self.lengths.hair.cut_at(root, hanging),
                    advice: tr("Choose a lower landmark."),
                }
            }
        })
    }

    /// How far off a travelling guide's first hair its line stands, at `near` places, two or more, along the first
    /// section's near edge.
    pub fn first_guide(
        &self,
        rule: &Rule,
        first: &Section,
        near: usize,
    ) -> Result<Vec<f64>, CutError> {
        match rule {
            // Each place carries on from what lies beside it.
            Rule::Beside => (0..near)
                .map(|k| {
                    let along = k as f64 / (near - 1) as f64;
                    Ok(self.beside(first, along)? + self.nudge.longer)
                })
                .collect(),
            _ => Ok(vec![self.guide(rule, first)?.length; near]),
        }
    }

    /// How far off the hair of a root a line stands that it guides, cm: its length, but for what earlier
    /// cuts left on there on purpose. So no allowance goes along with a guide.
    pub fn guiding(&self, root: Vec3) -> Result<f64, CutError> {
        let length = self.lengths.at(self.head, root)?;
        let left_on = self.lengths.hair.hair.allowance(root);
        Ok(if left_on > 0.0 && self.lengths.was_cut(root) {
            (length - left_on).max(length.min(LEAST_GUIDE))
        } else {
            length
        })
    }

    /// The length of the hair just across the near edge of a section, `along` of the way, cm.
    fn beside(&self, section: &Section, along: f64) -> Result<f64, CutError> {
        // Clear of the ends, where what lies across may be another's or nobody's.
        let along = along.clamp(0.05, 0.95);
        let [edge, within] = [0.0, 0.1].map(|across| section.patch.at(self.head, across, along));
        let across = (edge - within).normalize_or_zero() * HAIRS_BREADTH;
        self.guiding(self.settled(edge + across))
    }

    /// The hair of an earlier step that guides this one: that of its first section on this side, at
    /// the near edge by the hairline.
    fn guide_of(&self, step: &str, side: Side) -> Result<Vec3, CutError> {
        let earlier = self.plan.steps.iter().find(|s| s.id == step);
        let all = earlier
            .map(|s| sections(self.head, self.plan, s, self.choices))
            .unwrap_or_default();
        let ours = all.iter().find(|s| s.side == side).or(all.first());
        ours.map(|s| s.patch.at(self.head, 0.0, 1.0))
            .ok_or_else(|| CutError::NoGuide(earlier.map_or_else(|| step.to_owned(), Step::name)))
    }

    /// A place near the skull brought onto it.
    pub fn settled(&self, p: Vec3) -> Vec3 {
        self.head.skull().settle(p)
    }

    /// Where a plane of this normal touches the skull.
    pub fn touching(&self, normal: Vec3) -> Vec3 {
        self.head.skull().touching(normal)
    }
}
