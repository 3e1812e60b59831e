//! From where the head is seen.

use super::super::view::SCALE;
use crate::geometry::Vec3;
use crate::words::{noted, tr};
use kurbo::Point;
use std::f64::consts::{FRAC_PI_2, PI, TAU};

/// A place from which the head is seen, far away, so that nothing is nearer and larger.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Eye {
    /// Radians about the upright axis: 0 before the face, π/2 on the client's left, ±π behind.
    pub turn: f64,
    /// Radians above level: 0 on the head's own level, π/2 straight above it.
    pub tilt: f64,
}

/// How far below level the head is seen from at most, radians: from under the chin nothing is cut.
const LOWEST: f64 = -0.5;
/// How far a press of a key turns, radians: 15°.
const PRESS: f64 = PI / 12.0;
/// How far the head turns while a finger goes once over the picture, radians.
const A_WIDTH: f64 = PI;

impl Eye {
    /// From the front, level.
    pub const FRONT: Self = Self::at_degrees(0.0, 0.0);

    /// A little from the client's left and above.
    pub const THREE_QUARTER: Self = Self::at_degrees(40.0, 8.0);

    /// The views that have a name: what it is called, and from where.
    pub const NAMED: [(&'static str, Self); 6] = [
        (noted("Front"), Self::FRONT),
        (noted("Three-quarter"), Self::THREE_QUARTER),
        (noted("Left side"), Self::at_degrees(90.0, 0.0)),
        (noted("Right side"), Self::at_degrees(-90.0, 0.0)),
        (noted("Back"), Self::at_degrees(180.0, 0.0)),
        // The forehead up, as on the scalp map.
        (noted("Top"), Self::at_degrees(180.0, 90.0)),
    ];

    /// The place at these degrees round the head and above its level.
    pub const fn at_degrees(turn: f64, tilt: f64) -> Self {
        Self {
            turn: turn.to_radians(),
            tilt: tilt.to_radians(),
        }
    }

    /// The place so many radians further round and up; what is not a number moves nothing.
    #[must_use]
    pub fn moved(self, round: f64, up: f64) -> Self {
        let sound = |by: f64| if by.is_finite() { by } else { 0.0 };
        Self {
            turn: wrapped(self.turn + sound(round)),
            tilt: (self.tilt + sound(up)).clamp(LOWEST, FRAC_PI_2),
        }
    }

    /// The place one press further: `round` and `up` are −1, 0 or 1, to the right of the picture and up.
    #[must_use]
    pub fn pressed(self, round: f64, up: f64) -> Self {
        self.moved(round * PRESS, up * PRESS)
    }

    /// The place after a finger went `from` a place of a picture `to` another, in pixels, where the picture is
    /// `width` of them wide: the head turns along with it and, if `upright`, nods along too.
    #[must_use]
    pub fn dragged(self, from: (f64, f64), to: (f64, f64), upright: bool, width: f64) -> Self {
        let a_pixel = A_WIDTH / width.max(1.0);
        let down = if upright { to.1 - from.1 } else { 0.0 };
        self.moved((from.0 - to.0) * a_pixel, down * a_pixel)
    }

    /// A place on the shorter way to another one, `share` (0 to 1) of it behind it.
    #[must_use]
    pub fn towards(self, other: Self, share: f64) -> Self {
        let share = if share.is_finite() {
            share.clamp(0.0, 1.0)
        } else {
            1.0
        };
        if share >= 1.0 {
            return other;
        }
        // Slow at both ends.
        let gone = share * share * (3.0 - 2.0 * share);
        let round = wrapped(other.turn - self.turn);
        self.moved(round * gone, (other.tilt - self.tilt) * gone)
    }

    /// Whether this is a named view, to a degree.
    pub fn is(self, other: Self) -> bool {
        let near = |by: f64| by.abs() < PI / 180.0;
        near(wrapped(self.turn - other.turn)) && near(self.tilt - other.tilt)
    }

    /// From where it is, in words: `From the front, a little above, turned to the client's left`.
    pub fn words(self) -> String {
        let degrees = wrapped(self.turn).to_degrees();
        let tilt = self.tilt.to_degrees();
        if tilt > 80.0 {
            return tr("From the top").to_owned();
        }
        let (off, right) = (degrees.abs(), degrees < 0.0);
        let aside = (60.0..120.0).contains(&off);
        let (from, on) = match off {
            _ if aside && right => (tr("From the client’s right"), off - 90.0),
            _ if aside => (tr("From the client’s left"), off - 90.0),
            _ if off < 60.0 => (tr("From the front"), off),
            _ => (tr("From the back"), 180.0 - off),
        };
        let turned = match on {
            _ if on.abs() < 12.0 => "",
            _ if aside && on < 0.0 => tr(", turned to the front"),
            _ if aside => tr(", turned to the back"),
            _ if right => tr(", turned to the client’s right"),
            _ => tr(", turned to the client’s left"),
        };
        let above = match tilt {
            _ if tilt > 50.0 => tr(", from high above"),
            _ if tilt > 22.0 => tr(", from above"),
            _ if tilt > 4.0 => tr(", a little above"),
            _ if tilt < -4.0 => tr(", a little below"),
            _ => "",
        };
        format!("{from}{above}{turned}")
    }

    /// What it takes to project with.
    pub(super) fn frame(self) -> Frame {
        let (sin, cos) = self.turn.sin_cos();
        let (up, level) = self.tilt.sin_cos();
        Frame {
            right: Vec3::new(cos, -sin, 0.0),
            up: Vec3::new(-sin * up, -cos * up, level),
            toward: Vec3::new(sin * level, cos * level, up),
        }
    }

    /// Where a place (cm) lies in the picture, ten units a centimetre, down positive.
    pub fn project(self, p: Vec3) -> Point {
        self.frame().project(p)
    }
}

/// How long turning to a named view takes, in ms.
const TAKES: f64 = 280.0;

/// A turn from one view to another, as time goes by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turning {
    /// From where.
    pub from: Eye,
    /// To where.
    pub to: Eye,
    /// When it began, ms on any clock.
    pub began: f64,
}

impl Turning {
    /// Where the eye is at a time (ms, on the same clock), and whether it has come to its end.
    pub fn at(&self, now: f64) -> (Eye, bool) {
        let share = (now - self.began) / TAKES;
        // A clock that was set back ends it.
        let over = !(0.0..1.0).contains(&share);
        (
            self.from.towards(self.to, if over { 1.0 } else { share }),
            over,
        )
    }
}

/// A turn between −π and π.
fn wrapped(turn: f64) -> f64 {
    (turn + PI).rem_euclid(TAU) - PI
}

/// The three directions of a view: across to the right, up, and towards the eye. Units.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frame {
    pub right: Vec3,
    pub up: Vec3,
    pub toward: Vec3,
}

impl Frame {
    /// Where a place lies in the picture, in its units.
    pub fn project(&self, p: Vec3) -> Point {
        Point::new(p.dot(self.right) * SCALE, -p.dot(self.up) * SCALE)
    }

    /// Across, up and towards the eye, cm.
    pub fn turned(&self, p: Vec3) -> Vec3 {
        Vec3::new(p.dot(self.right), p.dot(self.up), p.dot(self.toward))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::View;

    #[test]
    fn straight_views_are_those_of_the_flat_drawings() {
        let p = Vec3::new(1.0, 2.0, 3.0);
        for (eye, view) in [
            (Eye::FRONT, View::Front),
            (Eye::at_degrees(90.0, 0.0), View::Left),
            (Eye::at_degrees(-90.0, 0.0), View::Right),
            (Eye::at_degrees(180.0, 0.0), View::Back),
        ] {
            assert!(eye.project(p).distance(view.project(p)) < 1e-9, "{view:?}");
            assert!((eye.frame().turned(p).z - view.depth(p)).abs() < 1e-9);
        }
        // From the top the forehead is up and the client's left on the left, as on the map.
        let top = Eye::NAMED[5].1;
        assert!(top.project(p).distance(Point::new(-10.0, -20.0)) < 1e-9);
    }

    #[test]
    fn words_say_where_the_eye_is() {
        let said = |turn, tilt| Eye::at_degrees(turn, tilt).words();
        assert_eq!(said(0.0, 0.0), "From the front");
        assert_eq!(
            said(40.0, 8.0),
            "From the front, a little above, turned to the client’s left"
        );
        assert_eq!(said(-90.0, 30.0), "From the client’s right, from above");
        assert_eq!(
            said(110.0, 0.0),
            "From the client’s left, turned to the back"
        );
        assert_eq!(
            said(-150.0, -10.0),
            "From the back, a little below, turned to the client’s right"
        );
        assert_eq!(said(77.0, 90.0), "From the top");
    }

    #[test]
    fn turning_goes_the_shorter_way_and_stays_within_bounds() {
        let from = Eye::at_degrees(170.0, 0.0);
        let to = Eye::at_degrees(-170.0, 20.0);
        let half = from.towards(to, 0.5);
        assert!(half.is(Eye::at_degrees(180.0, 10.0)), "{half:?}");
        assert_eq!(from.towards(to, 1.0), to);
        assert_eq!(from.towards(to, f64::NAN), to);
        assert_eq!(
            from.moved(f64::NAN, f64::INFINITY).turn,
            from.moved(0.0, 0.0).turn
        );
        assert!(from.moved(0.0, 9.0).is(Eye::at_degrees(170.0, 90.0)));
        // The head goes along with the finger: what is before comes to the right.
        let eye = Eye::FRONT.dragged((10.0, 0.0), (60.0, 9.0), false, 200.0);
        assert!(eye.project(Vec3::Y).x > 1.0);
    }
}
