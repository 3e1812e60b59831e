//! Hair let down as one cloth: what it covers at every height, seen from a side.
//!
//! A [`super::Silhouette`] tells the leftmost and the rightmost place only. A drape tells every stretch, so
//! that hair before and behind a shoulder stays two, and it follows the hem: between neighbouring
//! roots the ends lie on the line between the two, as those of the hairs in between do.

use super::View;
use crate::geometry::Vec3;

/// Height of a row, cm: a millimetre of the head, which is one unit of a drawing.
pub const ROW: f64 = 0.1;
/// Width of the cells that tell whether hair lies there, cm.
const CELL: f64 = 0.5;
/// Cells across: as many as a mask has bits, and 64 cm wide in all.
const CELLS: usize = 128;
/// So many empty cells in a row are a gap between two stretches of hair. Fewer lie between roots, or where
/// a gap begins: such as lie right over a gap, and are at least [`CRACK`], belong to it.
const GAP: u32 = 4;
const CRACK: u32 = 2;
/// Rows more than this are a faulty height, not hair.
const MOST_ROWS: f64 = 20_000.0;
/// Roots up to so many times as far apart as they are on average may be neighbours (in the sense of Gabriel
/// and Sokal, 1969): those are sewn together, and so are their ends.
const NEAR: f64 = 2.4;
/// Ends further apart than this, cm, and so many times what their roots are, are not: they fell to different
/// sides.
const SAME_SIDE: f64 = 1.0;
const SPREAD: f64 = 3.0;

/// The ways of many hairs, and what is sewn between neighbours: the scalp from root to root, and the hem
/// from end to end.
#[derive(Clone, Debug, Default)]
pub struct Drape {
    ways: Vec<Vec<Vec3>>,
    sewn: Vec<[Vec3; 2]>,
}

/// What is covered at one height.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// The height, cm.
    pub z: f64,
    /// The stretches that hair covers, (from, to) across in cm, from the left to the right.
    pub spans: Vec<(f64, f64)>,
}

impl Drape {
    /// Of the ways of hairs ([`super::fall_path`]), whose roots lie about `apart` cm from each other.
    pub fn of(ways: Vec<Vec<Vec3>>, apart: f64) -> Self {
        let near = (apart * NEAR).powi(2);
        let mut sewn = Vec::new();
        let ends: Vec<(Vec3, Vec3)> = ways
            .iter()
            .filter_map(|way| Some((*way.first()?, *way.last()?)))
            .collect();
        let mut close: Vec<(Vec3, Vec3)> = Vec::new();
        for &(root, end) in &ends {
            close.clear();
            close.extend(ends.iter().filter(|o| root.distance_squared(o.0) < near));
            for &(other, its_end) in &close {
                // Each pair once; neighbours where no third root lies within the circle over both.
                let away = root.distance_squared(other);
                let between = |(third, _): &(Vec3, Vec3)| {
                    root.distance_squared(*third) + other.distance_squared(*third) < away
                };
                if (root.x, root.y, root.z) >= (other.x, other.y, other.z)
                    || close.iter().any(between)
                {
                    continue;
                }
                sewn.push([root, other]);
                if end.distance(its_end) < SAME_SIDE + SPREAD * away.sqrt() {
                    sewn.push([end, its_end]);
                }
            }
        }
        Self { ways, sewn }
    }

    /// What it covers seen from one side, in rows from the highest down; heights with nothing on them
    /// have none. Only what is `seen` counts: it is asked of the middle of each short piece of hair.
    pub fn rows(&self, view: View, seen: impl Fn(Vec3) -> bool) -> Vec<Row> {
        let heights = || self.ways.iter().flatten().map(|p| p.z);
        let low = heights().fold(f64::INFINITY, f64::min);
        let high = heights().fold(f64::NEG_INFINITY, f64::max);
        if !(low <= high && (high - low) / ROW < MOST_ROWS) {
            return Vec::new();
        }
        let mut sheet = Sheet::new(low, high);
        let across = view.across();
        let mut add = |a: Vec3, b: Vec3| {
            if seen((a + b) / 2.0) {
                sheet.cross((across.dot(a), a.z), (across.dot(b), b.z));
            }
        };
        for way in &self.ways {
            for pair in way.windows(2) {
                add(pair[0], pair[1]);
            }
        }
        for [a, b] in &self.sewn {
            add(*a, *b);
        }
        sheet.rows()
    }
}

/// For every row the cells that hair crosses, and how far it reaches in each.
struct Sheet {
    /// The number of the first row.
    first: f64,
    masks: Vec<u128>,
    reach: Vec<(f64, f64)>,
}

impl Sheet {
    fn new(low: f64, high: f64) -> Self {
        let first = (low / ROW).ceil();
        let count = ((high / ROW).floor() - first + 1.0).max(0.0) as usize;
        Self {
            first,
            masks: vec![0; count],
            reach: vec![(f64::INFINITY, f64::NEG_INFINITY); count * CELLS],
        }
    }

    /// Puts down a straight piece between two places, (across, up).
    fn cross(&mut self, a: (f64, f64), b: (f64, f64)) {
        let (low, high) = if a.1 <= b.1 { (a, b) } else { (b, a) };
        let from = (low.1 / ROW - self.first).ceil().max(0.0) as usize;
        let to = ((high.1 / ROW - self.first).floor() + 1.0).max(0.0) as usize;
        let slope = (high.0 - low.0) / (high.1 - low.1).max(f64::MIN_POSITIVE);
        for i in from..to.min(self.masks.len()) {
            let up = (self.first + i as f64) * ROW - low.1;
            let at = (low.0 + slope * up).clamp(low.0.min(high.0), low.0.max(high.0));
            let cell = (at / CELL + CELLS as f64 / 2.0).clamp(0.0, CELLS as f64 - 1.0) as usize;
            self.masks[i] |= 1 << cell;
            let reach = &mut self.reach[i * CELLS + cell];
            *reach = (reach.0.min(at), reach.1.max(at));
        }
    }

    /// Its rows from the highest down. Gaps are looked for from below: most hair parts on its way down.
    fn rows(&self) -> Vec<Row> {
        let mut rows = Vec::with_capacity(self.masks.len());
        let mut gaps = 0;
        for (i, &mask) in self.masks.iter().enumerate() {
            if mask != 0 {
                gaps = gaps_over(mask, gaps);
                rows.push(Row {
                    z: (self.first + i as f64) * ROW,
                    spans: self.spans(i, mask, gaps),
                });
            }
        }
        rows.reverse();
        rows
    }

    /// The stretches of a row between its gaps.
    fn spans(&self, row: usize, mut mask: u128, mut gaps: u128) -> Vec<(f64, f64)> {
        let reach = &self.reach[row * CELLS..(row + 1) * CELLS];
        let mut spans = Vec::new();
        while mask != 0 {
            // Up to the next gap to the right of the first cell left.
            let first = mask.trailing_zeros();
            gaps &= u128::MAX << first;
            let stretch = mask & !(u128::MAX.checked_shl(gaps.trailing_zeros()).unwrap_or(0));
            let last = 127 - stretch.leading_zeros();
            spans.push((reach[first as usize].0, reach[last as usize].1));
            mask &= !stretch;
        }
        spans
    }
}

/// The empty cells of a row that are gaps, where those of the row below are known.
fn gaps_over(mask: u128, below: u128) -> u128 {
    let mut gaps = 0;
    let mut left = mask;
    loop {
        // From the end of the first run of covered cells to the next.
        let from = left.trailing_zeros() + (left >> left.trailing_zeros()).trailing_ones();
        left &= u128::MAX.checked_shl(from).unwrap_or(0);
        if left == 0 {
            return gaps;
        }
        let wide = left.trailing_zeros() - from;
        let run = ((1_u128 << wide) - 1) << from;
        if wide >= GAP || wide >= CRACK && run & below != 0 {
            gaps |= run;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two plumb hairs, 10 cm apart, and two neighbours of different lengths.
    #[test]
    fn a_gap_stays_a_gap_and_a_hem_runs_between_neighbours() {
        let plumb = |y: f64, low: f64| vec![Vec3::new(1.0, y, 0.0), Vec3::new(1.0, y, low)];
        let drape = Drape::of(
            vec![plumb(5.0, -4.0), plumb(-5.0, -4.0), plumb(-5.5, -3.0)],
            0.5,
        );
        let rows = drape.rows(View::RightSide, |_| true);
        assert_eq!(rows.len(), 41);
        let at = |z: f64| rows.iter().find(|row| (row.z - z).abs() < 1e-9).unwrap();
        assert_eq!(at(-1.0).spans, [(-5.5, -5.0), (5.0, 5.0)]);
        let hem = at(-3.5).spans[0];
        assert!((hem.0 + 5.25).abs() < 1e-9 && hem.1 == -5.0, "{hem:?}");
        assert!(drape.rows(View::RightSide, |p| p.x < 0.0).is_empty());
    }

    #[test]
    fn what_is_no_hair_covers_nothing() {
        assert!(Drape::default().rows(View::Front, |_| true).is_empty());
        let odd = Drape::of(vec![vec![Vec3::NAN], vec![]], f64::NAN);
        assert!(odd.rows(View::Front, |_| true).is_empty());
        let far = vec![Vec3::new(1e6, 0.0, 1.0), Vec3::new(-1e6, 0.0, 0.0)];
        assert!(Drape::of(vec![far], 1.0).rows(View::Front, |_| true).len() <= 11);
    }
}
