//! Partings into sections: which patch of scalp is held at once, on which side, in which order.

use super::choices::Choices;
use super::model::{Area, Edge, Plan, Step};
use crate::head::{Landmark, Side, Spot};
use std::f64::consts::PI;

/// A patch of scalp between two azimuths and two shares of the way out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Patch {
    /// Azimuths in radians; on the right side both are mirrored, so `to` may be below `from`.
    pub from: f64,
    /// The far azimuth.
    pub to: f64,
    /// Shares of the way from the high point to the hairline, the inner first.
    pub inner: f64,
    /// The outer share.
    pub outer: f64,
}

impl Patch {
    /// Whether the patch holds this spot, its edges included.
    pub fn holds(&self, spot: Spot) -> bool {
        let slack = 1e-6;
        let (low, high) = (
            self.from.min(self.to) - slack,
            self.from.max(self.to) + slack,
        );
        // A patch next to the back reaches ±π; a spot just across it is written the other way.
        let turned = [
            spot.azimuth,
            spot.azimuth + 2.0 * PI,
            spot.azimuth - 2.0 * PI,
        ];
        turned.iter().any(|a| (low..=high).contains(a))
            && (self.inner - slack..=self.outer + slack).contains(&spot.out)
    }

    /// A spot within it: shares of the way from `from` to `to` and from inner to outer.
    pub fn spot(&self, across: f64, out: f64) -> Spot {
        Spot {
            azimuth: self.from + (self.to - self.from) * across,
            out: self.inner + (self.outer - self.inner) * out,
        }
    }

    /// Roots that stand for it: `count` rows side by side, each in the middle of its share of the
    /// patch so that no root lies on an edge two sections have in common; in each row `count` roots
    /// from the inner to the outer end.
    pub fn roots(&self, count: usize) -> Vec<Spot> {
        let row = |i: usize| (i as f64 + 0.5) / count as f64;
        let end = |i: usize| {
            if count < 2 {
                0.5
            } else {
                i as f64 / (count - 1) as f64
            }
        };
        (0..count)
            .flat_map(|r| (0..count).map(move |i| (r, i)))
            .map(|(r, i)| self.spot(row(r), end(i)))
            .collect()
    }

    fn mirrored(self) -> Self {
        Self {
            from: -self.from,
            to: -self.to,
            ..self
        }
    }
}

/// A section as it is held and cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Number within its step and side, from 1.
    pub number: usize,
    /// Its name.
    pub name: String,
    /// The client's side.
    pub side: Side,
    /// Its patch of scalp; a single spot when it is a place to check.
    pub patch: Patch,
}

/// Where pivoting sections start, as a share of the way out: nearer to the pivot they run together.
const PIVOT: f64 = 0.1;

/// The sections of a step, the client's left side first, each in cutting order.
pub fn sections(plan: &Plan, step: &Step, choices: &Choices) -> Vec<Section> {
    let parting = choices.parting(plan).azimuth();
    let mut all = Vec::new();
    for side in [Side::Left, Side::Right] {
        let parting = parting * side.sign();
        let patches: Vec<(String, Patch)> = match &step.area {
            Area::FrontPiece { width, depth, name } => {
                let patch = Patch {
                    from: parting,
                    to: parting + width.to_radians(),
                    inner: 1.0 - depth,
                    outer: 1.0,
                };
                vec![(name.clone(), patch)]
            }
            Area::Pivoting { edges, names } => names
                .iter()
                .zip(edges.windows(2))
                .map(|(name, pair)| {
                    let at = |edge| edge_azimuth(edge, parting);
                    let patch = Patch {
                        from: at(pair[0]),
                        to: at(pair[1]),
                        inner: PIVOT,
                        outer: 1.0,
                    };
                    (name.clone(), patch)
                })
                .collect(),
            Area::Places { places } => places
                .iter()
                .map(|place| {
                    let azimuth = place.azimuth.to_radians();
                    let patch = Patch {
                        from: azimuth,
                        to: azimuth,
                        inner: place.out,
                        outer: place.out,
                    };
                    (place.name.clone(), patch)
                })
                .collect(),
        };
        all.extend(
            patches
                .into_iter()
                .enumerate()
                .map(|(i, (name, patch))| Section {
                    number: i + 1,
                    name,
                    side,
                    patch: if side == Side::Right {
                        patch.mirrored()
                    } else {
                        patch
                    },
                }),
        );
    }
    all
}

/// Azimuth in radians of an edge on the left side, whose parting lies at `parting`.
fn edge_azimuth(edge: Edge, parting: f64) -> f64 {
    // Every landmark named here has one.
    let of = |landmark: Landmark| landmark.hairline_azimuth().unwrap_or_default();
    match edge {
        Edge::Parting => parting,
        Edge::Temple => of(Landmark::Temple),
        Edge::InFrontOfEar => of(Landmark::InFrontOfEar),
        Edge::AboveEar => of(Landmark::AboveEar),
        Edge::BehindEar => of(Landmark::BehindEar),
        Edge::NapeCorner => of(Landmark::NapeCorner),
        Edge::Behind(share) => {
            let ear = of(Landmark::BehindEar);
            ear + (PI - ear) * share
        }
        Edge::BackCentre => PI,
    }
}
