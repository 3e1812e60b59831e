//! A number with a slider, a step down, a step up and a field to type it into.

use crate::measure::read_decimal;
use crate::ui::kept::kept;
use crate::words::tr;
use leptos::prelude::*;

/// What a dial reads and shows.
#[derive(Clone, Copy)]
pub struct Scale {
    /// The least.
    pub least: f64,
    /// The most.
    pub most: f64,
    /// How far a tap on a button goes.
    pub tap: f64,
    /// What stands behind the number.
    pub mark: &'static str,
}

/// A number that is dragged, stepped or typed.
#[component]
pub fn Dial(
    /// An id unlike any other on the screen.
    #[prop(into)]
    id: String,
    /// What it is.
    #[prop(into)]
    label: String,
    /// Its ends and steps.
    scale: Scale,
    /// The number as it stands.
    #[prop(into)]
    now: Signal<f64>,
    /// What was typed and does not read, if that is so.
    #[prop(into)]
    unread: Signal<Option<String>>,
    /// Called while it is dragged.
    on_drag: Callback<f64>,
    /// Called with the text of what was dragged, stepped or typed to.
    on_set: Callback<String>,
) -> impl IntoView {
    let label = kept().said(&label);
    let stepped = move |by: f64| {
        let there = (now.get_untracked() + by).clamp(scale.least, scale.most);
        on_set.run(format!("{there:.0}"));
    };
    let said = move || format!("{:.0}{}", now.get(), scale.mark);
    let shown = move || unread.get().unwrap_or_else(said);
    let dragged = move |ev| read_decimal(&event_target_value(&ev));
    view! {
        <div class="dial">
            <label for=id.clone()>{label.clone()}</label>
            <input
                type="range"
                aria-label=label
                aria-valuetext=said
                min=scale.least
                max=scale.most
                step=1
                prop:value=move || format!("{:.0}", now.get())
                on:input=move |ev| {
                    if let Some(value) = dragged(ev) {
                        on_drag.run(value);
                    }
                }
                on:change=move |ev| on_set.run(event_target_value(&ev))
            />
            <div class="stepper">
                <button type="button" on:click=move |_| stepped(-scale.tap)>
                    <span aria-hidden="true">"−"</span><span class="visually-hidden">{tr("Less")}</span>
                </button>
                <input
                    type="text"
                    id=id
                    inputmode="numeric"
                    autocomplete="off"
                    prop:value=shown
                    aria-invalid=move || unread.get().is_some().to_string()
                    on:change=move |ev| on_set.run(event_target_value(&ev))
                />
                <button type="button" on:click=move |_| stepped(scale.tap)>
                    <span aria-hidden="true">"+"</span><span class="visually-hidden">{tr("More")}</span>
                </button>
            </div>
        </div>
    }
}
