//! The list of saved cuts: the first screen.

mod found;
mod open;
mod saved;

use super::deeds;
use super::device::can_open_offline;
use super::frame::titled;
use super::kept::{All, kept, new_id, now};
use found::Found;
use leptos::prelude::*;
use leptos_router::components::A;
use leptos_router::hooks::use_navigate;
use open::{AtTheChair, go_on};
use saved::AsideRow;
use wasm_bindgen_futures::spawn_local;

/// What is said where the code of a deed can't be fetched.
const NOT_FETCHED: &str = "Tautline is not yet on this device as a whole, and the network does not answer. What you saved is safe. Look whether there is a network, then try again.";

/// The sides of the first plan held to their guide, on the mean head of the surveys: as the engine draws
/// them, which a test holds.
const WELCOME: &str = include_str!("welcome.svg");

/// All cuts on this device.
#[component]
pub fn ListScreen() -> impl IntoView {
    titled("Your cuts");
    let kept = kept();
    let changed = RwSignal::new(0_u32);
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
                    Err(_) => kept.note(Err(NOT_FETCHED.to_owned())),
                }
            });
        } else {
            go_on();
        }
    });
    let navigate = use_navigate();
    let making = RwSignal::new(false);
    let make = Callback::new(move |example: bool| {
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
                Err(_) => kept.note(Err(NOT_FETCHED.to_owned())),
            }
        });
    });
    let actions = move || {
        view! {
            <div class="actions">
                <button class="main" on:click=move |_| make.run(false)>"New cut"</button>
                <button on:click=move |_| make.run(true)>"Try an invented example"</button>
                <A href="/take" attr:class="button">"Take a plan in"</A>
            </div>
            <p class="visually-hidden" role="status">{move || making.get().then_some("Opening…")}</p>
        }
    };
    view! {
        <h1>"Your cuts"</h1>
        {move || match listed() {
            Err(why) => {
                view! { <p class="note warn" role="alert">{why.to_string()}</p> {actions()} }.into_any()
            }
            Ok((_, all)) if all.missing > 0 => {
                view! { <p role="status">"Reading your cuts…"</p> {actions()} }.into_any()
            }
            Ok((_, all)) if all.readable.is_empty() && all.aside.is_empty() => view! { <Welcome/> {actions()} }.into_any(),
            Ok((seen, All { readable: all, aside, .. })) => {
                let open = all.at_the_chair();
                let others = !open.is_empty() && (all.others() > 0 || !aside.is_empty());
                let rows = aside.into_iter().map(|aside| view! { <AsideRow aside changed/> });
                let rows: Vec<_> = rows.collect();
                view! {
                    <AtTheChair open changed/>
                    // Before the list, which may be long.
                    {actions()}
                    {others.then(|| view! { <h2>"Other cuts"</h2> })}
                    <Found all seen changed/>
                    {(!rows.is_empty()).then(|| view! { <ul class="cuts">{rows}</ul> })}
                }
                .into_any()
            }
        }}
        // Shown, and its button heard, by the script that registers the offline worker.
        <div class="newer" role="status">
            <div class="when-newer">
                "A new version is ready. "
                <button type="button" data-switch="">"Switch now"</button>
            </div>
        </div>
        <p class="note soft">
            "Everything stays on this device; nothing is sent anywhere. Lengths are computed guidance: your eye, your training and your local rules come first."
            {(!kept.durable()).then_some(" This browser takes some seconds to write down what you do: should the device die, the last taps may be lost.")}
            {(!can_open_offline()).then_some(" This browser can't keep the app itself: with no network it may not open here.")}
        </p>
    }
}

/// What the app is, for the first start.
#[component]
fn Welcome() -> impl IntoView {
    view! {
        <p class="lede">
            "Measure a head, fit a plan to it, and know how long every section must be cut before you cut it."
        </p>
        <figure class="figure welcome-picture"><div inner_html=WELCOME></div></figure>
        <p class="soft">"Tautline then walks you through it at the chair, section by section, with no network."</p>
    }
}
