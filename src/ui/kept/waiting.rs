//! What could not be kept: it waits in memory, is tried again, and the page is not left without a question.

use super::Kept;
use crate::book::SavedCut;
use crate::store::{LocalShelf, ShelfError};
use crate::ui::device::ask_to_last;
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::time::Duration;

/// How often it is tried again by itself. Judgement.
const AGAIN: Duration = Duration::from_secs(5);

impl Kept {
    /// Says at the start whether anything can be kept at all, and tries again from time to time.
    pub(super) fn watch_over(self) {
        if LocalShelf.is_there() {
            // The journal may have brought back what found no room.
            self.note(Ok(()));
        } else {
            self.note(Err(ShelfError::Off.to_string()));
        }
        set_interval(
            move || {
                // Also where it was kept meanwhile with something else.
                if self.store.waiting() > 0 || self.waits.get_untracked() > 0 {
                    self.try_again();
                }
            },
            AGAIN,
        );
        window_event_listener(leptos::ev::beforeunload, move |ev| {
            if self.store.waiting() > 0 {
                // The browser asks in its own words.
                ev.prevent_default();
            }
        });
    }

    /// Tries to keep what waits.
    pub fn try_again(self) {
        self.store.try_again();
        // What still waits is said again.
        self.note(Ok(()));
    }

    /// How many documents wait to be kept.
    pub fn waiting(self) -> usize {
        self.waits.get()
    }

    /// What is said while something waits.
    pub(super) fn still_waits(self) -> Option<String> {
        if self.store.waiting() == 0 {
            return None;
        }
        let there = LocalShelf.is_there();
        let why = if there {
            ShelfError::Full
        } else {
            ShelfError::Off
        };
        Some(why.to_string())
    }

    /// Keeps a new cut; whether its screen can be opened. Where it can't be kept the page says why, and goes
    /// on with it as long as it is open.
    pub fn keep_new(self, cut: &SavedCut) -> bool {
        let saved = self.store.save(cut);
        self.note(saved.map(|_| ()).map_err(|e| e.to_string()));
        self.store.load(&cut.id).is_ok()
    }

    /// Asks the browser once, after the first thing worth keeping was kept, to clear nothing by itself.
    pub(super) fn ask_to_last_once(self) {
        if self.store.asks_to_last() {
            spawn_local(async {
                // The answer stands where everything goes out and back.
                let _ = ask_to_last().await;
            });
        }
    }
}
