//! Partings into sections: which patch of scalp is held at once, on which side, in which order.

use super::choices::Choices;
use super::lines::Lay;
use super::model::{Plan, Step};
use super::partings::{Area, End, Pattern, Start};
use super::patch::{Edge, Family, Patch};
use crate::geometry::Vec3;
use crate::head::{Head, Landmark, Sample, Side, Spot};
use std::f64::consts::PI;
use std::sync::Arc;

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

/// The least spacing that partings are laid at, cm: finer than any comb parts hair.
const LEAST_SPACING: f64 = 0.4;
/// The most sections a step is parted into on one side.
const MOST: usize = 80;

/// The sections of a step on this head, side after side, each in cutting order. Sections without
/// scalp on this head are left out.
pub fn sections(head: &Head, plan: &Plan, step: &Step, choices: &Choices) -> Vec<Section> {
    let mut all = Vec::new();
    for &side in step.sides.all() {
        let lay = Lay {
            head,
            side,
            parting: choices.parting(plan).azimuth(),
        };
        let patches = patches(&lay, &step.area);
        all.extend(
            patches
                .into_iter()
                .enumerate()
                .map(|(i, (name, patch))| Section {
                    number: i + 1,
                    name,
                    side,
                    patch,
                }),
        );
    }
    all
}

fn patches(lay: &Lay<'_>, area: &Area) -> Vec<(String, Patch)> {
    match area {
        Area::FrontPiece { width, depth, name } => {
            let from = lay.parting_here();
            let to = from + width.to_radians();
            let region: Arc<[Edge]> = vec![lay.mirrored_edge(lay.fringe(*depth, *width))].into();
            let family = lay.mirrored_family(Family::Pencil(lay.upright()));
            let patch = Patch::slice(family, (from, to), (from, to), region);
            vec![(name.clone(), patch)]
        }
        Area::Pivoting { edges, names } => {
            let family = lay.mirrored_family(Family::Pencil(lay.upright()));
            let region: Arc<[Edge]> = Vec::new().into();
            names
                .iter()
                .zip(edges.windows(2))
                .map(|(name, pair)| {
                    let span = (lay.azimuth(pair[0]), lay.azimuth(pair[1]));
                    let patch = Patch::slice(family, span, span, Arc::clone(&region));
                    (name.clone(), patch)
                })
                .collect()
        }
        Area::Places { places } => places
            .iter()
            .map(|place| {
                let sign = if lay.side == Side::Right { -1.0 } else { 1.0 };
                let spot = Spot::at_degrees(place.azimuth * sign, place.out);
                (place.name.clone(), Patch::place(lay.head.place(spot)))
            })
            .collect(),
        Area::Parted {
            region,
            pattern,
            name,
        } => {
            let edges: Arc<[Edge]> = lay.region(region).into();
            let parted = parted(lay, &edges, *pattern);
            let count = parted.len();
            let named = |i: usize| {
                if count == 1 {
                    name.clone()
                } else {
                    format!("{name} {}", i + 1)
                }
            };
            parted
                .into_iter()
                .enumerate()
                .map(|(i, patch)| (named(i), patch))
                .collect()
        }
    }
}

/// What the edges between sections are laid by.
struct Partings {
    family: Family,
    spacing: f64,
    /// Whether the first section has the lowest value of the family.
    rising: bool,
}

/// The patches of a region in this pattern, in cutting order.
fn parted(lay: &Lay<'_>, region: &Arc<[Edge]>, pattern: Pattern) -> Vec<Patch> {
    let inside: Vec<&Sample> = lay
        .head
        .grid()
        .iter()
        .filter(|sample| region.iter().all(|edge| edge.holds(sample.root)))
        .collect();
    if inside.is_empty() {
        return Vec::new();
    }
    let partings = partings(lay, &inside, pattern);
    let family = lay.mirrored_family(partings.family);
    let values = inside.iter().map(|s| unwrapped(lay, &family, s.root));
    let (low, high) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| {
        (low.min(v), high.max(v))
    });
    let mut edges = edges(&inside, &family, (low, high), partings.spacing);
    let mut keeps = edges.clone();
    // The outermost sections keep what lies between the last sample and the region's edge.
    let beyond = match family {
        Family::Parallel { .. } => 1e3,
        // Never so far round that the two ends of a fan meet.
        Family::Pencil(_) => (PI - (high - low) / 2.0).clamp(0.0, 0.5),
    };
    if let Some(first) = keeps.first_mut() {
        *first -= beyond;
    }
    if let Some(last) = keeps.last_mut() {
        *last += beyond;
    }
    if !partings.rising {
        edges.reverse();
        keeps.reverse();
    }
    edges
        .windows(2)
        .zip(keeps.windows(2))
        .map(|(edge, keep)| {
            Patch::slice(
                family,
                (edge[0], edge[1]),
                (keep[0], keep[1]),
                Arc::clone(region),
            )
        })
        .collect()
}

/// The value of a family at a place, with angles of a side written without a jump within the side.
fn unwrapped(lay: &Lay<'_>, family: &Family, p: Vec3) -> f64 {
    let value = family.value(p);
    match family {
        Family::Pencil(_) if lay.side != Side::Centre && value < -PI / 2.0 => {
            value + std::f64::consts::TAU
        }
        _ => value,
    }
}

fn partings(lay: &Lay<'_>, inside: &[&Sample], pattern: Pattern) -> Partings {
    let parallel = |normal: Vec3, spacing: f64, from: End| Partings {
        family: Family::parallel(lay.head, normal.normalize()),
        spacing,
        rising: from == End::Bottom,
    };
    let pencil = |family, spacing: f64, from: Start| Partings {
        family: Family::Pencil(family),
        spacing,
        rising: from == Start::Front,
    };
    let sloping = |degrees: f64| {
        let slope = degrees.clamp(-80.0, 80.0).to_radians();
        Vec3::Z * slope.cos() + lay.towards_face(inside) * slope.sin()
    };
    match pattern {
        Pattern::Whole => pencil(lay.upright(), f64::INFINITY, Start::Front),
        Pattern::Horizontal { spacing, from } => parallel(Vec3::Z, spacing, from),
        Pattern::DiagonalForward {
            degrees,
            spacing,
            from,
        } => parallel(sloping(degrees), spacing, from),
        Pattern::DiagonalBack {
            degrees,
            spacing,
            from,
        } => parallel(sloping(-degrees), spacing, from),
        Pattern::Horseshoe { spacing, from } => parallel(lay.horseshoe().0, spacing, from),
        Pattern::Strips { spacing } => parallel(Vec3::X, spacing, End::Bottom),
        Pattern::Vertical { spacing, from } | Pattern::Radial { spacing, from } => {
            pencil(lay.upright(), spacing, from)
        }
        Pattern::Pivoting {
            about,
            spacing,
            from,
        } => match about {
            Landmark::HighPoint => pencil(lay.upright(), spacing, from),
            about => pencil(lay.pivot(about), spacing, from),
        },
    }
}

/// The values of all edges from low to high, so that each section is as deep as its neighbours along
/// the scalp and no deeper than `spacing` cm.
fn edges(inside: &[&Sample], family: &Family, (low, high): (f64, f64), spacing: f64) -> Vec<f64> {
    // How many cm of scalp lie within one unit of the value, in strips of the region.
    const STRIPS: usize = 16;
    let width = (high - low) / STRIPS as f64;
    let mut depth = [0.0; STRIPS];
    if width <= 0.0 || !spacing.is_finite() {
        return vec![low, high];
    }
    let mut seen = [0usize; STRIPS];
    for sample in inside {
        let (value, cm) = match family {
            Family::Parallel { normal, .. } => {
                let along = (1.0 - sample.normal.dot(*normal).powi(2)).sqrt();
                (family.value(sample.root), 1.0 / along.max(0.15))
            }
            Family::Pencil(pencil) => {
                let out = sample.root - pencil.centre;
                let aside = (out - pencil.axis * out.dot(pencil.axis)).length();
                (family.value(sample.root), aside)
            }
        };
        let value = if value < low - 1e-9 {
            value + std::f64::consts::TAU
        } else {
            value
        };
        let i = (((value - low) / width) as usize).min(STRIPS - 1);
        // Of a slope, its mean; of a fan, where it is widest.
        match family {
            Family::Parallel { .. } => depth[i] += cm,
            Family::Pencil(_) => depth[i] = f64::max(depth[i], cm),
        }
        seen[i] += 1;
    }
    let mean = |i: usize| match family {
        Family::Parallel { .. } if seen[i] > 0 => depth[i] / seen[i] as f64,
        _ => depth[i],
    };
    let mut reached = [0.0; STRIPS + 1];
    for i in 0..STRIPS {
        // A strip without a sample is as deep as the one before.
        let here = if seen[i] > 0 || i == 0 {
            mean(i)
        } else {
            mean(i - 1)
        };
        reached[i + 1] = reached[i] + here * width;
    }
    let whole = reached[STRIPS];
    let count = (whole / spacing.max(LEAST_SPACING) - 0.05).ceil().max(1.0) as usize;
    let count = count.min(MOST);
    (0..=count)
        .map(|k| {
            let at = whole * k as f64 / count as f64;
            let i = reached.partition_point(|&r| r < at).clamp(1, STRIPS);
            let (from, to) = (reached[i - 1], reached[i]);
            let share = ((at - from) / (to - from).max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
            low + width * ((i - 1) as f64 + share)
        })
        .collect()
}
