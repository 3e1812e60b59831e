//! A plan passed on.

use crate::book::{LINK_MARK, Passed, SavedCut};
use crate::chart::{MOST_IN_COARSE_CODE, code_picture};
use crate::ui::device::{Left, can_pass_links_on, copy, pass_link_on, pass_text_on, save_text};
use crate::ui::frame::{Stage, Stages, folder, titled, with_cut};
use crate::ui::kept::kept;
use crate::ui::parts::Switch;
use crate::words::tr;
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos_router::components::A;

const FILE: &str = "tautline-plan.json";
const JSON: &str = "application/json";

/// Passing the plan of one cut on.
#[component]
pub fn PassScreen() -> impl IntoView {
    titled(tr("Pass the plan on"));
    with_cut(|cut| {
        let id = cut.with_untracked(|cut| cut.id.clone());
        let back = format!("/cut/{id}/plan");
        let there = cut.with_untracked(|cut| cut.plan().is_some());
        view! {
            <Stages id here=Stage::Plan/>
            <h1>{tr("Pass the plan on")}</h1>
            {if there {
                view! { <Ways cut/> }.into_any()
            } else {
                view! { <p class="note warn">{tr("This version of Tautline does not have the plan of this cut, so it can't be passed on.")}</p> }.into_any()
            }}
            <div class="actions"><A href=back attr:class="button">{tr("Back to the plan")}</A></div>
        }
    })
}

/// Where a link to a plan leads.
fn link_of(passed: &Passed) -> String {
    let origin = window().location().origin().unwrap_or_default();
    [
        &origin,
        folder(),
        "/take",
        LINK_MARK,
        &passed.to_link_part(),
    ]
    .concat()
}

#[component]
fn Ways(cut: RwSignal<SavedCut>) -> impl IntoView {
    let kept = kept();
    let with_head = RwSignal::new(true);
    let plan_name = cut.with_untracked(|cut| kept.plan(cut).map_or(String::new(), |p| p.name));
    let name = RwSignal::new(plan_name);
    let passed = Memo::new(move |_| {
        name.with(|name| cut.with(|cut| Passed::of(cut, name, with_head.get())))
    });
    let link = Memo::new(move |_| passed.with(|p| p.as_ref().map(link_of)).unwrap_or_default());
    let text = move || {
        passed
            .with_untracked(|p| p.as_ref().map(Passed::to_file))
            .unwrap_or_default()
    };
    let left = RwSignal::new(None::<Left>);
    let said = move || left.get().map(Left::sentence);
    let doing = move |work: std::pin::Pin<Box<dyn Future<Output = Left>>>| {
        left.set(None);
        spawn_local(async move {
            let became = work.await;
            // The screen may be left by then.
            left.try_set(Some(became));
        });
    };
    let copied = move |_| {
        let link = link.get_untracked();
        doing(Box::pin(async move { copy(&link).await }));
    };
    let shared = move |_| {
        let (name, link) = (name.get_untracked(), link.get_untracked());
        doing(Box::pin(async move { pass_link_on(&name, &link).await }));
    };
    let filed = move |_| left.set(Some(save_text(&text(), FILE, JSON)));
    let file_shared = move |_| {
        let text = text();
        doing(Box::pin(
            async move { pass_text_on(&text, FILE, JSON).await },
        ));
    };
    let share = can_pass_links_on()
        .then(|| view! { <button on:click=shared>{tr("Share the link")}</button> });
    view! {
        <p>{tr("Somebody else gets this plan with what is chosen in it, on their own device. Nothing of the visit goes along: no client's name, no note, nothing that was cut.")}</p>
        <label for="pass-name">{tr("It is called")}</label>
        <input type="text" id="pass-name" maxlength="120" autocomplete="off"
            prop:value=move || name.get() on:change=move |ev| name.set(event_target_value(&ev))/>
        <div class="pass-head">
            <Switch label=tr("With the head and hair it was planned on") on=with_head set=Callback::new(move |on| with_head.set(on))/>
            <p class="soft" aria-live="polite">{move || if with_head.get() {
                tr("Its tapes and shape, how the hair grows and hangs, and where it should end: then the lengths come out the same there.")
            } else {
                tr("The plan and its choices only: the lengths are worked out there, on another head.")
            }}</p>
        </div>
        <h2>{tr("A code on this screen")}</h2>
        {move || link.with(|link| code(link))}
        <h2>{tr("A link")}</h2>
        <p class="soft">{tr("The plan stands in the link itself. Opening it sends the plan to no server.")}</p>
        <label for="pass-link">{tr("The link")}</label>
        <input type="text" id="pass-link" class="pass-link" readonly prop:value=move || link.get()/>
        <div class="actions">
            <button class="main" on:click=copied>{tr("Copy the link")}</button>
            {share}
        </div>
        <h2>{tr("A file")}</h2>
        <p class="soft">{tr("It carries the whole plan, so any version of Tautline can take it in.")}</p>
        <div class="actions">
            <button on:click=filed>{tr("Save as a file")}</button>
            <button on:click=file_shared>{tr("Share the file")}</button>
        </div>
        <p class="note" role="status">{said}</p>
    }
}

/// The code for a link, and how it is read.
fn code(link: &str) -> AnyView {
    match code_picture(link, tr("A code that opens this plan on another device")) {
        Some(svg) => view! {
            <div class="pass-code" inner_html=svg></div>
            {(link.len() > MOST_IN_COARSE_CODE).then(|| view! {
                <p class="note">{tr("This code is fine: turn the screen bright and bring the camera close. Without the head it is coarser.")}</p>
            })}
            <p class="soft">{tr("Open the camera of the other device and hold it on the code. Tautline shows there what arrives before anything is kept. No network is needed where Tautline was opened once.")}</p>
        }
        .into_any(),
        None => view! {
            <p class="note">{tr("This is more than a code can hold. Pass the link or the file on, or leave the head and hair out.")}</p>
        }
        .into_any(),
    }
}
