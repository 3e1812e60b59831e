//! What a plan is made of.

use super::choices::Choice;
use crate::head::Landmark;
use serde::{Deserialize, Serialize};

/// A cut from start to finish.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Plan {
    /// Version of this format; 1 now.
    pub schema: u32,
    /// Short stable name, used in files and commands.
    pub id: String,
    /// Name on the screen.
    pub name: String,
    /// What the cut is, in two or three sentences.
    pub about: String,
    /// Whom it suits, and whom not.
    pub suits: String,
    /// What the person may choose.
    pub choices: Vec<Choice>,
    /// The steps in the order in which they are cut.
    pub steps: Vec<Step>,
}

/// One step: an area cut one way.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// Short stable name within the plan.
    pub id: String,
    /// Name on the screen.
    pub title: String,
    /// The scalp it takes and how that is parted into sections.
    pub area: Area,
    /// How each section is held and cut.
    pub held: Held,
    /// What to do, in the trade's words.
    pub words: Words,
    /// What to take care of.
    #[serde(default)]
    pub cautions: Vec<Caution>,
}

/// The scalp a step takes, parted into sections on each side.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Area {
    /// A small piece each side of the parting at the front hairline.
    FrontPiece {
        /// How far it reaches to the side of the parting, in degrees about the high point.
        width: f64,
        /// How deep it is, as a share of the way from the hairline to the high point.
        depth: f64,
        /// Its name.
        name: String,
    },
    /// Sections pivoting from the high point, between these edges in order.
    Pivoting {
        /// The first edge and, after it, each section's far edge.
        edges: Vec<Edge>,
        /// One name a section.
        names: Vec<String>,
    },
    /// Single places, for checking.
    Places {
        /// Where to measure.
        places: Vec<Place>,
    },
}

/// An edge of a pivoting section, by where it meets the hairline on one side.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Edge {
    /// The parting the client wears.
    Parting,
    /// The temple.
    Temple,
    /// In front of the ear.
    InFrontOfEar,
    /// Above the ear: the ear-to-ear parting.
    AboveEar,
    /// Just behind the ear.
    BehindEar,
    /// The corner of the nape.
    NapeCorner,
    /// Between behind the ear and the centre back: a share of the way.
    Behind(f64),
    /// The middle of the back.
    BackCentre,
}

/// A single place on one side of the scalp.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Place {
    /// Its name.
    pub name: String,
    /// Degrees about the high point from the front.
    pub azimuth: f64,
    /// Share of the way from the high point to the hairline.
    pub out: f64,
}

/// How a step's sections are held.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Held {
    /// Combed in its fall to a landmark of the face and cut level there.
    Fall {
        /// The landmark.
        to: Given<Landmark>,
    },
    /// All combed to one line in space.
    Stationary(Cut),
    /// Combed at right angles to how it was cut, and compared; nothing is cut.
    Check,
}

/// A stationary guide: where its line stands and how long the hair at it is left.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cut {
    /// Where on the scalp the held hair stands.
    pub station: Station,
    /// How high it is held there.
    pub elevation: Elevation,
    /// How the fingers lie.
    pub fingers: Fingers,
    /// What settles how far off the line stands.
    pub length: Rule,
}

/// A parting over which held hair stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Station {
    /// The parting the client wears, between the front hairline and the high point.
    Parting,
    /// The ear-to-ear parting, at the ridge of the section's side.
    EarToEar,
}

/// How high hair is held, always with what it is measured from.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Elevation {
    /// Degrees, 0 to 180.
    pub degrees: f64,
    /// Measured from the head or from the room.
    pub from: Reference,
}

/// What an elevation is measured from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Reference {
    /// 0° lies on the head in its fall, 90° stands straight out from it, 180° is folded back.
    Head,
    /// 0° is straight down, 90° level with the floor, 180° straight up.
    Room,
}

/// How the fingers lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Fingers {
    /// Parallel to the head's round below them.
    ParallelToHead,
    /// Level with the floor.
    Level,
}

/// What settles how long the hair at the guide is left.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Rule {
    /// As long as the step of this id left its first section, next to the parting at the hairline.
    AsStep(String),
    /// So many centimetres off the hair in the middle of this step's first section.
    AmountOff(Given<f64>),
}

/// A value that stands in the plan, or that a choice supplies.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Given<T> {
    /// Supplied by the choice of this id.
    Choice(String),
    /// Fixed.
    Fixed(T),
}

/// What to do, in short sentences for the chair.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Words {
    /// Where to comb it.
    pub comb: String,
    /// How the fingers lie.
    pub fingers: String,
    /// What of the last cut is the guide.
    pub guide: String,
    /// How to cut.
    pub technique: String,
    /// Where to stand and how the client sits.
    pub stance: String,
}

/// What to take care of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Caution {
    /// Scissors near the eyes.
    Eyes,
    /// Scissors near an ear.
    Ear,
    /// Scissors near the neck.
    Neck,
}

impl Caution {
    /// One sentence for the chair. Common practice, no source.
    pub const fn sentence(self) -> &'static str {
        match self {
            Self::Eyes => {
                "Near the eyes: eyes closed, points away from the face, stop if the client moves."
            }
            Self::Ear => "Near the ear: fold it out of the way and shield it with the free hand.",
            Self::Neck => {
                "Near the neck: points away from the skin, chin down, stop if the client moves."
            }
        }
    }
}
