//! Judging a cut: measured places, criteria, trends over cuts, and the sheet for an assessor.

use crate::ui::frame::titled;
use leptos::prelude::*;

/// Not made yet.
#[component]
pub fn JudgeScreen() -> impl IntoView {
    titled("JudgeScreen");
    view! { <h1>"JudgeScreen"</h1> }
}

/// Not made yet.
#[component]
pub fn AssessScreen() -> impl IntoView {
    titled("AssessScreen");
    view! { <h1>"AssessScreen"</h1> }
}

/// Not made yet.
#[component]
pub fn TrendsScreen() -> impl IntoView {
    titled("TrendsScreen");
    view! { <h1>"TrendsScreen"</h1> }
}
