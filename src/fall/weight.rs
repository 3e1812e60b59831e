//! Weight: where the ends of fallen hair lie, how much hair passes each height, and the weight line.
//!
//! Every hair stands for a patch of scalp; times the hairs on a square centimetre that is so many
//! ends. Ends are counted by height in bins and by the side to which they fell. The *weight line* is
//! the height at which ends lie densest, as many of them a centimetre of height as anywhere; it is
//! found on a curve smoothed by a normal kernel, so that it does not jump with the bins.

use super::path::Fallen;
use crate::geometry::Vec3;
use std::f64::consts::{FRAC_PI_2, FRAC_PI_4, TAU};

/// Hairs on a square centimetre of scalp. A study of more than 2,100 people in 21 countries found
/// 159 to 233 (read in a secondary account); to take their middle is a judgement.
pub const HAIRS_PER_CM2: f64 = 190.0;
/// Height of a bin unless another is asked for, cm.
pub const BIN: f64 = 1.0;
/// Half-width of the kernel (its standard deviation), cm. Judgement.
const KERNEL: f64 = 0.5;
/// Grid of the smoothed curve, cm.
const GRID: f64 = 0.1;
/// Ends within this of the weight line count as on it, cm.
const ON_LINE: f64 = 1.0;
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

/// The height at which ends lie densest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeightLine {
    /// Its height, cm.
    pub z: f64,
    /// Its sharpness: the share of all ends that lie within 1 cm of it, 0 to 1.
    pub sharpness: f64,
    /// The height over which ends lie at least half as dense as on it, cm. What all ends on one
    /// level would give, 1.2 cm, is the least.
    pub width: f64,
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
    Profile {
        bin,
        lowest,
        ends: counts,
        density,
        bulk,
        line: weight_line(ends),
    }
}

/// The peak of the ends' heights, smoothed.
fn weight_line(ends: &[Ends]) -> Option<WeightLine> {
    let total: f64 = ends.iter().map(|e| e.count).sum();
    let low = ends.iter().map(|e| e.tip.z).fold(f64::INFINITY, f64::min);
    let high = ends
        .iter()
        .map(|e| e.tip.z)
        .fold(f64::NEG_INFINITY, f64::max);
    if total <= 0.0 || (high - low) / GRID > MOST_BINS {
        return None;
    }
    let reach = (4.0 * KERNEL / GRID).ceil() as usize;
    let start = low - reach as f64 * GRID;
    let mut fine = vec![0.0; ((high - low) / GRID) as usize + 2 * reach + 3];
    for end in ends {
        // Shared between the two nearest places, so that nothing jumps as an end moves.
        let at = (end.tip.z - start) / GRID;
        let i = (at.max(0.0) as usize).min(fine.len() - 2);
        fine[i] += end.count * (1.0 - (at - i as f64));
        fine[i + 1] += end.count * (at - i as f64);
    }
    let kernel: Vec<f64> = (0..=reach)
        .map(|i| (-0.5 * (i as f64 * GRID / KERNEL).powi(2)).exp())
        .collect();
    let smooth: Vec<f64> = (0..fine.len())
        .map(|i| {
            let (from, to) = (i.saturating_sub(reach), (i + reach + 1).min(fine.len()));
            (from..to).map(|j| fine[j] * kernel[i.abs_diff(j)]).sum()
        })
        .collect();
    let (peak, &most) = smooth
        .iter()
        .enumerate()
        .max_by(|a, b| a.1.total_cmp(b.1))?;
    let at = |i: usize| smooth.get(i).copied().unwrap_or(0.0);
    let (before, after) = (peak.checked_sub(1).map_or(0.0, at), at(peak + 1));
    let bend = before - 2.0 * most + after;
    let shift = if bend < 0.0 {
        (0.5 * (before - after) / bend).clamp(-0.5, 0.5)
    } else {
        0.0
    };
    let z = start + (peak as f64 + shift) * GRID;
    let on_line = ends.iter().filter(|e| (e.tip.z - z).abs() <= ON_LINE);
    // From the peak outward to where the curve falls through half its height.
    let half = |step: &dyn Fn(usize) -> Option<usize>| {
        let mut i = peak;
        while let Some(next) = step(i) {
            if at(next) <= most / 2.0 {
                let share = (at(i) - most / 2.0) / (at(i) - at(next)).max(f64::MIN_POSITIVE);
                return (i.abs_diff(peak) as f64 + share) * GRID;
            }
            i = next;
        }
        i.abs_diff(peak) as f64 * GRID
    };
    let width = half(&|i| i.checked_sub(1)) + half(&|i| (i + 1 < smooth.len()).then_some(i + 1));
    Some(WeightLine {
        z,
        sharpness: (on_line.map(|e| e.count).sum::<f64>() / total).min(1.0),
        width,
    })
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
