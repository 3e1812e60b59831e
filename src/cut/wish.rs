//! What a person wishes of a cut, as it is kept: each thing with its height, the most important first.

use super::fold::{CutError, Job, Outcome};
use super::goal::{Goal, Judge, most_off};
use super::height::Height;
use super::means::{Means, Turns};
use crate::head::{Landmark, Side, Spot};
use crate::measure::Length;
use crate::words::{tr, tr_in};
use serde::{Deserialize, Serialize};

/// A thing that may be wished for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum What {
    /// Where the front pieces end: the hair at the front hairline beside the parting.
    Front,
    /// Where the sides end: the hair above the ear.
    Sides,
    /// Where the back ends: the hair at the nape hairline beside the middle.
    Back,
    /// Where the weight line lies.
    Weight,
    /// How high the back may end at most.
    Shortest,
    /// How much may come off at most.
    Off,
}

/// Degrees beside the parting, and in front of the ear and from the front for the back, at which the
/// hair is looked at; and the share of the way out to the hairline. Judgement.
const BESIDE: f64 = 2.0;
const ABOVE_EAR: (f64, f64) = (96.0, 0.97);
const BACK: (f64, f64) = (178.0, 0.95);

impl What {
    /// All, limits before wishes.
    pub const ALL: [Self; 6] = [
        Self::Off,
        Self::Shortest,
        Self::Front,
        Self::Weight,
        Self::Sides,
        Self::Back,
    ];
    /// Those that lie at one height, from the face to the back.
    pub const LEVELS: [Self; 4] = [Self::Front, Self::Sides, Self::Weight, Self::Back];

    /// Its name on the screen.
    pub fn name(self) -> &'static str {
        match self {
            Self::Front => tr("Front pieces"),
            Self::Sides => tr_in("region of the head", "Sides"),
            Self::Back => tr_in("region of the head", "Back"),
            Self::Weight => tr("Weight"),
            Self::Shortest => tr("Back no shorter than"),
            Self::Off => tr("No more off than"),
        }
    }

    /// The same as short as it goes on a handle.
    pub fn short(self) -> &'static str {
        match self {
            Self::Front => tr_in("region of the head", "Front"),
            other => other.name(),
        }
    }

    /// What it means, in a sentence.
    pub fn about(self) -> &'static str {
        match self {
            Self::Front => tr("Where the hair beside the parting ends at the face."),
            Self::Sides => tr("Where the hair above the ear ends."),
            Self::Back => tr("Where the hair at the nape ends."),
            Self::Weight => tr("Where most ends come to lie."),
            Self::Shortest => tr("The back never ends higher."),
            Self::Off => tr("The most that comes off anywhere."),
        }
    }

    /// Its word in stored documents and ids.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Front => "front",
            Self::Sides => "sides",
            Self::Back => "back",
            Self::Weight => "weight",
            Self::Shortest => "shortest",
            Self::Off => "off",
        }
    }

    /// The landmarks that its height is told by, from the top down.
    pub const fn landmarks(self) -> &'static [Landmark] {
        match self {
            Self::Front | Self::Sides => &Landmark::LEVELS,
            Self::Weight | Self::Back | Self::Shortest | Self::Off => &[
                Landmark::Occipital,
                Landmark::Cheekbone,
                Landmark::MouthCorner,
                Landmark::Nape,
                Landmark::JawCorner,
                Landmark::Chin,
                Landmark::Shoulder,
                Landmark::Collarbone,
                Landmark::Chest,
                Landmark::Waist,
            ],
        }
    }
}

/// One wish.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Wish {
    /// For what.
    pub what: What,
    /// Whether it counts.
    pub on: bool,
    /// At which height; of no meaning for what comes off.
    pub at: Height,
    /// How much may come off, cm; of no meaning for the others.
    #[serde(default)]
    pub most: f64,
}

impl Wish {
    /// It as a goal for the engine.
    pub fn goal(&self, job: &Job<'_>) -> Goal {
        let height = self.at;
        match self.what {
            What::Weight => Goal::WeightAt(height),
            What::Off => Goal::NoMoreOff(Length::from_cm(self.most)),
            What::Shortest => Goal::NoShorter {
                place: spot(job, What::Back),
                height,
            },
            what => Goal::EndsAt {
                place: spot(job, what),
                height,
            },
        }
    }
}

/// The place of the left side whose hair tells it.
pub(super) fn spot(job: &Job<'_>, what: What) -> Spot {
    let parting = job.choices.parting(job.plan).azimuth().to_degrees();
    match what {
        What::Front => Spot::at_degrees(parting + BESIDE, 1.0),
        What::Sides => Spot::at_degrees(ABOVE_EAR.0, ABOVE_EAR.1),
        _ => Spot::at_degrees(BACK.0, BACK.1),
    }
}

/// One thing of a plan that stays as it is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fixed {
    /// The step's id.
    pub step: String,
    /// What of it.
    pub turns: Turns,
}

/// All wishes for one cut, as they are kept.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Aims {
    /// The wishes, the most important first.
    pub wishes: Vec<Wish>,
    /// What stays as it is.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub fixed: Vec<Fixed>,
}

impl Aims {
    /// Whether nothing was wished.
    pub fn is_empty(&self) -> bool {
        self.wishes.is_empty() && self.fixed.is_empty()
    }

    /// With every wish that was not made yet put behind the others, where things fall now and off.
    pub fn filled(&self, job: &Job<'_>, falls: &Falls) -> Self {
        let mut all = self.clone();
        for what in What::ALL {
            if all.wishes.iter().all(|wish| wish.what != what) {
                let z = falls.z(what).unwrap_or_default();
                all.wishes.push(Wish {
                    what,
                    on: false,
                    at: Height::near(job.head, what.landmarks(), z),
                    most: falls.off.ceil(),
                });
            }
        }
        all
    }

    /// The wish for one thing.
    pub fn wish(&self, what: What) -> Option<&Wish> {
        self.wishes.iter().find(|wish| wish.what == what)
    }

    /// Moves a wish one place up (towards the more important) or down.
    pub fn shift(&mut self, what: What, up: bool) {
        let place = self.wishes.iter().position(|wish| wish.what == what);
        let other = place.and_then(|p| if up { p.checked_sub(1) } else { Some(p + 1) });
        if let (Some(place), Some(other)) = (place, other)
            && other < self.wishes.len()
        {
            self.wishes.swap(place, other);
        }
    }

    /// Whether this of a plan stays as it is.
    pub fn is_fixed(&self, means: &Means) -> bool {
        let same = |f: &Fixed| f.step == means.step && f.turns == means.turns;
        self.fixed.iter().any(same)
    }

    /// Lets this of a plan be changed, or not.
    pub fn fix(&mut self, means: &Means, fixed: bool) {
        self.fixed
            .retain(|f| !(f.step == means.step && f.turns == means.turns));
        if fixed {
            self.fixed.push(Fixed {
                step: means.step.clone(),
                turns: means.turns,
            });
        }
    }

    /// The goals that count, the most important first, each with the thing it is for.
    pub fn goals(&self, job: &Job<'_>) -> Vec<(What, Goal)> {
        let on = self.wishes.iter().filter(|wish| wish.on);
        on.map(|wish| (wish.what, wish.goal(job))).collect()
    }
}

/// Where things fall: heights in cm in the frame of the head.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Falls {
    /// In the order of [`What::LEVELS`]; the weight has none without ends.
    levels: [Option<f64>; 4],
    /// The most that comes off anywhere, cm.
    pub off: f64,
}

impl Falls {
    /// Of a plan worked out.
    ///
    /// # Errors
    /// [`CutError`] when a length cannot be worked out.
    pub fn of(job: &Job<'_>, outcome: &Outcome) -> Result<Self, CutError> {
        let asked = Height::from(Landmark::Chin);
        let goal = |what| {
            Wish {
                what,
                on: true,
                at: asked,
                most: 0.0,
            }
            .goal(job)
        };
        let goals = What::LEVELS.map(goal);
        let misses = Judge::new(job, &goals).misses(job, &goals, outcome)?;
        let level = job.head.landmark(Landmark::Chin, Side::Centre).z;
        let z = |i: usize| misses.get(i).map(|miss| level + miss);
        Ok(Self {
            levels: [z(0), z(1), z(2), z(3)],
            off: most_off(outcome),
        })
    }

    /// The height of one thing; none for what comes off.
    pub fn z(&self, what: What) -> Option<f64> {
        let what = match what {
            What::Shortest => What::Back,
            other => other,
        };
        let place = What::LEVELS.iter().position(|level| *level == what)?;
        self.levels[place]
    }
}
