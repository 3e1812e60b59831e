//! Aim.

use super::frame::{titled, with_cut};
use leptos::prelude::*;

/// Aim.
#[component]
pub fn AimScreen() -> impl IntoView {
    titled("Aim");
    with_cut(|_cut| view! { <h1>"Aim"</h1> })
}
