//! A sentence with one value in it that is seen before the rest.

use leptos::prelude::*;

/// A text with `{}` in it, and the value that stands there, marked: `up to 2 cm off`.
pub fn marked(text: &'static str, value: String) -> impl IntoView {
    let (before, after) = text.split_once("{}").unwrap_or((text, ""));
    view! { {before} <strong>{value}</strong> {after} }
}
