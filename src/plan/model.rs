//! What a plan is made of.

use super::choices::Choice;
use super::holds::Held;
use super::partings::Area;
use super::technique::Technique;
use crate::head::Side;
use crate::words::{tr, tr_in};
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
    /// What the cut is, in two or three sentences; the first stands for it in a list.
    pub about: String,
    /// What it is called in American usage, where the British name would mislead.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub us: Option<Box<Called>>,
    /// Which kind of cut it is, for finding it in the library.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub group: Option<Group>,
    /// Whom it suits.
    pub suits: String,
    /// Whom it does not suit.
    #[serde(default)]
    pub not_for: String,
    /// What it does to the weight of the hair.
    #[serde(default)]
    pub weight: String,
    /// What usually goes wrong.
    #[serde(default)]
    pub mistakes: Vec<String>,
    /// What to look at when it is done.
    #[serde(default)]
    pub checks: Vec<String>,
    /// How long it usually takes, minutes, without washing and drying; 0 if nobody said. Judgement.
    #[serde(default)]
    pub minutes: u32,
    /// How wet the hair is when it is cut.
    #[serde(default)]
    pub wetness: Wetness,
    /// How much of the scalp it means to cut.
    #[serde(default)]
    pub covers: Covers,
    /// What the person may choose.
    pub choices: Vec<Choice>,
    /// The steps in the order in which they are cut.
    pub steps: Vec<Step>,
}

/// What a cut is called in one usage.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Called {
    /// Name on the screen.
    pub name: String,
    /// What the cut is.
    pub about: String,
    /// Which kind it is in that usage.
    pub group: Group,
}

/// Kinds of cuts, as the library sorts them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Group {
    /// All ends on one level.
    OneLength,
    /// Inside and outline of different length, and weight built up.
    Graduated,
    /// Layered.
    Layered,
    /// Hair over the forehead only.
    Fringe,
    /// Short at nape and ears.
    Short,
    /// The shape that is there stays.
    Keeping,
}

impl Group {
    /// All of them, in the order in which the library shows them.
    pub const ALL: [Self; 6] = [
        Self::OneLength,
        Self::Graduated,
        Self::Layered,
        Self::Fringe,
        Self::Short,
        Self::Keeping,
    ];

    /// Its heading in the library.
    pub fn title(self) -> &'static str {
        match self {
            Self::OneLength => tr("One length"),
            Self::Graduated => tr("Graduated"),
            Self::Layered => tr("Layered"),
            Self::Fringe => tr("Fringes"),
            Self::Short => tr_in("kind of cuts", "Short"),
            Self::Keeping => tr("Keeping a shape"),
        }
    }
}

/// How wet hair is when it is cut.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Wetness {
    /// Evenly damp.
    #[default]
    Damp,
    /// Wet.
    Wet,
    /// Dry.
    Dry,
}

/// How much of the scalp a plan means to cut.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Covers {
    /// All of it: what no step takes was forgotten.
    #[default]
    All,
    /// A part, such as a fringe: the rest stays as it is.
    Part,
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
    /// How the client's head is tilted meanwhile.
    #[serde(default, skip_serializing_if = "Tilt::is_upright")]
    pub tilt: Tilt,
    /// On which sides of the head it is cut.
    #[serde(default, skip_serializing_if = "Sides::is_both")]
    pub sides: Sides,
    /// How much longer its hair is left than its guide says, cm; shorter if below zero. Where hair
    /// falls, how much lower the line lies.
    #[serde(default, skip_serializing_if = "is_nothing")]
    pub longer: f64,
    /// Earlier steps whose hair this one is meant to shorten again.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub recuts: Vec<String>,
    /// Earlier steps whose hair this one is meant not to meet: the step in length between is wanted.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub apart: Vec<String>,
    /// How the ends are cut; none for a check, or where the plan does not say.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub technique: Option<Technique>,
    /// What to do, in the trade's words.
    pub words: Words,
    /// What to take care of.
    #[serde(default)]
    pub cautions: Vec<Caution>,
}

fn is_nothing(cm: &f64) -> bool {
    *cm == 0.0
}

/// How the head is tilted from upright, in degrees.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Tilt {
    /// Chin down (above zero) or up, −60 to 60.
    pub forward: f64,
    /// Towards the client's left shoulder (above zero) or right, −45 to 45.
    pub left: f64,
}

impl Tilt {
    /// Whether the head is upright.
    pub fn is_upright(&self) -> bool {
        self.forward == 0.0 && self.left == 0.0
    }

    /// Whether it is the other in a mirror.
    pub fn mirrors(&self, other: &Self) -> bool {
        self.forward == other.forward && self.left == -other.left
    }
}

/// On which sides of the head a step is cut.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sides {
    /// The left first, then the right alike, each up to the middle.
    #[default]
    Both,
    /// The client's left only.
    Left,
    /// The client's right only.
    Right,
    /// Across the middle, in one.
    Across,
}

impl Sides {
    /// Whether it is both, left and right.
    pub fn is_both(&self) -> bool {
        *self == Self::Both
    }

    /// The sides in the order in which they are cut.
    pub const fn all(self) -> &'static [Side] {
        match self {
            Self::Both => &[Side::Left, Side::Right],
            Self::Left => &[Side::Left],
            Self::Right => &[Side::Right],
            Self::Across => &[Side::Centre],
        }
    }
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
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Eyes, Self::Ear, Self::Neck];

    /// One sentence for the chair. Common practice, no source.
    pub fn sentence(self) -> &'static str {
        match self {
            Self::Eyes => tr(
                "Near the eyes: eyes closed, points away from the face, stop if the client moves.",
            ),
            Self::Ear => {
                tr("Near the ear: fold it out of the way and shield it with the free hand.")
            }
            Self::Neck => {
                tr("Near the neck: points away from the skin, chin down, stop if the client moves.")
            }
        }
    }
}
