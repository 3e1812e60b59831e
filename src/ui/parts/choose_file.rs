//! A file that a person chooses to be read.

use crate::ui::device::Taken;
use crate::words::{decimal, tr};
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::web_sys::HtmlInputElement;

/// A million bytes.
const MILLION: f64 = 1_000_000.0;

/// A field for a file of text.
#[component]
pub fn ChooseFile(
    /// An `id` unlike any other on the screen.
    id: &'static str,
    /// What is to be chosen.
    #[prop(into)]
    label: String,
    /// The most bytes that are read.
    most: u32,
    /// Called with the text, or with a sentence that says why there is none.
    on_text: Callback<Result<String, String>>,
) -> impl IntoView {
    let chosen = move |ev| {
        let field: HtmlInputElement = event_target(&ev);
        spawn_local(async move {
            let text = match Taken::from(&field, f64::from(most)).await {
                Taken::Nothing => return,
                Taken::Text(text) => Ok(text),
                Taken::TooLarge(size) => Err(tr!(
                    "This file has {} MB; {} MB are the most that is read. Nothing was changed.",
                    decimal(format!("{:.1}", size / MILLION)),
                    format!("{:.0}", f64::from(most) / MILLION)
                )),
                Taken::Unread => {
                    Err(tr("The browser could not read this file. Nothing was changed.").to_owned())
                }
            };
            // The screen may be left by then.
            on_text.try_run(text);
        });
    };
    view! {
        <div class="choose-file">
            <label for=id>{label}</label>
            <input type="file" id=id accept=".json,application/json,text/plain" on:change=chosen/>
        </div>
    }
}
