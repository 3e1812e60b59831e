//! Partings into sections: which patch of scalp is held at once, on which side, in which order.

use super::choices::Choices;
use super::family::{Edge, Family, SLACK};
use super::lines::Lay;
use super::model::{Plan, Step};
use super::partings::{Area, End, Pattern, Start};
use super::patch::Patch;
use crate::geometry::Vec3;
use crate::head::{Head, Landmark, Sample, Side, Spot};
use std::f64::consts::{PI, TAU};
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
    let parting = choices.parting(plan).azimuth();
    let mut all = Vec::new();
    let mut laid: Option<(f64, Vec<(String, Patch)>)> = None;
    for &side in step.sides.all() {
        // A step across the middle takes no notice of the parting.
        let here = match side {
            Side::Left => parting,
            Side::Centre => 0.0,
            Side::Right => -parting,
        };
        // With a parting in the middle the right is laid as the left.
        if laid.as_ref().is_none_or(|(parting, _)| *parting != here) {
            let lay = Lay {
                head,
                across: side == Side::Centre,
                parting: here,
            };
            let mut patches = patches(&lay, &step.area);
            patches.retain(|(_, patch)| patch.has_scalp(head));
            laid = Some((here, patches));
        }
        let patches = laid.iter().flat_map(|(_, patches)| patches);
        all.extend(patches.enumerate().map(|(i, (name, patch))| Section {
            number: i + 1,
            name: name.clone(),
            side,
            patch: match side {
                Side::Right => patch.mirrored(),
                _ => patch.clone(),
            },
        }));
    }
    all
}

/// The patches of one side in the left-hand layout, in cutting order.
fn patches(lay: &Lay<'_>, area: &Area) -> Vec<(String, Patch)> {
    match area {
        Area::FrontPiece { width, depth, name } => {
            let from = lay.parting;
            let to = from + width.to_radians();
            let region: Arc<[Edge]> = vec![lay.fringe(*depth, *width)].into();
            let family = Family::Pencil(lay.upright());
            let patch = Patch::slice(family, (from, to), (from, to), region);
            vec![(name.clone(), patch)]
        }
        Area::Pivoting { edges, names } => {
            let family = Family::Pencil(lay.upright());
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
                let spot = Spot::at_degrees(place.azimuth, place.out);
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
    let family = partings.family;
    let values = inside.iter().map(|s| unwrapped(lay, &family, s.root));
    let (low, high) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| {
        (low.min(v), high.max(v))
    });
    let (low, high) = reached(lay.head, &family, region, (low, high));
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

/// From where to where the partings of a family meet the region, which samples show to a centimetre.
fn reached(head: &Head, family: &Family, region: &Arc<[Edge]>, span: (f64, f64)) -> (f64, f64) {
    let meets = |value: f64| Patch::meets(head, family, value, region);
    let far = match family {
        Family::Parallel { .. } => 1.5,
        Family::Pencil(_) => 0.25,
    };
    let reach = |seen: f64, beyond: f64| {
        let (mut within, mut without) = (seen, seen + beyond);
        for _ in 0..11 {
            let middle = f64::midpoint(within, without);
            if meets(middle) {
                within = middle;
            } else {
                without = middle;
            }
        }
        // Clear of the edge itself, along which a parting may be found by halves.
        within - beyond.signum() * 20.0 * SLACK
    };
    if matches!(family, Family::Pencil(_)) && span.1 - span.0 > TAU - 2.0 * far {
        // A fan that goes all round ends where it began.
        let middle = f64::midpoint(span.0, span.1);
        return (middle - PI, middle + PI);
    }
    (reach(span.0, -far), reach(span.1, far))
}

/// The value of a family at a place, with angles of a side written without a jump within the side.
fn unwrapped(lay: &Lay<'_>, family: &Family, p: Vec3) -> f64 {
    let value = family.value(p);
    match family {
        Family::Pencil(_) if !lay.across && value < -PI / 2.0 => value + TAU,
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

/// The values of all edges from low to high, so that each section is as deep as its neighbours, at
/// its deepest, along the scalp, and no deeper than `spacing` cm.
fn edges(inside: &[&Sample], family: &Family, (low, high): (f64, f64), spacing: f64) -> Vec<f64> {
    // How many cm of scalp lie within one unit of the value at most, in strips of the region.
    const STRIPS: usize = 16;
    let width = (high - low) / STRIPS as f64;
    if width <= 0.0 || !spacing.is_finite() {
        return vec![low, high];
    }
    let mut depth = [0.0_f64; STRIPS];
    for sample in inside {
        let value = family.value(sample.root);
        let (value, cm) = match family {
            Family::Parallel { normal, .. } => {
                let along = (1.0 - sample.normal.dot(*normal).powi(2)).sqrt();
                // Where the scalp lies flat to the partings, as on the top, nothing else would count.
                (value, 1.0 / along.max(0.4))
            }
            Family::Pencil(pencil) => {
                let out = sample.root - pencil.centre;
                let turned = if value < low - 1e-9 { TAU } else { 0.0 };
                let aside = (out - pencil.axis * out.dot(pencil.axis)).length();
                (value + turned, aside)
            }
        };
        let i = (((value - low) / width).max(0.0) as usize).min(STRIPS - 1);
        depth[i] = depth[i].max(cm);
    }
    // A strip without a sample is as deep as the one before it, or as the first that has one.
    let mut here = depth.iter().copied().find(|d| *d > 0.0).unwrap_or(1.0);
    let mut reached = [0.0; STRIPS + 1];
    for i in 0..STRIPS {
        if depth[i] > 0.0 {
            here = depth[i];
        }
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
