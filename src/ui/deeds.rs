//! What the first screen does that needs more code than it: in a part of its own.
//!
//! Each is asked for like a screen of `screens`, and answers when its part is here.

use super::kept::Kept;
use super::words;
use crate::book::SavedCut;
use crate::head::Tape;
use crate::store::{Anew, line_anew, put_back as put_entry_back};
use crate::walk::order;
use crate::words::{Unreadable, speak as say_in, tr};
use leptos::prelude::*;
use leptos::wasm_split::{SplitLoaderError, wasm_split};
use std::time::Duration;
use wasm_bindgen_futures::spawn_local;

/// So long after the start the first screen stands, and nobody waits. Judgement.
const SOON: Duration = Duration::from_millis(800);

/// The plan a new cut starts with, until another is chosen.
pub const FIRST_PLAN: &str = "soft-layers-face-frame";

/// An invented head, for trying the app out.
const EXAMPLE: [(Tape, &str); 4] = [
    (Tape::Circumference, "54 cm"),
    (Tape::EarToEar, "33 cm"),
    (Tape::Length, "18.5 cm"),
    (Tape::Breadth, "14.5 cm"),
];

/// Makes and keeps a new cut, with the invented head if it is for trying out; gives its id, or none if it
/// could not be kept, which the page says.
#[wasm_split(deeds, wasm_split_path = ::leptos::wasm_split, fallible)]
pub fn make_cut(
    kept: Kept,
    id: String,
    at: String,
    example: bool,
) -> Result<Option<String>, SplitLoaderError> {
    let title = if example {
        tr("Invented example").to_owned()
    } else {
        tr!("Cut of {}", words::day(&at))
    };
    let mut cut = SavedCut::new(&id, &title, FIRST_PLAN, &at);
    if example {
        cut.tapes = EXAMPLE.map(|(tape, cm)| (tape, cm.to_owned())).into();
    } else {
        cut.unchosen = true;
    }
    Ok(kept.keep_new(&cut).then_some(id))
}

/// The section that is on the screen of a walk, in words; none if the plan can't be worked out.
#[wasm_split(deeds, wasm_split_path = ::leptos::wasm_split, fallible)]
pub fn place(kept: Kept, id: String) -> Result<Option<String>, SplitLoaderError> {
    let worked_out = || {
        let cut = kept.store().load(&id).ok()?;
        let outcome = cut.ready().ok()?.outcome(&cut.walk.as_ref()?.measured());
        let keys = order(&outcome.ok()?);
        Some(match cut.walk.as_ref()?.current(&keys) {
            Some(place) => tr!("Section {} of {}", place + 1, keys.len()),
            None => tr("All sections are done").to_owned(),
        })
    };
    Ok(worked_out())
}

/// Says everything in the language of a catalogue from here on.
#[wasm_split(words, wasm_split_path = ::leptos::wasm_split, fallible)]
pub fn speak(catalogue: String) -> Result<Result<(), Unreadable>, SplitLoaderError> {
    Ok(say_in(&catalogue))
}

/// What makes the line of a cut where it is missing.
#[wasm_split(deeds, wasm_split_path = ::leptos::wasm_split, fallible)]
pub fn making_lines() -> Result<Anew, SplitLoaderError> {
    Ok(line_anew)
}

/// Reads what lists need once the first screen stands.
pub fn ahead(kept: Kept) {
    set_timeout(
        move || {
            if kept.store().any_cut().unwrap_or(false) {
                // Without its code the list reads it.
                spawn_local(async move { _ = read_list(kept).await });
            }
        },
        SOON,
    );
}

/// Reads what lists need, so that coming to one takes no time.
#[wasm_split(list, wasm_split_path = ::leptos::wasm_split, fallible)]
pub fn read_list(kept: Kept) -> Result<(), SplitLoaderError> {
    kept.read_list();
    Ok(())
}

/// Puts an entry of the journal back; says whether it was newer than what is kept.
#[wasm_split(deeds, wasm_split_path = ::leptos::wasm_split, fallible)]
pub fn put_back(entry: String, text: String) -> Result<bool, SplitLoaderError> {
    // What can't be put back now is tried again at the next start.
    Ok(put_entry_back(&entry, &text).unwrap_or(false))
}
