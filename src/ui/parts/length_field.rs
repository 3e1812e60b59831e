//! A length with a step down and a step up.

use crate::measure::{Length, Unit, read_change, read_length, with_unit};
use crate::ui::kept::kept;
use crate::words::tr;
use leptos::prelude::*;
use leptos::web_sys::Event;

/// What was typed into a field for a length, with its unit and without space around.
pub fn typed_length(event: &Event, unit: Unit) -> String {
    with_unit(&event_target_value(event), unit)
        .trim()
        .to_owned()
}

/// A length with a step down and a step up.
#[component]
pub fn LengthField(
    /// An id unlike any other on the screen.
    id: String,
    /// What is asked.
    #[prop(into)]
    label: String,
    /// The length as it stands, typed; empty if there is none.
    #[prop(into)]
    text: Signal<String>,
    /// Called with what was typed or stepped to, with its unit and without space around.
    set: Callback<String>,
    /// Whether it is a difference, which may be below zero.
    #[prop(optional)]
    signed: bool,
    /// Whether it was measured, and is read back to the millimetre.
    #[prop(optional)]
    measured: bool,
    /// Whether a step is a millimetre where it is in centimetres, for what is measured in few of them.
    #[prop(optional)]
    small: bool,
    /// Where a step begins while nothing is typed.
    #[prop(optional)]
    from: Length,
) -> impl IntoView {
    let kept = kept();
    let length = move |text: &str| {
        let read = if signed { read_change } else { read_length };
        read(text, kept.unit_now()).ok()
    };
    let told = move |length: Length, unit: Unit| {
        if measured {
            length.as_measured(unit)
        } else {
            length.shown(unit)
        }
    };
    let step = move |steps: i32| {
        let now = length(&text.get_untracked()).unwrap_or(from);
        let unit = kept.unit_now();
        let there = if signed {
            now.changed(unit, steps)
        } else if small {
            now.nudged(unit, steps)
        } else {
            now.stepped(unit, steps)
        };
        set.run(told(there, unit));
    };
    let shown = move || {
        let (text, unit) = (text.get(), kept.unit());
        length(&text).map_or(text, |length| told(length, unit))
    };
    view! {
        <div class="length-field">
            <label for=id.clone()>{label.clone()}</label>
            <div class="stepper">
                <button type="button" on:click=move |_| step(-1)>
                    <span aria-hidden="true">"−"</span><span class="visually-hidden">{tr!("Shorter: {}", label)}</span>
                </button>
                <input
                    type="text"
                    id=id
                    autocomplete="off"
                    placeholder=move || kept.unit().mark()
                    prop:value=shown
                    on:change=move |ev| set.run(typed_length(&ev, kept.unit_now()))
                />
                <button type="button" on:click=move |_| step(1)>
                    <span aria-hidden="true">"+"</span><span class="visually-hidden">{tr!("Longer: {}", label)}</span>
                </button>
            </div>
        </div>
    }
}
