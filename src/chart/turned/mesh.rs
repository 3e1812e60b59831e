//! The drawn surface as a net of triangles: where its outline runs, and what it hides.
//!
//! An outline is where the normal is square to the way to the eye. Between the corners of a triangle the
//! normal's share towards the eye runs straight, so the outline crosses a triangle in a straight piece
//! (Hertzmann and Zorin, 2000). Pieces on a hollow are hidden by the surface itself and left out.

use super::depth::Depth;
use super::eye::Frame;
use super::sculpt::Sculpt;
use crate::geometry::{Convex, Vec3};
use crate::head::Head;
use std::f64::consts::PI;

/// One corner of the net.
#[derive(Clone, Copy, Debug)]
struct Corner {
    at: Vec3,
    normal: Vec3,
}

/// The net of one head.
#[derive(Clone, Debug)]
pub(super) struct Mesh {
    columns: usize,
    rows: usize,
    corners: Vec<Corner>,
    /// Thin things that hide too, as fans: the ears.
    fans: Vec<Vec<Vec3>>,
}

/// What an eye sees of a net.
pub(super) struct Seen {
    /// The outline in pieces that hang together, places of the surface.
    pub outline: Vec<Vec<Vec3>>,
    /// What is hidden.
    pub depth: Depth,
}

/// No link of an outline.
const NONE: u32 = u32::MAX;
/// The ring about the high point that is left open, radians from straight up: nothing is seen of it.
const TOP: f64 = 0.002;
/// Steps from the ring to the widest level.
const UPPER: usize = 15;
/// Levels from brow to chin.
const FACE: usize = 28;
/// How far below chin and neck levels are apart, cm.
const NECK: f64 = 1.0;
const BODY: f64 = 2.5;
/// The outline may lie so far behind what is seen beside it and be seen, cm.
const BESIDE: f64 = 0.5;
/// A piece of outline shorter than this is no line, cm.
const CRUMB: f64 = 1.6;

/// Turns round the axis, radians: close together in the middle of the face.
fn turns() -> Vec<f64> {
    let mut half = Vec::new();
    let mut at: f64 = 0.0;
    while at < 179.0 {
        half.push(at);
        at += if at < 24.0 {
            2.4
        } else if at < 96.0 {
            6.0
        } else {
            7.0
        };
    }
    let mirrored = half.iter().skip(1).rev().map(|at| -at);
    let mut all: Vec<f64> = mirrored.collect();
    all.extend(&half);
    all.push(180.0);
    all.into_iter().map(f64::to_radians).collect()
}

/// Heights of the levels from the top down to `bottom`, cm.
fn levels(top: f64, sculpt: &Sculpt, bottom: f64) -> Vec<f64> {
    let mut levels: Vec<f64> = (0..UPPER)
        .map(|i| top * (TOP + (PI / 2.0 - TOP) * i as f64 / UPPER as f64).cos())
        .collect();
    let chin = sculpt.chin();
    levels.extend((0..FACE).map(|i| chin * i as f64 / FACE as f64));
    levels.extend([0.3, 0.12, 0.02, -0.02, -0.3].map(|above| chin + above));
    let mut z = chin - NECK;
    while z > bottom {
        levels.push(z);
        z -= if z > chin - 9.0 { NECK } else { BODY };
    }
    levels
}

impl Mesh {
    pub fn new(head: &Head, sculpt: &Sculpt, bottom: f64) -> Self {
        let turns = turns();
        let levels = levels(head.skull().top, sculpt, bottom);
        let (columns, rows) = (turns.len(), levels.len());
        let mut places = Vec::with_capacity(columns * rows);
        for &z in &levels {
            places.extend(turns.iter().map(|&turn| sculpt.at(z, turn)));
        }
        let at = |row: usize, column: usize| places[row * columns + column % columns];
        let skull = head.skull();
        let corner = |i: usize| {
            let p = places[i];
            if (skull.value(p) - 1.0).abs() < 1e-6 {
                return Corner {
                    at: p,
                    normal: skull.normal(p),
                };
            }
            let (row, column) = (i / columns, i % columns);
            let across = at(row, column + 1) - at(row, column + columns - 1);
            let down = at((row + 1).min(rows - 1), column) - at(row.saturating_sub(1), column);
            // The frame is left-handed, as is the net: across goes to the client's left.
            let normal = down.cross(across).normalize_or_zero();
            let out = p - sculpt.axis(p.z);
            Corner {
                at: p,
                normal: if normal.dot(out) < 0.0 {
                    -normal
                } else {
                    normal
                },
            }
        };
        Self {
            columns,
            rows,
            corners: (0..columns * rows).map(corner).collect(),
            fans: Vec::new(),
        }
    }

    /// The same with a thin thing more that hides what is behind it, a fan about its middle.
    pub fn with(mut self, fan: Vec<Vec3>) -> Self {
        self.fans.push(fan);
        self
    }

    pub fn seen(&self, frame: &Frame) -> Seen {
        let turned: Vec<Vec3> = self.corners.iter().map(|c| frame.turned(c.at)).collect();
        let facing: Vec<f64> = self
            .corners
            .iter()
            .map(|c| c.normal.dot(frame.toward))
            .collect();
        let mut depth = Depth::over(&turned);
        let placed: Vec<Vec3> = turned.iter().map(|p| depth.placed(*p)).collect();
        let mut links = vec![[NONE; 2]; 3 * self.corners.len()];
        let mut touched = Vec::new();
        for row in 0..self.rows - 1 {
            for column in 0..self.columns {
                let a = row * self.columns + column;
                let b = row * self.columns + (column + 1) % self.columns;
                let (d, e) = (a + self.columns, b + self.columns);
                let (across, down, aslant) = (3 * a, 3 * a + 1, 3 * a + 2);
                for (corners, edges) in [
                    ([a, b, e], [across, 3 * b + 1, aslant]),
                    ([a, e, d], [aslant, 3 * d, down]),
                ] {
                    let towards = corners.map(|i| facing[i]);
                    let seen = towards.map(|t| t > 0.0);
                    if seen == [true; 3] {
                        depth.lay(corners.map(|i| placed[i]));
                    } else if seen != [false; 3] {
                        depth.lay(corners.map(|i| placed[i]));
                        if bulges(corners.map(|i| turned[i]), towards) {
                            link(&mut links, &mut touched, edges, seen);
                        }
                    }
                }
            }
        }
        for fan in &self.fans {
            let middle = fan.iter().sum::<Vec3>() / fan.len().max(1) as f64;
            for pair in fan.windows(2) {
                let corners = [middle, pair[0], pair[1]].map(|p| frame.turned(p));
                depth.lay(corners.map(|p| depth.placed(p)));
            }
        }
        let outline = self.chains(&mut links, &touched, &facing);
        let outline = outline
            .into_iter()
            .flat_map(|chain| seen_runs(&chain, frame, &depth))
            .collect();
        Seen { outline, depth }
    }

    /// Where the outline crosses an edge.
    fn crossing(&self, edge: usize, facing: &[f64]) -> Vec3 {
        let from = edge / 3;
        let next = from - from % self.columns + (from % self.columns + 1) % self.columns;
        let to = match edge % 3 {
            0 => next,
            1 => from + self.columns,
            _ => next + self.columns,
        };
        let (a, b) = (facing[from], facing[to]);
        let share = if a == b {
            0.5
        } else {
            (a / (a - b)).clamp(0.0, 1.0)
        };
        self.corners[from].at.lerp(self.corners[to].at, share)
    }

    /// Pieces hung together.
    fn chains(&self, links: &mut [[u32; 2]], touched: &[u32], facing: &[f64]) -> Vec<Vec<Vec3>> {
        let mut chains = Vec::new();
        // Ends first, then what closes in itself.
        for ends_only in [true, false] {
            for &start in touched {
                let own = links[start as usize];
                let ends = own.iter().filter(|l| **l != NONE).count();
                if ends == 0 || (ends_only && ends != 1) {
                    continue;
                }
                let mut chain = vec![self.crossing(start as usize, facing)];
                let mut at = start;
                while let Some(slot) = links[at as usize].iter().position(|l| *l != NONE) {
                    let next = std::mem::replace(&mut links[at as usize][slot], NONE);
                    if let Some(back) = links[next as usize].iter().position(|l| *l == at) {
                        links[next as usize][back] = NONE;
                    }
                    chain.push(self.crossing(next as usize, facing));
                    at = next;
                }
                chains.push(chain);
            }
        }
        chains
    }
}

/// Notes that the outline runs from edge to edge across a triangle.
fn link(links: &mut [[u32; 2]], touched: &mut Vec<u32>, edges: [usize; 3], seen: [bool; 3]) {
    let crossed = [seen[0] != seen[1], seen[1] != seen[2], seen[2] != seen[0]];
    let mut ends = (0..3).filter(|i| crossed[*i]).map(|i| edges[i]);
    let (Some(one), Some(two)) = (ends.next(), ends.next()) else {
        return;
    };
    for (from, to) in [(one, two), (two, one)] {
        let slots = &mut links[from];
        if slots[0] == NONE {
            slots[0] = to as u32;
            touched.push(from as u32);
        } else {
            slots[1] = to as u32;
        }
    }
}

/// Whether the surface is round there along the way to the eye, not hollow: the nearer, the more it faces
/// the eye.
fn bulges(corners: [Vec3; 3], facing: [f64; 3]) -> bool {
    let [p, q, r] = corners;
    let (u, v) = (q - p, r - p);
    let (gu, gv) = (facing[1] - facing[0], facing[2] - facing[0]);
    let (uu, uv, vv) = (u.dot(u), u.dot(v), v.dot(v));
    // The slopes of depth and of facing within the triangle, multiplied.
    gu * u.z * vv - (gu * v.z + gv * u.z) * uv + gv * v.z * uu > 0.0
}

/// The pieces of a chain that nothing hides.
fn seen_runs(chain: &[Vec3], frame: &Frame, depth: &Depth) -> Vec<Vec<Vec3>> {
    let seen: Vec<bool> = chain
        .windows(2)
        .map(|pair| !depth.hides(frame.turned(pair[0].midpoint(pair[1])), BESIDE))
        .collect();
    let mut runs: Vec<Vec<Vec3>> = Vec::new();
    let mut going = false;
    for (i, pair) in chain.windows(2).enumerate() {
        // A gap of one piece between seen ones is the grid's, not the head's.
        let gap = i > 0 && seen[i - 1] && seen.get(i + 1) == Some(&true);
        let seen = seen[i] || gap;
        match runs.last_mut() {
            Some(run) if seen && going => run.push(pair[1]),
            _ if seen => runs.push(pair.to_vec()),
            _ => {}
        }
        going = seen;
    }
    // Crumbs are no lines.
    let long = |run: &[Vec3]| -> f64 {
        let flat = |p: Vec3| frame.turned(p).truncate();
        run.windows(2)
            .map(|pair| flat(pair[0]).distance(flat(pair[1])))
            .sum()
    };
    runs.retain(|run| long(run) > CRUMB);
    runs
}
