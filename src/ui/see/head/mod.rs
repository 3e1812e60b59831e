//! The head turned in the hand: the sections of a cut one after the other, held or let down.
//!
//! `looked` is what is looked at and from where; `turn` the picture with its drag, keys and views; `through`
//! the way through the cut; `keys` what its lines mean; `numbers` the same in a table.

mod keys;
mod looked;
mod numbers;
mod through;
mod turn;

use super::Made;
use crate::ui::kept::kept;
use crate::ui::parts::{KeepPicture, Options};
use crate::words::tr;
use keys::HeadKeys;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsValue;
use looked::Looked;
use numbers::Numbers;
use through::Through;
use turn::{HOLDER, TurnedPicture, Views};

/// The head of a cut, turned by hand.
#[component]
pub fn HeadTurned(
    made: StoredValue<Made>,
    /// The place of the section that was shown last, if the screen showed one before.
    last: StoredValue<Option<usize>>,
) -> impl IntoView {
    let looked = Looked::at(made, last);
    if looked.count.get_untracked() == 0 {
        return view! { <p class="note">{tr("This plan has no section on this head.")}</p> }
            .into_any();
    }
    looked.follow(move |place| {
        last.set_value(Some(place));
        stay_at(place);
    });
    let words = |pairs: &[(&str, &str)]| -> Vec<(String, String)> {
        let said = |(value, words): &(&str, &str)| ((*value).to_owned(), kept().said(words));
        pairs.iter().map(said).collect()
    };
    let down = move || if looked.down.get() { "down" } else { "held" }.to_owned();
    let real = move || if looked.real.get() { "cut" } else { "plan" }.to_owned();
    let was_cut = made.with_value(|made| made.cut.is_some());
    view! {
        <div class="head-view">
            <div class="head-seen">
                <TurnedPicture looked/>
                <KeepPicture of=HOLDER name="head"/>
            </div>
            <Through looked/>
            <Views looked/>
            <div class="head-rest">
                <HeadKeys looked/>
                <Options
                    ask=tr("The hair")
                    name="hair-shown"
                    options=words(&[("held", tr("Held")), ("down", tr("Let down"))])
                    chosen=Signal::derive(down)
                    on_choose=Callback::new(move |value: String| looked.down.set(value == "down"))
                />
                {was_cut.then(|| view! {
                    <Options
                        ask=tr("Lengths")
                        name="lengths-shown"
                        options=words(&[("plan", tr("As planned")), ("cut", tr("As cut"))])
                        chosen=Signal::derive(real)
                        on_choose=Callback::new(move |value: String| looked.real.set(value == "cut"))
                    />
                })}
                <Numbers looked/>
            </div>
        </div>
    }
    .into_any()
}

/// Keeps the place of a section in the address, so that it is found again; no step back leads through it.
fn stay_at(place: usize) {
    let here = window().location().pathname().unwrap_or_default();
    let at = place.saturating_add(1).to_string();
    if let Ok(history) = window().history() {
        // Where a browser minds, the place is only not kept.
        let _ = history.replace_state_with_url(
            &JsValue::NULL,
            "",
            Some(&[&here, "?at=", &at].concat()),
        );
    }
}
