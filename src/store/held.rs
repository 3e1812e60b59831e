//! What could not be written: it waits in memory, and in the journal, until there is room.
//!
//! A save that fails leaves the version kept before in force, and says so. What was to be saved is held
//! here meanwhile, so that every screen and the file of everything go on with it as if it were kept; with
//! the next thing that is kept or deleted it is tried again.

use super::index::{SETTINGS, Store, StoreError};
use super::journal::{SETTINGS_ID, entry_key};
use super::shelf::Shelf;
use super::shelved::{Index, Place};
use std::cell::RefCell;
use std::collections::BTreeMap;

/// A text that waits.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Waits {
    /// The revision that was in force when it could not be kept; 0 if there was none.
    over: u64,
    text: String,
}

/// All that waits, by the ids of the journal.
#[derive(Debug, Default)]
pub struct Held {
    all: RefCell<BTreeMap<String, Waits>>,
    /// Moved on with every change.
    turn: std::cell::Cell<u64>,
}

impl Held {
    fn put(&self, of: &str, waits: Waits) {
        self.turn.set(self.turn.get().wrapping_add(1));
        self.all.borrow_mut().insert(of.to_owned(), waits);
    }

    fn drop(&self, of: &str) {
        if self.all.borrow_mut().remove(of).is_some() {
            self.turn.set(self.turn.get().wrapping_add(1));
        }
    }

    fn get(&self, of: &str) -> Option<Waits> {
        self.all.borrow().get(of).cloned()
    }
}

impl<S: Shelf> Store<S> {
    /// How many documents wait to be kept, settings included.
    pub fn waiting(&self) -> usize {
        self.shelf.held().all.borrow().len()
    }

    /// A number that moves on whenever something waits, or no longer does.
    pub(super) fn held_turn(&self) -> u64 {
        self.shelf.held().turn.get()
    }

    /// Holds a text that could not be kept.
    pub(super) fn hold(&self, place: Place, id: &str, known: u64, text: &str) {
        // Where not even that can be read, it is as the document knows it.
        let over = self.revision_in_force(place, id).unwrap_or(Some(known));
        self.hold_over(&place.journal_id(id), over.unwrap_or(0), known, text);
    }

    /// The same where it is known what is in force. The journal has room where the shelf has none.
    pub(super) fn hold_over(&self, of: &str, over: u64, known: u64, text: &str) {
        let key = entry_key(of, over.max(known).wrapping_add(1));
        self.shelf.journal(of, &key, text);
        self.held_back(of, over, text);
    }

    /// Holds what the journal has already.
    pub(super) fn held_back(&self, of: &str, over: u64, text: &str) {
        let text = text.to_owned();
        self.shelf.held().put(of, Waits { over, text });
    }

    /// Holds nothing of an id any more.
    pub(super) fn let_go(&self, of: &str) {
        self.shelf.held().drop(of);
    }

    /// Holds nothing any more.
    pub(super) fn let_all_go(&self) {
        let all: Vec<String> = self.shelf.held().all.borrow().keys().cloned().collect();
        all.iter().for_each(|of| self.let_go(of));
    }

    /// The text that waits of an id, and the revision it is to go over.
    pub(super) fn held_of(&self, of: &str) -> Option<(String, u64)> {
        let waits = self.shelf.held().get(of)?;
        Some((waits.text, waits.over))
    }

    /// Lays what waits over an index, for reading only.
    pub(super) fn lay_held(&self, place: Place, index: &mut Index) {
        for (of, waits) in self.shelf.held().all.borrow().iter() {
            let (its, id) = Place::of_journal(of);
            if its == place && of != SETTINGS_ID {
                index.cuts.insert(id.to_owned(), waits.over);
            }
        }
    }

    /// Tries once more to keep what waits; how many still do then.
    pub fn try_again(&self) -> usize {
        let all: Vec<(String, Waits)> = {
            let held = self.shelf.held().all.borrow();
            held.iter().map(|(of, w)| (of.clone(), w.clone())).collect()
        };
        for (of, waits) in all {
            if self.keep_held(&of, &waits).is_ok() {
                self.let_go(&of);
            }
        }
        self.waiting()
    }

    fn keep_held(&self, of: &str, waits: &Waits) -> Result<(), StoreError> {
        if of == SETTINGS_ID {
            return Ok(self.shelf.put(SETTINGS, &waits.text)?);
        }
        let (place, id) = Place::of_journal(of);
        let here = self.revision_in_force(place, id)?;
        let Some(other) = here.filter(|here| *here != waits.over) else {
            let revision = self.try_keep(place, id, waits.over, &waits.text)?;
            self.shelf
                .journal(of, &entry_key(of, revision), &waits.text);
            return Ok(());
        };
        // Another window kept something else meanwhile: both stay.
        let taken = self.index_on_shelf(place)?.cuts;
        let mut names = (1_u32..).map(|n| format!("{id}~{n}"));
        let Some(name) = names.find(|name| !taken.contains_key(name)) else {
            return Err(StoreError::NotFound);
        };
        let revision = self.try_keep(place, &name, 0, &waits.text)?;
        let name = place.journal_id(&name);
        self.shelf
            .journal(&name, &entry_key(&name, revision), &waits.text);
        if let Some(theirs) = self.shelf.get(&place.key(id, other))? {
            self.shelf.journal(of, &entry_key(of, other), &theirs);
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Listed, MemoryShelf, Reading, Settings, Way};
    use super::*;
    use crate::book::{Record, SavedCut};
    use crate::head::Kind;
    use crate::measure::Unit;

    fn cut(id: &str, title: &str) -> SavedCut {
        SavedCut::new(id, title, "trim", "2026-01-01T00:00:00.000Z")
    }

    #[test]
    fn what_finds_no_room_is_read_as_if_it_were_kept_and_kept_once_there_is_room() {
        let shelf = MemoryShelf::default();
        let store = Store::new(&shelf);
        let mut old = cut("a", "old");
        old.revision = store.save(&old).unwrap();
        let before = shelf.texts();
        shelf.fail_after(0);
        for title in ["newer", "newest"] {
            old.title = title.to_owned();
            assert!(store.save(&old).is_err());
        }
        assert!(store.save(&cut("b", "new")).is_err());
        let card = Record::new("r", Kind::Person, "Invented", "t");
        assert!(store.save_record(&card).is_err());
        let inches = Settings {
            unit: Unit::Inches,
            ..Settings::default()
        };
        assert!(store.set_settings(inches).is_err());
        assert_eq!(shelf.texts(), before, "the shelf is as it was");
        assert_eq!(store.waiting(), 4);

        assert_eq!(store.load("a").unwrap().title, "newest");
        assert_eq!(store.load("a").unwrap().revision, old.revision);
        assert_eq!(store.newer(&old), Ok(None));
        assert_eq!(store.load("b").unwrap().title, "new");
        assert_eq!(store.record("r").unwrap().name, "Invented");
        assert_eq!(store.settings().unit, Unit::Inches);
        assert_eq!(store.list().unwrap().len(), 2);
        let lines = store.lines(&[]).unwrap();
        assert_eq!(lines.cuts[0].title, "newest");
        assert_eq!(store.names(&[]).unwrap()[0].name, "Invented");
        let file = store.to_file("t").unwrap();
        assert!(file.contains("newest") && file.contains("Invented"));

        assert_eq!(store.try_again(), 4, "no room yet");
        shelf.mend();
        assert_eq!(store.try_again(), 0);
        let fresh = MemoryShelf::default();
        fresh.set_texts(shelf.texts());
        let fresh = Store::new(&fresh);
        assert_eq!(fresh.load("a").unwrap().title, "newest");
        assert_eq!(fresh.load("b").unwrap().title, "new");
        assert_eq!(fresh.record("r").unwrap().name, "Invented");
        assert_eq!(fresh.settings().unit, Unit::Inches);
        // A list that was read before does not go on with what it then saw.
        assert_eq!(fresh.lines(&lines.cuts).unwrap().cuts[0].title, "newest");
        assert_eq!(fresh.list().unwrap().len(), 2);
    }

    #[test]
    fn the_journal_brings_it_back_where_the_page_is_closed_without_room() {
        let shelf = MemoryShelf::default();
        let store = Store::new(&shelf);
        let mut saved = cut("a", "old");
        saved.revision = store.save(&saved).unwrap();
        shelf.fail_after(0);
        saved.title = "new".to_owned();
        assert!(store.save(&saved).is_err());
        let journal = shelf.journaled();
        // Opened again, with room and without.
        for room in [true, false] {
            let again = MemoryShelf::default();
            again.set_texts(shelf.texts());
            if !room {
                again.fail_after(0);
            }
            let store = Store::new(&again);
            for (key, text) in &journal {
                assert!(store.put_back(key, text).unwrap());
            }
            assert_eq!(store.load("a").unwrap().title, "new");
            assert_eq!(store.waiting(), usize::from(!room));
            again.mend();
            assert_eq!(store.try_again(), 0);
            assert_eq!(store.load("a").unwrap().title, "new");
        }
    }

    #[test]
    fn what_another_window_kept_meanwhile_stays_beside_it() {
        let shelf = MemoryShelf::default();
        let store = Store::new(&shelf);
        let mut ours = cut("a", "old");
        ours.revision = store.save(&ours).unwrap();
        shelf.fail_after(0);
        ours.title = "ours".to_owned();
        assert!(store.save(&ours).is_err());
        shelf.mend();
        let other = MemoryShelf::default();
        other.set_texts(shelf.texts());
        Store::new(&other)
            .save(&SavedCut {
                title: "theirs".to_owned(),
                ..ours.clone()
            })
            .unwrap();
        shelf.set_texts(other.texts());
        assert_eq!(store.try_again(), 0);
        assert_eq!(store.load("a").unwrap().title, "theirs");
        assert_eq!(store.load("a~1").unwrap().title, "ours");
        let named = |listed: &Listed| matches!(listed, Listed::Cut(_));
        assert_eq!(store.list().unwrap().iter().filter(|l| named(l)).count(), 2);
        let journal: Vec<String> = shelf.journaled().into_keys().collect();
        let due = store.due(&journal).unwrap();
        assert!(due.put_back.is_empty() && due.delete.is_empty(), "{due:?}");
    }

    #[test]
    fn what_waits_is_deleted_and_goes_out_and_back_like_anything_else() {
        let shelf = MemoryShelf::default();
        let store = Store::new(&shelf);
        shelf.fail_after(0);
        assert!(store.save(&cut("a", "one")).is_err());
        assert!(store.save(&cut("b", "two")).is_err());
        store.delete("a").unwrap();
        assert_eq!(store.waiting(), 1);
        let file = store.to_file("t").unwrap();
        shelf.mend();
        let incoming = Reading::begin(&file).unwrap().done();
        store.take_in(&incoming, Way::Merge).unwrap();
        store.try_again();
        assert_eq!(store.list().unwrap().len(), 1);
        let there = Store::new(MemoryShelf::default());
        there.take_in(&incoming, Way::Replace).unwrap();
        assert_eq!(there.load("b").unwrap().title, "two");
    }
}
