//! How long hair is everywhere, as numbers that can be kept: what one visit left for the next.

use crate::geometry::Vec3;
use crate::head::{Head, Side, Spot};
use crate::measure::Length;
use crate::words::tr;
use serde::{Deserialize, Serialize};
use std::f64::consts::{PI, TAU};

/// Meridians a side, from the front to the nape: six degrees apart, 1 cm or less of scalp.
const MERIDIANS: usize = 31;
/// Places down each of them, from the high point to the hairline: 0.7 cm apart before, 1.4 behind.
const PLACES: usize = 18;
/// How far beside the middle its own meridians are looked at, radians: each side as it was cut.
const BESIDE: f64 = 0.004;
/// The first and the last place of a meridian are looked at a little within, as shares of it: clear of
/// the point where all meridians meet, and of the edge of the hair.
const WITHIN: (f64, f64) = (0.01, 0.998);
/// Lengths of neighbours that differ by more are a step and not a slope, cm: a length that a line
/// settles changes by no more than a centimetre with each centimetre of scalp, over its hanging ratio.
const STEP: f64 = 2.5;
/// What is kept of a centimetre: tenths of a millimetre.
const A_CM: f64 = 100.0;
/// The most that is taken for a length, tenths of a millimetre: four metres.
const MOST: i64 = 40_000;
/// No kept map has more meridians or places than this.
const LARGEST: usize = 200;

/// The length as cut of the hair everywhere on the scalp, cm, looked at on a grid about the high point
/// and told to a tenth of a millimetre. One half stands for both where they are alike.
///
/// Between the places of the grid lengths run straight. A step in length stays a step: where neighbours
/// differ by more than a slope can, the nearest of them and those like it count, so that no length is told
/// that no hair has; the step itself may stand half a cell of the grid, up to 7 mm, beside its place.
///
/// ```
/// use tautline::{hair::LengthMap, head::{Head, Spot, Tapes}, measure::Length};
/// let head = Head::from_tapes(&Tapes::default())?;
/// let new = LengthMap::of(&head, true, &mut |_, _| Ok::<f64, ()>(40.0)).unwrap();
/// let later = new.grown(Length::from_cm(1.25));
/// assert!((later.at(Spot::at_degrees(-100.0, 0.6)) - 41.25).abs() < 1e-9);
/// assert_eq!(LengthMap::read(&later.to_text()), Ok(later));
/// # Ok::<(), tautline::head::HeadError>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct LengthMap {
    /// Places on each meridian.
    places: usize,
    /// Meridian by meridian from the front, each from the high point out, cm.
    left: Vec<f64>,
    /// None where both sides are alike.
    right: Option<Vec<f64>>,
}

/// Why a kept map does not read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{}", tr("The lengths that the last visit left can't be read."))]
pub struct MapError;

impl LengthMap {
    /// The lengths that `length` tells of roots on the skull, each asked for one side; `alike` if the
    /// right side is the left in a mirror. What is no length counts as none.
    ///
    /// # Errors
    /// The first error that `length` gives.
    pub fn of<E>(
        head: &Head,
        alike: bool,
        length: &mut dyn FnMut(Side, Vec3) -> Result<f64, E>,
    ) -> Result<Self, E> {
        Self::on((MERIDIANS, PLACES), head, alike, length)
    }

    /// The same on a grid of less than a fifth as many places: to compare cuts with each other.
    ///
    /// # Errors
    /// As [`LengthMap::of`].
    pub fn coarse<E>(
        head: &Head,
        alike: bool,
        length: &mut dyn FnMut(Side, Vec3) -> Result<f64, E>,
    ) -> Result<Self, E> {
        Self::on((13, 8), head, alike, length)
    }

    fn on<E>(
        (meridians, places): (usize, usize),
        head: &Head,
        alike: bool,
        length: &mut dyn FnMut(Side, Vec3) -> Result<f64, E>,
    ) -> Result<Self, E> {
        let mut half = |side: Side| {
            let mut all = Vec::with_capacity(meridians * places);
            for i in 0..meridians {
                let azimuth = PI * i as f64 / (meridians - 1) as f64;
                let azimuth = azimuth.clamp(BESIDE, PI - BESIDE) * side.sign();
                let row: Vec<Spot> = (0..places)
                    .map(|k| k as f64 / (places - 1) as f64)
                    .map(|out| Spot {
                        azimuth,
                        out: out.clamp(WITHIN.0, WITHIN.1),
                    })
                    .collect();
                for root in head.places(&row) {
                    all.push(kept(length(side, root)?) as f64 / A_CM);
                }
            }
            Ok(all)
        };
        Ok(Self {
            places,
            left: half(Side::Left)?,
            right: if alike {
                None
            } else {
                Some(half(Side::Right)?)
            },
        })
    }

    /// Hair of one length all over.
    pub fn even(length: Length) -> Self {
        Self {
            places: 2,
            left: vec![kept(length.cm()) as f64 / A_CM; 4],
            right: None,
        }
    }

    /// The length at a spot of the scalp, cm as cut; beyond the hairline that at the hairline.
    pub fn at(&self, spot: Spot) -> f64 {
        let turn = spot.azimuth - TAU * (spot.azimuth / TAU).round();
        let half = match &self.right {
            Some(right) if turn < 0.0 => right,
            _ => &self.left,
        };
        let meridians = (half.len() / self.places.max(1)).max(1);
        let (i, aside) = cell(turn.abs() / PI, meridians);
        let (k, down) = cell(spot.out, self.places);
        let value = |i: usize, k: usize| half.get(i * self.places + k).copied().unwrap_or(0.0);
        let corners = [
            (value(i, k), (1.0 - aside) * (1.0 - down)),
            (value(i, k + 1), (1.0 - aside) * down),
            (value(i + 1, k), aside * (1.0 - down)),
            (value(i + 1, k + 1), aside * down),
        ];
        let nearest =
            corners.iter().fold(
                (0.0, 0.0),
                |best, corner| {
                    if corner.1 > best.1 { *corner } else { best }
                },
            );
        let like = corners.iter().filter(|c| (c.0 - nearest.0).abs() <= STEP);
        let (sum, weight) = like.fold((0.0, 0.0), |(sum, weight), (cm, share)| {
            (sum + cm * share, weight + share)
        });
        if weight > 0.0 {
            sum / weight
        } else {
            nearest.0
        }
    }

    /// The same hair grown by so much; cut by it all over if below zero.
    #[must_use]
    pub fn grown(&self, by: Length) -> Self {
        let longer = |half: &Vec<f64>| {
            let all = half.iter().map(|cm| kept(cm + by.cm()) as f64 / A_CM);
            all.collect::<Vec<f64>>()
        };
        Self {
            places: self.places,
            left: longer(&self.left),
            right: self.right.as_ref().map(longer),
        }
    }

    /// Whether the right side is the left in a mirror.
    pub fn sides_alike(&self) -> bool {
        self.right.as_ref().is_none_or(|right| *right == self.left)
    }

    /// The shortest and the longest of its lengths, cm; zero of none.
    pub fn ends(&self) -> (f64, f64) {
        let all = || self.left.iter().chain(self.right.iter().flatten()).copied();
        let longest = all().fold(0.0, f64::max);
        (all().fold(longest, f64::min), longest)
    }

    /// As text: places on a meridian, then the lengths in tenths of a millimetre, each meridian's first
    /// and then by how much each is longer than the one before; the right side, if it differs, after a `/`.
    pub fn to_text(&self) -> String {
        let mut text = format!("{}:", self.places);
        self.write_half(&self.left, &mut text);
        if let Some(right) = &self.right {
            text.push('/');
            self.write_half(right, &mut text);
        }
        text
    }

    fn write_half(&self, half: &[f64], text: &mut String) {
        let mut last = 0;
        for (i, &cm) in half.iter().enumerate() {
            let now = kept(cm);
            if i.is_multiple_of(self.places.max(1)) {
                last = 0;
            }
            if i > 0 {
                text.push(' ');
            }
            text.push_str(&(now - last).to_string());
            last = now;
        }
    }

    /// Reads what [`LengthMap::to_text`] wrote, of a grid of any size.
    ///
    /// # Errors
    /// [`MapError`] if that is no map, or tells a length that no hair has.
    pub fn read(text: &str) -> Result<Self, MapError> {
        let (places, lengths) = text.split_once(':').ok_or(MapError)?;
        let places: usize = places.trim().parse().map_err(|_| MapError)?;
        if !(2..=LARGEST).contains(&places) {
            return Err(MapError);
        }
        let (left, right) = match lengths.split_once('/') {
            Some((left, right)) => (left, Some(right)),
            None => (lengths, None),
        };
        let left = half(left, places)?;
        let right = right.map(|right| half(right, places)).transpose()?;
        if right
            .as_ref()
            .is_some_and(|right| right.len() != left.len())
        {
            return Err(MapError);
        }
        Ok(Self {
            places,
            left,
            right,
        })
    }
}

/// A length in tenths of a millimetre, as it is kept.
fn kept(cm: f64) -> i64 {
    // What is not a number becomes none.
    ((cm * A_CM).round() as i64).clamp(0, MOST)
}

/// One side's lengths, cm.
fn half(text: &str, places: usize) -> Result<Vec<f64>, MapError> {
    let mut all: Vec<f64> = Vec::new();
    let mut last = 0_i64;
    for part in text.split_ascii_whitespace() {
        if all.len() >= LARGEST * places {
            return Err(MapError);
        }
        let more: i64 = part.parse().map_err(|_| MapError)?;
        if all.len().is_multiple_of(places) {
            last = 0;
        }
        last = last.saturating_add(more);
        if !(0..=MOST).contains(&last) {
            return Err(MapError);
        }
        all.push(last as f64 / A_CM);
    }
    let whole = all.len().is_multiple_of(places) && all.len() >= 2 * places;
    whole.then_some(all).ok_or(MapError)
}

/// The cell that a share of the way along so many places lies in, and the share of the way through it.
fn cell(share: f64, places: usize) -> (usize, f64) {
    let cells = places.saturating_sub(1).max(1);
    // What is not a number counts as the beginning.
    let share = if share.is_nan() { 0.0 } else { share };
    let at = share.clamp(0.0, 1.0) * cells as f64;
    let i = (at as usize).min(cells - 1);
    (i, (at - i as f64).clamp(0.0, 1.0))
}

impl TryFrom<String> for LengthMap {
    type Error = MapError;

    fn try_from(text: String) -> Result<Self, MapError> {
        Self::read(&text)
    }
}

impl From<LengthMap> for String {
    fn from(map: LengthMap) -> Self {
        map.to_text()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::head::Tapes;

    fn head() -> Head {
        Head::from_tapes(&Tapes::default()).unwrap()
    }

    #[test]
    fn what_was_kept_reads_and_what_is_none_is_refused() {
        let mut both = |side: Side, root: Vec3| Ok::<f64, ()>(20.0 + root.z + side.sign());
        let map = LengthMap::of(&head(), false, &mut both).unwrap();
        let text = map.to_text();
        assert_eq!(LengthMap::read(&text), Ok(map.clone()));
        assert!(!map.sides_alike());
        assert!(text.len() < 5_000, "{}", text.len());
        for wrong in [
            "",
            "18",
            "18:",
            "18:1 2 3",
            "1:1 2 3",
            "0:1 2",
            "2:1 2 NaN 4",
            "2:1 2 3 4/1 2",
            "2:1 2 3 -9",
            "2:99999999 1 1 1",
            "2:9223372036854775807 9223372036854775807 1 1",
            "999999999999:1 2 3 4",
        ] {
            assert_eq!(LengthMap::read(wrong), Err(MapError), "{wrong}");
        }
        let json = serde_json::to_string(&map).unwrap();
        assert_eq!(serde_json::from_str::<LengthMap>(&json).unwrap(), map);
        assert!(serde_json::from_str::<LengthMap>("\"2:1\"").is_err());
    }

    #[test]
    fn no_length_is_made_up_between_a_fringe_and_what_hangs_beside_it() {
        let fringe = |side: Side, root: Vec3| {
            let _ = side;
            Ok::<f64, ()>(if root.y > 5.0 { 7.0 } else { 30.0 })
        };
        let map = LengthMap::of(&head(), true, &mut { fringe }).unwrap();
        for i in 0..=100 {
            for azimuth in [-40.0, 5.0, 60.0] {
                let at = map.at(Spot::at_degrees(azimuth, 0.01 * f64::from(i)));
                let is = |cm: f64| (at - cm).abs() < 1e-9;
                assert!(is(7.0) || is(30.0), "{at}");
            }
        }
    }

    #[test]
    fn both_sides_of_an_even_map_read_exactly_alike() {
        let mut alike = |_: Side, root: Vec3| Ok::<f64, ()>(15.0 + root.y * 0.37);
        let map = LengthMap::of(&head(), true, &mut alike).unwrap();
        assert!(map.sides_alike());
        for i in 0..180 {
            let spot = Spot::at_degrees(f64::from(i), 0.005 * f64::from(i));
            assert_eq!(map.at(spot), map.at(spot.mirrored()));
        }
        for odd in [f64::NAN, f64::INFINITY, -1.0, 7.0] {
            let spot = Spot {
                azimuth: odd,
                out: odd,
            };
            assert!(map.at(spot).is_finite());
        }
        assert!(
            map.grown(Length::from_cm(f64::NAN))
                .at(Spot::at_degrees(0.0, 0.5))
                == 0.0
        );
    }
}
