//! Screens.
use leptos::prelude::*;
/// The app.
#[component]
pub fn App() -> impl IntoView {
    view! { <main><h1>"Tautline"</h1></main> }
}
