//! Weight: where the ends of fallen hair lie, how much hair passes each height, and the weight line.
//!
//! Every hair stands for a patch of scalp; times the hairs on a square centimetre that is so many
//! ends. Ends are counted by height in bins and by the side to which they fell. The *weight line* is
//! the height at which ends lie densest, as many of them a centimetre of height as anywhere; it is
//! found on a curve smoothed by a normal kernel, so that it does not jump with the bins.

use super::path::Fallen;
use super::weight_line::{WeightLine, weight_line};
use crate::geometry::Vec3;
use std::f64::consts::{FRAC_PI_2, FRAC_PI_4, TAU};

/// Hairs on a square centimetre of scalp. A study of more than 2,100 people in 21 countries found
/// 159 to 233 (read in a secondary account); to take their middle is a judgement.
pub const HAIRS_PER_CM2: f64 = 190.0;
/// Height of a bin unless another is asked for, cm.
pub const BIN: f64 = 1.0;
/// The bins that heights are sorted into: more would be a faulty bin height, not hair.
const MOST_BINS: f64 = 20_000.0;
/// Ends are taken to lie at least this far from the upright axis when their density is asked, cm.
const LEAST_RADIUS: f64 = 1.0;

/// A side of the head, a quarter turn each about the upright axis.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Quarter {
    /// The front.
    Front,
    /// The client's left.
    Left,
    /// The back.
    Back,
    /// The client's right.
    Right,
}

impl Quarter {
    /// All four.
    pub const ALL: [Self; 4] = [Self::Front, Self::Left, Self::Back, Self::Right];

    /// The side to which a place belongs, by its azimuth about the upright axis through the middle
    /// of the head.
    pub fn of(p: Vec3) -> Self {
        let azimuth = p.x.atan2(p.y);
        if azimuth.abs() <= FRAC_PI_4 {
            Self::Front
        } else if azimuth.abs() >= 3.0 * FRAC_PI_4 {
            Self::Back
        } else if azimuth > 0.0 {
            Self::Left
        } else {
            Self::Right
        }
    }
}

/// A fallen hair and the patch of scalp it stands for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Patched {
    /// Where it fell.
    pub fallen: Fallen,
    /// Height of its root, cm.
    pub root: f64,
    /// The patch in cm²; below zero or not a number counts as zero.
    pub area: f64,
}

/// The weight of one side, or of all.
#[derive(Clone, Debug, PartialEq)]
pub struct Profile {
    /// Height of a bin, cm.
    pub bin: f64,
    /// The lower edge of the first bin, cm.
    pub lowest: f64,
    /// Ends in each bin, from the lowest up.
    pub ends: Vec<f64>,
    /// Ends on a square centimetre of the shape's outside in each bin: as many a centimetre of
    /// height, over the side's width at the mean distance of those ends from the upright axis.
    pub density: Vec<f64>,
    /// Bulk: hairs whose way passes the middle of each bin.
    pub bulk: Vec<f64>,
    /// The weight line; none without ends.
    pub line: Option<WeightLine>,
}

impl Profile {
    /// All ends.
    pub fn total(&self) -> f64 {
        self.ends.iter().sum()
    }

    /// The middle of bin `i`, cm.
    pub fn height(&self, i: usize) -> f64 {
        self.lowest + (i as f64 + 0.5) * self.bin
    }
}

/// The weight of a head of fallen hair.
#[derive(Clone, Debug, PartialEq)]
pub struct Weight {
    /// All sides together.
    pub overall: Profile,
    /// Front, left, back and right, in this order.
    pub sides: [Profile; 4],
}

impl Weight {
    /// Weighs fallen hair, `density` hairs on a square centimetre of scalp, in bins of `bin` cm.
    /// What is not a number above zero is replaced by [`HAIRS_PER_CM2`] and [`BIN`]. All profiles
    /// have the same bins.
    pub fn of(hairs: &[Patched], density: f64, bin: f64) -> Self {
        let or = |value: f64, usual: f64| {
            if value > 0.0 && value.is_finite() {
                value
            } else {
                usual
            }
        };
        let (density, bin) = (or(density, HAIRS_PER_CM2), or(bin, BIN));
        let ends: Vec<Ends> = hairs
            .iter()
            .filter(|hair| hair.area > 0.0 && hair.fallen.tip.is_finite())
            .map(|hair| Ends {
                tip: hair.fallen.tip,
                from: hair.root.min(hair.fallen.tip.z),
                to: hair.fallen.highest.max(hair.fallen.tip.z),
                count: hair.area * density,
            })
            .collect();
        let range = Range::of(&ends, bin);
        let sides = Quarter::ALL.map(|side| {
            let ours = ends.iter().filter(|e| Quarter::of(e.tip) == side);
            profile(&ours.copied().collect::<Vec<_>>(), range, FRAC_PI_2)
        });
        Self {
            overall: profile(&ends, range, TAU),
            sides,
        }
    }

    /// The weight of one side.
    pub fn side(&self, side: Quarter) -> &Profile {
        &self.sides[side as usize]
    }
}

/// The ends of one patch.
#[derive(Clone, Copy)]
struct Ends {
    tip: Vec3,
    /// The heights its way passes, lowest and highest.
    from: f64,
    to: f64,
    count: f64,
}

/// The bins that hold every end and every way.
#[derive(Clone, Copy)]
struct Range {
    lowest: f64,
    bin: f64,
    count: usize,
}

impl Range {
    fn of(ends: &[Ends], bin: f64) -> Self {
        let low = ends.iter().map(|e| e.from).fold(f64::INFINITY, f64::min);
        let high = ends.iter().map(|e| e.to).fold(f64::NEG_INFINITY, f64::max);
        if low > high {
            return Self {
                lowest: 0.0,
                bin,
                count: 0,
            };
        }
        // Whole multiples of the bin, so that two weights of one head compare bin by bin.
        let bin = bin.max((high - low) / MOST_BINS);
        let lowest = (low / bin).floor() * bin;
        let count = ((high - lowest) / bin).floor() as usize + 1;
        Self { lowest, bin, count }
    }

    fn place(self, z: f64) -> usize {
        let place = ((z - self.lowest) / self.bin).max(0.0) as usize;
        place.min(self.count.saturating_sub(1))
    }
}

fn profile(ends: &[Ends], range: Range, angle: f64) -> Profile {
    let Range { lowest, bin, count } = range;
    let (mut counts, mut radii, mut bulk) = (vec![0.0; count], vec![0.0; count], vec![0.0; count]);
    for end in ends {
        let i = range.place(end.tip.z);
        counts[i] += end.count;
        radii[i] += end.count * end.tip.truncate().length();
        // The bins whose middle lies between the lowest and the highest of its way.
        let first = ((end.from - lowest) / bin + 0.5).floor().max(0.0) as usize;
        let past = ((end.to - lowest) / bin + 0.5).floor().max(0.0) as usize;
        for passed in bulk.iter_mut().take(past).skip(first) {
            *passed += end.count;
        }
    }
    let density = counts
        .iter()
        .zip(&radii)
        .map(|(&ends, &radius): (&f64, &f64)| {
            if ends > 0.0 {
                ends / (bin * angle * (radius / ends).max(LEAST_RADIUS))
            } else {
                0.0
            }
        })
        .collect();
    let heights: Vec<(f64, f64)> = ends.iter().map(|e| (e.tip.z, e.count)).collect();
    Profile {
        bin,
        lowest,
        ends: counts,
        density,
        bulk,
        line: weight_line(&heights),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hair(x: f64, y: f64, z: f64) -> Patched {
        let fallen = Fallen {
            tip: Vec3::new(x, y, z),
            rests: None,
            highest: 5.0,
            heaped: 0.0,
        };
        Patched {
            fallen,
            root: 5.0,
            area: 0.3,
        }
    }

    #[test]
    fn no_end_is_lost() {
        let hairs: Vec<Patched> = (0..500)
            .map(|i| {
                hair(
                    (f64::from(i)).sin() * 9.0,
                    (f64::from(i)).cos() * 9.0,
                    -0.07 * f64::from(i),
                )
            })
            .collect();
        for bin in [0.25, 1.0, 7.0] {
            let weight = Weight::of(&hairs, 200.0, bin);
            let all = 500.0 * 0.3 * 200.0;
            assert!((weight.overall.total() - all).abs() < 1e-6);
            let sides: f64 = weight.sides.iter().map(Profile::total).sum();
            assert!((sides - all).abs() < 1e-6);
            let passing = weight.overall.bulk.iter().copied().fold(0.0, f64::max);
            assert!(passing <= all + 1e-6);
        }
    }

    #[test]
    fn the_line_moves_with_the_ends_and_not_with_the_bins() {
        for shift in 0..40 {
            let z = -20.0 + 0.037 * f64::from(shift);
            let hairs: Vec<Patched> = (-10..=10)
                .map(|i| hair(0.0, 9.0, z + 0.05 * f64::from(i)))
                .collect();
            let line = Weight::of(&hairs, HAIRS_PER_CM2, BIN).overall.line.unwrap();
            assert!((line.z - z).abs() < 0.01, "{} at {z}", line.z);
            assert_eq!(line.sharpness, 1.0);
            assert!(line.width > 1.1 && line.width < 1.8, "{}", line.width);
        }
    }

    #[test]
    fn nothing_and_nonsense_weigh_nothing() {
        assert_eq!(Weight::of(&[], 190.0, 1.0).overall.line, None);
        let mut odd = hair(1.0, 1.0, f64::NAN);
        odd.area = f64::NAN;
        let weight = Weight::of(&[odd], f64::NAN, -1.0);
        assert_eq!(weight.overall.total(), 0.0);
        assert_eq!(weight.side(Quarter::Front).line, None);
    }
}
