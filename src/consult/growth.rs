//! Growth directions, marked on the scalp.

use crate::hair::{Allowance, Reason, STRONG_TURN, Turn, Whorl};
use crate::head::{Head, Spot};
use crate::measure::{Length, Unit, read_length};
use crate::words::{noted, tr};
use serde::{Deserialize, Serialize};

/// How hair grows at a place against the rest.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Growth {
    /// Against its fall.
    #[default]
    Cowlick,
    /// About a point, clockwise seen from above.
    WhorlClockwise,
    /// About a point, anticlockwise seen from above.
    WhorlAnticlockwise,
    /// Up, at the nape.
    NapeUp,
    /// Off the forehead.
    FrontLift,
}

impl Growth {
    /// All of them.
    pub const ALL: [Self; 5] = [
        Self::Cowlick,
        Self::WhorlClockwise,
        Self::WhorlAnticlockwise,
        Self::NapeUp,
        Self::FrontLift,
    ];

    /// Its word in the screen's controls.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Cowlick => "cowlick",
            Self::WhorlClockwise => "whorl-clockwise",
            Self::WhorlAnticlockwise => "whorl-anticlockwise",
            Self::NapeUp => "nape-up",
            Self::FrontLift => "front-lift",
        }
    }

    /// Its name on the screen.
    pub fn name(self) -> &'static str {
        match self {
            Self::Cowlick => tr("Cowlick"),
            Self::WhorlClockwise => tr("Whorl, clockwise"),
            Self::WhorlAnticlockwise => tr("Whorl, anticlockwise"),
            Self::NapeUp => tr("Grows up at the nape"),
            Self::FrontLift => tr("Lifts at the front"),
        }
    }

    const fn reason(self) -> Reason {
        match self {
            Self::Cowlick => Reason::Cowlick,
            Self::WhorlClockwise | Self::WhorlAnticlockwise => Reason::Whorl,
            Self::NapeUp => Reason::Nape,
            Self::FrontLift => Reason::Lift,
        }
    }

    const fn turn(self) -> Turn {
        match self {
            Self::WhorlClockwise => Turn::Clockwise,
            Self::WhorlAnticlockwise => Turn::Anticlockwise,
            _ => Turn::None,
        }
    }
}

/// How much longer hair is left at a mark until somebody says, cm. Leaving it longer is common
/// practice, no source; the amount is judgement.
const USUAL: f64 = 1.0;
/// The most that is taken for it, cm.
const MOST: f64 = 5.0;
/// How far a mark reaches over the scalp, cm. Judgement.
const REACH: f64 = 4.0;

/// One mark on the scalp.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Mark {
    /// How hair grows there.
    pub growth: Growth,
    /// Degrees about the high point from the front, above 0 the client's left.
    azimuth: f64,
    /// Share of the way from the high point to the hairline, 0 to 1.
    out: f64,
    /// How much longer hair is left there, as typed; empty for the usual.
    pub longer: String,
}

/// A place that marks are named by: its name, degrees about the high point, share of the way out.
type Named = (&'static str, f64, f64);

/// Places to choose from, and by which a tapped place is named.
const PLACES: [Named; 14] = [
    (noted("Front hairline, middle"), 0.0, 0.96),
    (noted("Front hairline, left"), 22.0, 0.96),
    (noted("Front hairline, right"), -22.0, 0.96),
    (noted("Left temple"), 52.0, 0.94),
    (noted("Right temple"), -52.0, 0.94),
    (noted("Top"), 0.0, 0.35),
    (noted("Crown, middle"), 180.0, 0.32),
    (noted("Crown, left"), 145.0, 0.32),
    (noted("Crown, right"), -145.0, 0.32),
    (noted("Middle of the back"), 180.0, 0.62),
    (noted("Nape, middle"), 180.0, 0.95),
    (noted("Nape, left"), 158.0, 0.95),
    (noted("Nape, right"), -158.0, 0.95),
    (noted("High point"), 0.0, 0.0),
];

impl Mark {
    /// A mark at a place of the scalp; what lies beyond the hairline is laid on it.
    pub fn at(growth: Growth, spot: Spot) -> Self {
        let degrees = spot.azimuth.to_degrees();
        let sane = |x: f64| if x.is_finite() { x } else { 0.0 };
        // A tenth of a degree and a hundredth of the way are finer than any finger.
        Self {
            growth,
            azimuth: (sane(degrees) * 10.0).round() / 10.0,
            out: (sane(spot.out).clamp(0.0, 1.0) * 100.0).round() / 100.0,
            longer: String::new(),
        }
    }

    /// A mark at the named place of this number, of [`Mark::place_names`]; none if there is no such.
    pub fn at_named(growth: Growth, place: usize) -> Option<Self> {
        let (_, degrees, out) = PLACES.get(place)?;
        Some(Self::at(growth, Spot::at_degrees(*degrees, *out)))
    }

    /// The names of the places to choose from.
    pub fn place_names() -> impl Iterator<Item = &'static str> {
        PLACES.iter().map(|(name, ..)| tr(name))
    }

    /// Its place.
    pub fn spot(&self) -> Spot {
        let sane = |x: f64| if x.is_finite() { x } else { 0.0 };
        Spot::at_degrees(sane(self.azimuth) % 360.0, sane(self.out).clamp(0.0, 1.0))
    }

    /// The name of the nearest named place.
    pub fn place_name(&self) -> &'static str {
        // On the map, where both are drawn.
        let laid = |azimuth: f64, out: f64| {
            let (sin, cos) = azimuth.sin_cos();
            (out * sin, out * cos)
        };
        let spot = self.spot();
        let (x, y) = laid(spot.azimuth, spot.out);
        let far = |(_, degrees, out): &Named| {
            let (a, b) = laid(degrees.to_radians(), *out);
            (x - a).hypot(y - b)
        };
        let nearest = PLACES.iter().min_by(|a, b| far(a).total_cmp(&far(b)));
        nearest.map_or("", |(name, ..)| tr(name))
    }

    /// How much longer hair is left there: as said, or the usual; and what is wrong with what was typed.
    pub fn longer(&self) -> (Length, Option<String>) {
        let usual = Length::from_cm(USUAL);
        if self.longer.trim().is_empty() {
            return (usual, None);
        }
        match super::within(read_length(&self.longer, Unit::Cm), MOST) {
            Ok(length) => (length, None),
            Err(why) => (usual, Some(why)),
        }
    }

    /// What it comes to on a head.
    pub(super) fn allowance(&self, head: &Head) -> Allowance {
        Allowance {
            at: on_the_middle(head.place(self.spot()).to_array()),
            within: REACH,
            more: self.longer().0,
            reason: Some(self.growth.reason()),
        }
    }

    /// The whorl that the hair radiates from, if this is one.
    pub(super) fn whorl(&self) -> Option<Whorl> {
        let turn = self.growth.turn();
        (turn != Turn::None).then(|| Whorl {
            place: Some(self.spot()),
            turn,
            strength: STRONG_TURN,
        })
    }
}

/// A place that lies on the middle line but for rounding, laid on it.
fn on_the_middle([x, y, z]: [f64; 3]) -> [f64; 3] {
    [if x.abs() < 1e-6 { 0.0 } else { x }, y, z]
}
