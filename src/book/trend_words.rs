//! What comes back, in words.

use super::trends::{Group, Trend};
use crate::head::{Region, Side};
use crate::measure::{Length, Unit};
use crate::words::{tr, tr_in};

/// A region within a sentence.
fn region(region: Region) -> &'static str {
    match region {
        Region::Front => tr("the front"),
        Region::Top => tr("the top"),
        Region::Crown => tr("the crown"),
        Region::Side => tr("the hair at the side"),
        Region::Back => tr("the back"),
        Region::Nape => tr("the nape"),
    }
}

fn side(side: Side) -> &'static str {
    match side {
        Side::Left => tr_in("on which side", "left"),
        Side::Centre => tr_in("on which side", "middle"),
        Side::Right => tr_in("on which side", "right"),
    }
}

impl Group {
    /// What it is, at the head of a line.
    pub fn name(self) -> String {
        let small = match self {
            Self::All => tr("all of it").to_owned(),
            Self::Side(of) => match of {
                Side::Left => tr("the left side"),
                Side::Centre => tr("the middle side"),
                Side::Right => tr("the right side"),
            }
            .to_owned(),
            Self::RightLessLeft => tr("right against left").to_owned(),
            Self::Region(of) => region(of).to_owned(),
            Self::Part(of, on) => format!("{}, {}", region(of), side(on)),
            Self::Lift(lift) => lift.words().to_owned(),
        };
        let mut letters = small.chars();
        let first = letters.next().into_iter().flat_map(char::to_uppercase);
        first.chain(letters).collect()
    }
}

impl Trend {
    /// In a sentence: `The right side runs 0.6 cm short, in 4 of 5 cuts.`, and whether chance may have done
    /// it; the length in the unit.
    pub fn said(&self, unit: Unit) -> String {
        let size = Length::from_cm(self.mean.abs()).as_measured(unit);
        let (off, all) = (self.ways.0, self.cuts.len());
        let short = self.mean < 0.0;
        let said = match self.group {
            Group::RightLessLeft if short => {
                tr!(
                    "The right side comes out {size} shorter than the left",
                    size
                )
            }
            Group::RightLessLeft => {
                tr!("The right side comes out {size} longer than the left", size)
            }
            Group::Part(of, on) => {
                let (on, place) = (side(on), region(of));
                if short {
                    tr!("On the {on}, {place} runs {size} short", on, place, size)
                } else {
                    tr!("On the {on}, {place} runs {size} long", on, place, size)
                }
            }
            group => {
                let place = group.name();
                if short {
                    tr!("{place} runs {size} short", place, size)
                } else {
                    tr!("{place} runs {size} long", place, size)
                }
            }
        };
        let sure = if self.sure() {
            tr("Chance alone would hardly do that.")
        } else {
            tr("So few cuts may still be chance.")
        };
        tr!(
            "{said}, in {off} of {all} cuts. {sure}",
            said,
            off,
            all,
            sure
        )
    }
}
