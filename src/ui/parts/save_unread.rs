//! What can't be read, saved as a file.

use crate::words::tr;
use leptos::prelude::*;

/// Saves what can't be read as a file, as it is kept.
#[component]
pub fn SaveUnread(
    /// The id under which it is kept.
    id: String,
    /// Its text, as it is kept.
    text: String,
) -> impl IntoView {
    let text = String::from(js_sys::encode_uri_component(&text));
    let href = format!("data:application/json,{text}");
    view! {
        <a class="button plain" href=href download=format!("tautline-{id}.json")>{tr("Save as a file")}</a>
    }
}
