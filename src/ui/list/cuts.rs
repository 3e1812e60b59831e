//! The cuts that there are.

use super::NOT_FETCHED;
use super::begin::Begin;
use super::found::Found;
use super::open::{AtTheChair, go_on};
use super::saved::AsideRow;
use crate::ui::deeds;
use crate::ui::kept::{All, kept};
use crate::ui::parts::wrong;
use crate::words::tr;
use leptos::prelude::*;
use leptos_router::components::A;
use wasm_bindgen_futures::spawn_local;

/// The cuts at the chair, then all others; where one begins stands between them, for the list may be long.
#[component]
pub fn Cuts(changed: RwSignal<u32>) -> impl IntoView {
    let kept = kept();
    let listed = move || {
        changed.track();
        kept.follow_others();
        let seen = kept.settings().seen;
        kept.catalogue(seen).map(|all| (seen, all))
    };
    let missing = Memo::new(move |_| listed().is_ok_and(|(_, all)| all.missing > 0));
    Effect::new(move || {
        if missing.get() {
            spawn_local(async move {
                match deeds::making_lines().await {
                    Ok(anew) => {
                        kept.take_anew(anew);
                        let _ = changed.try_update(|n| *n += 1);
                    }
                    Err(_) => kept.note(Err(tr(NOT_FETCHED).to_owned())),
                }
            });
        } else {
            go_on();
        }
    });
    move || match listed() {
        Err(why) => view! { {wrong(why)} <Begin/> }.into_any(),
        Ok((_, all)) if all.missing > 0 => {
            view! { <p role="status">{tr("Reading your cuts…")}</p> <Begin/> }.into_any()
        }
        Ok((
            seen,
            All {
                readable: all,
                aside,
                ..
            },
        )) => {
            let open = all.at_the_chair();
            let others = !open.is_empty() && (all.others() > 0 || !aside.is_empty());
            let rows = aside
                .into_iter()
                .map(|aside| view! { <AsideRow aside changed/> });
            let rows: Vec<_> = rows.collect();
            view! {
                <AtTheChair open changed/>
                <Begin/>
                {others.then(|| view! { <h2>{tr("Other cuts")}</h2> })}
                <Found all seen changed/>
                {(!rows.is_empty()).then(|| view! { <ul class="cuts">{rows}</ul> })}
                <p><A href="/keep" attr:class="learn-link">{tr("Everything out and back")}</A></p>
            }
            .into_any()
        }
    }
}
