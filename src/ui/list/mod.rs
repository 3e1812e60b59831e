//! The list of saved cuts: the first screen.

mod saved;

use super::frame::titled;
use super::kept::{kept, new_id, now};
use super::words;
use crate::head::Tape;
use crate::store::{Listed, SavedCut};
use leptos::prelude::*;
use leptos_router::hooks::use_navigate;
use saved::{AsideRow, CutRow};

/// The plan a new cut starts with, until there are more to choose from.
const FIRST_PLAN: &str = "soft-layers-face-frame";

/// An invented practice head, for trying the app out.
const EXAMPLE: [(Tape, &str); 4] = [
    (Tape::Circumference, "54 cm"),
    (Tape::EarToEar, "33 cm"),
    (Tape::Length, "18.5 cm"),
    (Tape::Breadth, "14.5 cm"),
];

/// All cuts on this device.
#[component]
pub fn ListScreen() -> impl IntoView {
    titled("Your cuts");
    let kept = kept();
    let changed = RwSignal::new(0_u32);
    let listed = move || {
        changed.track();
        kept.store().list()
    };
    let navigate = use_navigate();
    let make = Callback::new(move |example: bool| {
        let at = now();
        let title = if example {
            "Practice head (invented example)".to_owned()
        } else {
            format!("Cut of {}", words::day(&at))
        };
        let mut cut = SavedCut::new(&new_id(), &title, FIRST_PLAN, &at);
        if example {
            cut.tapes = EXAMPLE.map(|(tape, cm)| (tape, cm.to_owned())).into();
        }
        let saved = kept.store().save(&cut);
        let there = saved.is_ok();
        kept.note(saved.map_err(|e| e.to_string()));
        if there {
            navigate(&format!("/cut/{}/head", cut.id), Default::default());
        }
    });
    view! {
        <h1>"Your cuts"</h1>
        {move || match listed() {
            Err(why) => view! { <p class="note warn" role="alert">{why.to_string()}</p> }.into_any(),
            Ok(cuts) if cuts.is_empty() => view! { <Welcome/> }.into_any(),
            Ok(cuts) => {
                let row = |listed| match listed {
                    Listed::Cut(cut) => view! { <CutRow cut changed/> }.into_any(),
                    Listed::Aside { id, why, text } => {
                        view! { <AsideRow id why=why.to_string() text changed/> }.into_any()
                    }
                };
                view! { <ul class="cuts">{cuts.into_iter().map(row).collect_view()}</ul> }.into_any()
            }
        }}
        <div class="actions">
            <button class="main" on:click=move |_| make.run(false)>"New cut"</button>
            <button on:click=move |_| make.run(true)>"Try an invented example"</button>
        </div>
        <p class="note soft">
            "Everything stays on this device; nothing is sent anywhere. Lengths are computed guidance: your eye, your training and your local rules come first."
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
        <p class="soft">"Tautline then walks you through it at the chair, section by section, with no network."</p>
    }
}
