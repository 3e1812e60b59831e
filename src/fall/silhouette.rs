//! Silhouettes: how far hair and body reach to either side at every height, from one side, from the
//! front and from the back.

use crate::geometry::{Convex, Vec3};
use crate::head::Body;

/// Directions tried for how far a level section of the skull reaches; good to 0.02 cm on a head.
const DIRECTIONS: u32 = 48;
/// Bands more than this are a faulty band height, not a head.
const MOST_BANDS: f64 = 20_000.0;

/// From where one looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum View {
    /// At the client's left side: across the page runs −y, the face to the left.
    LeftSide,
    /// At the client's right side: across the page runs y, the face to the right.
    RightSide,
    /// At the face: across the page runs x, the client's left to the right.
    Front,
    /// At the back: across the page runs −x.
    Back,
}

impl View {
    /// The direction in space that runs across the page to the right.
    pub const fn across(self) -> Vec3 {
        match self {
            Self::LeftSide => Vec3::NEG_Y,
            Self::RightSide => Vec3::Y,
            Self::Front => Vec3::X,
            Self::Back => Vec3::NEG_X,
        }
    }
}

/// The extent at one height.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// Its height, cm.
    pub z: f64,
    /// The leftmost place on the page, cm.
    pub from: f64,
    /// The rightmost place on the page, cm.
    pub to: f64,
}

/// A silhouette as one band a height, from the top down. Heights with nothing on them have none.
#[derive(Clone, Debug, PartialEq)]
pub struct Silhouette {
    /// From where it is seen.
    pub view: View,
    /// Its bands, from the highest down.
    pub bands: Vec<Band>,
}

impl Silhouette {
    /// That of the fallen hair alone, from the points of its ways ([`super::fall_path`]), with a
    /// band every `spacing` cm (0.05 at least). A height that no way crosses has no band.
    pub fn of_hair(view: View, paths: &[Vec<Vec3>], spacing: f64) -> Self {
        let across = view.across();
        let flat: Vec<Vec<(f64, f64)>> = paths
            .iter()
            .map(|path| path.iter().map(|p| (across.dot(*p), p.z)).collect())
            .collect();
        let all = || flat.iter().flatten().map(|p: &(f64, f64)| p.1);
        let grid = Grid::over(all(), spacing);
        let mut reach = vec![(f64::INFINITY, f64::NEG_INFINITY); grid.count];
        for path in &flat {
            for pair in path.windows(2) {
                grid.cross(pair[0], pair[1], |i, at| {
                    let (from, to) = &mut reach[i];
                    *from = from.min(at);
                    *to = to.max(at);
                });
            }
        }
        let bands = reach.iter().enumerate().rev();
        Self {
            view,
            bands: bands
                .filter(|(_, (from, to))| from <= to)
                .map(|(i, &(from, to))| Band {
                    z: grid.height(i),
                    from,
                    to,
                })
                .collect(),
        }
    }

    /// That of the body alone, between the heights `low` and `high` (cm).
    pub fn of_body<S: Convex>(
        view: View,
        body: &Body<S>,
        (low, high): (f64, f64),
        spacing: f64,
    ) -> Self {
        let grid = Grid::over([low, high].into_iter(), spacing);
        let bands = (0..grid.count).rev().filter_map(|i| {
            let z = grid.height(i);
            let parts = body.parts().iter();
            let sections = parts.filter_map(|(_, shape)| shape.level_reach(view.across(), z));
            let (from, to) = sections
                .chain(skull_reach(body.skull(), view.across(), z))
                .reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))?;
            Some(Band { z, from, to })
        });
        Self {
            view,
            bands: bands.collect(),
        }
    }

    /// Both together: at each height the further reach. Both need the same spacing.
    pub fn with(&self, other: &Self) -> Self {
        let mut bands: Vec<Band> = self.bands.iter().chain(&other.bands).copied().collect();
        bands.sort_by(|a, b| b.z.total_cmp(&a.z));
        let mut joined: Vec<Band> = Vec::new();
        for band in bands {
            match joined.last_mut() {
                Some(last) if (last.z - band.z).abs() < 1e-6 => {
                    last.from = last.from.min(band.from);
                    last.to = last.to.max(band.to);
                }
                _ => joined.push(band),
            }
        }
        Self {
            view: self.view,
            bands: joined,
        }
    }

    /// It as a closed polygon of (across, up) in cm: down its right edge and up its left.
    pub fn outline(&self) -> Vec<(f64, f64)> {
        let down = self.bands.iter().map(|band| (band.to, band.z));
        let up = self.bands.iter().rev().map(|band| (band.from, band.z));
        down.chain(up).collect()
    }

    /// The band at the height nearest to `z`, if one lies within half a spacing of it.
    pub fn at(&self, z: f64, spacing: f64) -> Option<Band> {
        let off = |band: &Band| (band.z - z).abs();
        let nearest = self.bands.iter().min_by(|a, b| off(a).total_cmp(&off(b)))?;
        (off(nearest) <= spacing / 2.0 + 1e-9).then_some(*nearest)
    }
}

/// Heights at whole multiples of a spacing.
struct Grid {
    first: f64,
    spacing: f64,
    count: usize,
}

impl Grid {
    /// Those between the least and the greatest of `heights`.
    fn over(heights: impl Iterator<Item = f64>, spacing: f64) -> Self {
        let spacing = if spacing > 0.05 && spacing.is_finite() {
            spacing
        } else {
            0.05
        };
        let (low, high) = heights
            .filter(|z| z.is_finite())
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), z| {
                (low.min(z), high.max(z))
            });
        let spacing = spacing.max((high - low) / MOST_BANDS);
        let first = (low / spacing).ceil();
        let count = if low <= high {
            (high / spacing).floor() - first + 1.0
        } else {
            0.0
        };
        Self {
            first,
            spacing,
            count: count.max(0.0) as usize,
        }
    }

    fn height(&self, i: usize) -> f64 {
        (self.first + i as f64) * self.spacing
    }

    /// Tells every height that the line from `a` to `b`, (across, up), crosses, and where.
    fn cross(&self, a: (f64, f64), b: (f64, f64), mut tell: impl FnMut(usize, f64)) {
        let (low, high) = if a.1 <= b.1 { (a, b) } else { (b, a) };
        let place = |z: f64| z / self.spacing - self.first;
        let from = place(low.1).ceil().max(0.0) as usize;
        let to = (place(high.1).floor() + 1.0).max(0.0) as usize;
        for i in from..to.min(self.count) {
            let rise = high.1 - low.1;
            let share = if rise > 0.0 {
                (self.height(i) - low.1) / rise
            } else {
                0.0
            };
            tell(i, low.0 + (high.0 - low.0) * share);
        }
    }
}

/// How far the skull's level section at `z` reaches along `across`, least and greatest.
fn skull_reach<S: Convex>(skull: &S, across: Vec3, z: f64) -> Option<(f64, f64)> {
    let middle = Vec3::Z * z;
    if skull.value(middle) >= 1.0 {
        return None;
    }
    (0..DIRECTIONS)
        .map(|i| {
            let angle = f64::from(i) * std::f64::consts::TAU / f64::from(DIRECTIONS);
            let out = Vec3::new(angle.sin(), angle.cos(), 0.0);
            let at = across.dot(skull.along_from(middle, out));
            (at, at)
        })
        .reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))
}
