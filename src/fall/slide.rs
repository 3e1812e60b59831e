//! One hair on its way down: sliding over a part of the body, along a crease between two, or plumb.
//!
//! A hair is followed by arc length as a bead without mass. On one part it goes the steepest way
//! down; on the scalp the way it is worn has a say ([`Worn::drive`]). Where the part turns under it
//! falls plumb, in closed form, to what it meets next. Where it runs into another part it goes on
//! over that one if the steepest way there leads off the first, or else along the crease between
//! them: the projection of the drive on the directions that both leave open.
//!
//! What ends a step early (the part turns under, another part, a wanted height) is found by the
//! Illinois variant of false position on the length of the step.

use super::contact::{Contact, Next, SKULL};
use crate::geometry::{Convex, Vec3};
use crate::hair::Worn;
use crate::head::Body;

/// Largest error of a point that one step may make, in cm. A path takes about ten steps.
const STEP_ERROR: f64 = 1e-5;
/// The first step tried, and the longest beside another part, in cm.
const FIRST_STEP: f64 = 2.0;
const BESIDE: f64 = 0.5;
/// No step is longer, in cm.
const LONGEST_STEP: f64 = 6.0;
/// Steps are not made shorter than this for accuracy, in cm.
const LEAST_STEP: f64 = 1e-3;
/// Steps along a crease, in cm.
const CREASE_STEP: f64 = 0.15;
/// What lies less deep than this in a part does not lie in it, in cm.
const TOUCH: f64 = 1e-5;
/// How exactly the end of a slide is found, in cm.
const ON_THE_EDGE: f64 = 1e-6;
/// A path has at most this many steps; only one that trembles in a pit comes near.
const MOST_STEPS: usize = 4000;
/// More than any hair is long, in cm.
pub(super) const LONGEST_HAIR: f64 = 1000.0;

/// Where a path ended.
#[derive(Clone, Copy, Debug)]
pub(super) struct End {
    /// The last point.
    pub point: Vec3,
    /// Arc length from the root, cm.
    pub arc: f64,
    /// The part it lies on, by place; none if it hangs.
    pub on: Option<usize>,
    /// The greatest height of the path.
    pub highest: f64,
    /// Whether the wanted height was reached.
    pub at_level: bool,
}

/// What ended a step.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Met {
    TurnsUnder,
    Part(usize),
    Level,
}

/// How much way there is to what ends a slide.
#[derive(Clone, Copy, Debug)]
struct Room {
    /// Below zero past it; in cm, but as the cosine of the slope where the part turns under.
    left: f64,
    met: Met,
    /// The height above the nearest other part, cm.
    clear: f64,
}

/// A path being followed.
pub(super) struct Slide<'a, S, V> {
    at: Contact<'a, S>,
    /// The arc length at which it ends, cm.
    limit: f64,
    /// The height at which it ends when it comes down through it; −∞ for none.
    level: f64,
    /// The longest step over a surface, cm.
    longest: f64,
    /// Told every point after the root.
    visit: V,
    point: Vec3,
    arc: f64,
    step: f64,
    highest: f64,
    at_level: bool,
    /// Parts the root lies in, one bit each: they are passed through until they are left.
    inside: u64,
}

impl<'a, S: Convex, V: FnMut(Vec3)> Slide<'a, S, V> {
    /// A path from `root`, on the skull, no longer than `limit` cm.
    pub fn new(body: &'a Body<S>, worn: &'a Worn, root: Vec3, limit: f64, visit: V) -> Self {
        let mut slide = Self {
            at: Contact { body, worn },
            limit: limit.min(LONGEST_HAIR),
            level: f64::NEG_INFINITY,
            longest: f64::INFINITY,
            visit,
            point: root,
            arc: 0.0,
            step: FIRST_STEP,
            highest: root.z,
            at_level: false,
            inside: 0,
        };
        slide.inside = (1..=body.parts().len().min(63))
            .filter(|&part| slide.at.height(part, root) < 0.0)
            .fold(0, |bits, part| bits | 1 << part);
        slide
    }

    /// The same that ends where it comes down through the height `z`.
    pub fn ending_at(self, z: f64) -> Self {
        Self { level: z, ..self }
    }

    /// The same with steps over surfaces of at most `cm`.
    pub fn in_steps_of(self, cm: f64) -> Self {
        let longest = if cm > 0.05 { cm } else { 0.05 };
        Self { longest, ..self }
    }

    /// Follows it to its end.
    pub fn run(mut self) -> End {
        let mut next = self.at.after_touching(SKULL, self.point);
        let mut on = Some(SKULL);
        for _ in 0..MOST_STEPS {
            on = match next {
                Next::Over(part) | Next::Crease(part, _) => Some(part),
                Next::Hang(..) => None,
                Next::Stop => break,
            };
            let before = self.arc;
            let then = match next {
                Next::Over(part) => self.over(part),
                Next::Crease(a, b) => self.along_crease(a, b),
                Next::Hang(a, b) => self.hang(a, b),
                Next::Stop => break,
            };
            self.highest = self.highest.max(self.point.z);
            if self.arc > before {
                (self.visit)(self.point);
            }
            if self.at_level || self.limit - self.arc < 1e-12 {
                break;
            }
            // Between two parts that hand the hair to each other without it moving, the crease is
            // the way.
            next = match (next, then) {
                (Next::Over(a), Next::Over(b)) if a != b && self.arc - before < 1e-6 => {
                    Next::Crease(a, b)
                }
                (_, then) => then,
            };
        }
        End {
            point: self.point,
            arc: self.arc,
            on,
            highest: self.highest,
            at_level: self.at_level,
        }
    }

    /// The parts that may stop a hair at `p` which lies on `part`, within the longest step: all but
    /// those far below it and, as nothing but hair on the scalp ever rises, those above it.
    fn others(&self, part: usize, p: Vec3) -> impl Iterator<Item = usize> {
        let skull = part != SKULL && p.z > -self.at.body.skull().size();
        let parts = self.at.body.parts().iter().enumerate();
        let near = parts.filter(move |(i, (_, shape))| {
            let (low, high) = shape.heights();
            i + 1 != part
                && self.inside & (1 << (i + 1)) == 0
                && high > p.z - LONGEST_STEP
                && (part == SKULL || low < p.z)
        });
        skull
            .then_some(SKULL)
            .into_iter()
            .chain(near.map(|(i, _)| i + 1))
    }

    /// How far `p`, on `part`, is from what ends the slide.
    fn room(&self, part: usize, p: Vec3, from_above: bool) -> Room {
        let turns = Room {
            left: self.at.normal(part, p).z,
            met: Met::TurnsUnder,
            clear: LONGEST_STEP,
        };
        let mut room = self.others(part, p).fold(turns, |room, other| {
            let height = self.at.height(other, p) + TOUCH;
            let nearer = Room {
                clear: room.clear.min(height),
                ..room
            };
            if height < room.left {
                Room {
                    left: height,
                    met: Met::Part(other),
                    ..nearer
                }
            } else {
                nearer
            }
        });
        if from_above && p.z - self.level < room.left {
            room.left = p.z - self.level;
            room.met = Met::Level;
        }
        room
    }

    /// Slides over one part for one step, or to what ends it.
    fn over(&mut self, part: usize) -> Next {
        let start = self.at.heading(part, self.point);
        let from_above = self.point.z >= self.level;
        let here = self.room(part, self.point, from_above);
        // F is convex, so a part is never nearer than its height to first order.
        let clear = here.clear.max(BESIDE).min(self.longest);
        let (h, p) = loop {
            let h = self.step.min(clear).min(self.limit - self.arc);
            let (p, error) = self.at.stepped(part, (self.point, start), h);
            let fit = 0.9 * (STEP_ERROR / error.max(1e-12)).powf(0.2);
            if error <= STEP_ERROR || h <= LEAST_STEP {
                // A step cut short says little about the next one.
                if h == self.step || fit < 1.0 {
                    self.step = (h * fit.clamp(0.2, 3.0)).max(LEAST_STEP);
                }
                break (h, p);
            }
            self.step = (h * fit.clamp(0.1, 0.9)).max(LEAST_STEP);
        };
        let there = self.room(part, p, from_above);
        if there.left >= 0.0 {
            self.moved(h, p);
            return Next::Over(part);
        }
        let (h, p, met) = self.until(part, start, from_above, here, (h, p, there));
        self.moved(h, p);
        match met {
            Met::TurnsUnder => Next::Hang(part, part),
            Met::Part(other) => self.at.between(part, other, self.point),
            Met::Level => {
                self.at_level = true;
                Next::Stop
            }
        }
    }

    /// The step from here that ends just where the slide does, within one that goes too far.
    fn until(
        &self,
        part: usize,
        start: Vec3,
        from_above: bool,
        here: Room,
        far: (f64, Vec3, Room),
    ) -> (f64, Vec3, Met) {
        if here.left <= 0.0 {
            // It starts on the edge already.
            return (0.0, self.point, here.met);
        }
        let (mut near, mut near_left) = (0.0, here.left);
        let (mut past, mut p, mut room) = far;
        let mut past_left = room.left;
        // Which end moved last; where one moves twice running, the other's weight is halved.
        let mut past_moved = None;
        for _ in 0..40 {
            if past - near < ON_THE_EDGE || room.left.abs() < ON_THE_EDGE {
                break;
            }
            let h = (near * past_left - past * near_left) / (past_left - near_left);
            let q = self.at.advanced(part, (self.point, start), h);
            let there = self.room(part, q, from_above);
            if there.left.abs() < ON_THE_EDGE {
                return (h, q, there.met);
            }
            if there.left < 0.0 {
                (past, p, room, past_left) = (h, q, there, there.left);
                near_left *= if past_moved == Some(true) { 0.5 } else { 1.0 };
                past_moved = Some(true);
            } else {
                (near, near_left) = (h, there.left);
                past_left *= if past_moved == Some(false) { 0.5 } else { 1.0 };
                past_moved = Some(false);
            }
        }
        (past, p, room.met)
    }

    fn moved(&mut self, by: f64, to: Vec3) {
        self.arc += by;
        self.point = to;
        if self.inside != 0 {
            for part in 1..=self.at.body.parts().len().min(63) {
                if self.inside & (1 << part) != 0 && self.at.height(part, to) > TOUCH {
                    self.inside &= !(1 << part);
                }
            }
        }
    }

    /// One step along the crease of two parts.
    fn along_crease(&mut self, a: usize, b: usize) -> Next {
        // The skull comes first, for its drive.
        let pair = (a.min(b), a.max(b));
        let Some(start) = self.at.crease_heading(pair, self.point) else {
            return Next::Stop;
        };
        let from_above = self.point.z >= self.level;
        let go = |h: f64| {
            let middle = self.point + start * (h / 2.0);
            let way = self.at.crease_heading(pair, middle).unwrap_or(start);
            self.at.settle_both(pair, self.point + way * h)
        };
        let mut h = CREASE_STEP.min(self.limit - self.arc);
        let mut p = go(h);
        let third = self
            .others(a, p)
            .find(|&o| o != b && self.at.height(o, p) < -TOUCH);
        if let Some(third) = third {
            // Back to where it met the third, by the rule of three.
            let (before, after) = (self.at.height(third, self.point), self.at.height(third, p));
            h *= (before / (before - after)).clamp(0.0, 1.0);
            p = go(h);
        }
        if from_above && p.z < self.level {
            h *= ((self.point.z - self.level) / (self.point.z - p.z)).clamp(0.0, 1.0);
            p = go(h);
            self.at_level = true;
        }
        self.moved(h, p);
        match third {
            Some(third) => self.at.out_of((a, b), third, p),
            None => self.at.between(a, b, p),
        }
    }

    /// Hangs plumb from here, to what it meets or to its end.
    fn hang(&mut self, left: usize, also: usize) -> Next {
        // Nothing that turned under is met again below.
        let places = 0..=self.at.body.parts().len();
        let met = places
            .filter(|&part| part != left && part != also)
            .filter_map(|part| Some((self.at.below(part, self.point)?, part)))
            .min_by(|a, b| a.0.total_cmp(&b.0));
        let left_over = self.limit - self.arc;
        let to_level = self.point.z - self.level;
        let (drop, next) = match met {
            Some((below, part)) if below < left_over => (below, Next::Over(part)),
            _ => (left_over, Next::Stop),
        };
        let (drop, next) = if (0.0..=drop).contains(&to_level) {
            self.at_level = true;
            (to_level, Next::Stop)
        } else {
            (drop, next)
        };
        self.moved(drop, self.point - Vec3::Z * drop);
        if matches!(next, Next::Over(_)) {
            self.step = FIRST_STEP;
        }
        next
    }
}
