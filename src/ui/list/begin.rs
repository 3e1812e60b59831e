//! Where a cut begins.

use super::NOT_FETCHED;
use crate::ui::deeds;
use crate::ui::kept::{kept, new_id, now};
use crate::words::tr;
use leptos::prelude::*;
use leptos_router::components::A;
use leptos_router::hooks::use_navigate;
use wasm_bindgen_futures::spawn_local;

/// A new cut, the example, or a plan of somebody else.
#[component]
pub fn Begin() -> impl IntoView {
    let kept = kept();
    let navigate = use_navigate();
    let making = RwSignal::new(false);
    let make = move |example: bool| {
        if making.get_untracked() {
            return;
        }
        making.set(true);
        let navigate = navigate.clone();
        spawn_local(async move {
            let made = deeds::make_cut(kept, new_id(), now(), example).await;
            let _ = making.try_set(false);
            match made {
                Ok(Some(id)) => navigate(&format!("/cut/{id}/head"), Default::default()),
                // Why it was not kept is said already.
                Ok(None) => {}
                Err(_) => kept.note(Err(tr(NOT_FETCHED).to_owned())),
            }
        });
    };
    let example = make.clone();
    view! {
        <div class="actions">
            <button class="main" on:click=move |_| make(false)>{tr("New cut")}</button>
            <button on:click=move |_| example(true)>{tr("Try an invented example")}</button>
            <A href="/take" attr:class="button">{tr("Open a plan from a file or link")}</A>
        </div>
        <p class="visually-hidden" role="status">{move || making.get().then_some(tr("Opening…"))}</p>
    }
}
