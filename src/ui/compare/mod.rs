//! Compare.

use super::frame::{titled, with_cut};
use leptos::prelude::*;

/// Compare.
#[component]
pub fn CompareScreen() -> impl IntoView {
    titled("Compare");
    with_cut(|_cut| view! { <h1>"Compare"</h1> })
}
