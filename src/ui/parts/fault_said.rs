//! Why what was typed does not read.

use crate::measure::{Unit, read_length};
use leptos::prelude::*;

/// Why a length that was typed does not read; none where nothing was typed.
pub fn length_fault(text: Signal<String>) -> Memo<Option<String>> {
    Memo::new(move |_| {
        let text = text.get();
        let typed = Some(text.trim()).filter(|typed| !typed.is_empty())?;
        read_length(typed, Unit::Cm)
            .err()
            .map(|why| why.to_string())
    })
}

/// Under a field: why what was typed in it does not read, spoken when it comes.
pub fn fault_said(why: impl Fn() -> Option<String> + Send + 'static) -> impl IntoView {
    view! {
        <div aria-live="polite">
            {move || why().map(|why| view! { <p class="fault">{why}</p> })}
        </div>
    }
}
