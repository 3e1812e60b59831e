//! One of a few: a group of large radio buttons.

use leptos::prelude::*;

/// A question with a few answers, of which one is chosen.
#[component]
pub fn Options(
    /// The question.
    #[prop(into)]
    ask: String,
    /// A name for the group, unlike any other on the screen.
    #[prop(into)]
    name: String,
    /// Each answer's value and words.
    options: Vec<(String, String)>,
    /// The value that is chosen.
    #[prop(into)]
    chosen: Signal<String>,
    /// Called with the value that was chosen.
    on_choose: Callback<String>,
) -> impl IntoView {
    let answer = |(value, words): (String, String)| {
        let own = value.clone();
        let checked = move || chosen.get() == own;
        view! {
            <label>
                <input
                    type="radio"
                    name=name.clone()
                    value=value.clone()
                    prop:checked=checked
                    on:change=move |_| on_choose.run(value.clone())
                />
                {words}
            </label>
        }
    };
    view! {
        <fieldset>
            <legend>{ask}</legend>
            <div class="options">{options.into_iter().map(answer).collect_view()}</div>
        </fieldset>
    }
}
