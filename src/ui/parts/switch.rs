//! Something that is on or off.

use leptos::prelude::*;

/// Something that is on or off.
#[component]
pub fn Switch(
    label: &'static str,
    #[prop(into)] on: Signal<bool>,
    set: Callback<bool>,
) -> impl IntoView {
    view! {
        <label class="tick">
            <input
                type="checkbox"
                prop:checked=on
                on:change=move |ev| set.run(event_target_checked(&ev))
            />
            <span>{label}</span>
        </label>
    }
}
