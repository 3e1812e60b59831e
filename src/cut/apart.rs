//! Two plans told beside each other: where they part.

use super::summary::{PlaceTold, Summary};
use crate::head::Level;
use crate::measure::{Length, Unit};
use crate::words::tr;

/// What two plans come to at their named places, laid beside each other.
#[derive(Clone, Debug, PartialEq)]
pub struct Apart {
    /// Every place of both, those that read otherwise first; else from the front to the nape.
    pub places: Vec<(PlaceTold, PlaceTold)>,
    /// How many of them read otherwise.
    pub differ: usize,
    /// Where most ends of each lie.
    weights: [Option<Level>; 2],
    unit: Unit,
}

impl Apart {
    /// Two plans beside each other, as read in a unit.
    pub fn of(one: &Summary, two: &Summary, unit: Unit) -> Self {
        let both = one.places.iter().copied().zip(two.places.iter().copied());
        let (mut places, same): (Vec<_>, Vec<_>) = both
            .partition(|(a, b)| longer(a, b, unit) != Length::ZERO || moved(a.ends, b.ends, unit));
        let differ = places.len();
        places.extend(same);
        Self {
            places,
            differ,
            weights: [one, two].map(|of| of.weight.map(|(level, _)| level)),
            unit,
        }
    }

    /// What differs, in a few sentences: at how many places, where most, and where the weight went.
    pub fn said(&self) -> String {
        let mut said = vec![match self.differ {
            0 => tr("One and Two are the same at every place.").to_owned(),
            differ => {
                let count = self.places.len();
                tr!("They differ at {differ} of {count} places.", differ, count)
            }
        }];
        let by =
            |(one, two): &(PlaceTold, PlaceTold)| (one.place.the(), longer(one, two, self.unit));
        let size = |by: Length| by.cm().abs();
        let most = self.places.iter().map(by);
        if let Some((at, by)) = most.max_by(|a, b| size(a.1).total_cmp(&size(b.1)))
            && by != Length::ZERO
        {
            let size = Length::from_cm(size(by)).shown(self.unit);
            said.push(if by > Length::ZERO {
                tr!("Two is longer by up to {size}, at {at}.", size, at)
            } else {
                tr!("Two is shorter by up to {size}, at {at}.", size, at)
            });
        }
        if let [Some(one), Some(two)] = self.weights
            && moved(one, two, self.unit)
        {
            let [one, two] = [one, two].map(|level| level.said(self.unit));
            said.push(tr!("Most ends lie {two}, not {one}.", two, one));
        }
        said.join(" ")
    }
}

/// Whether two heights differ by what can be read: half way between two landmarks the same height may be
/// told by either.
fn moved(one: Level, two: Level, unit: Unit) -> bool {
    Length::from_cm((one.z - two.z).abs()).number(unit) != "0"
}

/// By how much the second is longer as both are read; below zero if it is shorter.
fn longer(one: &PlaceTold, two: &PlaceTold, unit: Unit) -> Length {
    one.cut.0.change_shown(two.cut.0, unit)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hair::{CutAt, FallsTo};
    use crate::head::Landmark;

    fn summary(lengths: [f64; 3], weight: f64) -> Summary {
        let level = |below: f64| Level {
            z: -below,
            landmark: Landmark::Chin,
            below,
        };
        let place = |(place, cm)| PlaceTold {
            place,
            cut: CutAt::from_cm(cm),
            hangs: FallsTo::from_cm(cm),
            ends: level(0.0),
        };
        let at = [Landmark::Temple, Landmark::Crown, Landmark::Nape];
        Summary {
            places: at.into_iter().zip(lengths).map(place).collect(),
            weight: Some((level(weight), 0.5)),
            spread: None,
        }
    }

    fn apart(one: &Summary, two: &Summary) -> (String, Vec<Landmark>) {
        let apart = Apart::of(one, two, Unit::Cm);
        let order = apart.places.iter().map(|(one, _)| one.place);
        (apart.said(), order.collect())
    }

    #[test]
    fn what_differs_is_said_first_and_as_it_is_read() {
        let one = summary([20.0, 10.0, 8.0], 0.0);
        let two = summary([20.2, 7.5, 8.5], 2.0);
        let (said, order) = apart(&one, &two);
        assert_eq!(
            said,
            "They differ at 2 of 3 places. Two is shorter by up to 2.5 cm, at the crown. Most ends lie \
             2 cm below the chin, not at the chin."
        );
        assert_eq!(order, [Landmark::Crown, Landmark::Nape, Landmark::Temple]);
        let (said, _) = apart(&one, &summary([20.2, 10.0, 8.0], 0.2));
        assert_eq!(said, "One and Two are the same at every place.");
        let (back, _) = apart(&two, &one);
        assert!(
            back.contains("longer by up to 2.5 cm, at the crown"),
            "{back}"
        );
        let (said, order) = apart(&one, &one);
        assert_eq!(said, "One and Two are the same at every place.");
        assert_eq!(order, [Landmark::Temple, Landmark::Crown, Landmark::Nape]);
    }
}
