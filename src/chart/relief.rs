//! A height over the scalp laid flat, and the lines along which it is the same.
//!
//! Squares are marched over a polar lattice about the high point, so that the hairline is an edge of it.
//! Where a line crosses an edge is found with the height itself, never only between two samples; and
//! where a piece strays from its height in the middle it is bent. A square that holds a step is looked
//! at more finely, and what is left of it there breaks the lines.

use super::pieces::{Pieces, SPECK, extremes, joined, long, mirror, root};
use super::polar::Polar;
use super::scalp_map::{place, scalp_spot};
use super::view::SCALE;
use crate::cut::CutError;
use crate::geometry::Vec3;
use crate::head::{Head, Spot};
use kurbo::Point;
use std::f64::consts::TAU;

/// Columns about the whole head and rows down to the hairline.
const AROUND: usize = 40;
const DOWN: usize = 9;
/// Parts of a square's edge where it is looked at more finely.
const FINER: usize = 4;
/// How far above a value its line lies (below it where nothing is above zero), cm: a plain of just that length has no line on it.
const ABOVE: f64 = 0.01;
/// How near a crossing comes to its line, cm of height.
const NEAR: f64 = 0.006;
/// No crossing is further off than this, cm of height.
const LOOSE: f64 = 0.025;
/// A middle of a piece this far beside its line, cm on the scalp, is moved onto it.
const STRAYS: f64 = 0.06;
/// A piece longer than this is looked at in its halves too, units of the picture.
const LONG: f64 = 24.0;
/// An edge this short is not halved any more, cm; what then differs by more than [`STEP`], cm, is a step.
const SHORT: f64 = 0.04;
const STEP: f64 = 0.12;
/// No slope of hair is steeper than this, cm a cm, but for a step of this many cm. A taut length changes by
/// at most a cm a cm; curls, fades and lines that go round the head with the root add to that. Judgement.
const STEEPEST: f64 = 1.6;
const HUMP: f64 = 0.3;

/// A height at a root, cm.
pub(super) type HeightAt<'a> = &'a dyn Fn(Vec3) -> Result<f64, CutError>;

/// A line of one height.
#[derive(Clone, Debug)]
pub(super) struct Level {
    /// The height, cm.
    pub value: f64,
    /// The line, in units of the picture.
    pub line: Vec<Point>,
}

/// A height over the scalp.
pub(super) struct Relief<'a> {
    head: &'a Head,
    height: HeightAt<'a>,
    /// A square whose corners differ by less for each of its finest parts is a plain and has no line, cm.
    plain: f64,
    /// How far beside a value its line lies, cm.
    beside: f64,
    /// Only the left is looked at; the right is like it.
    alike: bool,
    columns: usize,
    known: Vec<f64>,
    /// Edges that were found to have a step: which, where, and from which height to which.
    broken: Vec<(usize, Point, f64, f64)>,
    /// Where the line that is followed crosses edges: two squares have each of them.
    crossed: Vec<(usize, Point)>,
    /// Squares whose step is known.
    stepped: Vec<bool>,
    polar: Polar<'a>,
    /// How often the height was asked for.
    pub asked: usize,
}

/// A place on the lattice, in its finest parts: column and row.
type Node = (usize, usize);

/// What an edge of a square has of a line.
enum Crossing {
    None,
    At(Point),
    /// The height steps over it there.
    Step(Point),
    /// It was not found soon.
    Unclear,
}

impl<'a> Relief<'a> {
    /// The height over this head; `alike` if it is so on the left and on the right.
    pub fn new(head: &'a Head, height: HeightAt<'a>, alike: bool) -> Self {
        let columns = AROUND * FINER / if alike { 2 } else { 1 };
        let all = columns + 1;
        Self {
            head,
            height,
            plain: 0.0,
            beside: ABOVE,
            alike,
            columns,
            known: vec![f64::NAN; all * (DOWN * FINER + 1)],
            broken: Vec::new(),
            crossed: Vec::new(),
            stepped: vec![false; all * (DOWN * FINER + 1)],
            polar: Polar::new(head, AROUND, alike),
            asked: 0,
        }
    }

    /// The lowest and the highest of its coarse places, cm.
    pub fn range(&mut self) -> Result<(f64, f64), CutError> {
        let mut all = Vec::new();
        for i in (0..=self.columns).step_by(FINER) {
            for j in (0..=DOWN * FINER).step_by(FINER) {
                all.push(self.node((i, j))?);
            }
        }
        let (low, high) = extremes(&all);
        // A plain at the very top would have its line nowhere.
        self.beside = if high > ABOVE { ABOVE } else { -ABOVE };
        Ok((low, high))
    }

    /// The lines of these heights, and the steps that were met on the way, on both sides of the head. Where
    /// heights differ by less than `plain` cm from corner to corner of a square there are none.
    pub fn levels(
        &mut self,
        values: &[f64],
        plain: f64,
    ) -> Result<(Vec<Level>, Vec<Vec<Point>>), CutError> {
        self.plain = plain / FINER as f64;
        let mut levels = Vec::new();
        let mut steps = Vec::new();
        for &value in values {
            let mut pieces = Pieces::default();
            self.crossed.clear();
            for i in (0..self.columns).step_by(FINER) {
                for j in (0..DOWN * FINER).step_by(FINER) {
                    self.square((i, j), FINER, value + self.beside, &mut pieces)?;
                }
            }
            if self.alike {
                mirror(&mut pieces.lines);
                mirror(&mut pieces.steps);
            }
            for line in joined(pieces.lines) {
                if long(&line) > SPECK {
                    levels.push(Level { value, line });
                }
            }
            steps.extend(pieces.steps);
        }
        Ok((levels, joined(steps)))
    }

    /// One square of the lattice, `size` of its finest parts wide.
    fn square(
        &mut self,
        (i, j): Node,
        size: usize,
        value: f64,
        pieces: &mut Pieces,
    ) -> Result<(), CutError> {
        let corners = [(i, j), (i + size, j), (i + size, j + size), (i, j + size)];
        let mut heights = [0.0; 4];
        for (height, corner) in heights.iter_mut().zip(corners) {
            *height = self.node(corner)?;
        }
        let above = heights.map(|h| h >= value);
        let (low, high) = extremes(&heights);
        if low >= value || high < value || high - low < self.plain * size as f64 {
            return Ok(());
        }
        let mut crossings: Vec<Point> = Vec::new();
        let mut steps: Vec<Point> = Vec::new();
        for k in 0..4 {
            let (a, b) = (k, (k + 1) % 4);
            let sides = (corners[a], corners[b]);
            if size > 1 && self.too_steep(sides, heights[b] - heights[a]) {
                return self.finer((i, j), size, value, pieces);
            }
            if above[a] == above[b] {
                continue;
            }
            match self.crossing(sides, (heights[a], heights[b]), value)? {
                Crossing::None => {}
                Crossing::At(p) => crossings.push(p),
                Crossing::Unclear => return self.finer((i, j), size, value, pieces),
                Crossing::Step(p) => steps.push(p),
            }
        }
        if !steps.is_empty() {
            // The line ends here. Another line meets the same step in the same square: once is enough.
            let index = i * (DOWN * FINER + 1) + j;
            if steps.len() == 2 && !self.stepped[index] {
                self.stepped[index] = true;
                pieces.steps.push(steps);
            }
            return Ok(());
        }
        let pairs = match crossings.len() {
            2 => vec![(0, 1)],
            // A saddle: what is above in the middle stays together.
            4 => {
                let middle = heights.iter().sum::<f64>() / 4.0;
                if (middle >= value) == above[0] {
                    vec![(0, 1), (2, 3)]
                } else {
                    vec![(3, 0), (1, 2)]
                }
            }
            _ => return Ok(()),
        };
        let slope = self.slope(corners, heights);
        let mut bent = Vec::new();
        for (a, b) in pairs {
            let mut line = vec![crossings[a]];
            if !self.bend(crossings[a], crossings[b], value, slope, 3, &mut line)? {
                if size > 1 {
                    return self.finer((i, j), size, value, pieces);
                }
                continue;
            }
            bent.push(line);
        }
        pieces.lines.extend(bent);
        Ok(())
    }

    /// The same square in its quarters.
    fn finer(
        &mut self,
        (i, j): Node,
        size: usize,
        value: f64,
        pieces: &mut Pieces,
    ) -> Result<(), CutError> {
        let half = size / 2;
        for (di, dj) in [(0, 0), (half, 0), (0, half), (half, half)] {
            self.square((i + di, j + dj), half, value, pieces)?;
        }
        Ok(())
    }

    /// The line from `from` to `to`, bent to where the height is `value`, without its first point. False
    /// where it cannot be.
    fn bend(
        &mut self,
        from: Point,
        to: Point,
        value: f64,
        slope: f64,
        halvings: usize,
        line: &mut Vec<Point>,
    ) -> Result<bool, CutError> {
        let along = to - from;
        let length = along.hypot();
        if length < STRAYS * SCALE * 4.0 {
            line.push(to);
            return Ok(true);
        }
        let middle = from.midpoint(to);
        let across = kurbo::Vec2::new(-along.y, along.x) / length;
        // Beside the middle, in cm: first there, then where the slope says, then by what was found.
        let off = self.height_at(middle)? - value;
        let strays = STRAYS * slope + NEAR;
        if off.abs() <= strays && length <= LONG {
            line.push(to);
            return Ok(true);
        }
        let mut at = 0.0;
        if off.abs() > strays {
            // So crooked a piece is looked at more finely.
            if halvings == 0 {
                return Ok(false);
            }
            let farthest = length / SCALE / 2.0;
            let first = (off.abs() / slope).clamp(0.02, farthest);
            let mut beside = |at: f64| Ok(self.height_at(middle + across * at * SCALE)? - value);
            match root((0.0, off), (first, farthest, strays / 2.0), &mut beside)? {
                Some(found) => at = found,
                None => return Ok(false),
            }
        }
        let bent = middle + across * at * SCALE;
        let fewer = halvings.saturating_sub(1);
        Ok(self.bend(from, bent, value, slope, fewer, line)?
            && self.bend(bent, to, value, slope, fewer, line)?)
    }

    /// Where the height crosses `value` on an edge, whose ends it parts.
    fn crossing(
        &mut self,
        (a, b): (Node, Node),
        (at_a, at_b): (f64, f64),
        value: f64,
    ) -> Result<Crossing, CutError> {
        let (from, to) = (self.spot(a), self.spot(b));
        let long = place(self.head, from).distance(place(self.head, to)) / SCALE;
        if long < 1e-6 {
            return Ok(Crossing::None);
        }
        // Edges run right or down: which is told by their first end, their way and how long they are.
        let (first, second) = (a.min(b), a.max(b));
        let index = first.0 * (DOWN * FINER + 1) + first.1;
        let right = second.0 - first.0;
        let (across, size) = (usize::from(right > 0), right + second.1.abs_diff(first.1));
        let coarse = size > 1;
        let key = 16 * index + 8 * across + size;
        let known = self.crossed.partition_point(|(other, _)| *other < key);
        if let Some(&(other, at)) = self.crossed.get(known)
            && other == key
        {
            return Ok(Crossing::At(at));
        }
        let place_of = self.broken.partition_point(|(other, ..)| *other < key);
        if let Some(&(other, at, from, to)) = self.broken.get(place_of)
            && other == key
            && (from..=to).contains(&value)
        {
            return Ok(Crossing::Step(at));
        }
        let (mut low, mut high) = ((0.0, at_a - value), (1.0, at_b - value));
        // Half of what a line may stray, along the edge.
        let near = ((at_a - at_b).abs() / long * STRAYS / 2.0).clamp(NEAR, LOOSE);
        let mut tries = 0;
        loop {
            // Where its neighbours bend the edge to, by the rule of three, then mostly by halves: a step is
            // no slope.
            let share = if tries == 0 && coarse {
                self.bent((a, b), (at_a, at_b), value)
            } else if tries < 2 || tries % 4 == 3 {
                low.0 + (high.0 - low.0) * low.1 / (low.1 - high.1)
            } else {
                f64::midpoint(low.0, high.0)
            };
            let spot = Spot {
                azimuth: from.azimuth + (to.azimuth - from.azimuth) * share,
                out: from.out + (to.out - from.out) * share,
            };
            let off = self.at(spot)? - value;
            if off.abs() <= near {
                let at = place(self.head, spot);
                self.crossed.insert(known, (key, at));
                return Ok(Crossing::At(at));
            }
            if (off >= 0.0) == (low.1 >= 0.0) {
                low = (share, off);
            } else {
                high = (share, off);
            }
            tries += 1;
            if coarse && tries > 4 {
                return Ok(Crossing::Unclear);
            }
            if (high.0 - low.0) * long < SHORT || tries > 24 {
                let at = place(self.head, spot);
                if (high.1 - low.1).abs() <= STEP {
                    self.crossed.insert(known, (key, at));
                    return Ok(Crossing::At(at));
                }
                let ends = (low.1 + value, high.1 + value);
                let step = (key, at, ends.0.min(ends.1), ends.0.max(ends.1));
                self.broken.insert(place_of, step);
                return Ok(Crossing::Step(at));
            }
        }
    }

    /// The share of the way along a coarse edge at which its height is about `value`: of a curve of the second
    /// degree through its ends and the nodes beyond them that are known. Within a fiftieth of its ends.
    fn bent(&self, (a, b): (Node, Node), (at_a, at_b): (f64, f64), value: f64) -> f64 {
        let slope = at_b - at_a;
        let beyond = |p: Node, q: Node| {
            // One edge further on from p through q.
            let i = (2 * q.0).checked_sub(p.0).filter(|i| *i <= self.columns)?;
            let j = (2 * q.1).checked_sub(p.1).filter(|j| *j <= DOWN * FINER)?;
            let column = if j == 0 { 0 } else { i };
            let height = self.known.get(column * (DOWN * FINER + 1) + j)?;
            height.is_finite().then_some(*height)
        };
        // Half of the second difference on either side, but for where something breaks.
        let curve = |second: f64| Some(second / 2.0).filter(|c| c.abs() < slope.abs() / 3.0);
        let before = beyond(b, a).and_then(|h| curve(h - 2.0 * at_a + at_b));
        let after = beyond(a, b).and_then(|h| curve(h - 2.0 * at_b + at_a));
        let curve = match (before, after) {
            (Some(one), Some(other)) => f64::midpoint(one, other),
            (one, other) => one.or(other).unwrap_or(0.0),
        };
        let mut share = (value - at_a) / slope;
        for _ in 0..2 {
            // at_a + slope t + curve t (t − 1) = value, by Newton's way.
            let off = at_a + slope * share + curve * share * (share - 1.0) - value;
            share -= off / (slope + curve * (2.0 * share - 1.0));
        }
        share.clamp(0.02, 0.98)
    }

    /// Whether heights on an edge differ by more than any slope makes them.
    fn too_steep(&self, (a, b): (Node, Node), difference: f64) -> bool {
        // Most do not: nothing is measured for them.
        difference.abs() > HUMP && {
            let ends = [a, b].map(|node| place(self.head, self.spot(node)));
            difference.abs() > HUMP + STEEPEST * ends[0].distance(ends[1]) / SCALE
        }
    }

    /// About how steep a square is at least, cm a cm.
    fn slope(&self, corners: [Node; 4], heights: [f64; 4]) -> f64 {
        let at = corners.map(|node| place(self.head, self.spot(node)));
        let one = |a: usize, b: usize| {
            (heights[a] - heights[b]).abs() / (at[a].distance(at[b]) / SCALE).max(0.05)
        };
        one(0, 2).min(one(1, 3)).max(0.02)
    }

    fn spot(&self, (i, j): Node) -> Spot {
        let turn = i as f64 / (AROUND * FINER) as f64 * TAU;
        Spot {
            azimuth: self.polar.start() + turn,
            out: j as f64 / (DOWN * FINER) as f64,
        }
    }

    fn node(&mut self, node: Node) -> Result<f64, CutError> {
        let (i, j) = node;
        // Round the head the last column is the first; at the high point all are one.
        let column = match i {
            _ if j == 0 => 0,
            _ if !self.alike => i % self.columns,
            _ => i,
        };
        let index = column * (DOWN * FINER + 1) + j;
        if self.known[index].is_nan() {
            self.known[index] = self.at(self.spot((column, j)))?;
        }
        Ok(self.known[index])
    }

    fn height_at(&mut self, p: Point) -> Result<f64, CutError> {
        self.at(scalp_spot(self.head, p))
    }

    /// The height at a spot of the scalp.
    fn at(&mut self, spot: Spot) -> Result<f64, CutError> {
        self.asked += 1;
        (self.height)(self.polar.root(spot))
    }
}
