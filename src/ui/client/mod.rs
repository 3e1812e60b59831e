//! The client.

use super::frame::{titled, with_cut};
use leptos::prelude::*;

/// The client.
#[component]
pub fn ClientScreen() -> impl IntoView {
    titled("The client");
    with_cut(|_cut| view! { <h1>"The client"</h1> })
}
