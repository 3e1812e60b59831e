//! Fields of words, kept at every letter.

use crate::words::tr;
use leptos::prelude::*;

/// A line of words.
#[component]
pub fn Line(
    /// An id unlike any other on the screen.
    id: &'static str,
    label: &'static str,
    #[prop(into)] text: Signal<String>,
    set: Callback<String>,
    /// What kind of field: `text`, or `date`.
    #[prop(default = "text")]
    kind: &'static str,
) -> impl IntoView {
    view! {
        <div class="words">
            <label for=id>{label}</label>
            <input
                id=id
                type=kind
                autocomplete="off"
                prop:value=text
                on:input=move |ev| set.run(event_target_value(&ev))
            />
        </div>
    }
}

/// Several lines of words.
#[component]
pub fn Words(
    /// An id unlike any other on the screen.
    id: &'static str,
    label: &'static str,
    #[prop(into)] text: Signal<String>,
    set: Callback<String>,
) -> impl IntoView {
    view! {
        <div class="words">
            <label for=id>{label}</label>
            <textarea
                id=id
                rows="3"
                prop:value=text
                on:input=move |ev| set.run(event_target_value(&ev))
            ></textarea>
        </div>
    }
}

/// Words to find something by, as they are typed: with commas between.
#[component]
pub fn Tags(
    /// An id unlike any other on the screen.
    id: &'static str,
    #[prop(into)] tags: Signal<Vec<String>>,
    set: Callback<Vec<String>>,
) -> impl IntoView {
    // While it has the focus the field says what is typed, commas and all.
    let typed = RwSignal::new(tags.get_untracked().join(", "));
    view! {
        <div class="words">
            <label for=id>{tr("Tags, with commas between")}</label>
            <input
                id=id
                type="text"
                autocomplete="off"
                prop:value=typed
                on:input=move |ev| {
                    let text = event_target_value(&ev);
                    set.run(crate::book::read_tags(&text));
                    typed.set(text);
                }
            />
        </div>
    }
}
