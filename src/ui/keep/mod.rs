//! Everything out and back: the file of all that is kept, sealed or plain, and the lock.

use crate::ui::frame::titled;
use leptos::prelude::*;

/// Not made yet.
#[component]
pub fn KeepScreen() -> impl IntoView {
    titled("KeepScreen");
    view! { <h1>"KeepScreen"</h1> }
}
