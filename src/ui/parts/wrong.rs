//! Why something can't be shown.

use leptos::prelude::*;

/// Why a screen, or a part of it, can't be shown: a sentence, read out at once.
pub fn wrong(why: impl ToString) -> AnyView {
    let why = why.to_string();
    view! { <p class="note warn" role="alert">{why}</p> }.into_any()
}
