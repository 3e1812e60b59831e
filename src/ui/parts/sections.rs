//! The table of sections, left beside right.

use super::left_on;
use crate::cut::{Outcome, Paired, SectionCut};
use crate::head::Side;
use crate::measure::Unit;
use crate::plan::Plan;
use crate::ui::words;
use crate::words::{tr, tr_in};
use leptos::prelude::*;

/// What is left on a section and on its twin on purpose.
fn left_on_row(row: &Paired, unit: Unit) -> Option<String> {
    let one = left_on(&row.one, unit);
    let Some(twin) = &row.twin else { return one };
    match (one, left_on(twin, unit)) {
        (one, twin) if one == twin => one,
        (Some(one), None) => Some(tr!("Left: {one}", one)),
        (None, Some(twin)) => Some(tr!("Right: {twin}", twin)),
        (one, twin) => Some(tr!(
            "Left: {} Right: {}",
            one.unwrap_or_default(),
            twin.unwrap_or_default()
        )),
    }
}

/// All sections of a plan with their lengths; one column for both sides where they are alike.
#[component]
pub fn SectionTable(plan: Plan, outcome: Outcome, unit: Unit) -> impl IntoView {
    let span = move |s: &SectionCut| words::span(s.short(), s.long(), unit);
    let steps: Vec<(String, Vec<Paired>)> = plan
        .steps
        .iter()
        .enumerate()
        .map(|(i, step)| (step.title.clone(), outcome.paired(i)))
        .collect();
    let alike = steps
        .iter()
        .flat_map(|(_, rows)| rows)
        .all(|row| match &row.twin {
            Some(twin) => span(twin) == span(&row.one),
            None => row.one.key.side == Side::Centre,
        });
    let columns = if alike { "3" } else { "4" };
    let row = move |row: Paired| {
        let off = if row.one.cuts() {
            row.off().number(unit)
        } else {
            String::new()
        };
        view! {
            <tr>
                <th scope="row">
                    {row.one.section.name.clone()}
                    {words::reach(row.least_reaching()).map(|r| view! { <br/><span class="soft">{r}</span> })}
                    {left_on_row(&row, unit).map(|l| view! { <br/><span class="soft">{l}</span> })}
                </th>
                {match (alike, row.one.key.side) {
                    (true, _) => view! { <td class="number">{span(&row.one)}</td> }.into_any(),
                    (false, Side::Centre) => {
                        view! { <td class="number" colspan="2">{span(&row.one)}</td> }.into_any()
                    }
                    (false, Side::Left) => view! {
                        <td class="number">{span(&row.one)}</td>
                        <td class="number">{row.twin.as_ref().map(span)}</td>
                    }
                    .into_any(),
                    (false, Side::Right) => view! {
                        <td></td>
                        <td class="number">{span(&row.one)}</td>
                    }
                    .into_any(),
                }}
                <td class="number">{off}</td>
            </tr>
        }
    };
    let bodies = steps
        .into_iter()
        .map(|(title, rows)| {
            view! {
                <tbody>
                    <tr class="group"><th colspan=columns scope="rowgroup">{title}</th></tr>
                    {rows.into_iter().map(row).collect_view()}
                </tbody>
            }
        })
        .collect_view();
    view! {
        <table>
            <caption>
                {tr!("Cut at, shortest to longest, in {}: combed taut, as held. Off is the most that comes off.", unit.word())}
            </caption>
            <thead>
                <tr>
                    <th scope="col">{tr("Section")}</th>
                    <th scope="col" class="number">{if alike { tr("Each side") } else { tr("Left") }}</th>
                    {(!alike).then(|| view! { <th scope="col" class="number">{tr("Right")}</th> })}
                    <th scope="col" class="number">{tr_in("what comes off", "Off")}</th>
                </tr>
            </thead>
            {bodies}
        </table>
    }
}
