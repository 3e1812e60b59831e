//! What may be turned in a plan to meet goals, and the plan when it was.

use crate::measure::{Unit, storable};
use crate::plan::{Elevation, Facing, Held, Plan, Reference, Step};
use crate::words::tr;
use serde::{Deserialize, Serialize};

/// How much shorter and longer than planned a guide may be left, cm. Judgement.
const LENGTHS: (f64, f64) = (-15.0, 25.0);
/// How far from planned hair may be held, degrees. Judgement.
const LIFT: f64 = 60.0;
/// The most that a length is turned by, cm: longer than any hair that is cut.
const MOST_CM: f64 = 300.0;

/// What may be turned to meet goals.
#[derive(Clone, Debug, PartialEq)]
pub struct Means {
    /// The step's id.
    pub step: String,
    /// What of it.
    pub turns: Turns,
    /// From how much less to how much more than planned: cm, or degrees.
    pub range: (f64, f64),
}

/// What of a step may be turned.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Turns {
    /// How long its guide is left; where hair falls, how low the line lies.
    Length,
    /// How high its hair is held.
    Elevation,
}

impl Means {
    /// Its range, no wider than anything that can be held: a search never ends in an endless one.
    pub(super) fn bounds(&self) -> (f64, f64) {
        let most = match self.turns {
            Turns::Length => MOST_CM,
            Turns::Elevation => 180.0,
        };
        let (low, high) = self.range;
        (low.clamp(-most, most), high.clamp(-most, most))
    }
}

/// Everything that may be turned in a plan: the length of every step that cuts, and how high its
/// hair is held where that means anything.
pub fn means_of(plan: &Plan) -> Vec<Means> {
    let mut all = Vec::new();
    for step in plan.steps.iter().filter(|step| step.held.cuts()) {
        let mut push = |turns, range| {
            all.push(Means {
                step: step.id.clone(),
                turns,
                range,
            });
        };
        push(Turns::Length, LENGTHS);
        if let Some((degrees, most)) = elevation(&step.held) {
            push(
                Turns::Elevation,
                ((-degrees).max(-LIFT), (most - degrees).min(LIFT)),
            );
        }
    }
    all
}

/// How high a step's hair is held and the most it may be, degrees; none where that means nothing.
fn elevation(held: &Held) -> Option<(f64, f64)> {
    match held {
        Held::Stationary(cut) => Some((cut.elevation.degrees, 180.0)),
        Held::Travelling(travel) => Some((travel.elevation.degrees, 180.0)),
        Held::Plane(plane) => match plane.facing {
            Facing::Side => Some((0.0, 90.0)),
            Facing::Slope(degrees) => Some((degrees, 90.0)),
            // A plane that faces up, back or front has no other lift in a plan.
            Facing::Top | Facing::Back | Facing::Front => None,
        },
        Held::Fall(_) | Held::Trim(_) | Held::Taper(_) | Held::Check => None,
    }
}

/// One change of a plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// The step's id.
    pub step: String,
    /// What of it.
    pub turns: Turns,
    /// How much longer (cm) or higher (degrees) than it was.
    pub by: f64,
}

impl Change {
    /// Makes it in a plan. A step that is not there, or has no such thing, stays as it is.
    pub fn make(&self, plan: &mut Plan) {
        let Some(step) = plan.steps.iter_mut().find(|step| step.id == self.step) else {
            return;
        };
        if self.turns == Turns::Length {
            step.longer = storable(step.longer + self.by);
            return;
        }
        let lift = |elevation: &mut Elevation| {
            elevation.degrees = storable(elevation.degrees + self.by).clamp(0.0, 180.0);
        };
        match &mut step.held {
            Held::Stationary(cut) => lift(&mut cut.elevation),
            Held::Travelling(travel) => lift(&mut travel.elevation),
            Held::Plane(plane) => match plane.facing {
                Facing::Side => plane.facing = Facing::Slope(storable(self.by).clamp(0.0, 90.0)),
                Facing::Slope(degrees) => {
                    plane.facing = Facing::Slope(storable(degrees + self.by).clamp(0.0, 90.0));
                }
                Facing::Top | Facing::Back | Facing::Front => {}
            },
            Held::Fall(_) | Held::Trim(_) | Held::Taper(_) | Held::Check => {}
        }
    }

    /// What to do otherwise, for a plan that it was not made in yet: `“Sides”: hold at 62° from the
    /// head instead of 90°`.
    pub fn said(&self, plan: &Plan, unit: Unit) -> String {
        let Some(step) = plan.steps.iter().find(|step| step.id == self.step) else {
            return String::new();
        };
        tr!("“{}”: {}.", step.name(), self.what(step, unit))
    }

    fn what(&self, step: &Step, unit: Unit) -> String {
        if self.turns == Turns::Length {
            let by = super::height::fine(self.by.abs(), unit);
            return match (&step.held, self.by > 0.0) {
                (Held::Fall(_), true) => tr!("{by} lower", by),
                (Held::Fall(_), false) => tr!("{by} higher", by),
                (Held::Trim(_), true) => tr!("take {by} less off", by),
                (Held::Trim(_), false) => tr!("take {by} more off", by),
                (_, true) => tr!("leave it {by} longer", by),
                (_, false) => tr!("leave it {by} shorter", by),
            };
        }
        let Some((degrees, _)) = elevation(&step.held) else {
            return String::new();
        };
        let from = match &step.held {
            Held::Stationary(cut) => Some(cut.elevation.from),
            Held::Travelling(travel) => Some(travel.elevation.from),
            _ => None,
        };
        let whole = |degrees: f64| format!("{degrees:.0}");
        let (to, was) = (whole(degrees + self.by), whole(degrees));
        match from {
            Some(Reference::Head) => tr!("hold at {to}° from the head instead of {was}°", to, was),
            Some(Reference::Room) => {
                tr!(
                    "hold at {to}° from straight down instead of {was}°",
                    to,
                    was
                )
            }
            None => tr!("hold at {to}° above level instead of {was}°", to, was),
        }
    }
}

/// What a hand can do: a whole degree as it is held, a millimetre of length.
pub(super) fn by_hand(plan: &Plan, means: &Means, by: f64) -> f64 {
    match means.turns {
        Turns::Length => (by * 10.0).round() / 10.0,
        Turns::Elevation => {
            let step = plan.steps.iter().find(|step| step.id == means.step);
            let planned = step.and_then(|s| elevation(&s.held)).map_or(0.0, |e| e.0);
            (planned + by).round() - planned
        }
    }
}
