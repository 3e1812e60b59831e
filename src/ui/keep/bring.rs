//! A file taken in: what would come of it is said before anything is done.

use super::out::save_everything;
use super::room::counted;
use crate::store::{Counts, FileError, Incoming, Intent, MOST_FILE, Reading, Way, is_sealed, open};
use crate::ui::kept::kept;
use crate::ui::parts::{ChooseFile, soon, wrong};
use crate::ui::words;
use crate::words::tr;
use leptos::prelude::*;
use std::time::Duration;

/// How long it is read on before the page has its turn, ms.
const TURN: f64 = 40.0;

/// How far it is.
#[derive(Clone)]
enum At {
    /// Nothing is chosen.
    Nothing,
    /// It is being read: how far, in a sentence.
    Reads(String),
    /// It is sealed.
    Sealed(String),
    /// It was read.
    Read(Incoming, Intent),
    /// It was refused, or failed.
    Failed(String),
    /// It is done.
    Done(&'static str),
}

/// Taking in a file.
#[component]
pub fn In(changed: RwSignal<u32>) -> impl IntoView {
    let at = RwSignal::new(At::Nothing);
    let chosen = Callback::new(move |text: Result<String, String>| match text {
        Ok(text) if is_sealed(&text) => at.set(At::Sealed(text)),
        Ok(text) => begin(text, at),
        Err(why) => at.set(At::Failed(why)),
    });
    view! {
        <h2>{tr("Take a file in")}</h2>
        <p>{tr("A file that Tautline saved, also one saved after it stopped. What it would change is said first.")}</p>
        <ChooseFile id="keep-file" label=tr("The file") most=MOST_FILE on_text=chosen/>
        <div aria-live="polite">
            {move || match at.get() {
                At::Nothing => ().into_any(),
                At::Reads(said) => view! { <p role="status">{said}</p> }.into_any(),
                At::Failed(why) => wrong(why),
                At::Done(said) => view! { <p class="note" role="status">{said}</p> }.into_any(),
                At::Sealed(text) => view! { <Unseal text at/> }.into_any(),
                At::Read(incoming, intent) => view! { <Decide incoming intent at changed/> }.into_any(),
            }}
        </div>
    }
}

/// Begins to read, once the page has said so.
fn begin(text: String, at: RwSignal<At>) {
    at.set(At::Reads(tr("Reading…").to_owned()));
    soon(at, move || match Reading::begin(&text) {
        Ok(reading) => read_on(reading, at),
        Err(why) => at.set(At::Failed(why.to_string())),
    });
}

/// Reads on, and lets the page have its turn now and then; stops once the screen is left.
fn read_on(mut reading: Reading, at: RwSignal<At>) {
    let began = js_sys::Date::now();
    while reading.step() {
        if js_sys::Date::now() - began > TURN {
            let (read, of) = reading.so_far();
            if at
                .try_set(At::Reads(tr!("Reading: {read} of {of}…", read, of)))
                .is_none()
            {
                set_timeout(move || read_on(reading, at), Duration::ZERO);
            }
            return;
        }
    }
    let incoming = reading.done();
    at.try_set(match incoming.look(&kept_store()) {
        Ok(intent) => At::Read(incoming, intent),
        Err(why) => At::Failed(why.to_string()),
    });
}

fn kept_store() -> crate::store::Store<crate::store::LocalShelf> {
    crate::store::Store::new(crate::store::LocalShelf)
}

/// Asks for the passphrase of a sealed file.
#[component]
fn Unseal(text: String, at: RwSignal<At>) -> impl IntoView {
    let typed = RwSignal::new(String::new());
    let said = RwSignal::new(String::new());
    let text = StoredValue::new(text);
    let unseal = move |_| {
        said.set(tr("Opening…").to_owned());
        let work = move || match text.with_value(|text| open(text, &typed.get_untracked())) {
            Ok(text) => begin(text, at),
            Err(why) => said.set(why.to_string()),
        };
        soon(said, work);
    };
    view! {
        <p>{FileError::Sealed.to_string()}</p>
        <label for="unseal">{tr("Its passphrase")}</label>
        <input type="password" id="unseal" autocomplete="off"
            prop:value=move || typed.get() on:input=move |ev| typed.set(event_target_value(&ev))/>
        <div class="actions">
            <button class="main" on:click=unseal>{tr("Open it")}</button>
            <button on:click=move |_| at.set(At::Nothing)>{tr("Leave it")}</button>
        </div>
        <p class="note" role="status">{move || said.get()}</p>
    }
}

/// What would come of it, and the choice.
#[component]
fn Decide(
    incoming: Incoming,
    intent: Intent,
    at: RwSignal<At>,
    changed: RwSignal<u32>,
) -> impl IntoView {
    let kept = kept();
    let asked = RwSignal::new(false);
    let said = RwSignal::new(String::new());
    let incoming = StoredValue::new(incoming);
    let when = incoming.with_value(|i| words::day(&i.saved_at));
    let when = (!when.is_empty()).then(|| tr!("Saved on {when}.", when));
    let take = move |way: Way| {
        let taken = incoming.try_with_value(|incoming| kept.store().take_in(incoming, way));
        at.set(match taken {
            Some(Ok(())) => {
                kept.taken_in();
                changed.update(|n| *n += 1);
                At::Done(match way {
                    Way::Merge => tr("It is taken in, beside what was here."),
                    Way::Replace => tr("It is taken in. What was here before is gone."),
                })
            }
            Some(Err(why)) => At::Failed(tr!("{why} Nothing was changed.", why)),
            None => At::Nothing,
        });
    };
    let row = |name: &'static str, of: fn(&Counts) -> usize| {
        let (cuts, records) = (of(&intent.cuts), of(&intent.records));
        (cuts + records > 0).then(|| {
            view! {
                <tr>
                    <th scope="row">{name}</th>
                    <td class="number">{cuts}</td>
                    <td class="number">{records}</td>
                </tr>
            }
        })
    };
    let gone = move || {
        let here = kept.store().room().unwrap_or_default();
        tr!(
            "Everything that is here now goes: {}, and the settings.",
            counted(here)
        )
    };
    view! {
        <h3>{tr("What is in it")}</h3>
        <p class="soft">{when}</p>
        <table>
            <caption>{tr("Against what is kept here")}</caption>
            <thead><tr><th scope="col">{tr("In the file")}</th><th scope="col" class="number">{tr("Cuts")}</th><th scope="col" class="number">{tr("Cards")}</th></tr></thead>
            <tbody>
                {row(tr("New"), |c| c.new)}
                {row(tr("The same as here"), |c| c.same)}
                {row(tr("Here saved later: that stays"), |c| c.later_here)}
                {row(tr("In the file saved later: that stays"), |c| c.later_in_file)}
                {row(tr("Damaged: set aside"), |c| c.damaged)}
                {row(tr("Here only"), |c| c.only_here)}
            </tbody>
        </table>
        {move || if asked.get() {
            view! {
                {wrong(gone())}
                <div class="actions">
                    <button class="main" on:click=move |_| said.set(save_everything(kept))>{tr("Save what is here first")}</button>
                    <button on:click=move |_| take(Way::Replace)>{tr("Replace everything now")}</button>
                    <button data-escape="" on:click=move |_| asked.set(false)>{tr("Go back")}</button>
                </div>
            }
            .into_any()
        } else {
            view! {
                <div class="actions">
                    <button class="main" on:click=move |_| take(Way::Merge)>{tr("Add it to what is here")}</button>
                    <button on:click=move |_| asked.set(true)>{tr("Replace everything here")}</button>
                    <button on:click=move |_| at.set(At::Nothing)>{tr("Leave it")}</button>
                </div>
            }
            .into_any()
        }}
        <p class="soft" role="status">{move || said.get()}</p>
    }
}
