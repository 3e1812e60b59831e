//! One client or practice head.

use crate::ui::frame::{titled, with_record};
use leptos::prelude::*;

/// The card of one client or practice head.
#[component]
pub fn CardScreen() -> impl IntoView {
    titled("Card");
    with_record(|record| view! { <h1>{move || record.with(|r| r.name.clone())}</h1> })
}
