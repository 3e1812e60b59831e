//! One hair on its way down: sliding over a part of the body, along a crease between two, or plumb.
//!
//! A hair is followed by arc length as a bead without mass. On one part it goes the steepest way
//! down; on the scalp the way it is worn has a say ([`Worn::drive`]). Where the part turns under it
//! falls plumb, in closed form, to what it meets next. Where it runs into another part it goes on
//! over that one if the steepest way there leads off the first, or else along the crease between
//! them: the projection of the drive on the directions that both leave open.
//!
//! Steps are those of Dormand and Prince, *J. Comput. Appl. Math.* 6 (1980) 19–26, order 5 with an
//! error estimate of order 4; after each the point is settled back onto the surface. What ends a
//! step early (the part turns under, another part, a wanted height) is found by the Illinois
//! variant of false position on the length of the step.

use crate::geometry::{Convex, Vec3};
use crate::hair::Worn;
use crate::head::Body;

/// Largest error of a point that one step may make, in cm. A path takes about ten steps.
const STEP_ERROR: f64 = 1e-5;
/// The first step tried, and the longest beside another part, in cm.
const FIRST_STEP: f64 = 2.0;
const BESIDE: f64 = 0.3;
/// Steps are not made shorter than this for accuracy, in cm.
const LEAST_STEP: f64 = 1e-3;
/// Steps along a crease, in cm.
const CREASE_STEP: f64 = 0.15;
/// What lies less deep than this in a part does not lie in it, in cm.
const TOUCH: f64 = 1e-7;
/// A path has at most this many steps; only one that trembles in a pit comes near.
const MOST_STEPS: usize = 4000;
/// More than any hair is long, in cm.
pub(super) const LONGEST_HAIR: f64 = 1000.0;

/// The skull's place among the parts; part i of [`Body::parts`] has place i + 1.
pub(super) const SKULL: usize = 0;

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

/// What the hair does next.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Next {
    /// Slides over this part.
    Over(usize),
    /// Slides along the crease between these two.
    Crease(usize, usize),
    /// Hangs plumb, having left these two (the same one twice if it left one).
    Hang(usize, usize),
    /// Is as long as it gets, or has nowhere to go.
    Stop,
}

/// What ended a step.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Met {
    TurnsUnder,
    Part(usize),
    Level,
}

/// A path being followed.
pub(super) struct Slide<'a, S, V> {
    body: &'a Body<S>,
    worn: &'a Worn,
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
            body,
            worn,
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
            .filter(|&part| slide.height(part, root) < 0.0)
            .fold(0, |bits, part| bits | 1 << part);
        slide
    }

    /// The same that ends where it comes down through the height `z`.
    pub fn to_level(self, z: f64) -> Self {
        Self { level: z, ..self }
    }

    /// The same with steps over surfaces of at most `cm`.
    pub fn in_steps_of(self, cm: f64) -> Self {
        let longest = if cm > 0.05 { cm } else { 0.05 };
        Self { longest, ..self }
    }

    /// Follows it to its end.
    pub fn run(mut self) -> End {
        let mut next = self.after_touching(SKULL);
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

    fn height(&self, part: usize, p: Vec3) -> f64 {
        match part {
            SKULL => self.body.skull().height(p),
            _ => self.body.parts()[part - 1].1.height(p),
        }
    }

    fn normal(&self, part: usize, p: Vec3) -> Vec3 {
        match part {
            SKULL => self.body.skull().normal(p),
            _ => self.body.parts()[part - 1].1.normal(p),
        }
    }

    fn settle(&self, part: usize, p: Vec3) -> Vec3 {
        match part {
            SKULL => self.body.skull().settle(p),
            _ => self.body.parts()[part - 1].1.settle(p),
        }
    }

    /// What drives the hair where it lies on `part` with normal `n`, not yet laid into the surface.
    fn drive(&self, part: usize, p: Vec3, n: Vec3) -> Vec3 {
        if part == SKULL && n.z > 0.0 {
            // Laid into the surface already; the normal's share keeps it pressed on.
            self.worn.drive(p, n) - n * n.z
        } else {
            Vec3::NEG_Z
        }
    }

    /// The direction in which it slides over `part` at `p`.
    fn heading(&self, part: usize, p: Vec3) -> Vec3 {
        let n = self.normal(part, p);
        let way = if part == SKULL && n.z > 0.0 {
            self.worn.drive(p, n)
        } else {
            n * n.z - Vec3::Z
        };
        way.try_normalize().unwrap_or_else(|| {
            // On the very top of a part: outward to the side on which it lies.
            let out = if p.x < 0.0 { Vec3::NEG_X } else { Vec3::X };
            (out - n * out.dot(n)).normalize_or(Vec3::NEG_Z)
        })
    }

    /// One step of `h` cm over `part`, settled, and its estimated error in cm.
    fn stepped(&self, part: usize, k1: Vec3, h: f64) -> (Vec3, f64) {
        let at = |off: Vec3| self.heading(part, self.point + off * h);
        let k2 = at(k1 * 0.2);
        let k3 = at(k1 * (3.0 / 40.0) + k2 * (9.0 / 40.0));
        let k4 = at(k1 * (44.0 / 45.0) - k2 * (56.0 / 15.0) + k3 * (32.0 / 9.0));
        let k5 = at(
            k1 * (19372.0 / 6561.0) - k2 * (25360.0 / 2187.0) + k3 * (64448.0 / 6561.0)
                - k4 * (212.0 / 729.0),
        );
        let k6 = at(k1 * (9017.0 / 3168.0) - k2 * (355.0 / 33.0)
            + k3 * (46732.0 / 5247.0)
            + k4 * (49.0 / 176.0)
            - k5 * (5103.0 / 18656.0));
        let sum = k1 * (35.0 / 384.0) + k3 * (500.0 / 1113.0) + k4 * (125.0 / 192.0)
            - k5 * (2187.0 / 6784.0)
            + k6 * (11.0 / 84.0);
        let k7 = at(sum);
        let error = k1 * (71.0 / 57600.0) - k3 * (71.0 / 16695.0) + k4 * (71.0 / 1920.0)
            - k5 * (17253.0 / 339200.0)
            + k6 * (22.0 / 525.0)
            - k7 * (1.0 / 40.0);
        (self.settle(part, self.point + sum * h), error.length() * h)
    }

    /// How far `p`, on `part`, is from what ends the slide, below 0 when past it, and what that is.
    fn room(&self, part: usize, p: Vec3, from_above: bool) -> (f64, Met) {
        let mut room = (self.normal(part, p).z, Met::TurnsUnder);
        for other in 0..=self.body.parts().len() {
            if other != part && self.inside & (1 << other) == 0 {
                let height = self.height(other, p) + TOUCH;
                if height < room.0 {
                    room = (height, Met::Part(other));
                }
            }
        }
        if from_above && p.z - self.level < room.0 {
            room = (p.z - self.level, Met::Level);
        }
        room
    }

    /// Slides over one part for one step, or to what ends it.
    fn over(&mut self, part: usize) -> Next {
        let start = self.heading(part, self.point);
        let from_above = self.point.z >= self.level;
        // F is convex, so a part is never nearer than its height to first order.
        let clear = (0..=self.body.parts().len())
            .filter(|&other| other != part && self.inside & (1 << other) == 0)
            .map(|other| self.height(other, self.point))
            .fold(self.longest, f64::min)
            .max(BESIDE.min(self.longest));
        let (h, p) = loop {
            let h = self.step.min(clear).min(self.limit - self.arc);
            let (p, error) = self.stepped(part, start, h);
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
        let room = self.room(part, p, from_above);
        if room.0 >= 0.0 {
            self.moved(h, p);
            return Next::Over(part);
        }
        let (h, p, met) = self.until(part, start, from_above, (h, p, room));
        self.moved(h, p);
        match met {
            Met::TurnsUnder => Next::Hang(part, part),
            Met::Part(other) => self.between(part, other),
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
        far: (f64, Vec3, (f64, Met)),
    ) -> (f64, Vec3, Met) {
        let (mut near, mut near_room) = (0.0, self.room(part, self.point, from_above).0);
        let (mut far_at, mut past, (mut far_room, mut met)) = far;
        if near_room <= 0.0 {
            // It starts on the edge already.
            let (_, met) = self.room(part, self.point, from_above);
            return (0.0, self.point, met);
        }
        let mut kept = 0;
        for _ in 0..40 {
            if far_at - near < 1e-10 || far_room > -1e-11 {
                break;
            }
            let h = (near * far_room - far_at * near_room) / (far_room - near_room);
            let (p, _) = self.stepped(part, start, h);
            let room = self.room(part, p, from_above);
            if room.0 < 0.0 {
                (far_at, past, far_room, met) = (h, p, room.0, room.1);
                near_room *= if kept == 1 { 0.5 } else { 1.0 };
                kept = 1;
            } else {
                (near, near_room) = (h, room.0);
                far_room *= if kept == 2 { 0.5 } else { 1.0 };
                kept = 2;
                if room.0 < 1e-11 {
                    return (h, p, room.1);
                }
            }
        }
        (far_at, past, met)
    }

    fn moved(&mut self, by: f64, to: Vec3) {
        self.arc += by;
        self.point = to;
        if self.inside != 0 {
            for part in 1..=self.body.parts().len().min(63) {
                if self.inside & (1 << part) != 0 && self.height(part, to) > TOUCH {
                    self.inside &= !(1 << part);
                }
            }
        }
    }

    /// What a hair does that touches this part only.
    fn after_touching(&self, part: usize) -> Next {
        if self.normal(part, self.point).z > 0.0 {
            Next::Over(part)
        } else {
            Next::Hang(part, part)
        }
    }

    /// What a hair does that touches two parts: the drive's projection on what both leave open.
    fn between(&self, a: usize, b: usize) -> Next {
        let p = self.point;
        let (na, nb) = (self.normal(a, p), self.normal(b, p));
        let drive = match (a, b) {
            (SKULL, _) => self.drive(a, p, na),
            (_, SKULL) => self.drive(b, p, nb),
            _ => Vec3::NEG_Z,
        };
        let (ga, gb) = (drive.dot(na), drive.dot(nb));
        if ga >= 0.0 && gb >= 0.0 {
            return Next::Hang(a, b);
        }
        // Sliding over one presses on it and does not lead into the other.
        if gb < 0.0 && (drive - nb * gb).dot(na) >= 0.0 {
            return Next::Over(b);
        }
        if ga < 0.0 && (drive - na * ga).dot(nb) >= 0.0 {
            return Next::Over(a);
        }
        Next::Crease(a, b)
    }

    /// The way along the crease of two parts, or none where it is level.
    fn crease_heading(&self, (a, b): (usize, usize), p: Vec3) -> Option<Vec3> {
        let along = self.normal(a, p).cross(self.normal(b, p)).try_normalize()?;
        let na = self.normal(a, p);
        let drive = if a == SKULL {
            self.drive(a, p, na)
        } else {
            Vec3::NEG_Z
        };
        let share = drive.dot(along);
        (share.abs() > 1e-6).then(|| along * share.signum())
    }

    /// One step along the crease of two parts.
    fn along_crease(&mut self, a: usize, b: usize) -> Next {
        // The skull comes first, for its drive.
        let pair = (a.min(b), a.max(b));
        let Some(start) = self.crease_heading(pair, self.point) else {
            return Next::Stop;
        };
        let from_above = self.point.z >= self.level;
        let go = |h: f64| {
            let middle = self.point + start * (h / 2.0);
            let way = self.crease_heading(pair, middle).unwrap_or(start);
            self.settle_both(pair, self.point + way * h)
        };
        let mut h = CREASE_STEP.min(self.limit - self.arc);
        let mut p = go(h);
        if from_above && p.z < self.level {
            h *= ((self.point.z - self.level) / (self.point.z - p.z)).clamp(0.0, 1.0);
            p = go(h);
            self.at_level = true;
        }
        self.moved(h, p);
        let others = (0..=self.body.parts().len())
            .filter(|&o| o != a && o != b && self.inside & (1 << o) == 0);
        let third = others.into_iter().find(|&o| self.height(o, p) < -TOUCH);
        match third {
            // Three parts make a pit, unless one of the three pairs leads out of the third.
            Some(third) => [(a, third), (b, third)]
                .into_iter()
                .map(|(x, y)| self.between(x, y))
                .find(|next| matches!(next, Next::Over(part) if *part == third))
                .unwrap_or(Next::Stop),
            None => self.between(a, b),
        }
    }

    /// Brings a point near the crease of two parts onto both.
    fn settle_both(&self, (a, b): (usize, usize), mut p: Vec3) -> Vec3 {
        for _ in 0..4 {
            let (na, nb) = (self.normal(a, p), self.normal(b, p));
            let (ha, hb) = (self.height(a, p), self.height(b, p));
            let shared = na.dot(nb);
            let det = (1.0 - shared * shared).max(1e-6);
            p -= na * ((ha - shared * hb) / det) + nb * ((hb - shared * ha) / det);
        }
        p
    }

    /// Hangs plumb from here, to what it meets or to its end.
    fn hang(&mut self, left: usize, also: usize) -> Next {
        // Nothing that turned under is met again below; the skull neither, as it turns under all
        // round at its widest level.
        let met = (1..=self.body.parts().len())
            .filter(|&part| part != left && part != also)
            .filter_map(|part| {
                let below = self.body.parts()[part - 1].1.below(self.point)?;
                Some((below, part))
            })
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
