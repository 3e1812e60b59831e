//! When a cut is outgrown, and the day to return.

use crate::book::SavedCut;
use leptos::prelude::*;

/// Where the ends lie in weeks to come, and the day to return. Shows nothing of a cut that is not cut.
#[component]
pub fn Outlook(cut: RwSignal<SavedCut>) -> impl IntoView {
    let _ = cut;
}
