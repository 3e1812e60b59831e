//! What the head and the body hide: convex parts between a place and the eye.
//!
//! The skull by its rim, where its surface turns away from the eye: from the middle of the head to a place
//! of the rim all is inside, so what lies farther from the eye than that line and within the rim is hidden.
//! The other parts are ellipsoids, whose chord along a ray is a root.

use super::eye::Frame;
use crate::geometry::{Convex, Egg, Placed, Vec3};
use crate::head::Body;
use std::f64::consts::TAU;

/// Places of the rim. Between two the drawn head's rim is less than 0.1 mm from straight.
const RIM: usize = 120;
/// Directions that the rim's places are looked up by.
const LOOK: usize = 256;

/// The convex parts of a body, as one eye sees them.
#[derive(Clone, Debug)]
pub(super) struct Cover {
    frame: Frame,
    /// The skull's rim, turned: across, up, towards the eye; by rising angle.
    rim: Vec<Vec3>,
    /// For each direction the place of the rim before it.
    look: [u8; LOOK],
    /// The farthest place of the rim, squared, cm².
    reach: f64,
    parts: Vec<Chord>,
}

impl Cover {
    pub fn new(body: &Body, frame: Frame) -> Self {
        let rim = rim(body.skull(), &frame);
        let mut look = [0; LOOK];
        // The rim's angles rise, so the place before each direction does too.
        let angles: Vec<f64> = rim.iter().map(|p| around(*p)).collect();
        let first = (0..RIM)
            .min_by(|a, b| angles[*a].total_cmp(&angles[*b]))
            .unwrap_or(0);
        let mut passed = 0;
        for (i, place) in look.iter_mut().enumerate() {
            let at = i as f64 / LOOK as f64 * TAU;
            while passed < RIM && angles[(first + passed) % RIM] <= at {
                passed += 1;
            }
            *place = ((first + passed + RIM - 1) % RIM) as u8;
        }
        let far = |p: &Vec3| p.x * p.x + p.y * p.y;
        let reach = rim.iter().map(far).fold(0.0, f64::max);
        let parts = body.parts().iter();
        Self {
            look,
            reach,
            rim,
            parts: parts.map(|(_, shape)| Chord::new(*shape, &frame)).collect(),
            frame,
        }
    }

    /// Whether a place outside all parts, or on one, is hidden by one of them.
    pub fn hides(&self, p: Vec3) -> bool {
        self.skull_hides(p) || self.parts.iter().any(|chord| chord.hides(p))
    }

    /// Whether the skull hides it.
    pub fn skull_hides(&self, p: Vec3) -> bool {
        let p = self.frame.turned(p);
        let far = p.x * p.x + p.y * p.y;
        if far >= self.reach {
            return false;
        }
        if far < 1e-12 {
            return p.z < 0.0;
        }
        // The piece of rim that the place lies abreast of.
        let guess = (around(p) / TAU * LOOK as f64) as usize % LOOK;
        let mut i = usize::from(self.look[guess]);
        let mut next = (i + 1) % RIM;
        for _ in 0..RIM {
            if cross(self.rim[next], p) < 0.0 {
                break;
            }
            (i, next) = (next, (next + 1) % RIM);
        }
        let (a, b) = (self.rim[i], self.rim[next]);
        // p = s a + t b within the picture; inside if s + t < 1.
        let whole = cross(a, b);
        if whole <= 0.0 {
            return false;
        }
        let (s, t) = (cross(p, b) / whole, cross(a, p) / whole);
        s + t < 1.0 && p.z < s * a.z + t * b.z
    }
}

/// The angle of a turned place, 0 to 2π.
fn around(p: Vec3) -> f64 {
    let angle = p.y.atan2(p.x);
    if angle < 0.0 { angle + TAU } else { angle }
}

fn cross(a: Vec3, b: Vec3) -> f64 {
    a.x * b.y - a.y * b.x
}

/// The rim of the skull, turned, by rising angle: where its normal is square to the way to the eye.
pub(super) fn rim(skull: &Egg, frame: &Frame) -> Vec<Vec3> {
    (0..RIM)
        .map(|i| {
            let (sin, cos) = (TAU * i as f64 / RIM as f64).sin_cos();
            frame.turned(skull.touching(frame.right * cos + frame.up * sin))
        })
        .collect()
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
        if from.length_squared() - along * along > self.reach {
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
                assert_eq!(cover.hides(p), deep > 0.0, "{p} from {turn} {tilt}: {deep}");
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
