//! How sections are held and what guides them, as data.

use super::model::Given;
use crate::head::Landmark;
use serde::{Deserialize, Serialize};

/// How a step's sections are held.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Held {
    /// Combed in its fall and cut so that its ends fall to a line.
    Fall(Fall),
    /// All combed to one line in space.
    Stationary(Cut),
    /// Each section held at its own base, to the length carried from its neighbour.
    Travelling(Travel),
    /// Held straight out to one plane: a wall, a floor, a slope.
    Plane(Plane),
    /// So much off, held as it was when it was cut before.
    Trim(Trim),
    /// Over the comb: short at the lower hairline, longer with the way up from it.
    Taper(Taper),
    /// Combed at right angles to how it was cut, and compared; nothing is cut.
    Check,
}

impl Held {
    /// What settles the length of its guide, if it has one.
    pub const fn rule(&self) -> Option<&Rule> {
        match self {
            Self::Stationary(cut) => Some(&cut.length),
            Self::Travelling(travel) => Some(&travel.length),
            Self::Plane(plane) => Some(&plane.length),
            Self::Fall(_) | Self::Trim(_) | Self::Taper(_) | Self::Check => None,
        }
    }

    /// The same, to be changed.
    pub const fn rule_mut(&mut self) -> Option<&mut Rule> {
        match self {
            Self::Stationary(cut) => Some(&mut cut.length),
            Self::Travelling(travel) => Some(&mut travel.length),
            Self::Plane(plane) => Some(&mut plane.length),
            Self::Fall(_) | Self::Trim(_) | Self::Taper(_) | Self::Check => None,
        }
    }

    /// Another way to hold, in the order in which they are written above, that keeps what both have:
    /// elevation, over-direction, fingers and the guide's length.
    pub fn as_kind(&self, kind: usize) -> Self {
        let (elevation, over, fingers) = match self {
            Self::Stationary(cut) => (cut.elevation, cut.over, cut.fingers),
            Self::Travelling(travel) => (travel.elevation, travel.over, travel.fingers),
            _ => (
                Elevation {
                    degrees: 90.0,
                    from: Reference::Head,
                },
                Over::None,
                Fingers::ParallelToHead,
            ),
        };
        let length = self.rule().cloned();
        let length = length.unwrap_or(Rule::Length(Given::Fixed(12.0)));
        match kind {
            0 => Self::Fall(Fall {
                to: Given::Fixed(Landmark::Chin),
                line: FallLine::Level,
                below: nothing(),
            }),
            1 => Self::Stationary(Cut {
                station: Station::FirstSection,
                elevation,
                over,
                fingers,
                length,
            }),
            2 => Self::Travelling(Travel {
                elevation,
                over,
                fingers,
                guide: Carried::Neighbour,
                length,
            }),
            3 => Self::Plane(Plane {
                facing: Facing::Side,
                length,
            }),
            4 => Self::Trim(Trim {
                off: Given::Fixed(1.0),
            }),
            5 => Self::Taper(Taper {
                hairline: Given::Fixed(0.5),
                rise: 0.5,
                up_to: Given::Fixed(4.0),
            }),
            _ => Self::Check,
        }
    }

    /// Whether it cuts anything.
    pub const fn cuts(&self) -> bool {
        !matches!(self, Self::Check)
    }
}

/// A fall guide.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fall {
    /// The landmark that ends fall to.
    pub to: Given<Landmark>,
    /// How the line runs through it.
    #[serde(default)]
    pub line: FallLine,
    /// How much lower than the landmark, cm; above it if below zero.
    #[serde(default = "nothing")]
    pub below: Given<f64>,
}

const fn nothing() -> Given<f64> {
    Given::Fixed(0.0)
}

/// The line that ends fall to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FallLine {
    /// The one place: everything is combed to it.
    #[default]
    Place,
    /// Level with the floor.
    Level,
    /// Sloping: so many degrees lower towards the face; towards the back if below zero.
    Sloping(f64),
    /// Sloping from the parting the client wears: so many degrees lower away from it. On hair taken
    /// across the middle, lower towards the side away from the parting; level if it is in the middle.
    Aside(f64),
}

/// A stationary guide: where its line stands and how long the hair at it is left.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cut {
    /// Where on the scalp the held hair stands.
    pub station: Station,
    /// How high it is held there.
    pub elevation: Elevation,
    /// How far to the side.
    #[serde(default)]
    pub over: Over,
    /// How the fingers lie.
    pub fingers: Fingers,
    /// What settles how far off the line stands.
    pub length: Rule,
}

/// A travelling guide.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Travel {
    /// How high each section is held at its own base.
    pub elevation: Elevation,
    /// How far to the side.
    #[serde(default)]
    pub over: Over,
    /// How the fingers lie.
    pub fingers: Fingers,
    /// What the guide is that goes along.
    #[serde(default)]
    pub guide: Carried,
    /// How long the first guide is.
    pub length: Rule,
}

/// A plane guide.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Plane {
    /// Which way the plane faces.
    pub facing: Facing,
    /// What settles how far off it stands.
    pub length: Rule,
}

/// A trim.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Trim {
    /// How much comes off, cm.
    pub off: Given<f64>,
}

/// A taper: the comb lies on the skin at the hairline of nape, ear and sideburn, and leans out as it
/// climbs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Taper {
    /// How long the hair at the hairline is left, cm.
    pub hairline: Given<f64>,
    /// How much longer it gets with each cm up, cm.
    pub rise: f64,
    /// The length that it rises to, cm.
    pub up_to: Given<f64>,
}

/// What the guide is that goes along with a travelling guide.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Carried {
    /// Each section's guide is the edge of its neighbour.
    #[default]
    Neighbour,
    /// The first guide's length goes along to the last.
    First,
}

/// Which way a plane of held hair faces.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Facing {
    /// A wall beside the head, on the section's side.
    Side,
    /// A wall behind the head.
    Back,
    /// A wall before the face.
    Front,
    /// A floor laid over the head.
    Top,
    /// Between the wall beside the head (0°) and the floor over it (90°).
    Slope(f64),
}

/// A place over which held hair stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Station {
    /// The parting the client wears, between the front hairline and the high point.
    Parting,
    /// The ear-to-ear parting, at the ridge of the section's side.
    EarToEar,
    /// The middle of the step's first section.
    FirstSection,
    /// All along the step's first section: its line goes round the head with it, each place held at
    /// its own base, and there it stays for the rest.
    AlongFirst,
    /// A named point of the scalp, on the section's side.
    At(Landmark),
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

/// Over-direction: how far hair is moved along the head from where it grows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Over {
    /// Not at all: straight out.
    #[default]
    None,
    /// So many degrees towards the face; towards the back if below zero.
    Degrees(f64),
    /// Towards a named point of its side.
    To(Landmark),
}

/// How the fingers lie: the cutting line.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Fingers {
    /// Parallel to the head's round below them. Along a section longer than the hand, the hand moves
    /// on and the line follows the round.
    ParallelToHead,
    /// Bent with the head's round, for a stationary line too.
    Rounded,
    /// Level with the floor.
    Level,
    /// Upright.
    Plumb,
    /// Straight, the upper end so many degrees further from the head than parallel; nearer if below
    /// zero.
    Leaning(f64),
}

/// What settles how long the hair at the guide is left.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Rule {
    /// As long as the step of this id left its first section, at its near edge by the hairline.
    AsStep(String),
    /// As long as earlier steps left the hair at the near edge of this step's first section.
    Beside,
    /// So many centimetres off the hair in the middle of this step's first section.
    AmountOff(Given<f64>),
    /// So many centimetres, cut: of the hair where a stationary guide stands, of the first section's
    /// with a travelling one, and with a plane where the head comes nearest to it.
    Length(Given<f64>),
    /// As long as it takes for its ends to fall to the level of a landmark.
    EndsAt(Given<Landmark>),
}
