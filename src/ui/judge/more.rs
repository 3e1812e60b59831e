//! What else may be measured at the places: before the cut, and hanging dry. Growth and how hair hangs are
//! learned from it.

use super::places::{place_name, typed};
use super::screen::Judging;
use crate::book::{Expected, How, When};
use crate::measure::{Unit, read_length};
use crate::ui::kept::kept;
use crate::ui::parts::{fault_said, length_fault, typed_length};
use crate::words::{noted, tr};
use leptos::prelude::*;

/// The columns.
const COLUMNS: [(&str, When, How); 3] = [
    (noted("Before, combed"), When::Before, How::Combed),
    (noted("Before, hanging"), When::Before, How::Hanging),
    (noted("After, hanging"), When::After, How::Hanging),
];

/// A row for each place.
#[component]
pub fn More(judging: Judging) -> impl IntoView {
    let row = move |one: Expected| {
        let name = place_name(&one);
        let cell = |(column, when, how): (&'static str, When, How)| {
            let label = format!("{name}: {}", tr(column).to_lowercase());
            view! { <td><Cell judging one when how label/></td> }
        };
        let cells = COLUMNS.map(cell).into_iter().collect_view();
        view! { <tr><th scope="row">{name.clone()}</th>{cells}</tr> }
    };
    let rows = judging.expected.get_value().into_iter().map(row);
    let heads = COLUMNS.map(|(name, ..)| view! { <th scope="col">{tr(name)}</th> });
    view! {
        <p class="soft">{tr("A few are enough. What grew since the last visit, and how much shorter hair hangs than it is combed, is told from them.")}</p>
        <table class="more-measures">
            <thead><tr><th scope="col">{tr("Place")}</th>{heads.into_iter().collect_view()}</tr></thead>
            <tbody>{rows.collect_view()}</tbody>
        </table>
    }
}

/// One length. What does not read stays, with a sentence.
#[component]
fn Cell(judging: Judging, one: Expected, when: When, how: How, label: String) -> impl IntoView {
    let kept = kept();
    let (text, set) = typed(judging.cut, one, when, how);
    let fault = length_fault(text);
    let shown = move || {
        let text = text.get();
        let read = read_length(&text, Unit::Cm);
        read.map_or(text, |length| length.as_measured(kept.unit()))
    };
    view! {
        <input
            type="text"
            autocomplete="off"
            aria-label=label
            aria-invalid=move || fault.get().map(|_| "true")
            prop:value=shown
            on:change=move |ev| set.run(typed_length(&ev, kept.unit_now()))
        />
        {fault_said(move || fault.get())}
    }
}
