//! How the ends are cut.

use crate::words::tr;
use serde::{Deserialize, Serialize};

/// How the ends are cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Technique {
    /// Straight across.
    Blunt,
    /// With the tips of the blades, into the ends.
    Point,
    /// In bigger bites.
    Notch,
    /// Blades gliding along the hair.
    Slide,
    /// Without a holding hand.
    Freehand,
    /// Over the comb.
    OverComb,
}

impl Technique {
    /// All of them.
    pub const ALL: [Self; 6] = [
        Self::Blunt,
        Self::Point,
        Self::Notch,
        Self::Slide,
        Self::Freehand,
        Self::OverComb,
    ];

    /// Its name on the screen.
    pub fn name(self) -> &'static str {
        match self {
            Self::Blunt => tr("Blunt"),
            Self::Point => tr("Point"),
            Self::Notch => tr("Notch"),
            Self::Slide => tr("Slide"),
            Self::Freehand => tr("Freehand"),
            Self::OverComb => tr("Scissor over comb"),
        }
    }

    /// What it is and does, in a sentence. Vocabulary of the trade at large.
    pub fn sentence(self) -> &'static str {
        match self {
            Self::Blunt => tr("Blunt: straight across with closed ends, which leaves a full edge."),
            Self::Point => {
                tr("Point: the tips of the blades go into the ends, which softens the edge.")
            }
            Self::Notch => {
                tr("Notch: bites in a zigzag, bigger than pointing, which take bulk from the ends.")
            }
            Self::Slide => tr(
                "Slide: half-closed blades glide along the hair, which lets it grow longer down a slope.",
            ),
            Self::Freehand => {
                tr("Freehand: no holding hand; hair is cut where it hangs, with no tension.")
            }
            Self::OverComb => {
                tr("Scissor over comb: the comb is the line, and the blades work along it.")
            }
        }
    }
}
