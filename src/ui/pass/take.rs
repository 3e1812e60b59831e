//! A plan taken in: shown first, kept only then.

use super::arrived::Arrived;
use crate::book::{LINK_MARK, MOST_PASSED, PassError, Passed};
use crate::ui::frame::titled;
use crate::ui::kept::kept;
use crate::ui::parts::{ChooseFile, wrong};
use crate::words::tr;
use leptos::prelude::*;

/// The most bytes of a file that holds a plan.
const MOST_FILE: u32 = 1_000_000;

/// Taking in a plan that was passed on.
#[component]
pub fn TakeScreen() -> impl IntoView {
    titled(tr("Open a plan from a file or link"));
    kept().opened_none();
    let arrived = RwSignal::new(in_address());
    // Another link opened while this screen stands.
    let listening = window_event_listener_untyped("hashchange", move |_| {
        if let Some(read) = in_address() {
            arrived.set(Some(read));
        }
    });
    on_cleanup(move || listening.remove());
    let faulty = move || arrived.with(|a| matches!(a, Some(Err(_))));
    view! {
        <h1>{tr("Open a plan from a file or link")}</h1>
        {move || match arrived.get() {
            Some(Ok(passed)) => view! { <Arrived passed/> }.into_any(),
            Some(Err(why)) => view! { {wrong(why)} <Ask arrived/> }.into_any(),
            None => view! { <Ask arrived/> }.into_any(),
        }}
        {move || faulty().then(|| view! { <p class="soft">{tr("Your own cuts are as they were.")}</p> })}
    }
}

/// What became of something that was to be taken in.
pub type Read = Result<Passed, String>;

/// The plan that stands in the address.
fn in_address() -> Option<Read> {
    let hash = window().location().hash().ok()?;
    hash.starts_with(LINK_MARK).then(|| read(&hash))
}

fn read(text: &str) -> Read {
    Passed::read(text).map_err(|why: PassError| why.to_string())
}

/// Asks for a link or a file.
#[component]
fn Ask(arrived: RwSignal<Option<Read>>) -> impl IntoView {
    let typed = RwSignal::new(String::new());
    let took = move |text: String| {
        if !text.trim().is_empty() {
            arrived.set(Some(read(&text)));
        }
    };
    let from_file = Callback::new(move |text: Result<String, String>| {
        arrived.set(Some(text.and_then(|text| read(&text))));
    });
    view! {
        <p>{tr("Hold this device's camera on the code on the other screen, or paste a link, or choose a file. What arrives is shown before anything is kept.")}</p>
        <label for="take-link">{tr("A link, pasted")}</label>
        <textarea id="take-link" rows="3" autocomplete="off" spellcheck="false" maxlength=MOST_PASSED
            prop:value=move || typed.get() on:input=move |ev| typed.set(event_target_value(&ev))></textarea>
        <div class="actions">
            <button class="main" on:click=move |_| took(typed.get_untracked())>{tr("Look at it")}</button>
        </div>
        <ChooseFile id="take-file" label=tr("Or a file") most=MOST_FILE on_text=from_file/>
    }
}
