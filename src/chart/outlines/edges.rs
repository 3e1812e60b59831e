//! Rows of covered stretches as paths: what is filled, and the edge around it.
//!
//! Stretches are followed from row to row. Where one parts in two, or two join, the old ones end and
//! new ones begin; the roof or the floor of the gap between them becomes part of the edge.

use super::super::svg::put;
use super::super::view::SCALE;
use crate::fall::{ROW, Row};
use kurbo::Point;

/// Points nearer to the line between their neighbours than this are left out, units: a seventh of a
/// millimetre.
const FINE: f64 = 0.15;

/// Rows as the data of two paths, and whether they go on below what is shown.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Edges {
    /// All that is covered.
    pub fill: String,
    /// Its edge; open where it runs off below.
    pub edge: String,
    /// Whether it runs off below.
    pub runs_on: bool,
}

/// A stretch being followed down.
struct Strip {
    left: Vec<Point>,
    right: Vec<Point>,
    /// Whether nothing lies above its first row.
    topped: bool,
}

impl Edges {
    /// The paths of rows down to the height `floor` (cm).
    pub fn of(rows: &[Row], floor: f64) -> Self {
        let mut edges = Self::default();
        let mut open: Vec<Strip> = Vec::new();
        let mut last = f64::INFINITY;
        for row in rows {
            if row.z < floor {
                edges.runs_on = true;
                break;
            }
            if last - row.z > 1.5 * ROW {
                edges.end(std::mem::take(&mut open), true);
            }
            last = row.z;
            open = edges.follow(open, row);
        }
        let ended = !edges.runs_on;
        edges.end(open, ended);
        edges
    }

    /// Takes every stretch on to the next row, in groups of those that touch one another.
    fn follow(&mut self, open: Vec<Strip>, row: &Row) -> Vec<Strip> {
        let at = |across: f64| Point::new(across * SCALE, -row.z * SCALE);
        let mut next = Vec::with_capacity(row.spans.len());
        let mut above = open.into_iter().peekable();
        let mut below = row.spans.iter().copied().peekable();
        while above.peek().is_some() || below.peek().is_some() {
            let start = |strip: Option<&Strip>, span: Option<&(f64, f64)>| {
                let of_strip = strip.map_or(f64::INFINITY, |strip| strip.from());
                of_strip.min(span.map_or(f64::INFINITY, |span| span.0 * SCALE))
            };
            let mut to = start(above.peek(), below.peek());
            let (mut ups, mut downs) = (Vec::new(), Vec::new());
            loop {
                if let Some(strip) = above.next_if(|strip| strip.from() <= to) {
                    to = to.max(strip.to());
                    ups.push(strip);
                } else if let Some(span) = below.next_if(|span| span.0 * SCALE <= to) {
                    to = to.max(span.1 * SCALE);
                    downs.push((at(span.0), at(span.1)));
                } else {
                    break;
                }
            }
            self.join(ups, &downs, &mut next);
        }
        next
    }

    /// One group: stretches of the row above, and of this row, that touch one another.
    fn join(&mut self, mut ups: Vec<Strip>, downs: &[(Point, Point)], next: &mut Vec<Strip>) {
        if ups.len() == 1
            && let &[(left, right)] = downs
            && let Some(mut strip) = ups.pop()
        {
            strip.left.push(left);
            strip.right.push(right);
            next.push(strip);
            return;
        }
        let (Some(&(left, _)), Some(&(_, right))) = (downs.first(), downs.last()) else {
            self.end(ups, true);
            return;
        };
        // The outer edges go on; what opens or closes between them has a roof or a floor.
        let outer = ups.first().zip(ups.last());
        let outer = outer.and_then(|(a, b)| Some((*a.left.last()?, *b.right.last()?)));
        if let Some((from, to)) = outer {
            put_line(&mut self.fill, &[left, from, to, right]);
            self.fill.push('Z');
            self.stroke(&[from, left]);
            self.stroke(&[to, right]);
        }
        for pair in ups.windows(2) {
            if let (Some(&a), Some(&b)) = (pair[0].right.last(), pair[1].left.last()) {
                self.stroke(&[a, b]);
            }
        }
        for pair in downs.windows(2) {
            self.stroke(&[pair[0].1, pair[1].0]);
        }
        next.extend(downs.iter().map(|&(from, to)| Strip {
            left: vec![from],
            right: vec![to],
            topped: outer.is_none(),
        }));
        for strip in ups {
            self.finish(&strip, false);
        }
    }

    fn end(&mut self, strips: Vec<Strip>, ended: bool) {
        for strip in strips {
            self.finish(&strip, ended);
        }
    }

    /// Writes a stretch that goes no further; `ended` if nothing lies below it.
    fn finish(&mut self, strip: &Strip, ended: bool) {
        let (left, right) = (thinned(&strip.left), thinned(&strip.right));
        let round: Vec<Point> = left.iter().rev().chain(&right).copied().collect();
        put_line(&mut self.fill, &round);
        self.fill.push('Z');
        match (strip.topped, ended) {
            (true, true) => {
                put_line(&mut self.edge, &round);
                self.edge.push('Z');
            }
            (true, false) => self.stroke(&round),
            (false, true) => {
                let under: Vec<Point> = left.iter().chain(right.iter().rev()).copied().collect();
                self.stroke(&under);
            }
            (false, false) => {
                self.stroke(&left);
                self.stroke(&right);
            }
        }
    }

    fn stroke(&mut self, points: &[Point]) {
        put_line(&mut self.edge, points);
    }
}

impl Strip {
    fn from(&self) -> f64 {
        self.left.last().map_or(f64::INFINITY, |p| p.x)
    }

    fn to(&self) -> f64 {
        self.right.last().map_or(f64::NEG_INFINITY, |p| p.x)
    }
}

/// Writes a line through points.
pub(super) fn put_line(data: &mut String, points: &[Point]) {
    for (i, p) in points.iter().enumerate() {
        data.push(if i == 0 { 'M' } else { 'L' });
        put(data, p.x);
        data.push(' ');
        put(data, p.y);
    }
}

/// A line with fewer points, none of those left out further than [`FINE`] from it (Ramer, 1972; Douglas
/// and Peucker, 1973).
fn thinned(points: &[Point]) -> Vec<Point> {
    let mut kept = vec![false; points.len()];
    let mut spans = Vec::new();
    if let Some(last) = points.len().checked_sub(1) {
        (kept[0], kept[last]) = (true, true);
        spans.push((0, last));
    }
    while let Some((from, to)) = spans.pop() {
        let along = points[to] - points[from];
        let long = along.hypot().max(f64::MIN_POSITIVE);
        let off = |i: usize| along.cross(points[i] - points[from]).abs() / long;
        let mut furthest = (FINE, None);
        for i in from + 1..to {
            if off(i) > furthest.0 {
                furthest = (off(i), Some(i));
            }
        }
        if let (_, Some(i)) = furthest {
            kept[i] = true;
            spans.extend([(from, i), (i, to)]);
        }
    }
    let pairs = points.iter().zip(kept);
    pairs.filter(|(_, kept)| *kept).map(|(p, _)| *p).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(z: f64, spans: &[(f64, f64)]) -> Row {
        Row {
            z,
            spans: spans.to_vec(),
        }
    }

    #[test]
    fn a_block_is_one_closed_edge() {
        let rows: Vec<Row> = (0..4)
            .map(|i| row(-0.1 * f64::from(i), &[(-1.0, 2.0)]))
            .collect();
        let edges = Edges::of(&rows, -9.0);
        assert_eq!(edges.edge, "M-10 3L-10 0L20 0L20 3Z");
        assert_eq!(edges.fill, edges.edge);
        assert!(!edges.runs_on);
        let cut = Edges::of(&rows, -0.25);
        assert_eq!(cut.edge, "M-10 2L-10 0L20 0L20 2");
        assert!(cut.runs_on);
    }

    #[test]
    fn two_legs_have_a_roof_between_them_and_two_feet() {
        let rows = [
            row(0.0, &[(-3.0, 3.0)]),
            row(-0.1, &[(-3.0, -1.0), (1.0, 3.0)]),
            row(-0.2, &[(-3.0, -1.0), (1.0, 3.0)]),
        ];
        let edges = Edges::of(&rows, -9.0);
        assert!(edges.edge.contains("M-10 1L10 1"), "{}", edges.edge);
        assert!(edges.edge.contains("L-30 2L-10 2"), "{}", edges.edge);
        assert!(edges.edge.contains("L10 2L30 2"), "{}", edges.edge);
        assert_eq!(edges.fill.matches('Z').count(), 4);
        // The same upside down: a floor over the gap.
        let flipped: Vec<Row> = rows.iter().rev().map(|r| row(-r.z, &r.spans)).collect();
        let edges = Edges::of(&flipped, -9.0);
        assert!(edges.edge.contains("M-10 -1L10 -1"), "{}", edges.edge);
    }

    #[test]
    fn nothing_has_no_edge_and_a_break_ends_it() {
        assert_eq!(Edges::of(&[], 0.0), Edges::default());
        let apart = [row(0.0, &[(0.0, 1.0)]), row(-2.0, &[(0.0, 1.0)])];
        assert_eq!(Edges::of(&apart, -9.0).edge.matches('Z').count(), 2);
    }
}
