//! The list of saved cuts: the first screen.

mod found;
mod open;
mod saved;

use super::frame::titled;
use super::kept::{kept, new_id, now};
use super::parts::Picture;
use super::words;
use crate::book::SavedCut;
use crate::chart::{HeldHair, View, profile};
use crate::cut::{Job, Measured, SectionCut, cut as work_out};
use crate::hair::Hair;
use crate::head::{Head, Side, Tape, Tapes};
use crate::plan::{Choices, built_in};
use found::Found;
use leptos::prelude::*;
use leptos_router::components::A;
use leptos_router::hooks::use_navigate;
use open::{AtTheChair, go_on};
use saved::AsideRow;

/// The plan a new cut starts with, until there are more to choose from.
pub const FIRST_PLAN: &str = "soft-layers-face-frame";

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
        kept.follow_others();
        let seen = kept.settings().seen;
        kept.catalogue(seen).map(|all| (seen, all))
    };
    let navigate = use_navigate();
    go_on();
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
        if kept.keep_new(&cut) {
            navigate(&format!("/cut/{}/head", cut.id), Default::default());
        }
    });
    let actions = move || {
        view! {
            <div class="actions">
                <button class="main" on:click=move |_| make.run(false)>"New cut"</button>
                <button on:click=move |_| make.run(true)>"Try an invented example"</button>
                <A href="/take" attr:class="button">"Take a plan in"</A>
            </div>
        }
    };
    view! {
        <h1>"Your cuts"</h1>
        {move || match listed() {
            Err(why) => {
                view! { <p class="note warn" role="alert">{why.to_string()}</p> {actions()} }.into_any()
            }
            Ok((_, (all, aside))) if all.is_empty() && aside.is_empty() => view! { <Welcome/> {actions()} }.into_any(),
            Ok((seen, (all, aside))) => {
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
        <div class="welcome-picture"><Picture svg=welcome_picture()/></div>
        <p class="soft">"Tautline then walks you through it at the chair, section by section, with no network."</p>
    }
}

/// The sides of the first plan held to their guide, on the mean head of the surveys.
fn welcome_picture() -> String {
    let worked_out = || {
        let head = Head::from_tapes(&Tapes::default()).ok()?;
        let plan = built_in(FIRST_PLAN)?;
        let job = Job {
            head: &head,
            hair: &Hair::default(),
            plan: &plan,
            choices: &Choices::default(),
        };
        let outcome = work_out(&job, &Measured::new()).ok()?;
        let side = |s: &&SectionCut| s.key.step == "face-frame" && s.key.side == Side::Left;
        let hair: Vec<HeldHair> = outcome
            .sections
            .iter()
            .filter(side)
            .map(|section| HeldHair {
                section,
                marked: true,
            })
            .collect();
        Some(profile(
            &head,
            View::Left,
            &hair,
            "Hair of the side held to one guide",
            "A head from the left. Hair from the temple to behind the ear is held taut to one line above the parting.",
        ))
    };
    worked_out().unwrap_or_default()
}
