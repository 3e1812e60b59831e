//! One cut as a visit.

use crate::ui::frame::{titled, with_cut};
use leptos::prelude::*;

/// What is put down of one cut beside plan and walk.
#[component]
pub fn VisitScreen() -> impl IntoView {
    titled("Visit");
    with_cut(|_cut| view! { <h1>"Visit"</h1> })
}
