//! One of many: a list that opens.

use crate::ui::kept::kept;
use crate::words::tr;
use leptos::prelude::*;

/// A question with many answers, of which one is chosen.
#[component]
pub fn Pick(
    /// An id unlike any other on the screen.
    #[prop(into)]
    id: String,
    /// The question.
    #[prop(into)]
    label: String,
    /// The answers' words.
    options: Vec<String>,
    /// The place of the one that is chosen; none if it is none of them.
    #[prop(into)]
    chosen: Signal<Option<usize>>,
    /// Called with the place of the one that was chosen.
    on_choose: Callback<usize>,
    /// Whether the answers are the person's own words, which stand as they were written.
    #[prop(optional)]
    own: bool,
    /// What stands there while none is.
    #[prop(default = tr("As it is"))]
    none: &'static str,
) -> impl IntoView {
    let kept = kept();
    let label = kept.said(&label);
    let option = move |(i, words): (usize, String)| {
        let words = if own { words } else { kept.said(&words) };
        view! {
            <option value=i.to_string() prop:selected=move || chosen.get() == Some(i)>{words}</option>
        }
    };
    let other = move || chosen.get().is_none();
    view! {
        <div class="pick">
            <label for=id.clone()>{label}</label>
            <select
                id=id
                on:change=move |ev| {
                    if let Ok(i) = event_target_value(&ev).parse() {
                        on_choose.run(i);
                    }
                }
            >
                {move || other().then(|| view! { <option value="" selected disabled>{none}</option> })}
                {options.into_iter().enumerate().map(option).collect_view()}
            </select>
        </div>
    }
}
