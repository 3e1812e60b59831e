//! The start: what the journal has newer is put back, then the screens come.

use super::deeds;
use crate::store::recover;
use leptos::mount::mount_to_body;
use leptos::prelude::*;
use std::cell::Cell;
use std::rc::Rc;
use std::time::Duration;
use wasm_bindgen_futures::spawn_local;

/// The longest that the first screen waits for the journal. Judgement: it takes some 20 ms where it
/// works at all.
const LONGEST: Duration = Duration::from_millis(300);

/// Starts the app.
pub fn start() {
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
            super::kept::look_again();
        }
    });
    set_timeout(
        move || {
            late();
        },
        LONGEST,
    );
}
