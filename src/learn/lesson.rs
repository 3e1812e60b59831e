//! One idea worked out for one place of the slider.

use super::Idea;
use crate::chart::{HeldHair, Stage, View, fallen, fallen_picture, profile};
use crate::cut::{CutError, Job, Measured, Outcome, PLACES, SectionCut, cut};
use crate::hair::Hair;
use crate::head::{Head, HeadError, Landmark, Side, Tapes};
use crate::measure::{Length, Unit};
use crate::plan::{Choices, Fingers, Held, Over, Plan, PlanError};
use crate::words::tr;

const BACK: &str = include_str!("back.json");
const SIDE: &str = include_str!("side.json");

/// Why a lesson can't be shown.
#[derive(Debug, thiserror::Error)]
pub enum LearnError {
    /// Its head.
    #[error(transparent)]
    Head(#[from] HeadError),
    /// Its plan.
    #[error(transparent)]
    Plan(#[from] PlanError),
    /// What its plan comes to.
    #[error(transparent)]
    Cut(#[from] CutError),
}

/// What the slider of a lesson goes over.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turn {
    /// The least.
    pub least: u32,
    /// The most.
    pub most: u32,
    /// A step.
    pub step: u32,
    /// Where it begins.
    pub begins: u32,
    /// What stands behind the number.
    pub mark: &'static str,
}

/// An idea, on the mean head of the surveys.
#[derive(Clone, Debug)]
pub struct Lesson {
    /// Which.
    pub idea: Idea,
    head: Head,
    hair: Hair,
    plan: Plan,
    choices: Choices,
    sections: u32,
}

/// A lesson at one place of its slider.
#[derive(Clone, Debug, PartialEq)]
pub struct Shown {
    /// The picture, as SVG.
    pub picture: String,
    /// What follows, in a sentence.
    pub said: String,
    /// The sections in cutting order, each with its shortest and longest hair.
    pub rows: Vec<(Length, Length)>,
    /// Which of them is marked.
    pub marked: Option<usize>,
}

impl Lesson {
    /// The lesson of an idea.
    ///
    /// ```
    /// use tautline::learn::{Idea, Lesson};
    /// use tautline::measure::Unit;
    ///
    /// let lesson = Lesson::of(Idea::Elevation)?;
    /// // Straight out from the head all sections come out alike.
    /// let rows = lesson.at(90, Unit::Cm)?.rows;
    /// assert!(rows.iter().all(|(short, long)| (long.cm() - short.cm()).abs() < 0.5));
    /// # Ok::<(), tautline::learn::LearnError>(())
    /// ```
    ///
    /// # Errors
    /// [`LearnError`] with a sentence; a test holds that there is none.
    pub fn of(idea: Idea) -> Result<Self, LearnError> {
        let plan = Plan::from_json(match idea {
            Idea::Elevation | Idea::Weight => BACK,
            Idea::OverDirection | Idea::Guide => SIDE,
        })?;
        let mut lesson = Self {
            idea,
            head: Head::from_tapes(&Tapes::default())?,
            hair: Hair::default(),
            plan,
            choices: Choices::default(),
            sections: 1,
        };
        let outcome = lesson.outcome(lesson.turn().begins)?;
        lesson.sections = u32::try_from(left(&outcome).count()).unwrap_or(1).max(1);
        Ok(lesson)
    }

    /// What its slider goes over.
    pub fn turn(&self) -> Turn {
        let degrees = |least, most, step, begins| Turn {
            least,
            most,
            step,
            begins,
            mark: "°",
        };
        match self.idea {
            Idea::Elevation => degrees(15, 90, 5, 45),
            Idea::Weight => degrees(15, 90, 5, 30),
            Idea::OverDirection => degrees(0, 45, 5, 20),
            Idea::Guide => Turn {
                least: 1,
                most: self.sections,
                step: 1,
                begins: 1,
                mark: "",
            },
        }
    }

    fn outcome(&self, at: u32) -> Result<Outcome, CutError> {
        let mut plan = self.plan.clone();
        let turned = f64::from(at);
        for step in &mut plan.steps {
            match (&mut step.held, self.idea) {
                (Held::Travelling(travel), Idea::Elevation | Idea::Weight) => {
                    travel.elevation.degrees = turned;
                }
                (held @ Held::Stationary(_), Idea::OverDirection) => {
                    // Held at its own base, moved back by so much.
                    *held = held.as_kind(2);
                    if let Held::Travelling(travel) = held {
                        travel.fingers = Fingers::ParallelToHead;
                        travel.over = Over::Degrees(-turned);
                    }
                }
                _ => {}
            }
        }
        let job = Job {
            plan: &plan,
            ..self.job()
        };
        cut(&job, &Measured::new())
    }

    const fn job(&self) -> Job<'_> {
        Job {
            head: &self.head,
            hair: &self.hair,
            plan: &self.plan,
            choices: &self.choices,
        }
    }

    /// What follows where the slider stands at `at`; beyond its ends it stands at them.
    ///
    /// # Errors
    /// [`LearnError`] with a sentence; a test holds that there is none.
    pub fn at(&self, at: u32, unit: Unit) -> Result<Shown, LearnError> {
        let turn = self.turn();
        let at = at.clamp(turn.least, turn.most);
        let outcome = self.outcome(at)?;
        let sections: Vec<&SectionCut> = left(&outcome).collect();
        let rows: Vec<_> = sections.iter().map(|s| (s.short(), s.long())).collect();
        // Elsewhere one that moves and is seen whole.
        let marked = match self.idea {
            Idea::Guide => Some(at.saturating_sub(1) as usize),
            Idea::Elevation => Some(sections.len() / 2),
            Idea::OverDirection => sections.len().checked_sub(1),
            Idea::Weight => None,
        };
        let title = format!("{}: {at}{}", self.idea.turned(), turn.mark);
        let (picture, said) = match self.idea {
            Idea::Weight => self.let_down(&outcome, &title, unit)?,
            _ => {
                let held = sections.iter().enumerate().map(|(i, section)| HeldHair {
                    section,
                    marked: marked == Some(i),
                });
                let picture = profile(
                    &self.head,
                    View::Left,
                    &held.collect::<Vec<_>>(),
                    &title,
                    tr(
                        "The head from the left with the hair of every section held taut at its cutting line.",
                    ),
                );
                (picture, self.said(&rows, marked, unit))
            }
        };
        Ok(Shown {
            picture,
            said,
            rows,
            marked,
        })
    }

    fn let_down(
        &self,
        outcome: &Outcome,
        title: &str,
        unit: Unit,
    ) -> Result<(String, String), CutError> {
        // Of the hair that is cut alone.
        let down = outcome.let_down_part(&self.job(), PLACES)?;
        // The same at every place of the slider, so that only the hair moves.
        let lowest = self.head.landmark(Landmark::Shoulder, Side::Centre).z;
        let stage = Stage::new(&self.head, View::Left, lowest);
        let drawn = fallen(&down, View::Left, &stage);
        let line = down.weight.overall.line;
        let said = line.map_or_else(String::new, |line| {
            let below = Length::from_cm(self.head.skull().top - line.z);
            tr!(
                "Most ends lie {} straight below the high point; {} of 100 within {} of that line.",
                below.shown(unit),
                format!("{:.0}", 100.0 * line.sharpness),
                Length::from_cm(1.0).as_measured(unit)
            )
        });
        Ok((fallen_picture(&stage, &drawn, title), said))
    }

    /// What a person reads off the lengths.
    fn said(&self, rows: &[(Length, Length)], marked: Option<usize>, unit: Unit) -> String {
        let (Some(first), Some(last)) = (rows.first(), rows.last()) else {
            return String::new();
        };
        let long = |row: &(Length, Length)| row.1.shown(unit);
        match (self.idea, marked.and_then(|at| rows.get(at).zip(Some(at)))) {
            (Idea::Guide, Some((row, 0))) => {
                tr!("The guide: cut at {}. It stays here.", long(row))
            }
            (Idea::Guide, Some((row, at))) => tr!(
                "Section {}: its longest hair is cut at {}; that of the guide at {}.",
                at + 1,
                long(row),
                long(first)
            ),
            (Idea::OverDirection, _) => tr!(
                "By the ear the longest hair is cut at {}, at the face at {}.",
                long(first),
                long(last)
            ),
            _ => tr!(
                "At the nape the longest hair is cut at {}, at the crown at {}.",
                long(first),
                long(last)
            ),
        }
    }
}

/// The sections of the left side and of the middle, in cutting order.
fn left(outcome: &Outcome) -> impl Iterator<Item = &SectionCut> {
    let all = outcome.sections.iter();
    all.filter(|section| section.key.side != Side::Right)
}
