//! All clients and practice heads.

use crate::ui::frame::titled;
use leptos::prelude::*;

/// All clients and practice heads.
#[component]
pub fn BookScreen() -> impl IntoView {
    titled("The book");
    view! { <h1>"The book"</h1> }
}
