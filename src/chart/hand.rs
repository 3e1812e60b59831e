//! Hand and scissors at a cutting line, as the person sees them who cuts.
//!
//! The free hand holds the hair between two fingers along the line, or holds the comb; the scissors
//! come in from the side of the hand that cuts. Sizes are those of a middling hand. Judgement.

use super::svg::{Svg, polyline};
use super::view::View;
use crate::cut::{CuttingLine, SectionCut};
use crate::geometry::Convex;
use crate::head::Head;
use crate::measure::Hand;
use crate::plan::Technique;
use crate::words::tr;
use kurbo::{BezPath, Point, Vec2};

/// Who cuts, and how.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct InHand {
    /// The hand that holds the scissors.
    pub hand: Hand,
    /// How the ends are cut; none counts as between the fingers.
    pub technique: Option<Technique>,
}

impl InHand {
    /// What is drawn, in a sentence.
    pub fn sentence(&self) -> String {
        let (scissors, free) = (self.hand.said(), self.hand.other().said());
        match self.technique {
            Some(Technique::Freehand) => tr!(
                "The scissors come in from the {scissors} of the picture.",
                scissors
            ),
            Some(Technique::OverComb) => tr!(
                "The {free} hand holds the comb along the line; the scissors come in from the {scissors} of the picture.",
                free,
                scissors
            ),
            _ => tr!(
                "Two fingers of the {free} hand hold it along the line; the scissors come in from the {scissors} of the picture.",
                free,
                scissors
            ),
        }
    }
}

/// Half of what one grip takes of a line, in millimetres.
const HALF_GRIP: f64 = 34.0;
/// A line shorter than this in the picture is seen from its end.
const END_ON: f64 = 14.0;
/// Below this share of its length across the page a line counts as upright.
const UPRIGHT: f64 = 0.3;
/// A finger: how broad, how long up to where it is lost from sight.
const BROAD: f64 = 11.0;
const LONG: f64 = 74.0;
/// Scissors: from the pivot to the tips, to the rings, half between the rings, a ring's radius.
const BLADE: f64 = 40.0;
const SHANK: f64 = 24.0;
const APART: f64 = 7.5;
const RING: f64 = 6.5;

/// Draws hand and scissors at the line of a section; nothing where no hair reaches a line.
pub(super) fn draw(svg: &mut Svg, head: &Head, view: View, section: &SectionCut, how: InHand) {
    let Some(grip) = grip(head, view, section) else {
        return;
    };
    // Seen from the front of the one who cuts: their right is the picture's right.
    let side = match how.hand {
        Hand::Right => 1.0,
        Hand::Left => -1.0,
    };
    let (from, to) = grip.ends(side);
    let end_on = from.distance(to) < END_ON;
    let along = if end_on {
        Vec2::new(side, 0.0)
    } else {
        (to - from).normalize()
    };
    // Square to the line, towards the head.
    let square = Vec2::new(-along.y, along.x);
    let inward = if square.dot(grip.inward) < 0.0 {
        -square
    } else {
        square
    };
    match how.technique {
        Some(Technique::Freehand) => {}
        Some(Technique::OverComb) => comb(svg, from, to, along, inward),
        _ if end_on => {
            // Fingers from their tips, the hair between them.
            let across = Vec2::new(-grip.inward.y, grip.inward.x);
            for way in [1.0, -1.0] {
                let at = to + grip.inward * (BROAD * 0.8) + across * (way * BROAD * 0.62);
                svg.dot("d-finger", at, BROAD * 0.5);
            }
        }
        _ => {
            finger(
                svg,
                to + inward * (BROAD * 1.65) - along * 10.0,
                along,
                inward,
            );
            finger(
                svg,
                to + inward * (BROAD * 0.62) - along * 2.0,
                along,
                inward,
            );
        }
    }
    let out = leant(along, side);
    // Along the line the blades reach far into the hair; at an angle to it only up to its end.
    let far = if out.dot(along) > 0.95 { 12.0 } else { 32.0 };
    scissors(svg, to - inward * 3.0 + out * far, out);
}

/// Whether a hand is drawn at the line of a section.
pub(super) fn takes(head: &Head, view: View, section: &SectionCut) -> bool {
    grip(head, view, section).is_some()
}

/// Where a hand takes the hair.
struct Grip {
    /// The two ends of the line as far as one grip takes it.
    line: [Point; 2],
    /// Along the hair towards the head, a unit.
    inward: Vec2,
}

impl Grip {
    /// The holding end and the end at which scissors come in; `side` is 1 if from the right.
    fn ends(&self, side: f64) -> (Point, Point) {
        let [a, b] = self.line;
        let across = b - a;
        // Along an upright line scissors come from below, whichever hand holds them.
        let forward = if across.x.abs() < UPRIGHT * across.hypot() {
            across.y >= 0.0
        } else {
            across.x * side >= 0.0
        };
        if forward { (a, b) } else { (b, a) }
    }
}

/// The way of the scissors' handles: out along the line, leaning to the side of their hand.
fn leant(along: Vec2, side: f64) -> Vec2 {
    (along + Vec2::new(0.6 * side, 0.0)).normalize()
}

fn grip(head: &Head, view: View, section: &SectionCut) -> Option<Grip> {
    let mut ends = Vec::new();
    let mut inward = Vec2::ZERO;
    for path in section.held(head, 0.5) {
        let at = |back: usize| {
            path.get(path.len().checked_sub(back)?)
                .map(|&p| view.project(p))
        };
        if let (Some(end), Some(before)) = (at(1), at(4).or(at(2))) {
            ends.push(end);
            inward += before - end;
        }
    }
    let line = section.line.as_ref()?;
    if let CuttingLine::Taper { .. } = **line {
        // Over the comb hair stands straight out.
        for strand in section.strands.iter().filter(|s| s.reaches()) {
            let out = head.skull().normal(strand.root) * strand.after;
            let (root, end) = (view.project(strand.root), view.project(strand.root + out));
            ends.push(end);
            inward += root - end;
        }
    }
    let middle = middle(&ends)?;
    let inward = if inward.hypot() > 1e-6 {
        inward.normalize()
    } else {
        Vec2::new(0.0, -1.0)
    };
    let mut points: Vec<Point> = line
        .points(head)
        .into_iter()
        .map(|p| view.project(p))
        .collect();
    if points.is_empty() {
        // A plane or a slope: the ends themselves show the line.
        points = farthest(&ends).to_vec();
    }
    let line = stretch(&points, middle);
    Some(Grip { line, inward })
}

fn middle(points: &[Point]) -> Option<Point> {
    let sum = points.iter().fold(Vec2::ZERO, |sum, p| sum + p.to_vec2());
    (!points.is_empty()).then(|| (sum / points.len() as f64).to_point())
}

/// The two points that lie farthest apart.
fn farthest(points: &[Point]) -> [Point; 2] {
    let mut best = [points[0]; 2];
    for (i, &a) in points.iter().enumerate() {
        for &b in &points[i..] {
            if a.distance(b) > best[0].distance(best[1]) {
                best = [a, b];
            }
        }
    }
    best
}

/// What one grip takes of a line, about the place nearest to `middle`: its two ends.
fn stretch(points: &[Point], middle: Point) -> [Point; 2] {
    let length: f64 = points.windows(2).map(|p| p[0].distance(p[1])).sum();
    let (mut walked, mut nearest, mut place) = (0.0, f64::INFINITY, 0.0);
    for pair in points.windows(2) {
        let way = pair[1] - pair[0];
        let share = ((middle - pair[0]).dot(way) / way.hypot2().max(1e-9)).clamp(0.0, 1.0);
        let off = (pair[0] + way * share).distance(middle);
        if off < nearest {
            (nearest, place) = (off, walked + way.hypot() * share);
        }
        walked += way.hypot();
    }
    let from = (place - HALF_GRIP).min(length - 2.0 * HALF_GRIP).max(0.0);
    let to = (from + 2.0 * HALF_GRIP).min(length);
    [at(points, from), at(points, to)]
}

/// The place so far along a line.
fn at(points: &[Point], mut along: f64) -> Point {
    for pair in points.windows(2) {
        let long = pair[0].distance(pair[1]);
        if along <= long && long > 0.0 {
            return pair[0].lerp(pair[1], along / long);
        }
        along -= long;
    }
    points.last().copied().unwrap_or_default()
}

/// A finger with its tip at `tip`, its other end out of sight.
fn finger(svg: &mut Svg, tip: Point, along: Vec2, inward: Vec2) {
    let half = inward * (BROAD * 0.5);
    let (near, far) = (tip - along * (BROAD * 0.5), tip - along * LONG);
    let round = along * (BROAD * 0.62);
    let mut path = BezPath::new();
    path.move_to(far + half);
    path.line_to(near + half);
    path.curve_to(near + half + round, near - half + round, near - half);
    path.line_to(far - half);
    svg.path("d-finger", &path);
    let nail = tip - along * (BROAD * 0.55);
    svg.line("d-nail", &[nail + half * 0.55, nail - half * 0.55]);
}

/// A comb with its back along the line and its teeth in the hair.
fn comb(svg: &mut Svg, from: Point, to: Point, along: Vec2, inward: Vec2) {
    let middle = from.midpoint(to);
    let (from, to) = (middle - along * 44.0, middle + along * 30.0);
    let mut path = polyline(&[from, to], false);
    for i in 0..13 {
        let tooth = to - along * (4.0 * f64::from(i));
        path.move_to(tooth);
        path.line_to(tooth + inward * 9.0);
    }
    svg.path("d-comb", &path);
}

/// Scissors a little open, turning about `pivot`; their handles point along `out`.
fn scissors(svg: &mut Svg, pivot: Point, out: Vec2) {
    let square = Vec2::new(-out.y, out.x);
    for way in [1.0, -1.0] {
        let tip = pivot - out * BLADE + square * (way * 4.0);
        let shank = pivot + out * SHANK - square * (way * APART);
        svg.line("d-blade", &[tip, pivot, shank]);
        let ring = shank + out * RING * 0.9 - square * (way * 1.0);
        svg.dot("d-ring", ring, RING);
    }
    svg.dot("d-pivot", pivot, 1.6);
}
