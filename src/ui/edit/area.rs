//! Where a step is cut: its region, its partings, its sides.

use super::desk::Desk;
use super::fields::{degrees, length, only, pick};
use super::names;
use crate::head::Landmark;
use crate::plan::{Area, Bound, Edge, Line, Pattern, Sides, Step, usual_regions};
use crate::words::{noted, tr, tr_in};
use leptos::prelude::*;

const KINDS: [&str; 4] = [
    noted("A region with partings"),
    noted("A front piece at the hairline"),
    noted("Wedges from the high point, landmark to landmark"),
    noted("Single places, to check"),
];
const EDGES: [Edge; 7] = [
    Edge::Parting,
    Edge::Temple,
    Edge::InFrontOfEar,
    Edge::AboveEar,
    Edge::BehindEar,
    Edge::NapeCorner,
    Edge::BackCentre,
];
/// Points that wedges may turn about.
const PIVOTS: [Landmark; 3] = [Landmark::HighPoint, Landmark::Crown, Landmark::Occipital];
const SIDES: [Sides; 4] = [Sides::Both, Sides::Left, Sides::Right, Sides::Across];
const LINES: [&str; 6] = [
    noted("the ear-to-ear parting"),
    noted("the occipital bone"),
    noted("the parietal ridge"),
    noted("the crown"),
    noted("the horseshoe"),
    noted("a line from above the ear to the high point"),
];

fn pattern(step: &Step) -> Option<&Pattern> {
    match &step.area {
        Area::Parted { pattern, .. } => Some(pattern),
        _ => None,
    }
}

fn pattern_mut(step: &mut Step) -> Option<&mut Pattern> {
    match &mut step.area {
        Area::Parted { pattern, .. } => Some(pattern),
        _ => None,
    }
}

fn region(step: &Step) -> Option<&Vec<Bound>> {
    match &step.area {
        Area::Parted { region, .. } => Some(region),
        _ => None,
    }
}

fn set_region(step: &mut Step, to: Vec<Bound>) {
    if let Area::Parted { region, .. } = &mut step.area {
        *region = to;
    }
}

/// Where the open step is cut.
#[component]
pub fn AreaForm(desk: Desk) -> impl IntoView {
    let texts = |all: &[&str]| all.iter().map(|t| tr(t).to_owned()).collect::<Vec<_>>();
    let usual_names: Vec<String> = usual_regions()
        .into_iter()
        .map(|(_, name)| name.to_owned())
        .collect();
    let sides = SIDES.map(|s| names::sides(s).to_owned()).to_vec();
    view! {
        {pick(desk, "area-kind", tr("What is taken"), texts(&KINDS), |step| Some(step.area.kind()), |step, kind| step.area = step.area.as_kind(kind))}
        {only(desk, |step| step.area.kind() == 0, move || view! {
            {pick(desk, "region", tr("Region"), usual_names.clone(), |step| {
                let here = region(step)?;
                usual_regions().iter().position(|(r, _)| r == here)
            }, |step, i| {
                if let Some((to, _)) = usual_regions().into_iter().nth(i) { set_region(step, to) }
            })}
            <Edges desk/>
            <Partings desk/>
        }.into_any())}
        {only(desk, |step| step.area.kind() == 1, move || view! {
            {degrees(desk, "piece-width", tr("How wide, about the high point"), (1, 90),
                |step| match &step.area { Area::FrontPiece { width, .. } => Some(*width), _ => None },
                |step, to| if let Area::FrontPiece { width, .. } = &mut step.area { *width = to })}
            {length(desk, "piece-depth", tr("How deep behind the hairline"), false,
                |step| match &step.area { Area::FrontPiece { depth, .. } => Some(*depth), _ => None },
                |step, to| if let Area::FrontPiece { depth, .. } = &mut step.area { *depth = to })}
        }.into_any())}
        {only(desk, |step| step.area.kind() == 2, move || view! { <Wedges desk/> }.into_any())}
        {pick(desk, "sides", tr_in("of the head, left and right", "Sides"), sides,
            |step| SIDES.iter().position(|s| *s == step.sides),
            |step, i| step.sides = SIDES[i])}
    }
}

/// The edges of a region, each a side of a line.
#[component]
fn Edges(desk: Desk) -> impl IntoView {
    let bounds = move || {
        desk.of_step(|_, step| region(step).cloned())
            .flatten()
            .unwrap_or_default()
    };
    let rows = move || {
        let row = |(i, bound): (usize, Bound)| {
            let (side, line) = bound.parts();
            let words = format!(
                "{} {}",
                names::sides_of_line()[side],
                names::line_words(line)
            );
            let gone = words.clone();
            view! {
                <li>
                    <span>{words}</span>
                    <button type="button" class="plain" on:click=move |_| desk.change_step(|step| {
                        if let Area::Parted { region, .. } = &mut step.area && i < region.len() {
                            region.remove(i);
                        }
                    })>{tr("Remove")} <span class="visually-hidden">{gone}</span></button>
                </li>
            }
        };
        bounds().into_iter().enumerate().map(row).collect_view()
    };
    let side = RwSignal::new(0_usize);
    let of = RwSignal::new(0_usize);
    let add = move |_| {
        let bound = Bound::of(
            side.get_untracked(),
            Line::USUAL[of.get_untracked() % Line::USUAL.len()],
        );
        desk.change_step(|step| {
            if let Area::Parted { region, .. } = &mut step.area
                && !region.contains(&bound)
            {
                region.push(bound);
            }
        });
    };
    let texts = |all: &[&str]| all.iter().map(|t| tr(t).to_owned()).collect::<Vec<_>>();
    let line_sides = names::sides_of_line().map(str::to_owned).to_vec();
    view! {
        <details class="edges">
            <summary>{tr("Its edges, one by one")}</summary>
            <ul class="edge-list">{rows}</ul>
            <div class="pair">
                <crate::ui::parts::Pick id="edge-side" label=tr_in("a side of a line", "Side") options=line_sides
                    chosen=Signal::derive(move || Some(side.get())) on_choose=Callback::new(move |i| side.set(i))/>
                <crate::ui::parts::Pick id="edge-line" label=tr_in("a side of a line", "Of") options=texts(&LINES)
                    chosen=Signal::derive(move || Some(of.get())) on_choose=Callback::new(move |i| of.set(i))/>
            </div>
            <button type="button" on:click=add>{tr("Add this edge")}</button>
        </details>
    }
}

/// How a region is parted.
#[component]
fn Partings(desk: Desk) -> impl IntoView {
    let patterns = names::patterns().map(str::to_owned).to_vec();
    let pivots = PIVOTS.map(|l| l.name().to_owned()).to_vec();
    view! {
        {pick(desk, "pattern", tr("Partings"), patterns,
            |step| pattern(step).map(names::pattern_place),
            |step, i| if let Some(p) = pattern_mut(step) { *p = p.as_kind(i) })}
        {only(desk, |step| pattern(step).is_some_and(|p| p.spacing().is_some()), move || length(
            desk, "spacing", tr("How far apart"), false,
            |step| pattern(step).and_then(Pattern::spacing),
            |step, to| if let Some(spacing) = pattern_mut(step).and_then(Pattern::spacing_mut) { *spacing = to }))}
        {only(desk, |step| pattern(step).is_some_and(|p| p.begins_late().is_some()), move || pick(
            desk, "begins", tr_in("of partings", "Begins"), [tr("At the bottom or the front"), tr("At the top or the back")].map(str::to_owned).to_vec(),
            |step| pattern(step).and_then(Pattern::begins_late).map(usize::from),
            |step, i| if let Some(p) = pattern_mut(step) { p.set_begins_late(i == 1) }))}
        {only(desk, |step| pattern(step).is_some_and(|p| p.slope().is_some()), move || degrees(
            desk, "slope", tr("Slope from level"), (1, 89),
            |step| pattern(step).and_then(Pattern::slope),
            |step, to| if let Some(p) = pattern_mut(step) { p.set_slope(to) }))}
        {only(desk, |step| matches!(pattern(step), Some(Pattern::Pivoting { .. })), move || pick(
            desk, "pivot", tr("Turning about"), pivots.clone(),
            |step| match pattern(step) {
                Some(Pattern::Pivoting { about, .. }) => PIVOTS.iter().position(|l| l == about),
                _ => None,
            },
            |step, i| if let Some(Pattern::Pivoting { about, .. }) = pattern_mut(step) { *about = PIVOTS[i] }))}
    }
}

/// Wedges from the high point, by the edges between them.
#[component]
fn Wedges(desk: Desk) -> impl IntoView {
    let edges = move || {
        desk.of_step(|_, step| match &step.area {
            Area::Pivoting { edges, .. } => edges.clone(),
            _ => Vec::new(),
        })
        .unwrap_or_default()
    };
    let rows = move || {
        let all = edges();
        let last = all.len().saturating_sub(1);
        let row = move |(i, edge): (usize, Edge)| {
            let mut options: Vec<String> = EDGES.iter().map(|e| names::edge_words(*e)).collect();
            let own = EDGES.iter().position(|e| *e == edge);
            if own.is_none() {
                options.push(names::edge_words(edge));
            }
            let chosen = Signal::derive(move || own.or(Some(EDGES.len())));
            let choose = Callback::new(move |to: usize| {
                desk.change_step(|step| {
                    if let (Area::Pivoting { edges, .. }, Some(to)) =
                        (&mut step.area, EDGES.get(to))
                    {
                        edges[i] = *to;
                    }
                })
            });
            view! {
                <li>
                    <crate::ui::parts::Pick id=format!("wedge-{i}") label=tr!("Edge {}", i + 1) options chosen on_choose=choose/>
                    {(i > 0 && last > 1).then(|| view! {
                        <button type="button" class="plain" on:click=move |_| desk.change_step(|step| {
                            if let Area::Pivoting { edges, names } = &mut step.area && i < edges.len() && i <= names.len() {
                                edges.remove(i);
                                names.remove(i - 1);
                            }
                        })>{tr("Remove")} <span class="visually-hidden">{tr!("edge {}", i + 1)}</span></button>
                    })}
                </li>
            }
        };
        all.into_iter().enumerate().map(row).collect_view()
    };
    let add = move |_| {
        desk.change_step(|step| {
            if let Area::Pivoting { edges, names } = &mut step.area {
                edges.push(Edge::BackCentre);
                // Named in the language of who adds it, as if it was typed.
                names.push(tr!("Section {}", edges.len() - 1));
            }
        })
    };
    view! {
        <ul class="edge-list">{rows}</ul>
        <button type="button" on:click=add>{tr("Add an edge")}</button>
    }
}
