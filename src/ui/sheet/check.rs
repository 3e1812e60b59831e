//! What is looked at and measured at the end, with room to write it down.

use super::step::Sheet;
use crate::head::Side;
use crate::ui::parts::{CutRow, twins};
use leptos::prelude::*;

/// The checks: what to look at, each with a box to tick; places to measure, each with boxes to write in.
pub fn check(sheet: &Sheet<'_>) -> AnyView {
    let plan = &sheet.ready.plan;
    let mut rows: Vec<CutRow> = Vec::new();
    for (place, step) in plan.steps.iter().enumerate() {
        if !step.held.cuts() {
            rows.extend(twins(sheet.outcome, place));
        }
    }
    if rows.is_empty() && plan.checks.is_empty() {
        return ().into_any();
    }
    let ticks = plan
        .checks
        .iter()
        .map(|text| view! { <li>{text.clone()}</li> })
        .collect_view();
    let words = plan.steps.iter().filter(|step| !step.held.cuts());
    let words = words
        .map(|step| {
            let text = [step.words.comb.trim(), step.words.technique.trim()].join(" ");
            view! { <p>{text}</p> }
        })
        .collect_view();
    let places = (!rows.is_empty()).then(|| table(sheet, &rows));
    view! {
        <section class="sheet-step sheet-check">
            <h2>"Check"</h2>
            <div>{words} <ul class="sheet-ticks">{ticks}</ul></div>
            {places}
        </section>
    }
    .into_any()
}

fn table(sheet: &Sheet<'_>, rows: &[CutRow]) -> AnyView {
    let unit = sheet.unit;
    let row = |row: &CutRow| {
        let expect = row.one.long().number(unit);
        let twin = row.twin.as_ref().map(|twin| twin.long().number(unit));
        let expect = match twin {
            Some(twin) if twin != expect => [&expect, " · ", &twin].concat(),
            _ => expect,
        };
        // What lies across the middle is measured once.
        let wide = (row.one.key.side == Side::Centre).then_some("2");
        view! {
            <tr>
                <td class="number">{sheet.numbers(row)}</td>
                <th scope="row">{row.one.section.name.clone()}</th>
                <td class="number">{expect}</td>
                <td class="sheet-box" colspan=wide></td>
                {wide.is_none().then(|| view! { <td class="sheet-box"></td> })}
            </tr>
        }
    };
    view! {
        <div class="sheet-table" role="region" tabindex="0" aria-label="Places to measure">
            <table>
                <thead>
                    <tr>
                        <th scope="col" class="number">"No."</th>
                        <th scope="col">"Place"</th>
                        <th scope="col" class="number">{format!("Expect, {}", unit.mark())}</th>
                        <th scope="col" class="sheet-box">"Left"</th>
                        <th scope="col" class="sheet-box">"Right"</th>
                    </tr>
                </thead>
                <tbody>{rows.iter().map(row).collect_view()}</tbody>
            </table>
        </div>
    }
    .into_any()
}
