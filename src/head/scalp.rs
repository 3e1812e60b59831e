//! Places on the scalp: an azimuth about the high point and a share of the way to the hairline.

use super::Head;
use crate::geometry::{Convex, PlanarArc, Vec3, planar_arc};
use serde::{Deserialize, Serialize};

/// A place on the scalp.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Spot {
    /// Radians about the upright axis through the high point: 0 is the front, π/2 the client's
    /// left, −π/2 the right, ±π the back.
    pub azimuth: f64,
    /// Share of the arc from the high point (0) to the hairline (1).
    pub out: f64,
}

impl Spot {
    /// The place at this azimuth in degrees and share of the way out.
    pub const fn at_degrees(azimuth: f64, out: f64) -> Self {
        Self {
            azimuth: azimuth.to_radians(),
            out,
        }
    }

    /// The same place on the other side.
    pub const fn mirrored(self) -> Self {
        Self {
            azimuth: -self.azimuth,
            out: self.out,
        }
    }
}

/// The line on the skull from the high point straight down at one azimuth.
#[derive(Clone, Debug)]
pub struct Meridian {
    arc: PlanarArc,
    hairline: f64,
}

/// How far down a meridian is followed, from straight up: past the nape on any head.
const DEEPEST: f64 = 165.0 * std::f64::consts::PI / 180.0;

impl Meridian {
    /// The meridian of `skull` at `azimuth` (radians) whose hairline lies `hairline` cm down it.
    pub(super) fn new<S: Convex>(skull: &S, azimuth: f64, hairline: f64) -> Self {
        Self {
            arc: meridian_arc(skull, azimuth),
            hairline,
        }
    }

    /// The place `share` of the way from the high point to the hairline, on the skull.
    pub fn at(&self, share: f64) -> Vec3 {
        self.arc.at(self.hairline * share)
    }

    /// Arc length in cm from the high point to the hairline.
    pub fn hairline(&self) -> f64 {
        self.hairline
    }
}

/// The arc from the high point down at `azimuth`, past where any hair grows.
pub(super) fn meridian_arc<S: Convex>(skull: &S, azimuth: f64) -> PlanarArc {
    let level = Vec3::new(azimuth.sin(), azimuth.cos(), 0.0);
    planar_arc(skull, Vec3::ZERO, (Vec3::Z, level), (0.0, DEEPEST))
}

impl Head {
    /// The meridian of the scalp at `azimuth` (radians).
    pub fn meridian(&self, azimuth: f64) -> Meridian {
        Meridian::new(self.skull(), azimuth, self.hairline().distance(azimuth))
    }

    /// Where a spot of the scalp lies, on the skull's surface.
    pub fn place(&self, spot: Spot) -> Vec3 {
        self.skull()
            .settle(self.meridian(spot.azimuth).at(spot.out))
    }

    /// The same for spots of one azimuth, that of the first.
    pub fn places(&self, row: &[Spot]) -> Vec<Vec3> {
        let Some(first) = row.first() else {
            return Vec::new();
        };
        let meridian = self.meridian(first.azimuth);
        row.iter()
            .map(|spot| self.skull().settle(meridian.at(spot.out)))
            .collect()
    }

    /// Whether hair grows at `p`, a place on the skull in cm: it lies within the hairline. Tells the
    /// same as `out` of [`Head::spot`] being at most 1, to 0.01 cm, at a fraction of the cost.
    pub fn grows_hair(&self, p: Vec3) -> bool {
        self.edge().encloses(p)
    }

    /// The spot of a place on the skull; `out` is above 1 beyond the hairline.
    pub fn spot(&self, place: Vec3) -> Spot {
        let azimuth = place.x.atan2(place.y);
        let level = Vec3::new(azimuth.sin(), azimuth.cos(), 0.0);
        let down = place.dot(level).atan2(place.z);
        let arc = planar_arc(
            self.skull(),
            Vec3::ZERO,
            (Vec3::Z, level),
            (0.0, down.max(1e-6)),
        );
        Spot {
            azimuth,
            out: arc.length() / self.hairline().distance(azimuth),
        }
    }
}
