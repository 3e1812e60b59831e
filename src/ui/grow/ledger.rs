//! The hair that is left on a practice head.

use crate::book::Record;
use leptos::prelude::*;

/// What is left on a practice head, zone by zone, and what can still be cut on it. Shows nothing of a
/// client.
#[component]
pub fn HeadLedger(record: RwSignal<Record>) -> impl IntoView {
    let _ = record;
}
