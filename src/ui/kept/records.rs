//! Clients and practice heads, as the screens change them.

use super::{Kept, now};
use crate::book::{Record, SavedCut, saved_after};
use crate::store::{ListedRecord, StoreError, Wrote};
use crate::words::{noted, tr};
use leptos::prelude::*;

/// What is said where a card is gone that is on the screen.
const GONE: &str =
    noted("This card was deleted in another window. What you see is kept on this screen only.");

impl Kept {
    /// All clients and practice heads.
    ///
    /// # Errors
    /// As [`crate::store::Store::records`].
    pub fn records(self) -> Result<Vec<ListedRecord>, StoreError> {
        self.store().records()
    }

    /// Whose a cut is; none if it is nobody's or that card can't be read.
    pub fn record_of(self, cut: &SavedCut) -> Option<Record> {
        if cut.visit.of.is_empty() {
            return None;
        }
        self.store().record(&cut.visit.of).ok()
    }

    /// The name of whom a cut is of; none before the client, and where it is nobody's.
    pub fn name_of(self, cut: &SavedCut) -> Option<String> {
        let record = self.record_of(cut).filter(|_| !self.settings_now().seen)?;
        (!record.name.trim().is_empty()).then_some(record.name)
    }

    /// All visits of one client or practice head, the latest day first.
    pub fn visits_of(self, id: &str) -> Vec<SavedCut> {
        let lines = self.lines().unwrap_or_default();
        self.store().visits_among(&lines, id)
    }

    /// Changes a card and keeps it at once, as [`Kept::change`] does a cut: the change is made to the card as
    /// it is kept now, which another window may have changed.
    pub fn change_record(self, record: RwSignal<Record>, change: impl FnOnce(&mut Record)) {
        let ours = record.get_untracked();
        let kept = match self.store().record(&ours.id) {
            // What ails the shelf the save will say.
            Err(StoreError::Shelf(_)) => Ok(ours),
            // Never over one that was deleted, or that a newer version of the app kept.
            Err(why) => Err((why, ours)),
            Ok(kept) => Ok(kept),
        };
        match kept {
            Ok(mut kept) => {
                let before = kept.to_json();
                change(&mut kept);
                kept.saved_at = saved_after(&kept.saved_at, now());
                self.save_record(&mut kept);
                let text = kept.to_json();
                self.wrote(Wrote::record(&kept.id, kept.revision, before, text));
                self.shows_what_is_kept();
                record.set(kept);
            }
            Err((why, mut ours)) => {
                change(&mut ours);
                record.set(ours);
                self.note(Err(match why {
                    StoreError::NotFound => tr(GONE).to_owned(),
                    why => why.to_string(),
                }));
            }
        }
    }

    /// Keeps a card; says why where it can't be kept. Whether its screen can be opened.
    pub fn save_record(self, record: &mut Record) -> bool {
        let saved = self.store().save_record(record);
        if let Ok(revision) = saved {
            record.revision = revision;
        }
        let there = saved.is_ok();
        if there {
            self.ask_to_last_once();
        }
        self.note(saved.map(|_| ()).map_err(|e| e.to_string()));
        there || self.store().record(&record.id).is_ok()
    }

    /// Takes head and hair of a visit into its card, where they are of the latest one.
    pub(super) fn take_into_card(self, cut: &SavedCut) {
        let Some(mut record) = self.record_of(cut) else {
            return;
        };
        if record.take_from(cut) {
            record.saved_at = saved_after(&record.saved_at, now());
            self.save_record(&mut record);
        }
    }
}
