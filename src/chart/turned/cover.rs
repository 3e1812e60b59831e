//! What the head and the body hide: convex parts between a place and the eye.
//!
//! The skull by its rim, where its surface turns away from the eye: from the middle of the head to a place
//! of the rim all is inside, so what lies farther from the eye than that line and within the rim is hidden.
//! The other parts are ellipsoids, whose chord along a ray is a root.

use super::eye::Frame;
use crate::geometry::{Convex, Egg, Placed, Vec3};
use crate::head::Body;
use std::f64::consts::TAU;

/// Places of the rim. Between two the drawn head's rim is less than 0.2 mm from straight.
const RIM: usize = 72;

/// The convex parts of a body, as one eye sees them.
#[derive(Clone, Debug)]
pub(super) struct Cover {
    /// The skull's rim, turned: across, up, towards the eye; at equal angles from across on.
    rim: Vec<Vec3>,
    /// The farthest place of the rim, squared, cm².
    reach: f64,
    parts: Vec<Chord>,
}

impl Cover {
    pub fn new(body: &Body, frame: Frame) -> Self {
        let rim = rim(body.skull(), &frame);
        let far = |p: &Vec3| p.x * p.x + p.y * p.y;
        let reach = rim.iter().map(far).fold(0.0, f64::max);
        let parts = body.parts().iter();
        Self {
            reach,
            rim,
            parts: parts.map(|(_, shape)| Chord::new(*shape, &frame)).collect(),
        }
    }

    /// Whether a place outside all parts, or on one, is hidden by one of them; `turned` is the same place
    /// across, up and towards the eye.
    pub fn hides(&self, p: Vec3, turned: Vec3) -> bool {
        self.skull_hides(turned) || self.parts.iter().any(|chord| chord.hides(p))
    }

    /// Whether the skull hides a turned place.
    pub fn skull_hides(&self, p: Vec3) -> bool {
        let far = p.x * p.x + p.y * p.y;
        if far >= self.reach {
            return false;
        }
        if far < 1e-12 {
            return p.z < 0.0;
        }
        // The piece of rim that the place lies abreast of.
        let at = p.y.atan2(p.x).rem_euclid(TAU) / TAU * RIM as f64;
        let i = (at as usize).min(RIM - 1);
        let (a, b) = (self.rim[i], self.rim[(i + 1) % RIM]);
        // p = s a + t b within the picture; inside if s + t < 1.
        let whole = cross(a, b);
        let (s, t) = (cross(p, b) / whole, cross(a, p) / whole);
        s + t < 1.0 && p.z < s * a.z + t * b.z
    }
}

fn cross(a: Vec3, b: Vec3) -> f64 {
    a.x * b.y - a.y * b.x
}

/// The rim of the skull, turned, at equal angles: where its normal is square to the way to the eye.
///
/// Newton for how far out and how deep, each place from the one before it.
fn rim(skull: &Egg, frame: &Frame) -> Vec<Vec3> {
    let (mut out, mut deep) = (skull.size(), 0.0);
    let place = |i: usize| {
        let (sin, cos) = (TAU * i as f64 / RIM as f64).sin_cos();
        let way = frame.right * cos + frame.up * sin;
        if i == 0 {
            out = skull.reach(Vec3::ZERO, way, out);
        }
        for _ in 0..if i == 0 { 30 } else { 12 } {
            let jet = skull.jet(way * out + frame.toward * deep);
            let bent = jet.hessian * frame.toward;
            // The value and the slope towards the eye, both to be brought to where they should be.
            let (off, facing) = (jet.value - 1.0, jet.gradient.dot(frame.toward));
            let (a, b) = (jet.gradient.dot(way), facing);
            let (c, d) = (bent.dot(way), bent.dot(frame.toward));
            let whole = a * d - b * c;
            if whole.abs() < 1e-12 {
                break;
            }
            let limit = 0.3 * skull.size();
            let step_out = ((off * d - facing * b) / whole).clamp(-limit, limit);
            let step_deep = ((facing * a - off * c) / whole).clamp(-limit, limit);
            out -= step_out;
            deep -= step_deep;
            if step_out.abs() + step_deep.abs() < 1e-7 {
                break;
            }
        }
        Vec3::new(cos * out, sin * out, deep)
    };
    (0..RIM).map(place).collect()
}

/// An ellipsoid as rays towards the eye meet it.
#[derive(Clone, Copy, Debug)]
struct Chord {
    shape: Placed,
    toward: Vec3,
    /// F's second coefficient along the ray.
    square: f64,
    /// The farthest from its middle that a ray may pass and meet it, cm².
    reach: f64,
}

impl Chord {
    fn new(shape: Placed, frame: &Frame) -> Self {
        let form = shape.jet(shape.centre()).hessian;
        let toward = frame.toward;
        Self {
            shape,
            toward,
            square: toward.dot(form * toward) / 2.0,
            reach: shape.size().powi(2),
        }
    }

    fn hides(&self, p: Vec3) -> bool {
        let from = p - self.shape.centre();
        let along = from.dot(self.toward);
        // Passed by, or well before it.
        let before = along > 0.0 && along * along > self.reach;
        if before || from.length_squared() - along * along > self.reach {
            return false;
        }
        // F along the ray is a t² + 2 b t + c + 1. It is met on the way to the eye if F falls at first and
        // gets down to 1; hair that rests on it, a little inside by its coarse steps, is seen where the
        // surface faces the eye.
        let (value, slope) = self.shape.slope(p);
        let (a, b, c) = (self.square, slope.dot(self.toward) / 2.0, value - 1.0);
        b < 0.0 && b * b > a * c
    }
}

#[cfg(test)]
mod tests {
    use super::super::eye::Eye;
    use super::*;
    use crate::head::{Head, Tapes};

    /// How far inside the nearest part the way from a place to the eye comes, cm, in steps of half a
    /// millimetre; below zero if it stays outside by so much.
    fn deepest(body: &Body, p: Vec3, toward: Vec3) -> f64 {
        let steps = 1..1400;
        let heights = steps.map(|i| body.height(p + toward * (f64::from(i) * 0.05)));
        -heights.fold(f64::INFINITY, f64::min)
    }

    /// Against a march along the ray through all parts, for places all around a head and on it.
    #[test]
    fn what_is_hidden_is_what_a_ray_meets() {
        let head = Head::from_tapes(&Tapes::default()).unwrap();
        let body = Body::of(&head);
        let mut told = [0, 0];
        for (turn, tilt) in [
            (0.0, 0.0),
            (40.0, 8.0),
            (90.0, 0.0),
            (-140.0, 35.0),
            (180.0, 90.0),
            (10.0, -25.0),
        ] {
            let frame = Eye::at_degrees(turn, tilt).frame();
            let cover = Cover::new(&body, frame);
            for i in 0..700_u32 {
                // Spread over shells about the head (the golden angle).
                let up = 1.0 - 2.0 * (f64::from(i) + 0.5) / 700.0;
                let round = f64::from(i) * 2.399_963;
                let level = (1.0 - up * up).sqrt();
                let way = Vec3::new(level * round.cos(), level * round.sin(), up);
                let p = body.skull().along(way) + way * [0.0, 0.5, 3.0, 14.0][i as usize % 4];
                let on_skull = i % 4 == 0;
                if body.parts().iter().any(|(_, part)| part.height(p) < 0.05) {
                    continue;
                }
                // On the skull itself the surface decides; a place that is only just seen or hidden is
                // left out.
                let facing = body.skull().normal(p).dot(frame.toward);
                if on_skull && facing.abs() < 0.05 {
                    continue;
                }
                let deep = deepest(&body, p + body.skull().normal(p) * 1e-3, frame.toward);
                if deep.abs() < 0.03 && !(on_skull && facing > 0.0 && deep < 0.0) {
                    continue;
                }
                assert_eq!(
                    cover.hides(p, frame.turned(p)),
                    deep > 0.0,
                    "{p} from {turn} {tilt}: {deep}"
                );
                told[usize::from(deep > 0.0)] += 1;
            }
        }
        assert!(told.iter().all(|n| *n > 700), "{told:?}");
    }

    #[test]
    fn the_rim_is_square_to_the_eye_and_goes_round_once() {
        let head = Head::from_tapes(&Tapes::default()).unwrap();
        for (turn, tilt) in [(0.0, 0.0), (70.0, 40.0), (180.0, 90.0)] {
            let frame = Eye::at_degrees(turn, tilt).frame();
            let rim = rim(head.skull(), &frame);
            for (i, p) in rim.iter().enumerate() {
                let at = frame.right * p.x + frame.up * p.y + frame.toward * p.z;
                assert!(head.skull().normal(at).dot(frame.toward).abs() < 1e-6);
                assert!(cross(*p, rim[(i + 1) % RIM]) > 0.0);
            }
        }
    }
}
