//! The weight line: the height at which the ends of hair lie densest, and how sharp it is.

use crate::words::tr;

/// Half-width of the kernel (its standard deviation), cm. Judgement.
const KERNEL: f64 = 0.5;
/// Grid of the smoothed curve, cm.
const GRID: f64 = 0.1;
/// Ends within this of the weight line count as on it, cm.
const ON_LINE: f64 = 1.0;
/// Places of the grid more than this are a faulty height, not hair.
const MOST_PLACES: f64 = 20_000.0;

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

/// How sharp a weight line is, in words, by the share of all ends near it, 0 to 1. Judgement.
pub fn sharpness(share: f64) -> &'static str {
    if share > 0.6 {
        tr("a hard line")
    } else if share > 0.25 {
        tr("a soft line")
    } else {
        tr("spread out")
    }
}

/// The peak of the ends' heights, smoothed; each end is a height (cm) and how many end there.
pub(super) fn weight_line(ends: &[(f64, f64)]) -> Option<WeightLine> {
    let total: f64 = ends.iter().map(|e| e.1).sum();
    let low = ends.iter().map(|e| e.0).fold(f64::INFINITY, f64::min);
    let high = ends.iter().map(|e| e.0).fold(f64::NEG_INFINITY, f64::max);
    if total <= 0.0 || (high - low) / GRID > MOST_PLACES {
        return None;
    }
    let reach = (4.0 * KERNEL / GRID).ceil() as usize;
    let start = low - reach as f64 * GRID;
    let mut fine = vec![0.0; ((high - low) / GRID) as usize + 2 * reach + 3];
    for end in ends {
        // Shared between the two nearest places, so that nothing jumps as an end moves.
        let at = (end.0 - start) / GRID;
        let i = (at.max(0.0) as usize).min(fine.len() - 2);
        fine[i] += end.1 * (1.0 - (at - i as f64));
        fine[i + 1] += end.1 * (at - i as f64);
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
    let on_line = ends.iter().filter(|e| (e.0 - z).abs() <= ON_LINE);
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
        sharpness: (on_line.map(|e| e.1).sum::<f64>() / total).min(1.0),
        width,
    })
}
