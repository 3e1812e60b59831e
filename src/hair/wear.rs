//! How the hair is worn: its part, its whorl, and the way it sets out from them.
//!
//! Seen from above, a part is a straight line from the front hairline to the whorl, and hair sets
//! out straight away from its nearest point; with no part it sets out away from the whorl. On the
//! scalp two drives add up. *Gravity* is the part of the plumb direction that lies in the surface, as
//! long as the surface is steep. The *set* points away from the part, is [`SET`] times as strong as
//! gravity on an upright wall, fades with the distance d from the part as exp(−d / [`SET_REACH`]),
//! and with the slope as the cosine of the surface's angle from level, so that gravity takes over
//! on the sides. Where gravity would take hair back over its part, that share of it is left out: it
//! lies on the hair beside it. So hair never comes to rest between part and crest, and both drives
//! join without a jump everywhere but on the part itself.

use crate::geometry::Vec3;
use crate::head::{Head, Landmark, Side, Spot};
use glam::DVec2;
use serde::{Deserialize, Serialize};

/// How strong the set is at the part, against gravity on an upright wall. Judgement.
const SET: f64 = 1.0;
/// The distance from the part, seen from above, over which the set falls to 37 %, cm. Judgement.
const SET_REACH: f64 = 6.0;
/// The distance from the whorl over which its turn falls to 37 %, cm. Judgement.
const WHORL_REACH: f64 = 3.0;
/// The half-width of a whorl's eye, in which its turn dies away, cm. Judgement.
const WHORL_EYE: f64 = 0.3;
/// The most a whorl may turn hair, radians: below a right angle, or hair would cross its part.
const MOST_TURN: f64 = 1.4;
/// How much a strong whorl turns the hair right beside it, radians. Judgement.
pub const STRONG_TURN: f64 = 1.0;
/// Closer to the part than this, in cm, a root lies on it.
const ON_IT: f64 = 1e-9;

/// Where the hair is parted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Part {
    /// Along a line from the front hairline at this azimuth (radians about the high point, 0 the
    /// middle, above 0 the client's left) to the whorl.
    At(f64),
    /// Not parted: it falls away from the whorl.
    #[default]
    None,
}

/// Which way a whorl turns, seen from above the head.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Turn {
    /// From the front to the client's right.
    Clockwise,
    /// From the front to the client's left.
    Anticlockwise,
    /// Straight out.
    #[default]
    None,
}

/// Where hair radiates from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Whorl {
    /// Its place; the crown if none is given.
    pub place: Option<Spot>,
    /// Its turn.
    pub turn: Turn,
    /// How far it turns the hair right beside it from straight out, radians, 0 to 1.4
    /// ([`STRONG_TURN`] is a strong one).
    pub strength: f64,
}

/// How the hair is worn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Wear {
    /// The part.
    pub part: Part,
    /// The whorl, at which the part ends.
    pub whorl: Whorl,
}

impl Wear {
    /// Parted at this azimuth (radians, 0 the middle, above 0 the client's left), whorl at the
    /// crown without turn.
    pub fn parted(azimuth: f64) -> Self {
        Self {
            part: Part::At(azimuth),
            ..Self::default()
        }
    }

    /// Whether left and right fall alike.
    pub fn is_even(&self) -> bool {
        let turns = self.whorl.turn != Turn::None && self.whorl.strength > 0.0;
        let middle = |azimuth: f64| azimuth == 0.0 || azimuth.abs() == std::f64::consts::PI;
        let parted = match self.part {
            Part::At(azimuth) => middle(azimuth),
            Part::None => true,
        };
        let whorl = self.whorl.place;
        !turns && parted && whorl.is_none_or(|spot| middle(spot.azimuth))
    }

    /// The same laid on a head.
    pub fn on(&self, head: &Head) -> Worn {
        let crown = || head.landmark(Landmark::Crown, Side::Centre);
        let whorl = self.whorl.place.map_or_else(crown, |spot| head.place(spot));
        let front = match self.part {
            Part::At(azimuth) => head.place(Spot { azimuth, out: 1.0 }),
            Part::None => whorl,
        };
        Worn::between(front, whorl).turned(self.whorl.turn, self.whorl.strength)
    }
}

/// The way hair is worn on one head: what tells every place of the scalp which way its hair goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Worn {
    front: DVec2,
    whorl: DVec2,
    /// How far the whorl turns hair beside it, radians, above 0 clockwise.
    turn: f64,
}

impl Worn {
    /// Parted from `front` to `whorl`, seen from above; not parted if both are the same place.
    /// What is not a number counts as the middle of the head.
    pub fn between(front: Vec3, whorl: Vec3) -> Self {
        // Rounding must not move what lies in the middle to a side.
        let flat = |p: Vec3| match p {
            p if !p.is_finite() => DVec2::ZERO,
            p if p.x.abs() < ON_IT => DVec2::new(0.0, p.y),
            p => p.truncate(),
        };
        Self {
            front: flat(front),
            whorl: flat(whorl),
            turn: 0.0,
        }
    }

    /// The same with a turn of the whorl; `strength` in radians as [`Whorl::strength`].
    pub fn turned(self, turn: Turn, strength: f64) -> Self {
        // What is not a number turns nothing.
        let strength = if strength > 0.0 {
            strength.min(MOST_TURN)
        } else {
            0.0
        };
        let turn = match turn {
            Turn::Clockwise => strength,
            Turn::Anticlockwise => -strength,
            Turn::None => 0.0,
        };
        Self { turn, ..self }
    }

    /// On which side of the part `p` lies, seen from above: above 0 the client's left of a part that
    /// runs from front to back, below 0 the right, 0 on its line or with no part.
    pub fn side(&self, p: Vec3) -> f64 {
        (p.truncate() - self.whorl).perp_dot(self.front - self.whorl)
    }

    /// The level direction, seen from above, in which hair at `p` sets out, and the distance from
    /// the part or whorl in cm.
    ///
    /// Hair that grows exactly on the part goes to the client's left, exactly on the whorl straight
    /// back.
    fn away(&self, p: DVec2) -> (DVec2, f64) {
        let along = self.front - self.whorl;
        let length = along.length_squared();
        let share = if length > 0.0 {
            ((p - self.whorl).dot(along) / length).clamp(0.0, 1.0)
        } else {
            0.0
        };
        let off = p - (self.whorl + along * share);
        let distance = off.length();
        let out = if distance > ON_IT {
            off / distance
        } else if length > 0.0 && share > 0.0 {
            let across = DVec2::new(along.y, -along.x) / length.sqrt();
            if across.x < 0.0 { -across } else { across }
        } else {
            DVec2::NEG_Y
        };
        if self.turn == 0.0 {
            return (out, distance);
        }
        let off = (p - self.whorl).length_squared();
        let fade = (-off / (WHORL_REACH * WHORL_REACH)).exp();
        let eye = off / (off + WHORL_EYE * WHORL_EYE);
        let (sin, cos) = (self.turn * fade * eye).sin_cos();
        // Clockwise seen from above takes forward (y) to the client's right (−x).
        let turned = DVec2::new(out.x * cos - out.y * sin, out.y * cos + out.x * sin);
        (turned, distance)
    }

    /// What drives hair that lies on the scalp at `p`, whose outward unit normal is `n` and points
    /// upward (n.z > 0): a vector in the surface, never zero there but for rounding. Without unit;
    /// only its direction matters.
    pub fn drive(&self, p: Vec3, n: Vec3) -> Vec3 {
        let gravity = n * n.z - Vec3::Z;
        let (out, distance) = self.away(p.truncate());
        let out = out.extend(0.0);
        let away = out - n * out.dot(n);
        let set = SET * (-distance / SET_REACH).exp() * n.z;
        let size = away.length_squared();
        let back = gravity.dot(away);
        let held = if back < 0.0 && size > 1e-12 {
            -back / size
        } else {
            0.0
        };
        gravity + away * (set + held)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn centre() -> Worn {
        Worn::between(Vec3::new(0.0, 8.0, 5.0), Vec3::new(0.0, -6.0, 7.0))
    }

    #[test]
    fn hair_sets_out_to_its_own_side() {
        let up = Vec3::Z;
        for x in [1e-6, 0.5, 3.0] {
            assert!(centre().drive(Vec3::new(x, 1.0, 9.0), up).x > 0.1);
            assert!(centre().drive(Vec3::new(-x, 1.0, 9.0), up).x < -0.1);
        }
        assert!(centre().side(Vec3::X) > 0.0 && centre().side(Vec3::NEG_X) < 0.0);
        // Exactly on the part: to the left. Exactly on the whorl: back.
        assert!(centre().drive(Vec3::new(0.0, 1.0, 9.0), up).x > 0.1);
        assert!(centre().drive(Vec3::new(0.0, -6.0, 7.0), up).y < -0.1);
    }

    #[test]
    fn gravity_does_not_take_hair_back_over_its_part() {
        // Right of a part on the left, on a slope that runs down to the left.
        let part = Worn::between(Vec3::new(4.0, 7.0, 4.0), Vec3::new(4.0, -6.0, 6.0));
        let slope = Vec3::new(0.7, 0.0, 1.0).normalize();
        assert!(part.drive(Vec3::new(3.0, 1.0, 8.0), slope).x < 0.0);
        assert!(part.drive(Vec3::new(5.0, 1.0, 7.0), slope).x > 0.0);
    }

    #[test]
    fn a_clockwise_whorl_turns_forward_hair_to_the_right() {
        let whorl = Worn::between(Vec3::ZERO, Vec3::ZERO).turned(Turn::Clockwise, 0.8);
        let drive = whorl.drive(Vec3::new(0.0, 1.0, 9.0), Vec3::Z);
        assert!(drive.x < -0.3 && drive.y > 0.0, "{drive}");
        let other = Worn::between(Vec3::ZERO, Vec3::ZERO).turned(Turn::Anticlockwise, 0.8);
        let mirrored = other.drive(Vec3::new(0.0, 1.0, 9.0), Vec3::Z);
        assert_eq!((mirrored.x, mirrored.y), (-drive.x, drive.y));
        assert_eq!(whorl.turned(Turn::Clockwise, f64::NAN).turn, 0.0);
    }
}
