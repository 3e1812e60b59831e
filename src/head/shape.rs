//! What no tape can say about a head: the shape of its back and its top, and whether it is a
//! person's or a practice head.

use serde::{Deserialize, Serialize};

/// The shape of the back of the head, seen from the side.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Back {
    /// Straight up and down from the crown to the nape.
    Flat,
    /// Neither.
    #[default]
    Even,
    /// Round: it stands out at the widest level and falls away above and below.
    Full,
}

/// The shape of the top of the head, seen from the side or the front.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Top {
    /// Level on top, turning down late.
    Flat,
    /// Neither.
    #[default]
    Even,
    /// Rising to the high point from all sides.
    Domed,
}

/// Whose head it is: what is missing is guessed differently.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// A person's.
    #[default]
    Person,
    /// A practice head: usually smaller, its hair put in along a fuller and straighter hairline.
    Practice,
}

/// How much squarer (below 0) or leaner a flat or a full back makes upright sections there, as κ of
/// [`crate::geometry::Egg`]; an even one has 0.8. Less is the flat back: with the length fixed, the
/// profile then runs straight up and down and turns late; more lets it stand out at the widest level
/// and fall away at once. Judgement: it bends there three eighths less or more than an even one, and
/// no surveyed head stops being convex.
const BACK: f64 = 0.30;
/// The same for the top (λ): it bends three tenths less or more. Judgement.
const TOP: f64 = 0.25;

impl Back {
    /// All of them, from flat to full.
    pub const ALL: [Self; 3] = [Self::Flat, Self::Even, Self::Full];

    /// Its word in a head file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Flat => "flat",
            Self::Even => "even",
            Self::Full => "full",
        }
    }

    /// κ of [`crate::geometry::Egg`], without a unit.
    pub(super) const fn leaner(self) -> f64 {
        match self {
            Self::Flat => -BACK,
            Self::Even => 0.0,
            Self::Full => BACK,
        }
    }
}

impl Top {
    /// All of them, from flat to domed.
    pub const ALL: [Self; 3] = [Self::Flat, Self::Even, Self::Domed];

    /// Its word in a head file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Flat => "flat",
            Self::Even => "even",
            Self::Domed => "domed",
        }
    }

    /// λ of [`crate::geometry::Egg`], without a unit.
    pub(super) const fn leaner(self) -> f64 {
        match self {
            Self::Flat => -TOP,
            Self::Even => 0.0,
            Self::Domed => TOP,
        }
    }
}

impl Kind {
    /// Both of them.
    pub const ALL: [Self; 2] = [Self::Person, Self::Practice];

    /// Its word in a head file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Person => "person",
            Self::Practice => "practice",
        }
    }
}
