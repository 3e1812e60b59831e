//! Everything as a file: plain, sealed, and the visits as a table.

use crate::book::{SavedCut, VisitTable};
use crate::store::{CHANCE, Listed, SealError, seal};
use crate::ui::device::{Left, chance, pass_text_on, save_text};
use crate::ui::kept::{Kept, kept, now, today};
use crate::ui::parts::soon;
use crate::words::tr;
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::time::Duration;

const JSON: &str = "application/json";
const CSV: &str = "text/csv;charset=utf-8";

/// The text of everything; a sentence where it can't be read.
fn everything(kept: Kept) -> Result<String, String> {
    kept.store().to_file(&now()).map_err(|e| e.to_string())
}

/// Saves everything as a file; what became of it, in a sentence.
pub fn save_everything(kept: Kept) -> String {
    match everything(kept) {
        Ok(text) => save_text(&text, &named("", "json"), JSON)
            .sentence()
            .to_owned(),
        Err(why) => why,
    }
}

/// Saves one client or practice head and their visits as a file; what became of it, in a sentence.
pub fn save_card(kept: Kept, id: &str) -> String {
    match kept.store().card_to_file(id, &now()) {
        // No name in the name of the file: it may lie about for long.
        Ok(text) => save_text(&text, &named("card-", "json"), JSON)
            .sentence()
            .to_owned(),
        Err(why) => why.to_string(),
    }
}

fn named(what: &str, ending: &str) -> String {
    ["tautline-", what, &today(), ".", ending].concat()
}

/// Everything as one file.
#[component]
pub fn Out() -> impl IntoView {
    let kept = kept();
    let said = RwSignal::new(String::new());
    let save = move |_| said.set(save_everything(kept));
    let share = move |_| match everything(kept) {
        Ok(text) => spawn_local(async move {
            let left = pass_text_on(&text, &named("", "json"), JSON).await;
            // The screen may be left by then.
            said.try_set(left.sentence().to_owned());
        }),
        Err(why) => said.set(why),
    };
    view! {
        <h2>{tr("Everything as one file")}</h2>
        <p>{tr("Cuts, clients, practice heads and settings, as plain text that any program can read. Keep it where only you can open it: it has your clients' names and notes.")}</p>
        <div class="actions">
            <button class="main" on:click=save>{tr("Save everything as a file")}</button>
            <button on:click=share>{tr("Share the file")}</button>
        </div>
        <p class="soft" role="status">{move || said.get()}</p>
        <Sealing/>
        <Table/>
    }
}

/// The same, sealed.
#[component]
fn Sealing() -> impl IntoView {
    let kept = kept();
    let said = RwSignal::new(String::new());
    let (first, second) = (RwSignal::new(String::new()), RwSignal::new(String::new()));
    let save = move |_| {
        if first.get_untracked() != second.get_untracked() {
            return said.set(tr("The two passphrases differ. Type both again.").to_owned());
        }
        said.set(tr("Sealing…").to_owned());
        soon(said, move || said.set(sealed(kept, &first.get_untracked())));
    };
    let field = move |id: &'static str, label: &'static str, typed: RwSignal<String>| {
        view! {
            <label for=id>{label}</label>
            <input type="password" id=id autocomplete="new-password"
                prop:value=move || typed.get() on:input=move |ev| typed.set(event_target_value(&ev))/>
        }
    };
    view! {
        <details class="group keep-part">
            <summary>{tr("Sealed with a passphrase")}</summary>
            <p>{tr("For a copy that lies where others may find it. Without the passphrase nobody can open it, and nobody can get a lost passphrase back: not you, not us.")}</p>
            {field("seal-first", tr("A passphrase of 12 signs or more"), first)}
            {field("seal-second", tr("The same once more"), second)}
            <div class="actions"><button on:click=save>{tr("Save it sealed")}</button></div>
            <p class="soft" role="status">{move || said.get()}</p>
        </details>
    }
}

fn sealed(kept: Kept, passphrase: &str) -> String {
    let text = match everything(kept) {
        Ok(text) => text,
        Err(why) => return why,
    };
    let Some(chance) = chance::<CHANCE>() else {
        return tr("This browser has no source of chance for keys, so nothing was sealed.")
            .to_owned();
    };
    match seal(&text, passphrase, &chance) {
        Ok(sealed) => save_text(&sealed, &named("sealed-", "json"), JSON)
            .sentence()
            .to_owned(),
        Err(why @ SealError::Short) => why.to_string(),
        Err(_) => tr("This device could not seal it.").to_owned(),
    }
}

/// The visits as a table for other programs.
#[component]
fn Table() -> impl IntoView {
    let kept = kept();
    let said = RwSignal::new(String::new());
    let save = move |_| match kept.store().list() {
        Err(why) => said.set(why.to_string()),
        Ok(all) => {
            let cut = |listed| match listed {
                Listed::Cut(cut) => Some(*cut),
                Listed::Aside { .. } => None,
            };
            let cuts: Vec<SavedCut> = all.into_iter().filter_map(cut).collect();
            write_next(kept, cuts.into_iter(), VisitTable::default(), said);
        }
    };
    view! {
        <details class="group keep-part">
            <summary>{tr("Visits as a table")}</summary>
            <p>{tr("For a spreadsheet: day, whose, plan, minutes, how far off, the day of return, tags and notes. Private notes stay here.")}</p>
            <div class="actions"><button on:click=save>{tr("Save the table (CSV)")}</button></div>
            <p class="soft" role="status">{move || said.get()}</p>
        </details>
    }
}

/// Writes one visit after the other, so that the page goes on meanwhile; stops once the screen is left.
fn write_next(
    kept: Kept,
    mut cuts: std::vec::IntoIter<SavedCut>,
    mut table: VisitTable,
    said: RwSignal<String>,
) {
    let Some(cut) = cuts.next() else {
        let left: Left = save_text(&table.text(), &named("visits-", "csv"), CSV);
        said.try_set(left.sentence().to_owned());
        return;
    };
    let whose = kept
        .record_of(&cut)
        .map_or(String::new(), |record| record.name);
    table.add(&cut, &whose);
    if said
        .try_set(tr!("{} visits still to write…", cuts.len()))
        .is_none()
    {
        set_timeout(move || write_next(kept, cuts, table, said), Duration::ZERO);
    }
}
