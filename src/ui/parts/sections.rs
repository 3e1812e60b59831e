//! The table of sections, left beside right.

use crate::cut::{Outcome, SectionCut, SectionKey};
use crate::head::Side;
use crate::measure::Unit;
use crate::plan::Plan;
use crate::ui::words;
use leptos::prelude::*;

/// One line of the table: a section on the left and its twin on the right.
#[derive(Clone)]
pub struct CutRow {
    /// On the client's left.
    pub left: SectionCut,
    /// On the client's right.
    pub right: Option<SectionCut>,
}

/// The sections of a step, left and right paired.
pub fn twins(outcome: &Outcome, step: usize) -> Vec<CutRow> {
    outcome
        .sections
        .iter()
        .filter(|s| s.step == step && s.key.side == Side::Left)
        .map(|left| {
            let twin = SectionKey {
                side: Side::Right,
                ..left.key.clone()
            };
            CutRow {
                left: left.clone(),
                right: outcome.section(&twin).cloned(),
            }
        })
        .collect()
}

/// All sections of a plan with their lengths; one column for both sides where they are alike.
#[component]
pub fn SectionTable(plan: Plan, outcome: Outcome, unit: Unit) -> impl IntoView {
    let span = move |s: &SectionCut| words::span(s.short(), s.long(), unit);
    let steps: Vec<(String, Vec<CutRow>)> = plan
        .steps
        .iter()
        .enumerate()
        .map(|(i, step)| (step.title.clone(), twins(&outcome, i)))
        .collect();
    let alike = steps
        .iter()
        .flat_map(|(_, rows)| rows)
        .all(|row| row.right.as_ref().map(span) == Some(span(&row.left)));
    let columns = if alike { "3" } else { "4" };
    let row = move |row: CutRow| {
        let off = row
            .left
            .cuts()
            .then(|| row.left.off().number(unit))
            .unwrap_or_default();
        view! {
            <tr>
                <th scope="row">
                    {row.left.section.name.clone()}
                    {words::reach(&row.left).map(|r| view! { <br/><span class="soft">{r}</span> })}
                </th>
                <td class="number">{span(&row.left)}</td>
                {(!alike).then(|| view! { <td class="number">{row.right.as_ref().map(span)}</td> })}
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
                {format!("Cut at, shortest to longest, in {}: combed taut, as held. Off is the most that comes off.", unit.mark())}
            </caption>
            <thead>
                <tr>
                    <th scope="col">"Section"</th>
                    <th scope="col" class="number">{if alike { "Each side" } else { "Left" }}</th>
                    {(!alike).then(|| view! { <th scope="col" class="number">"Right"</th> })}
                    <th scope="col" class="number">"Off"</th>
                </tr>
            </thead>
            {bodies}
        </table>
    }
}
