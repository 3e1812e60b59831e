//! The walks that are open: first in the list, and where the app opens when there is one.

use super::saved::{Delete, whose};
use crate::book::Entry;
use crate::store::walk_to_go_on;
use crate::ui::deeds;
use crate::ui::kept::kept;
use crate::ui::words;
use crate::words::tr;
use leptos::prelude::*;
use leptos_router::NavigateOptions;
use leptos_router::components::A;
use leptos_router::hooks::use_navigate;
use std::sync::Arc;
use wasm_bindgen_futures::spawn_local;

/// How long a walk counts as the one that the app was left in, ms. Judgement: a working day.
const LEFT_LATELY: f64 = 12.0 * 3_600_000.0;

/// Opened from the home screen, the app goes on with the walk it was left in, if there is just one.
pub fn go_on() {
    if !window().location().search().is_ok_and(|s| s == "?start") {
        return;
    }
    let since = js_sys::Date::new(&(js_sys::Date::now() - LEFT_LATELY).into());
    let since = String::from(since.to_iso_string());
    let cuts = kept().lines_there().unwrap_or_default();
    if let Some(cut) = walk_to_go_on(&cuts, &since) {
        let instead = NavigateOptions {
            replace: true,
            ..Default::default()
        };
        use_navigate()(&format!("/cut/{}/walk", cut.id), instead);
    }
}

/// The cuts at the chair.
#[component]
pub fn AtTheChair(open: Vec<Arc<Entry>>, changed: RwSignal<u32>) -> impl IntoView {
    let rows = open.into_iter();
    let rows: Vec<_> = rows
        .map(|entry| view! { <OpenRow entry changed/> })
        .collect();
    (!rows.is_empty()).then(|| {
        view! {
            <h2>{tr("At the chair now")}</h2>
            <ul class="cuts at-chair">{rows}</ul>
        }
    })
}

#[component]
fn OpenRow(entry: Arc<Entry>, changed: RwSignal<u32>) -> impl IntoView {
    let line = &entry.line;
    let day = words::day(&line.saved_at);
    let at = RwSignal::new(String::new());
    let (kept, id) = (kept(), line.id.clone());
    spawn_local(async move {
        if let Ok(Some(place)) = deeds::place(kept, id).await {
            let _ = at.try_set(format!("{place} · "));
        }
    });
    let title = entry.called(kept.settings_now().seen).to_owned();
    let of = title.clone();
    // Before the client the plan is the title.
    let told = if entry.plan == title {
        day
    } else {
        format!("{} · {day}", entry.plan)
    };
    view! {
        <li>
            <div class="open">
                <span class="title">{title.clone()}</span>
                {whose(&entry)}
                <span class="soft">{move || at.get()}{told}</span>
            </div>
            <A href=format!("/cut/{}/walk", line.id) attr:class="button main" attr:aria-label=tr!("Go on with {of}", of)>
                {tr("Go on")}
            </A>
            <Delete id=line.id.clone() title changed/>
        </li>
    }
}
