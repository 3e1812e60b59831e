//! To be built.

use super::Made;
use leptos::prelude::*;

/// To be built.
#[component]
pub fn Outline(made: StoredValue<Made>) -> impl IntoView {
    made.with_value(|made| made.id.clone())
}
