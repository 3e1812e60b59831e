//! What there is to learn.

use crate::words::tr;

/// An idea that settles how long hair is cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Idea {
    /// How high hair is held.
    Elevation,
    /// How far hair is moved along the head from where it grows.
    OverDirection,
    /// What settles where the cutting line stands.
    Guide,
    /// Where ends lie densest.
    Weight,
}

impl Idea {
    /// All, in the order in which one rests on the other.
    pub const ALL: [Self; 4] = [
        Self::Elevation,
        Self::OverDirection,
        Self::Guide,
        Self::Weight,
    ];

    /// Its short stable name, for addresses.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Elevation => "elevation",
            Self::OverDirection => "over-direction",
            Self::Guide => "guide",
            Self::Weight => "weight",
        }
    }

    /// The idea of this stable name.
    pub fn of(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|idea| idea.word() == word)
    }

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Elevation => tr("Elevation"),
            Self::OverDirection => tr("Over-direction"),
            Self::Guide => tr("Guide"),
            Self::Weight => tr("Weight"),
        }
    }

    /// The question that leads to it from where its word stands.
    pub fn asked(self) -> &'static str {
        match self {
            Self::Elevation => tr("What is elevation?"),
            Self::OverDirection => tr("What is over-direction?"),
            Self::Guide => tr("What is a guide?"),
            Self::Weight => tr("What is weight?"),
        }
    }

    /// What it is, in a sentence or two. Common practice, no source.
    pub fn about(self) -> &'static str {
        match self {
            Self::Elevation => tr(
                "How high a section is lifted from the head before it is cut: 0° lies on it, 90° stands straight out. The lower it is held, the longer the hair from above is left over the hair below.",
            ),
            Self::OverDirection => tr(
                "How far a section is combed to one side of where it grows before it is cut. The hair has further to go to the fingers, so it is left longer on the side that it is combed away from.",
            ),
            Self::Guide => tr(
                "Hair that is cut already, and that the rest follows. A stationary guide stays where it is and all else is combed to it: the further a root is from it, the longer its hair is left.",
            ),
            Self::Weight => tr(
                "Where ends lie densest once the hair is let down. Ends that fall to one level make a heavy line; lifted before they are cut, they are spread and the line goes up and softens.",
            ),
        }
    }

    /// What the slider turns.
    pub fn turned(self) -> &'static str {
        match self {
            Self::Elevation | Self::Weight => tr("Elevation from the head"),
            Self::OverDirection => tr("Combed back by"),
            Self::Guide => tr("Section"),
        }
    }

    /// What to try. Common practice, no source.
    pub fn to_try(self) -> &'static str {
        match self {
            Self::Elevation => tr(
                "At 90° every section comes out as long as the guide. Go down, and the top of the back grows longer than the nape. Some plans measure from the room instead and say so: there 0° hangs down, 90° is level.",
            ),
            Self::OverDirection => tr(
                "At 0° the side keeps one length. Comb it further back, and it lengthens towards the face.",
            ),
            Self::Guide => tr(
                "Go from the ear to the face: the guide does not move, the way to it gets longer, and so does the hair.",
            ),
            Self::Weight => tr(
                "Near 0° the ends lie together. Lift the hair, and see them spread over the back.",
            ),
        }
    }
}
