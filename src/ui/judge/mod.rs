//! Judging a cut: measured places, criteria, trends over cuts, and the sheet for an assessor.
//!
//! `measured` is the self-check, `assess` the sheet, `trends` what comes back in several cuts.

mod trends;

pub use trends::{TrendsOf, TrendsScreen};

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
