//! What comes back, in words.

use super::trends::{Group, Trend};
use crate::head::{Region, Side};
use crate::measure::{Length, Unit};

/// A region within a sentence.
const fn region(region: Region) -> &'static str {
    match region {
        Region::Front => "the front",
        Region::Top => "the top",
        Region::Crown => "the crown",
        Region::Side => "the hair at the side",
        Region::Back => "the back",
        Region::Nape => "the nape",
    }
}

const fn side(side: Side) -> &'static str {
    match side {
        Side::Left => "left",
        Side::Centre => "middle",
        Side::Right => "right",
    }
}

impl Group {
    /// What it is, at the head of a line.
    pub fn name(self) -> String {
        let small = match self {
            Self::All => "all of it".to_owned(),
            Self::Side(of) => format!("the {} side", side(of)),
            Self::RightLessLeft => "right against left".to_owned(),
            Self::Region(of) => region(of).to_owned(),
            Self::Part(of, on) => format!("{}, {}", region(of), side(on)),
            Self::Lift(lift) => lift.words().to_owned(),
        };
        let mut letters = small.chars();
        let first = letters.next().map(|c| c.to_ascii_uppercase());
        first.into_iter().chain(letters).collect()
    }
}

impl Trend {
    /// In a sentence: `The right side runs 0.6 cm short, in 4 of 5 cuts.`, and whether chance may have done
    /// it; the length in the unit.
    pub fn said(&self, unit: Unit) -> String {
        let size = Length::from_cm(self.mean.abs()).as_measured(unit);
        let (off, all) = (self.ways.0, self.cuts.len());
        let short = self.mean < 0.0;
        let way = if short { "short" } else { "long" };
        let said = match self.group {
            Group::RightLessLeft => {
                let way = if short { "shorter" } else { "longer" };
                format!("The right side comes out {size} {way} than the left")
            }
            Group::Part(of, on) => {
                format!("On the {}, {} runs {size} {way}", side(on), region(of))
            }
            group => format!("{} runs {size} {way}", group.name()),
        };
        let sure = if self.sure() {
            "Chance alone would hardly do that."
        } else {
            "So few cuts may still be chance."
        };
        format!("{said}, in {off} of {all} cuts. {sure}")
    }
}
