//! What comes back in several cuts.

use crate::ui::frame::titled;
use leptos::prelude::*;
use leptos_router::components::A;

/// What comes back in all cuts, or in those of one client or practice head (`?of=ID`).
#[component]
pub fn TrendsScreen() -> impl IntoView {
    titled("What comes back");
    view! { <h1>"What comes back"</h1> }
}

/// What comes back in the cuts of one client or practice head, in sentences, for their card.
#[component]
pub fn TrendsOf(record_id: String) -> impl IntoView {
    let all = format!("/trends?of={record_id}");
    view! { <p><A href=all>"What comes back in these cuts"</A></p> }
}
