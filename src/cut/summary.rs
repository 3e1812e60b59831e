//! A worked-out plan told at named places of the scalp, so that any two can be laid side by side.

use super::fold::{CutError, Job, Outcome};
use super::let_down::LetDown;
use crate::fall::Hanging;
use crate::geometry::Vec3;
use crate::hair::{CutAt, FallsTo};
use crate::head::{Head, Landmark, Level, Side};
use crate::measure::Length;

/// The hair of a named place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlaceTold {
    /// The place, on the client's left or in the middle.
    pub place: Landmark,
    /// How long it is, as cut.
    pub cut: CutAt,
    /// How long it hangs.
    pub hangs: FallsTo,
    /// Where its end lies.
    pub ends: Level,
}

impl PlaceTold {
    /// How much longer it is than the hair of another, cm, as cut.
    pub fn longer_than(&self, other: &Self) -> f64 {
        self.cut.cm() - other.cut.cm()
    }
}

/// How long the hair of a named place is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlaceLength {
    /// The place.
    pub place: Landmark,
    /// On which side; the middle is looked at just beside it, on the client's left.
    pub side: Side,
    /// How long it is, as cut.
    pub cut: CutAt,
}

/// What a plan comes to all over.
#[derive(Clone, Debug, PartialEq)]
pub struct Summary {
    /// Its named places, from the front to the nape.
    pub places: Vec<PlaceTold>,
    /// The weight line, and how much of all ends lies near it, 0 to 1; none without hair.
    pub weight: Option<(Level, f64)>,
    /// The shortest and the longest hair that is cut, as cut; none if nothing is.
    pub spread: Option<(Length, Length)>,
}

/// The places that are told.
pub const TOLD: [Landmark; 9] = [
    Landmark::FrontHairline,
    Landmark::Temple,
    Landmark::InFrontOfEar,
    Landmark::HighPoint,
    Landmark::Crown,
    Landmark::ParietalRidge,
    Landmark::BehindEar,
    Landmark::Occipital,
    Landmark::Nape,
];
/// How far beside the middle, degrees about the high point, a place of the middle line is looked at:
/// hair on the parting itself may fall to either side.
const ASIDE: f64 = 3.0;

/// Whether a place lies on the middle line.
fn in_the_middle(head: &Head, place: Landmark) -> bool {
    let spot = head.spot(head.landmark(place, Side::Left));
    spot.azimuth.sin().abs() < 1e-6
}

/// The root that stands for a place wherever its length is told; of the middle line one just beside it, on
/// the client's left unless the right is asked for.
pub fn told_root(head: &Head, place: Landmark, side: Side) -> Vec3 {
    let (side, sign) = if side == Side::Right {
        (side, -1.0)
    } else {
        (Side::Left, 1.0)
    };
    let mut spot = head.spot(head.landmark(place, side));
    if spot.azimuth.sin().abs() < 1e-6 {
        spot.azimuth += sign * ASIDE.to_radians() * spot.azimuth.cos().signum();
    }
    head.place(spot)
}

impl Outcome {
    /// Told all over; `down` is its hair let down.
    ///
    /// # Errors
    /// [`CutError`] when a length cannot be worked out.
    pub fn summary(&self, job: &Job<'_>, down: &LetDown) -> Result<Summary, CutError> {
        let head = job.head;
        let hair = TOLD
            .into_iter()
            .map(|place| {
                let root = told_root(head, place, Side::Left);
                let cut = self.lengths.at(head, root)?;
                Ok((place, root, cut, self.lengths.hangs(root, cut)))
            })
            .collect::<Result<Vec<_>, CutError>>()?;
        let hanging: Vec<Hanging> = hair
            .iter()
            .map(|&(_, root, _, length)| Hanging { root, length })
            .collect();
        let fallen = down.with(&hanging);
        let places = hair
            .iter()
            .zip(fallen)
            .map(|(&(place, _, cut, hangs), fallen)| PlaceTold {
                place,
                cut: CutAt::from_cm(cut),
                hangs,
                ends: Level::of(head, fallen.tip.z),
            })
            .collect();
        Ok(Summary {
            places,
            weight: down.weight_level(head),
            spread: self.spread(None),
        })
    }

    /// How long the hair is at each of [`TOLD`], as cut, on the left and then on the right where the place
    /// has two sides.
    ///
    /// # Errors
    /// [`CutError`] when a length cannot be worked out.
    pub fn at_places(&self, head: &Head) -> Result<Vec<PlaceLength>, CutError> {
        let mut all = Vec::new();
        for place in TOLD {
            let sides: &[Side] = if in_the_middle(head, place) {
                &[Side::Centre]
            } else {
                &[Side::Left, Side::Right]
            };
            for &side in sides {
                let root = told_root(head, place, side);
                let cut = CutAt::from_cm(self.lengths.at(head, root)?);
                all.push(PlaceLength { place, side, cut });
            }
        }
        Ok(all)
    }

    /// The shortest and the longest hair that is cut, in one step or in all; none if nothing is.
    pub fn spread(&self, step: Option<usize>) -> Option<(Length, Length)> {
        let ours = |s: &&super::SectionCut| s.cuts() && step.is_none_or(|step| s.step == step);
        let cm = self.sections.iter().filter(ours);
        cm.map(|s| (s.short().cm(), s.long().cm()))
            .reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))
            .map(|(short, long)| (Length::from_cm(short), Length::from_cm(long)))
    }
}
