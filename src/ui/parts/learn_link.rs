//! From a word to what it means.

use crate::learn::Idea;
use leptos::prelude::*;
use leptos_router::components::A;

/// Leads to an idea from where its word stands.
#[component]
pub fn LearnLink(idea: Idea) -> impl IntoView {
    view! {
        <A href=format!("/learn/{}", idea.word()) attr:class="learn-link">
            {idea.asked()}
        </A>
    }
}
