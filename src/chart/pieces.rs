//! Pieces of lines on a map, put together, and the small sums that their finding takes.

use crate::cut::CutError;
use kurbo::Point;

/// A line shorter than this says nothing, units of the picture.
pub(super) const SPECK: f64 = 10.0;
/// Pieces of lines in the making.
#[derive(Default)]
pub(super) struct Pieces {
    /// Of one height.
    pub lines: Vec<Vec<Point>>,
    /// Where it steps.
    pub steps: Vec<Vec<Point>>,
}

/// How long a line is.
pub(super) fn long(line: &[Point]) -> f64 {
    line.windows(2).map(|p| p[0].distance(p[1])).sum()
}

/// The lowest and the highest.
pub(super) fn extremes(heights: &[f64]) -> (f64, f64) {
    let least = heights.iter().copied().fold(f64::INFINITY, f64::min);
    (
        least,
        heights.iter().copied().fold(f64::NEG_INFINITY, f64::max),
    )
}

/// Where beside `start` (a place and how far off it is) something is nothing, by secants: tried `first` to
/// either side, never farther off than `farthest`, to `near`. None if it is not found.
pub(super) fn root(
    start: (f64, f64),
    (first, farthest, near): (f64, f64, f64),
    off: &mut dyn FnMut(f64) -> Result<f64, CutError>,
) -> Result<Option<f64>, CutError> {
    for way in [first, -first] {
        let (mut a, mut b) = (start, (way, off(way)?));
        for _ in 0..6 {
            if b.1.abs() <= near {
                return Ok(Some(b.0));
            }
            let next = b.0 - b.1 * (b.0 - a.0) / (b.1 - a.1);
            if !next.is_finite() || next.abs() > farthest {
                break;
            }
            a = b;
            b = (next, off(next)?);
        }
    }
    Ok(None)
}

/// Pieces with their likes on the other side.
pub(super) fn mirror(pieces: &mut Vec<Vec<Point>>) {
    for i in 0..pieces.len() {
        let other = pieces[i].iter().map(|p| Point::new(-p.x, p.y)).collect();
        pieces.push(other);
    }
}

/// How far apart the ends of two pieces may be that are one line, units of the picture.
const JOINS: f64 = 1.0;

/// Pieces put together to lines, end to end.
pub(super) fn joined(mut pieces: Vec<Vec<Point>>) -> Vec<Vec<Point>> {
    let mut lines = Vec::new();
    while let Some(mut line) = pieces.pop() {
        // On from its end, then from its beginning.
        for _ in 0..2 {
            while let Some(&end) = line.last() {
                let mut nearest: Option<(f64, usize, bool)> = None;
                for (k, piece) in pieces.iter().enumerate() {
                    for (turned, p) in [(false, piece.first()), (true, piece.last())] {
                        let far = p.map_or(f64::INFINITY, |p| p.distance(end));
                        if far < JOINS && nearest.is_none_or(|(least, ..)| far < least) {
                            nearest = Some((far, k, turned));
                        }
                    }
                }
                let Some((_, k, turned)) = nearest else { break };
                let mut next = pieces.swap_remove(k);
                if turned {
                    next.reverse();
                }
                // Mostly both have the very same end.
                let same = next.first().is_some_and(|p| p.distance(end) < 0.1);
                line.extend(next.into_iter().skip(usize::from(same)));
            }
            line.reverse();
        }
        lines.push(line);
    }
    lines
}
