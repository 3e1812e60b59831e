//! Places spread evenly over the scalp, each with the area it stands for.

use super::Head;
use crate::geometry::{Convex, Vec3, bracketed};
use std::f64::consts::{PI, TAU};

/// One place of the scalp and the skin around it.
#[derive(Clone, Copy, Debug)]
pub struct Sample {
    /// Where it lies on the skull.
    pub root: Vec3,
    /// The outward unit normal there.
    pub normal: Vec3,
    /// The area of scalp it stands for, cm².
    pub area: f64,
}

/// Azimuths at which the edge of the hair is looked up; it is straight between them.
const EDGES: usize = 180;

impl Head {
    /// About `count` places spread evenly over the scalp, as many on each side and none on the
    /// middle line. Their areas add up to the scalp's.
    ///
    /// The scalp is laid out in rings about the high point; each ring is cut into cells about as
    /// wide as it is deep.
    pub fn samples(&self, count: usize) -> Vec<Sample> {
        let edges: Vec<f64> = (0..=EDGES)
            .map(|i| self.edge_polar(TAU * share(i, EDGES)))
            .collect();
        let edge = |azimuth: f64| {
            let at = azimuth.rem_euclid(TAU) / TAU * EDGES as f64;
            let i = (at as usize).min(EDGES - 1);
            edges[i] + (edges[i + 1] - edges[i]) * (at - i as f64)
        };
        let place = |azimuth: f64, out: f64| {
            let polar = edge(azimuth) * out;
            self.skull().along(Vec3::new(
                polar.sin() * azimuth.sin(),
                polar.sin() * azimuth.cos(),
                polar.cos(),
            ))
        };
        // Cells as wide as deep on a disc of n rings: the k-th ring holds about π(2k + 1) of them.
        let rings = ((count as f64 / PI).sqrt().round() as usize).max(2);
        let mut all = Vec::with_capacity(count + count / 4);
        for ring in 0..rings {
            let a_side = (PI * (ring as f64 + 0.5)).round().max(1.0) as usize;
            let out = (ring as f64 + 0.5) / rings as f64;
            let quarter = 0.25 / rings as f64;
            for cell in 0..a_side {
                let azimuth = PI * (cell as f64 + 0.5) / a_side as f64;
                let aside = PI * 0.25 / a_side as f64;
                for azimuth in [azimuth, -azimuth] {
                    let root = place(azimuth, out);
                    // Half of the cell each way stands for the whole: |∂p × ∂p| in its middle.
                    let across = place(azimuth + aside, out) - place(azimuth - aside, out);
                    let down = place(azimuth, out + quarter) - place(azimuth, out - quarter);
                    all.push(Sample {
                        root,
                        normal: self.skull().normal(root),
                        area: 4.0 * across.cross(down).length(),
                    });
                }
            }
        }
        all
    }
}

impl Head {
    /// How far from straight up the hairline lies at an azimuth, seen from the middle, radians.
    fn edge_polar(&self, azimuth: f64) -> f64 {
        let (x, y) = azimuth.sin_cos();
        let level = self.edge().height(x, y);
        let mut reach = self.skull().size();
        let over = |polar: f64| {
            let d = Vec3::new(polar.sin() * x, polar.sin() * y, polar.cos());
            reach = self.skull().reach(Vec3::ZERO, d, reach);
            d.z * reach - level
        };
        // The hairline lies below the high point and above the end of the skull.
        bracketed((0.0, PI), 1e-7, over).unwrap_or(PI / 2.0)
    }
}

fn share(i: usize, n: usize) -> f64 {
    i as f64 / n as f64
}
