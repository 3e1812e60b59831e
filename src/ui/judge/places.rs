//! The named places: planned, measured, and what that comes to.

use super::screen::Judging;
use crate::book::{Expected, How, Measure, PlaceJudged, SavedCut, When};
use crate::head::Side;
use crate::measure::{Length, Unit};
use crate::ui::kept::kept;
use crate::ui::parts::{LengthField, length_fault};
use crate::words::tr;
use leptos::prelude::*;

/// Every named place, left and right beside one another, each with a field.
#[component]
pub fn Places(judging: Judging) -> impl IntoView {
    let all = judging.expected.get_value();
    let mut rows: Vec<Vec<(usize, Expected)>> = Vec::new();
    for (i, one) in all.into_iter().enumerate() {
        match rows.last_mut() {
            Some(row) if row.iter().any(|(_, other)| other.place == one.place) => {
                row.push((i, one));
            }
            _ => rows.push(vec![(i, one)]),
        }
    }
    let row = |row: Vec<(usize, Expected)>| {
        let left = row.first().map(|(i, _)| *i).filter(|_| row.len() > 1);
        let twins = left.map(|left| view! { <Twins judging left/> });
        let one = |(i, one): (usize, Expected)| view! { <Place judging i one/> };
        view! {
            <li class="judged-row">
                <div class="judged-sides">{row.into_iter().map(one).collect_view()}</div>
                {twins}
            </li>
        }
    };
    view! {
        <h2>{tr("Measured after the cut, combed taut")}</h2>
        <ul class="judged-places">{rows.into_iter().map(row).collect_view()}</ul>
    }
}

/// The name of a place with its side, as a label.
pub fn place_name(one: &Expected) -> String {
    let name = kept().said(one.place.name());
    match one.side {
        Side::Centre => name,
        side => [&name, ", ", side.said()].concat(),
    }
}

/// What was typed for one place, and how it is put down.
pub fn typed(
    cut: RwSignal<SavedCut>,
    one: Expected,
    when: When,
    how: How,
) -> (Signal<String>, Callback<String>) {
    let kept = kept();
    let text = Signal::derive(move || {
        cut.with(|cut| {
            let measure = cut.visit.measure(one.place, one.side, when, how);
            measure.map_or(String::new(), |m| m.typed.clone())
        })
    });
    let set = Callback::new(move |typed: String| {
        // Where the plan leaves the hair it says nothing of its length; that before is only as it was told.
        let says = when == When::Before || one.cuts();
        kept.change(cut, |cut| {
            cut.visit.put(Measure {
                place: one.place,
                side: one.side,
                when,
                how,
                typed,
                expected: says.then(|| one.of(when, how)),
            });
        });
    });
    (text, set)
}

/// One place on one side: its plan, the field, and what that comes to.
#[component]
fn Place(judging: Judging, i: usize, one: Expected) -> impl IntoView {
    let kept = kept();
    let id = format!("place-{i}");
    let (text, set) = typed(judging.cut, one, When::After, How::Combed);
    let fault = length_fault(text);
    let judged = Memo::new(move |_| judging.judged.with(|all| all.places.get(i).copied()));
    let planned = move || {
        let place = judged.get()?;
        if !place.cut {
            return Some(tr("not cut by the plan").to_owned());
        }
        let length = place.planned.as_measured(kept.unit());
        Some(tr!("planned {length}", length))
    };
    let said = move || {
        let place = judged.get()?;
        deviation(&place, kept.unit(), kept.settings().seen)
    };
    let off = move || {
        judged
            .get()
            .and_then(|p| p.off)
            .is_some_and(|off| !off.passes())
    };
    view! {
        <div class="judged-place">
            <p class="soft planned">{planned}</p>
            <LengthField id label=place_name(&one) text set measured=true small=true from=one.after/>
            <div aria-live="polite">
                {move || fault.get().map(|why| view! { <p class="fault">{why}</p> })}
                {move || said().map(|text| view! { <p class="verdict" class:off=off>{text}</p> })}
            </div>
        </div>
    }
}

/// The deviation with its sign and in words: `−0.6 cm: short`.
fn deviation(place: &PlaceJudged, unit: Unit, seen: bool) -> Option<String> {
    let (cm, off) = place.deviation.filter(|_| place.cut).zip(place.off)?;
    Some([&signed(cm, unit), ": ", off.said(seen)].concat())
}

/// A difference with its sign and unit, to the millimetre.
pub fn signed(cm: f64, unit: Unit) -> String {
    let size = Length::from_cm(cm.abs()).as_measured(unit);
    match size.as_str() {
        "0 cm" | "0 in" => size,
        _ if cm > 0.0 => ["+", &size].concat(),
        _ => ["−", &size].concat(),
    }
}

/// How the two sides of a place came out against one another.
#[component]
fn Twins(judging: Judging, left: usize) -> impl IntoView {
    let kept = kept();
    let said = move || {
        let place = judging.judged.with(|all| all.places.get(left).copied())?;
        twin_said(place.from_twin?, kept.unit())
    };
    view! { <p class="soft" aria-live="polite">{said}</p> }
}

/// Left against right, beyond what is planned.
pub fn twin_said(cm: f64, unit: Unit) -> Option<String> {
    let size = Length::from_cm(cm.abs()).as_measured(unit);
    Some(match size.as_str() {
        "0 cm" | "0 in" => tr("Left and right alike.").to_owned(),
        _ if cm > 0.0 => tr!(
            "The left is {size} longer than the right, beyond the plan.",
            size
        ),
        _ => tr!(
            "The right is {size} longer than the left, beyond the plan.",
            size
        ),
    })
}
