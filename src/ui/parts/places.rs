//! The named places of a map with what it shows there, for those who would rather read it.

use crate::chart::place_letter;
use crate::cut::PlaceLength;
use crate::head::Side;
use crate::measure::Unit;
use crate::words::tr;
use leptos::prelude::*;

/// A column of the table: its name, and its value at each place.
pub struct Column {
    /// What stands above it.
    pub name: &'static str,
    /// One value a place, in the order of the places.
    pub values: Vec<String>,
}

/// The table of the named places; the right side stands in it where it reads otherwise than the left.
#[component]
pub fn PlaceTable(places: Vec<PlaceLength>, columns: Vec<Column>, unit: Unit) -> impl IntoView {
    let of = |row: usize| -> Vec<String> {
        let cells = columns.iter().map(|c| c.values.get(row).cloned());
        cells.map(Option::unwrap_or_default).collect()
    };
    // A place's right side stands right after its left.
    let twin = |row: usize| places.get(row + 1).is_some_and(|p| p.side == Side::Right);
    let alike = |row: usize| of(row) == of(row + 1);
    let mut lines = Vec::new();
    for (row, place) in places.iter().enumerate() {
        let right = place.side == Side::Right;
        if right && row > 0 && alike(row - 1) {
            continue;
        }
        let side = match place.side {
            Side::Right => tr(", right"),
            Side::Left if twin(row) && !alike(row) => tr(", left"),
            _ => "",
        };
        let cells = of(row)
            .into_iter()
            .map(|text| view! { <td class="number">{text}</td> });
        lines.push(view! {
            <tr>
                <th scope="row">
                    <span class="letter">{place_letter(place.place)}</span>
                    {place.place.name()}
                    {side}
                </th>
                {cells.collect_view()}
            </tr>
        });
    }
    let heads = columns
        .iter()
        .map(|c| view! { <th scope="col" class="number">{c.name}</th> })
        .collect_view();
    view! {
        <details class="knowing places">
            <summary>{tr("The letters, and the lengths there")}</summary>
            <table>
                <caption>{tr!("As cut, in {}. Places in the middle are looked at just beside it.", unit.word())}</caption>
                <thead><tr><th scope="col">{tr("Place")}</th>{heads}</tr></thead>
                <tbody>{lines}</tbody>
            </table>
        </details>
    }
}
