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
const SAME_SIDE: f64 = 0.6;
const SPREAD: f64 = 2.0;

/// Rows from one to the next at which neighbours are looked at on their way down.
const STITCH: usize = 5;
/// A stretch narrower than this, cm, apart from all other hair, is a single hair astray, and left out.
const ASTRAY: f64 = 0.02;

/// The ways of many hairs, and what is sewn between neighbours: the scalp from root to root, the cloth from
/// way to way, and the hem from end to end.
#[derive(Clone, Debug, Default)]
pub struct Drape {
    ways: Vec<Vec<Vec3>>,
    neighbours: Vec<Neighbours>,
}

/// Two ways, and how far from each other they may fall and still be one cloth, cm.
#[derive(Clone, Copy, Debug)]
struct Neighbours {
    ways: [usize; 2],
    most: f64,
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
        let mut neighbours = Vec::new();
        let roots: Vec<(usize, Vec3)> = ways
            .iter()
            .enumerate()
            .filter_map(|(i, way)| Some((i, *way.first()?)))
            .collect();
        let mut close: Vec<(usize, Vec3)> = Vec::new();
        for &(i, root) in &roots {
            close.clear();
            close.extend(roots.iter().filter(|o| root.distance_squared(o.1) < near));
            for &(k, other) in close.iter().filter(|o| o.0 > i) {
                // Neighbours where no third root lies within the circle over both.
                let away = root.distance_squared(other);
                let between = |(_, third): &(usize, Vec3)| {
                    root.distance_squared(*third) + other.distance_squared(*third) < away
                };
                if !close.iter().any(between) {
                    neighbours.push(Neighbours {
                        ways: [i, k],
                        most: SAME_SIDE + SPREAD * away.sqrt(),
                    });
                }
            }
        }
        Self { ways, neighbours }
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
        let mut sheet = Sheet::new(low, high, self.ways.len());
        let across = view.across();
        let flat = |p: Vec3| (across.dot(p), p.z);
        for (i, way) in self.ways.iter().enumerate() {
            for pair in way.windows(2) {
                if seen((pair[0] + pair[1]) / 2.0) {
                    sheet.cross(flat(pair[0]), flat(pair[1]), Some(i));
                }
            }
        }
        for pair in &self.neighbours {
            let [a, b] = pair.ways.map(|i| &self.ways[i]);
            let ends = [a.last(), b.last()];
            if let ([Some(&root), Some(&other)], [Some(&end), Some(&its_end)]) =
                ([a.first(), b.first()], ends)
            {
                if seen((root + other) / 2.0) {
                    sheet.cross(flat(root), flat(other), None);
                }
                if end.distance(its_end) < pair.most && seen((end + its_end) / 2.0) {
                    sheet.cross(flat(end), flat(its_end), None);
                }
            }
            sheet.stitch(*pair);
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
    /// Where each way crosses every [`STITCH`]th row, across; not a number where it does not.
    columns: Vec<f64>,
    /// The cells between neighbours in those rows.
    cloth: Vec<u128>,
}

impl Sheet {
    fn new(low: f64, high: f64, ways: usize) -> Self {
        let first = (low / ROW).ceil();
        let count = ((high / ROW).floor() - first + 1.0).max(0.0) as usize;
        let stitches = count / STITCH + 1;
        Self {
            first,
            masks: vec![0; count],
            reach: vec![(f64::INFINITY, f64::NEG_INFINITY); count * CELLS],
            columns: vec![f64::NAN; ways * stitches],
            cloth: vec![0; stitches],
        }
    }

    /// Puts down a straight piece between two places, (across, up), of a way or of what is sewn.
    fn cross(&mut self, a: (f64, f64), b: (f64, f64), way: Option<usize>) {
        let (low, high) = if a.1 <= b.1 { (a, b) } else { (b, a) };
        let from = (low.1 / ROW - self.first).ceil().max(0.0) as usize;
        let to = ((high.1 / ROW - self.first).floor() + 1.0).max(0.0) as usize;
        let slope = (high.0 - low.0) / (high.1 - low.1).max(f64::MIN_POSITIVE);
        for i in from..to.min(self.masks.len()) {
            let up = (self.first + i as f64) * ROW - low.1;
            let at = (low.0 + slope * up).clamp(low.0.min(high.0), low.0.max(high.0));
            let cell = cell(at);
            self.masks[i] |= 1 << cell;
            let reach = &mut self.reach[i * CELLS + cell];
            *reach = (reach.0.min(at), reach.1.max(at));
            if let Some(way) = way.filter(|_| i % STITCH == 0) {
                self.columns[way * self.cloth.len() + i / STITCH] = at;
            }
        }
    }

    /// Covers what lies between two neighbours, as far down as they stay together.
    fn stitch(&mut self, pair: Neighbours) {
        let stitches = self.cloth.len();
        let [a, b] = pair
            .ways
            .map(|way| &self.columns[way * stitches..(way + 1) * stitches]);
        for ((a, b), cloth) in a.iter().zip(b).zip(&mut self.cloth) {
            // False where one of them is not there.
            if (a - b).abs() < pair.most {
                let (from, to) = (cell(a.min(*b)), cell(a.max(*b)));
                *cloth |= (u128::MAX >> (CELLS - 1 - (to - from))) << from;
            }
        }
    }

    /// Its rows from the highest down. Gaps are looked for from below: most hair parts on its way down.
    fn rows(&self) -> Vec<Row> {
        let mut rows = Vec::with_capacity(self.masks.len());
        let mut gaps = 0;
        for (i, &mask) in self.masks.iter().enumerate() {
            if mask != 0 {
                let cloth = self.cloth[((i + STITCH / 2) / STITCH).min(self.cloth.len() - 1)];
                gaps = gaps_over(mask | cloth, gaps);
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
        if spans.len() > 1 {
            spans.retain(|(from, to)| to - from > ASTRAY);
        }
        spans
    }
}

/// The cell of a place across.
fn cell(at: f64) -> usize {
    (at / CELL + CELLS as f64 / 2.0).clamp(0.0, CELLS as f64 - 1.0) as usize
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

    /// Two pairs of plumb hairs, 10 cm apart, one of different lengths.
    #[test]
    fn a_gap_stays_a_gap_and_a_hem_runs_between_neighbours() {
        let plumb = |y: f64, low: f64| vec![Vec3::new(1.0, y, 0.0), Vec3::new(1.0, y, low)];
        let right = [plumb(5.0, -4.0), plumb(5.3, -4.0)];
        let left = [plumb(-5.0, -4.0), plumb(-5.5, -3.0)];
        let drape = Drape::of([right, left].concat(), 0.5);
        let rows = drape.rows(View::RightSide, |_| true);
        assert_eq!(rows.len(), 41);
        let at = |z: f64| rows.iter().find(|row| (row.z - z).abs() < 1e-9).unwrap();
        assert_eq!(at(-1.0).spans, [(-5.5, -5.0), (5.0, 5.3)]);
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
