//! The start: what the journal has newer is put back, then the screens come.

use super::deeds;
use super::kept;
use crate::measure::Usage;
use crate::store::recover;
use leptos::mount::mount_to_body;
use leptos::prelude::*;
use std::cell::Cell;
use std::rc::Rc;
use std::time::Duration;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::Response;

/// The longest that the first screen waits for the journal. Judgement: it takes some 20 ms where it
/// works at all.
const LONGEST: Duration = Duration::from_millis(300);

/// Where the words of a language lie, beside the app.
const WORDS: &str = "words/es.po";

/// Starts the app.
pub fn start() {
    if kept::usage_at_start() == Usage::Es {
        spawn_local(async {
            // Without its words the app is there in English.
            if speak_spanish().await.is_some()
                && let Some(page) = document().document_element()
            {
                let _ = page.set_attribute("lang", Usage::Es.language());
            }
            show();
        });
    } else {
        show();
    }
}

/// Fetches the Spanish words and says everything in them from here on.
async fn speak_spanish() -> Option<()> {
    let answer = JsFuture::from(window().fetch_with_str(WORDS)).await.ok()?;
    let answer: Response = answer.dyn_into().ok().filter(Response::ok)?;
    let text = JsFuture::from(answer.text().ok()?).await.ok()?;
    deeds::speak(text.as_string()?).await.ok()?.ok()
}

/// Puts back what is newer in the journal, and shows the first screen.
fn show() {
    let shown = Rc::new(Cell::new(false));
    let show = move || {
        if !shown.replace(true) {
            mount_to_body(super::App);
            // Style hides it too, in browsers that can.
            if let Some(starting) = document().get_element_by_id("starting") {
                starting.remove();
            }
            return true;
        }
        false
    };
    let late = show.clone();
    // Not that of the screens' own library, which stands only once it shows one.
    spawn_local(async move {
        let put_back = async |entry, text| deeds::put_back(entry, text).await.unwrap_or(false);
        let moved = recover(put_back).await;
        if !show() && moved {
            // It came too late for the first screen, which looks again as if another window had
            // saved something.
            kept::look_again();
        }
    });
    set_timeout(
        move || {
            late();
        },
        LONGEST,
    );
}
