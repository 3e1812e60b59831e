//! The numbers of the section that is shown.

use super::looked::Looked;
use crate::book::Ready;
use crate::cut::{Outcome, Telling};
use crate::head::Level;
use crate::ui::kept::kept;
use crate::ui::parts::left_on;
use crate::ui::words;
use crate::words::tr;
use leptos::prelude::*;

/// What the picture shows, in a table.
#[component]
pub fn Numbers(looked: Looked) -> impl IntoView {
    let kept = kept();
    let rows = move || {
        let (place, unit) = (looked.place.get(), kept.unit());
        let (real, was_cut) = (looked.real.get(), looked.was_cut_at());
        let all = move |ready: &Ready, outcome: &Outcome| {
            let Some(section) = outcome.sections.get(place) else {
                return Vec::new();
            };
            let mut rows: Vec<(&'static str, String)> = Vec::new();
            if section.cuts() {
                let span = words::span(section.short(), section.long(), unit);
                let target = format!("{span} {}", unit.mark());
                let mut strands = section.strands.clone();
                match was_cut {
                    Some(long) => {
                        rows.push((tr("Cut, at its longest"), long.shown(unit)));
                        rows.push((tr("Was to be cut at"), target));
                        strands = section.as_cut(long);
                    }
                    None => {
                        let name = if real {
                            tr("Still to cut at")
                        } else {
                            tr("Cut at, shortest to longest")
                        };
                        rows.push((name, target));
                        rows.push((tr("Comes off, at most"), section.off().shown(unit)));
                    }
                }
                let told = Telling::new(&ready.job(), &outcome.lengths).told(&strands);
                rows.push((tr("Falls to, dry"), told.level.place(unit)));
                rows.extend(words::reach(section).map(|reach| (tr("Reach"), reach)));
                rows.extend(left_on(section, unit).map(|left| (tr("Left longer"), left)));
            }
            let number = section.key.number;
            let brief = ready
                .plan
                .brief_for(section.step, number, &ready.choices, unit);
            rows.push((tr("Elevation"), brief.lift));
            rows.push((tr("Combed"), brief.comb));
            rows.push((tr("Fingers"), brief.fingers));
            rows.push((tr("Guide"), brief.guide));
            rows
        };
        let mut rows = looked.with(all);
        if let Some(z) = looked.lowest_end() {
            let level = looked.with(|ready, _| Level::of(&ready.head, z).place(unit));
            rows.push((tr("Lowest end so far"), level));
        }
        let row = |(name, value): (&'static str, String)| {
            view! { <tr><th scope="row">{name}</th><td>{kept.said(&value)}</td></tr> }
        };
        let told = rows.into_iter().filter(|(_, value)| !value.is_empty());
        told.map(row).collect_view()
    };
    view! {
        <table class="head-numbers">
            <caption>{tr("This section")}</caption>
            <tbody>{rows}</tbody>
        </table>
    }
}
