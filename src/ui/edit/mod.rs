//! Change the plan.

use super::frame::{titled, with_cut};
use leptos::prelude::*;

/// Change the plan.
#[component]
pub fn EditScreen() -> impl IntoView {
    titled("Change the plan");
    with_cut(|_cut| view! { <h1>"Change the plan"</h1> })
}
