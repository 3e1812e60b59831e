//! One of a few: a group of large radio buttons.

use leptos::{ev::KeyboardEvent, prelude::*};

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
    /// Whether choosing the chosen answer again takes it back: an empty value is then chosen.
    #[prop(optional)]
    take_back: bool,
) -> impl IntoView {
    let answer = |(value, words): (String, String)| {
        let own = value.clone();
        let again = value.clone();
        let checked = move || chosen.get() == own;
        // A choice by arrow key clicks too, but before it is the chosen one.
        let taken = Callback::new(move |()| {
            let taken = take_back && chosen.get_untracked() == again;
            if taken {
                on_choose.run(String::new());
            }
            taken
        });
        let press = move |_| {
            taken.run(());
        };
        // Not every browser clicks a chosen radio button on Space.
        let key = move |ev: KeyboardEvent| {
            if ev.key() == " " && taken.run(()) {
                ev.prevent_default();
            }
        };
        view! {
            <label>
                <input
                    type="radio"
                    name=name.clone()
                    value=value.clone()
                    prop:checked=checked
                    on:click=press
                    on:keyup=key
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
