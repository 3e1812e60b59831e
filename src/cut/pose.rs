//! How the head is held in the room, and how hair is held at a place of it.

use crate::geometry::{Convex, Vec3};
use crate::head::{Head, Landmark, Side};
use crate::plan::{Elevation, Over, Reference, Tilt};

/// The room as seen from the head: the head's frame stays, the room turns.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pose {
    /// Straight up in the room.
    pub up: Vec3,
    /// The neck turns about this point, cm.
    pivot: Vec3,
    tilt: Tilt,
}

/// How far below the ear opening and behind the upright axis the neck turns, cm. Judgement.
const NECK: (f64, f64) = (7.0, 3.0);

impl Pose {
    /// The pose of a head tilted so.
    pub fn of(head: &Head, tilt: Tilt) -> Self {
        let sane = |degrees: f64, most: f64| {
            if degrees.is_nan() {
                0.0
            } else {
                degrees.clamp(-most, most)
            }
        };
        let tilt = Tilt {
            forward: sane(tilt.forward, 60.0),
            left: sane(tilt.left, 45.0),
        };
        let ear = head.ear_opening(Side::Centre);
        let mut pose = Self {
            up: Vec3::Z,
            pivot: Vec3::new(0.0, -NECK.1, ear.z - NECK.0),
            tilt,
        };
        pose.up = pose.of_room(Vec3::Z);
        pose
    }

    /// A direction that stands still in the room, as the tilted head sees it: chin down turns the
    /// upright towards the back of the head.
    pub fn of_room(&self, v: Vec3) -> Vec3 {
        let (s, c) = self.tilt.forward.to_radians().sin_cos();
        let v = Vec3::new(v.x, v.y * c - v.z * s, v.y * s + v.z * c);
        let (s, c) = self.tilt.left.to_radians().sin_cos();
        Vec3::new(v.x * c - v.z * s, v.y, v.x * s + v.z * c)
    }

    /// Where a named point lies. Points of the head move with it; those of the body stay in the room.
    pub fn landmark(&self, head: &Head, landmark: Landmark, side: Side) -> Vec3 {
        let upright = head.landmark(landmark, side);
        let body = matches!(
            landmark,
            Landmark::Collarbone | Landmark::Shoulder | Landmark::Chest | Landmark::Waist
        );
        if body && !self.tilt.is_upright() {
            self.pivot + self.of_room(upright - self.pivot)
        } else {
            upright
        }
    }
}

/// A place on the scalp with its directions.
#[derive(Clone, Copy, Debug)]
pub struct Stand {
    /// The place.
    pub base: Vec3,
    /// Straight out from the scalp.
    pub normal: Vec3,
    /// The steepest way down along the scalp.
    pub down: Vec3,
    /// Straight up in the room.
    pub up: Vec3,
}

impl Stand {
    /// A place of the skull in a pose.
    pub fn at(head: &Head, base: Vec3, pose: &Pose) -> Self {
        let (normal, up) = (head.skull().normal(base), pose.up);
        let fall = normal * normal.dot(up) - up;
        Self {
            base,
            normal,
            // On the very top every way is as steep; hair falls forward there.
            down: fall
                .try_normalize()
                .filter(|_| fall.length() > 1e-9)
                .unwrap_or(Vec3::Y),
            up,
        }
    }

    /// Level, across the way down.
    pub fn across(&self) -> Vec3 {
        self.normal.cross(self.down)
    }

    /// Level and away from the head; the way down where the scalp faces straight up or down.
    fn level_out(&self) -> Vec3 {
        (self.normal - self.up * self.normal.dot(self.up))
            .try_normalize()
            .unwrap_or(self.down)
    }

    /// The direction hair is held in at this elevation, without over-direction.
    pub fn direction(&self, elevation: Elevation) -> Vec3 {
        let angle = elevation.degrees.to_radians();
        match elevation.from {
            Reference::Head => self.down * angle.cos() + self.normal * angle.sin(),
            Reference::Room => self.level_out() * angle.sin() - self.up * angle.cos(),
        }
    }

    /// The elevation of a direction, in degrees from 0 to 180, against either reference.
    ///
    /// From the head it is the angle from the way down along the scalp; from the room, the angle from
    /// straight down.
    ///
    /// ```
    /// use tautline::cut::{Pose, Stand};
    /// use tautline::head::{Head, Landmark, Side, Tapes};
    /// use tautline::plan::{Elevation, Reference, Tilt};
    /// let head = Head::from_tapes(&Tapes::default()).unwrap();
    /// let pose = Pose::of(&head, Tilt::default());
    /// // Straight out of the scalp at the occipital bone is almost level; at the crown it points up.
    /// let room = |landmark| {
    ///     let stand = Stand::at(&head, head.landmark(landmark, Side::Centre), &pose);
    ///     let out = stand.direction(Elevation { degrees: 90.0, from: Reference::Head });
    ///     stand.elevation(out, Reference::Room)
    /// };
    /// assert!(room(Landmark::Occipital) < 100.0 && room(Landmark::Crown) > 120.0);
    /// ```
    pub fn elevation(&self, direction: Vec3, from: Reference) -> f64 {
        let zero = match from {
            Reference::Head => self.down,
            Reference::Room => -self.up,
        };
        let direction = direction.normalize_or_zero();
        // By the sine and the cosine: an arc cosine alone is coarse near 0° and 180°.
        zero.cross(direction)
            .length()
            .atan2(zero.dot(direction))
            .to_degrees()
    }

    /// An elevation said against the other reference, at this place. Past 180°, up to 360°, it leans
    /// over: from the room past straight up to the other side, from the head into it.
    pub fn converted(&self, elevation: Elevation, to: Reference) -> Elevation {
        let direction = self.direction(elevation);
        let (zero, ninety) = match to {
            Reference::Head => (self.down, self.normal),
            Reference::Room => (-self.up, self.level_out()),
        };
        let angle = direction
            .dot(ninety)
            .atan2(direction.dot(zero))
            .to_degrees();
        Elevation {
            // Rounding must not turn 0° into 360°.
            degrees: if angle < -1e-6 {
                angle + 360.0
            } else {
                angle.max(0.0)
            },
            from: to,
        }
    }

    /// Along the scalp towards the face, level; forward on the top of the head.
    pub fn towards_face(&self, side: Side) -> Vec3 {
        let out = Vec3::new(self.base.x, self.base.y, 0.0);
        // A side's hair that grows at the middle or across it goes the way of its side.
        let sign = match side {
            Side::Centre if self.base.x.abs() > 1e-9 => self.base.x.signum(),
            side => side.sign(),
        };
        let round = Vec3::new(-out.y, out.x, 0.0) * sign;
        let level = if out.length() > 2.0 && sign != 0.0 {
            round
        } else {
            Vec3::Y
        };
        let along = level - self.normal * level.dot(self.normal);
        along.try_normalize().unwrap_or(self.down)
    }

    /// The direction hair is held in, over-direction and all.
    pub fn held(
        &self,
        elevation: Elevation,
        over: Over,
        side: Side,
        place: impl Fn(Landmark) -> Vec3,
    ) -> Vec3 {
        let straight = self.direction(elevation);
        match over {
            Over::None => straight,
            Over::Degrees(degrees) => {
                let forward = self.towards_face(side);
                let aside = forward - straight * forward.dot(straight);
                let angle = degrees.clamp(-89.0, 89.0).to_radians();
                straight * angle.cos() + aside.normalize_or_zero() * angle.sin()
            }
            Over::To(landmark) => {
                let to = place(landmark) - self.base;
                let along = (to - self.normal * to.dot(self.normal)).try_normalize();
                let turned = Self {
                    down: along.unwrap_or(self.down),
                    ..*self
                };
                match elevation.from {
                    Reference::Head => turned.direction(elevation),
                    Reference::Room => {
                        let level = (to - self.up * to.dot(self.up)).try_normalize();
                        let angle = elevation.degrees.to_radians();
                        level.unwrap_or_else(|| self.level_out()) * angle.sin()
                            - self.up * angle.cos()
                    }
                }
            }
        }
    }
}
