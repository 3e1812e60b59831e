//! Clients and practice heads, as the screens change them.

use super::{Kept, now};
use crate::book::{Record, SavedCut};
use crate::store::{ListedRecord, StoreError};
use leptos::prelude::*;

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
        let mut kept = self.store().record(&ours.id).unwrap_or(ours);
        change(&mut kept);
        kept.saved_at = now();
        self.save_record(&mut kept);
        record.set(kept);
    }

    /// Keeps a card; says why where it can't be kept.
    pub fn save_record(self, record: &mut Record) -> bool {
        let saved = self.store().save_record(record);
        if let Ok(revision) = saved {
            record.revision = revision;
        }
        let there = saved.is_ok();
        self.note(saved.map(|_| ()).map_err(|e| e.to_string()));
        there
    }

    /// Takes head and hair of a visit into its card, where they are of the latest one.
    pub(super) fn take_into_card(self, cut: &SavedCut) {
        let Some(mut record) = self.record_of(cut) else {
            return;
        };
        if record.take_from(cut) {
            record.saved_at = now();
            self.save_record(&mut record);
        }
    }
}
