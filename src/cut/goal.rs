//! What a person may aim at, and how far off it a worked-out plan is.

use super::fold::{CutError, Job, Outcome};
use super::height::{Height, fine};
use super::lengths::Lengths;
use crate::fall::{BIN, HAIRS_PER_CM2, Hanging, Patched, Weight, natural_fall};
use crate::geometry::Vec3;
use crate::hair::Worn;
use crate::head::{Body, Sample, Spot};
use crate::measure::{Length, Unit};
use crate::plan::{Plan, Sides};
use crate::words::tr;

/// Places of the scalp that are let down to find the weight while aiming.
const ROOTS: usize = 240;
/// Degrees from the front within which hair counts as front pieces, and as the sides. Judgement.
const FRONT: f64 = 50.0;
const SIDES: f64 = 130.0;

/// Something the person wants to see.
#[derive(Clone, Debug, PartialEq)]
pub enum Goal {
    /// The hair of a place ends at a height, in its natural fall.
    EndsAt {
        /// The place of the scalp, such as the front hairline beside the parting.
        place: Spot,
        /// The height.
        height: Height,
    },
    /// The hair of a place ends no higher than this.
    NoShorter {
        /// The place of the scalp.
        place: Spot,
        /// The height.
        height: Height,
    },
    /// The weight line lies at this height.
    WeightAt(Height),
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

    /// What it is about, as a sentence begins, with its verb.
    fn subject(&self) -> &'static str {
        let of = |place: &Spot| {
            let degrees = place.azimuth.to_degrees().abs();
            if degrees < FRONT {
                tr("Front pieces end")
            } else if degrees < SIDES {
                tr("The sides end")
            } else {
                tr("The back ends")
            }
        };
        match self {
            Self::EndsAt { place, .. } | Self::NoShorter { place, .. } => of(place),
            Self::WeightAt(_) => tr("The weight lies"),
            Self::NoMoreOff(_) => tr("At most"),
        }
    }

    /// Whether it is about where the hair of one place ends.
    pub(super) const fn at_a_place(&self) -> bool {
        matches!(self, Self::EndsAt { .. } | Self::NoShorter { .. })
    }

    /// Whether it is about what comes off.
    pub const fn limits_off(&self) -> bool {
        matches!(self, Self::NoMoreOff(_))
    }

    /// What is asked: `Front pieces end at the chin`.
    pub fn asked(&self, unit: Unit) -> String {
        match self {
            Self::EndsAt { height, .. } | Self::WeightAt(height) => {
                format!("{} {}", self.subject(), height.said(unit))
            }
            Self::NoShorter { height, .. } => {
                tr!("{} no higher than {}", self.subject(), height.place(unit))
            }
            Self::NoMoreOff(most) => tr!("No more than {} comes off", fine(most.cm(), unit)),
        }
    }

    /// The height or length alone that is asked: `at the chin`, `up to 3 cm`.
    pub fn wanted(&self, unit: Unit) -> String {
        match self {
            Self::EndsAt { height, .. } | Self::WeightAt(height) => height.said(unit),
            Self::NoShorter { height, .. } => tr!("no higher than {}", height.place(unit)),
            Self::NoMoreOff(most) => tr!("up to {}", fine(most.cm(), unit)),
        }
    }

    /// Where it came out, for a goal that is so much missed, in a sentence. The lengths in it are in
    /// `unit`, to the millimetre or the eighth of an inch.
    pub fn said(&self, miss: f64, unit: Unit) -> String {
        let came_out = |height: &Height| {
            let there = height.lower(-miss);
            let asked = if self.loss(miss) <= super::aim::MET {
                tr(", as asked").to_owned()
            } else if height.below == 0.0 {
                String::new()
            } else {
                tr!("; asked was {}", height.said(unit))
            };
            format!("{} {}{asked}.", self.subject(), there.said(unit))
        };
        match self {
            Self::EndsAt { height, .. } | Self::WeightAt(height) => came_out(height),
            Self::NoShorter { height, .. } => {
                let there = height.lower(-miss);
                let end = if self.loss(miss) <= super::aim::MET {
                    tr("no higher than asked")
                } else {
                    tr("higher than asked")
                };
                format!("{} {}, {end}.", self.subject(), there.said(unit))
            }
            Self::NoMoreOff(most) => tr!(
                "At most {} comes off; {} was allowed.",
                fine(most.cm() + miss, unit),
                fine(most.cm(), unit)
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
    /// The places that are let down to find the weight; none if no goal asks for it.
    samples: Vec<Sample>,
}

impl Judge {
    pub fn new(job: &Job<'_>, goals: &[Goal]) -> Self {
        let head = job.head;
        let places = goals
            .iter()
            .map(|goal| match goal {
                Goal::EndsAt { place, height } | Goal::NoShorter { place, height } => {
                    Some((head.place(*place), height.z(head)))
                }
                Goal::WeightAt(_) | Goal::NoMoreOff(_) => None,
            })
            .collect();
        let mut samples = Vec::new();
        if goals.iter().any(|goal| matches!(goal, Goal::WeightAt(_))) {
            samples = head.samples(ROOTS);
            if alike(job) {
                // The right is the left in a mirror: its ends lie at the same heights.
                samples.retain(|sample| sample.root.x > 0.0);
            }
        }
        Self {
            body: Body::of(head),
            worn: job.wear().on(head),
            places,
            samples,
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
        (0..goals.len())
            .map(|i| self.miss(job, goals, i, outcome))
            .collect()
    }

    /// The same for one of the goals it was made for.
    pub fn miss(
        &self,
        job: &Job<'_>,
        goals: &[Goal],
        goal: usize,
        outcome: &Outcome,
    ) -> Result<f64, CutError> {
        match (&goals[goal], self.places[goal]) {
            (Goal::NoMoreOff(most), _) => Ok(most_off(outcome) - most.cm()),
            (Goal::WeightAt(height), _) => {
                let line = self.weight(job, &outcome.lengths)?;
                Ok(line.map_or(0.0, |z| z - height.z(job.head)))
            }
            (_, Some((root, level))) => {
                let hair = Hanging {
                    root,
                    length: outcome.lengths.falls_to(job.head, root)?,
                };
                let fallen = natural_fall(&self.body, &self.worn, &[hair]);
                Ok(fallen.first().map_or(0.0, |fallen| fallen.tip.z - level))
            }
            (_, None) => Ok(0.0),
        }
    }

    /// The height of the weight line, cm; none without ends.
    fn weight(&self, job: &Job<'_>, lengths: &Lengths) -> Result<Option<f64>, CutError> {
        let hairs = self
            .samples
            .iter()
            .map(|sample| {
                Ok(Hanging {
                    root: sample.root,
                    length: lengths.falls_to(job.head, sample.root)?,
                })
            })
            .collect::<Result<Vec<Hanging>, CutError>>()?;
        let fallen = natural_fall(&self.body, &self.worn, &hairs);
        let patches: Vec<Patched> = self
            .samples
            .iter()
            .zip(fallen)
            .map(|(sample, fallen)| Patched {
                fallen,
                root: sample.root.z,
                area: sample.area,
            })
            .collect();
        let weight = Weight::of(&patches, HAIRS_PER_CM2, BIN);
        Ok(weight.overall.line.map(|line| line.z))
    }
}

/// The most that comes off in any section, cm.
pub(super) fn most_off(outcome: &Outcome) -> f64 {
    let off = outcome.sections.iter().map(|s| s.off().cm());
    off.fold(0.0, f64::max)
}

/// Whether left and right come out alike.
fn alike(job: &Job<'_>) -> bool {
    let even = |plan: &Plan| {
        plan.steps.iter().all(|step| {
            step.tilt.left == 0.0 && matches!(step.sides, Sides::Both | Sides::Across)
                || !step.held.cuts()
        })
    };
    job.head.is_even()
        && job.hair.allowances.is_empty()
        && job.choices.parting(job.plan).azimuth() == 0.0
        && even(job.plan)
}
