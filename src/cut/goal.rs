//! What a person may aim at, and how far off it a worked-out plan is.

use super::fold::{CutError, Job, Outcome};
use super::let_down::let_down;
use crate::fall::{Hanging, natural_fall};
use crate::geometry::Vec3;
use crate::hair::Worn;
use crate::head::{Body, Landmark, Side, Spot};
use crate::measure::Length;

/// Places of the scalp that are let down to find the weight while aiming.
const ROOTS: usize = 240;

/// Something the person wants to see.
#[derive(Clone, Debug, PartialEq)]
pub enum Goal {
    /// The hair of a place ends at the height of a landmark, in its natural fall.
    EndsAt {
        /// The place of the scalp, such as the front hairline beside the parting.
        place: Spot,
        /// The landmark.
        landmark: Landmark,
    },
    /// The hair of a place ends no higher than a landmark.
    NoShorter {
        /// The place of the scalp.
        place: Spot,
        /// The landmark.
        landmark: Landmark,
    },
    /// The weight line lies at the height of a landmark.
    WeightAt(Landmark),
    /// No more comes off anywhere than this.
    NoMoreOff(Length),
}

impl Goal {
    /// How much a miss counts, cm: either way for what must be just so, one way for a limit.
    pub fn loss(&self, miss: f64) -> f64 {
        match self {
            Self::EndsAt { .. } | Self::WeightAt(_) => miss.abs(),
            Self::NoShorter { .. } | Self::NoMoreOff(_) => miss.max(0.0),
        }
    }

    /// The goal and how far off it is, in a sentence.
    pub fn said(&self, miss: f64) -> String {
        let name = |l: &Landmark| crate::plan::landmark_word(*l).replace('_', " ");
        let off = |over: &str, under: &str| {
            let way = if miss > 0.0 { over } else { under };
            format!("{:.1} cm {way}", miss.abs())
        };
        let at = |what: &str, landmark: &Landmark| {
            format!("{what} {} the {}.", off("above", "below"), name(landmark))
        };
        match self {
            Self::EndsAt { landmark, .. } => at("Its hair ends", landmark),
            Self::NoShorter { landmark, .. } => at("The shortest it may be ends", landmark),
            Self::WeightAt(landmark) => at("The weight lies", landmark),
            Self::NoMoreOff(most) => format!(
                "At most {:.1} cm comes off; {:.1} cm was allowed.",
                most.cm() + miss,
                most.cm()
            ),
        }
    }
}

/// What judging needs of the head, made once.
pub(super) struct Judge {
    body: Body,
    worn: Worn,
    /// Root and level of each goal that has them.
    places: Vec<Option<(Vec3, f64)>>,
}

impl Judge {
    pub fn new(job: &Job<'_>, goals: &[Goal]) -> Self {
        let head = job.head;
        let places = goals
            .iter()
            .map(|goal| match goal {
                Goal::EndsAt { place, landmark } | Goal::NoShorter { place, landmark } => {
                    let level = head.landmark(*landmark, Side::Centre).z;
                    Some((head.place(*place), level))
                }
                Goal::WeightAt(_) | Goal::NoMoreOff(_) => None,
            })
            .collect();
        Self {
            body: Body::of(head),
            worn: job.wear().on(head),
            places,
        }
    }

    /// What pulls a search towards a goal besides its miss, cm: of a limit on what comes off, the
    /// excess of every step, for the greatest alone hides the rest.
    pub fn pull(job: &Job<'_>, goal: &Goal, outcome: &Outcome) -> f64 {
        let Goal::NoMoreOff(most) = goal else {
            return 0.0;
        };
        (0..job.plan.steps.len())
            .map(|step| {
                let ours = outcome.sections.iter().filter(|s| s.step == step);
                let off = ours.map(|s| s.off().cm()).fold(0.0, f64::max);
                (off - most.cm()).max(0.0)
            })
            .sum()
    }

    /// How far off each goal an outcome is, cm: above zero too high, too short or too much.
    pub fn misses(
        &self,
        job: &Job<'_>,
        goals: &[Goal],
        outcome: &Outcome,
    ) -> Result<Vec<f64>, CutError> {
        goals
            .iter()
            .zip(&self.places)
            .map(|(goal, place)| match (goal, place) {
                (Goal::NoMoreOff(most), _) => {
                    let off = outcome.sections.iter().map(|s| s.off().cm());
                    Ok(off.fold(0.0, f64::max) - most.cm())
                }
                (Goal::WeightAt(landmark), _) => {
                    let down = let_down(job.head, &outcome.lengths, &job.wear(), ROOTS)?;
                    let level = job.head.landmark(*landmark, Side::Centre).z;
                    let line = down.weight.overall.line;
                    Ok(line.map_or(0.0, |line| line.z - level))
                }
                (_, Some((root, level))) => {
                    let hair = Hanging {
                        root: *root,
                        length: outcome.lengths.falls_to(job.head, *root)?,
                    };
                    let fallen = natural_fall(&self.body, &self.worn, &[hair]);
                    Ok(fallen[0].tip.z - level)
                }
                (_, None) => Ok(0.0),
            })
            .collect()
    }
}
