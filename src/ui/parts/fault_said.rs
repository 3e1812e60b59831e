//! Why what was typed does not read.

use leptos::prelude::*;

/// Under a field: why what was typed in it does not read, spoken when it comes.
pub fn fault_said(why: impl Fn() -> Option<String> + Send + 'static) -> impl IntoView {
    view! {
        <div aria-live="polite">
            {move || why().map(|why| view! { <p class="fault">{why}</p> })}
        </div>
    }
}
