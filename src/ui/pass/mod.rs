//! Passing a plan on as a file, a link or a code on the screen, and taking one in.

use crate::ui::frame::titled;
use leptos::prelude::*;

/// Not made yet.
#[component]
pub fn PassScreen() -> impl IntoView {
    titled("PassScreen");
    view! { <h1>"PassScreen"</h1> }
}

/// Not made yet.
#[component]
pub fn TakeScreen() -> impl IntoView {
    titled("TakeScreen");
    view! { <h1>"TakeScreen"</h1> }
}
