//! Values on contour lines: each where there is most room.

use super::contours::Contour;
use super::pieces::long;
use super::svg::Svg;
use super::view::SCALE;
use crate::head::Head;
use crate::measure::Length;
use kurbo::{Point, Rect};

/// Measures of words on the map, in its units: the height of a figure, the width of one. They are those of the
/// narrowest screens, where the style makes letters larger against the map.
const TALL: f64 = 12.5;
const WIDE: f64 = 7.4;
/// So many places of a line, or up to twice as many, are looked at for its value.
const PLACES: usize = 14;
/// A line shorter than this has a value only if no other says it; one longer than that has two.
const BRIEF: f64 = 50.0;
const LONG: f64 = 330.0;

/// Room that a word takes.
pub(super) struct Word {
    pub at: Point,
    /// Half its width.
    half: f64,
}

impl Word {
    pub fn new(at: Point, text: &str) -> Self {
        let half = (text.chars().count() as f64 * WIDE / 2.0).max(2.0);
        Self { at, half }
    }

    pub fn write(&self, svg: &mut Svg, class: &str, text: &str) {
        svg.word(class, Point::new(self.at.x, self.at.y + TALL * 0.36), text);
    }

    /// How far a place is from it; below zero within.
    fn clear_of_point(&self, p: Point) -> f64 {
        let (dx, dy) = ((p.x - self.at.x).abs(), (p.y - self.at.y).abs());
        (dx - self.half).max(dy - TALL / 2.0)
    }

    /// How far another word is from it.
    pub fn clear_of(&self, other: &Self) -> f64 {
        let (dx, dy) = (
            (other.at.x - self.at.x).abs(),
            (other.at.y - self.at.y).abs(),
        );
        (dx - self.half - other.half).max(dy - TALL)
    }
}

/// Writes the values onto their lines, each where there is most room; where there is none and it is
/// optional, none.
pub(super) fn label(
    svg: &mut Svg,
    head: &Head,
    (contours, optional): (&[Contour], bool),
    says: &dyn Fn(Length) -> String,
    taken: &mut Vec<Word>,
) {
    let mut told: Vec<Length> = Vec::new();
    let boxes: Vec<Rect> = contours.iter().map(|c| bounds(&c.line)).collect();
    let all = (contours, &boxes[..]);
    // The longest first: they have the choice.
    let mut longest: Vec<(f64, usize)> = Vec::new();
    for (k, contour) in contours.iter().enumerate() {
        let long = long(&contour.line);
        let before = longest.partition_point(|(other, _)| *other >= long);
        longest.insert(before, (long, k));
    }
    for (long, k) in longest {
        let contour = &contours[k];
        let times = match long {
            _ if long < BRIEF => usize::from(!told.contains(&contour.value)),
            _ if long < LONG => 1,
            _ => 2,
        };
        let text = says(contour.value);
        for _ in 0..times {
            let mut best: Option<(f64, Word)> = None;
            let mut see = |p: Point, own: Option<usize>| {
                let word = Word::new(p, &text);
                let least = best.as_ref().map_or(f64::NEG_INFINITY, |(most, _)| *most);
                let room = room(head, all, own, &word, (taken, least));
                if best.as_ref().is_none_or(|(most, _)| room > *most) {
                    best = Some((room, word));
                }
            };
            // Enough places to choose from.
            let apart = (contour.line.len() / PLACES).max(1);
            for &p in contour.line.iter().step_by(apart) {
                see(p, Some(k));
                // Beside a small ring rather than over it.
                for (dx, dy) in [(-14.0, 0.0), (14.0, 0.0), (0.0, -11.0), (0.0, 11.0)] {
                    if long < BRIEF {
                        see(Point::new(p.x + dx, p.y + dy), None);
                    }
                }
            }
            let Some((room, word)) = best else { break };
            if room < 0.0 && (optional || told.contains(&contour.value)) {
                break;
            }
            let class = if contour.heavy {
                "c-label c-label-heavy"
            } else {
                "c-label"
            };
            word.write(svg, class, &text);
            taken.push(word);
            told.push(contour.value);
        }
    }
}

/// The box around a line.
fn bounds(line: &[Point]) -> Rect {
    let first = line.first().copied().unwrap_or_default();
    let around = |all: Rect, p: &Point| all.union_pt(*p);
    line.iter().fold(Rect::from_points(first, first), around)
}

/// How far a word on a line is from all else, or anything less than `least` if it is less than that. From
/// its own twin on the same line it should be farther.
fn room(
    head: &Head,
    (contours, boxes): (&[Contour], &[Rect]),
    own: Option<usize>,
    word: &Word,
    (taken, least): (&[Word], f64),
) -> f64 {
    /// More room than this is no better.
    const ENOUGH: f64 = 7.0;
    let mut room = ENOUGH;
    let mut farthest: f64 = 200.0;
    for other in taken {
        room = room.min(word.clear_of(other));
        farthest = farthest.min(other.at.distance(word.at));
    }
    let from_its_likes = farthest * 0.02;
    // Not over the hairline.
    let azimuth = (-word.at.x).atan2(-word.at.y);
    let edge = head.hairline().distance(azimuth) * SCALE - word.at.to_vec2().hypot();
    room = room.min(edge - word.half);
    for (k, (contour, around)) in contours.iter().zip(boxes).enumerate() {
        if room + from_its_likes <= least {
            break;
        }
        // The line itself counts only where the word stands beside it.
        let near = around
            .inflate(word.half + ENOUGH, TALL / 2.0 + ENOUGH)
            .contains(word.at);
        if Some(k) == own || !near {
            continue;
        }
        for pair in contour.line.windows(2) {
            for p in [pair[0], pair[0].midpoint(pair[1])] {
                room = room.min(word.clear_of_point(p));
            }
        }
    }
    room + from_its_likes
}
