//! A picture of the chart room that is drawn anew where it stands.

use crate::chart::{Change, changes};
use leptos::html;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;

/// A picture: of each new drawing only what differs is written.
#[component]
pub fn InPlace(
    /// The `id` of what holds it.
    id: Option<String>,
    /// The SVG, made by our own code from the model; nothing typed goes into it unescaped.
    svg: Signal<String>,
) -> impl IntoView {
    let holder = NodeRef::<html::Div>::new();
    // Drawn once, though it is asked for twice.
    let svg = Memo::new(move |_| svg.get());
    let first = svg.get_untracked();
    let shown = first.clone();
    Effect::new(move |before: Option<String>| {
        let now = svg.get();
        let before = before.as_ref().unwrap_or(&shown);
        if let Some(holder) = holder.get().filter(|_| *before != now)
            && redraw(&holder, before, &now).is_none()
        {
            holder.set_inner_html(&now);
        }
        now
    });
    view! { <div id=id node_ref=holder inner_html=first></div> }
}

/// Writes what differs; none where that is not known.
fn redraw(holder: &web_sys::Element, before: &str, now: &str) -> Option<()> {
    let all = changes(before, now)?;
    let there = holder.query_selector_all("*").ok()?;
    for change in all {
        let own = |at: usize| -> Option<web_sys::Element> {
            there.item(u32::try_from(at).ok()?)?.dyn_into().ok()
        };
        match change {
            Change::Attribute { at, name, value } => own(at)?.set_attribute(name, value).ok()?,
            Change::Text { at, text } => own(at)?.set_text_content(Some(text)),
            Change::Gone { at } => own(at)?.remove(),
            Change::Before { at, svg } => own(at)?.insert_adjacent_html("beforebegin", svg).ok()?,
            Change::Last { at, svg } => own(at)?.insert_adjacent_html("beforeend", svg).ok()?,
        }
    }
    Some(())
}
