//! The walks that are open: first in the list, and where the app opens when there is one.

use super::saved::Delete;
use crate::book::SavedCut;
use crate::store::{Listed, walk_to_go_on};
use crate::ui::kept::kept;
use crate::ui::words;
use crate::walk::order;
use leptos::prelude::*;
use leptos_router::NavigateOptions;
use leptos_router::components::A;
use leptos_router::hooks::use_navigate;

/// How long a walk counts as the one that the app was left in, ms. Judgement: a working day.
const LEFT_LATELY: f64 = 12.0 * 3_600_000.0;

/// Opened from the home screen, the app goes on with the walk it was left in, if there is just one.
pub fn go_on() {
    if !window().location().search().is_ok_and(|s| s == "?start") {
        return;
    }
    let since = js_sys::Date::new(&(js_sys::Date::now() - LEFT_LATELY).into());
    let since = String::from(since.to_iso_string());
    let cuts = kept().store().list().unwrap_or_default();
    if let Some(cut) = walk_to_go_on(&cuts, &since) {
        let instead = NavigateOptions {
            replace: true,
            ..Default::default()
        };
        use_navigate()(&format!("/cut/{}/walk", cut.id), instead);
    }
}

/// The section that is on the screen of a walk, in words; none if the plan can't be worked out.
fn place(cut: &SavedCut) -> Option<String> {
    let outcome = cut.ready().ok()?.outcome(&cut.walk.as_ref()?.measured());
    let keys = order(&outcome.ok()?);
    Some(match cut.walk.as_ref()?.current(&keys) {
        Some(place) => format!("Section {} of {}", place + 1, keys.len()),
        None => "All sections are done".to_owned(),
    })
}

/// The cuts at the chair.
#[component]
pub fn AtTheChair(open: Vec<Listed>, changed: RwSignal<u32>) -> impl IntoView {
    let rows = open.into_iter().filter_map(|listed| match listed {
        Listed::Cut(cut) => Some(view! { <OpenRow cut=*cut changed/> }),
        Listed::Aside { .. } => None,
    });
    let rows: Vec<_> = rows.collect();
    (!rows.is_empty()).then(|| {
        view! {
            <h2>"At the chair now"</h2>
            <ul class="cuts at-chair">{rows}</ul>
        }
    })
}

#[component]
fn OpenRow(cut: SavedCut, changed: RwSignal<u32>) -> impl IntoView {
    let plan = kept()
        .plan(&cut)
        .map_or("Unknown plan".to_owned(), |plan| plan.name);
    let day = words::day(&cut.saved_at);
    let at = place(&cut).map_or(String::new(), |place| format!("{place} · "));
    let (title, of) = (cut.title.clone(), cut.title.clone());
    view! {
        <li>
            <div class="open">
                <span class="title">{cut.title.clone()}</span>
                <span class="soft">{format!("{at}{plan} · {day}")}</span>
            </div>
            <A href=format!("/cut/{}/walk", cut.id) attr:class="button main">
                "Go on" <span class="visually-hidden">" with " {of.clone()}</span>
            </A>
            <Delete id=cut.id title changed/>
        </li>
    }
}
