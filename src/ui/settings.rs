//! What the person set for the whole app.

use super::frame::titled;
use leptos::prelude::*;

/// The settings.
#[component]
pub fn SettingsScreen() -> impl IntoView {
    titled("Settings");
    view! { <h1>"Settings"</h1> }
}
