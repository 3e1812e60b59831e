//! Putting back at the start what the journal has newer.

use super::index::{SETTINGS, Store, StoreError};
use super::journal::{Due, Entry, SETTINGS_ID, read_key};
use super::shelf::Shelf;
use super::shelved::{CUTS, Place, RECORDS};
use crate::book::{DocumentError, Record, SavedCut};
use crate::json;

impl<S: Shelf> Store<S> {
    /// What a start has to do, from the keys of the journal.
    ///
    /// # Errors
    /// [`StoreError::Shelf`].
    pub fn due(&self, journal: &[String]) -> Result<Due, StoreError> {
        for place in [CUTS, RECORDS] {
            // Where there is no room the index stays as it is.
            let _ = self.heal(place);
        }
        self.compared(journal)
    }

    fn compared(&self, journal: &[String]) -> Result<Due, StoreError> {
        let mut kept = self.index_on_shelf(CUTS)?.cuts;
        for (id, revision) in self.index_on_shelf(RECORDS)?.cuts {
            kept.insert(RECORDS.journal_id(&id), revision);
        }
        kept.insert(SETTINGS_ID.to_owned(), self.settings_revision());
        Ok(Due::of(journal, &kept))
    }

    /// Deletes again what an entry of the journal says was deleted; says whether it was there still. Reads
    /// no document, so that the start can do it at once.
    ///
    /// # Errors
    /// [`StoreError::Shelf`]; what was kept stays.
    pub fn delete_again(&self, entry: &str) -> Result<bool, StoreError> {
        let due = self.compared(&[entry.to_owned()])?;
        let Some(Entry { id, .. }) = read_key(entry).filter(|_| !due.delete.is_empty()) else {
            return Ok(false);
        };
        let (place, own_id) = Place::of_journal(id);
        self.take_away(place, own_id)?;
        Ok(true)
    }

    /// Puts an entry of the journal back where it is newer than what is kept; says whether it was.
    /// A damaged text is left alone.
    ///
    /// # Errors
    /// [`StoreError::Shelf`]; what was kept stays.
    pub fn put_back(&self, entry: &str, text: &str) -> Result<bool, StoreError> {
        let due = self.compared(&[entry.to_owned()])?;
        let Some(Entry { id, revision, .. }) = read_key(entry) else {
            return Ok(false);
        };
        let (place, own_id) = Place::of_journal(id);
        if !due.delete.is_empty() {
            return self.delete_again(entry);
        }
        let readable = match id {
            SETTINGS_ID => json::tree(text).is_ok_and(|tree| tree.is_object()),
            _ if place == RECORDS => Record::from_json(text) != Err(DocumentError::Damaged),
            _ => SavedCut::from_json(text) != Err(DocumentError::Damaged),
        };
        if due.put_back.is_empty() || !readable {
            return Ok(false);
        }
        if id == SETTINGS_ID {
            if self.shelf.put(SETTINGS, text).is_err() {
                self.held_back(id, self.settings_revision(), text);
            }
            return Ok(true);
        }
        let old = self.revision_in_force(place, own_id)?;
        let moved = || {
            self.shelf.put(&place.key(own_id, revision), text)?;
            self.move_index(place, own_id, revision)
        };
        if moved().is_err() {
            let _ = self.shelf.remove(&place.key(own_id, revision));
            self.held_back(id, old.unwrap_or(0), text);
            return Ok(true);
        }
        if let Some(old) = old.filter(|old| *old != revision) {
            let _ = self.shelf.remove(&place.key(own_id, old));
        }
        Ok(true)
    }
}

#[cfg(test)]
mod tests {
    use super::super::MemoryShelf;
    use super::*;
    use crate::walk::Walk;

    #[test]
    fn another_windows_save_is_seen_and_taken_up() {
        let shelf = MemoryShelf::default();
        let store = Store::new(&shelf);
        let mut ours = SavedCut::new("a", "one", "trim", "t0");
        assert_eq!(store.newer(&ours), Ok(None));
        ours.revision = store.save(&ours).unwrap();
        assert_eq!(store.newer(&ours), Ok(None));
        let mut theirs = store.load("a").unwrap();
        assert_eq!(theirs, ours);
        theirs.walk = Some(Walk::start("t1"));
        theirs.revision = store.save(&theirs).unwrap();
        let seen = store.newer(&ours).unwrap().unwrap();
        assert_eq!(seen, theirs);
        assert!(seen.same_but_walk(&ours) && seen.at_the_chair());
        theirs.title = "two".to_owned();
        store.save(&theirs).unwrap();
        assert!(!store.newer(&ours).unwrap().unwrap().same_but_walk(&ours));
        store.delete("a").unwrap();
        assert_eq!(store.newer(&ours), Err(StoreError::NotFound));
        // Kept again, it stays, also over what the journal says of the deletion.
        ours.revision = store.save(&ours).unwrap();
        let journal: Vec<String> = shelf.journaled().into_keys().collect();
        assert_eq!(store.due(&journal).unwrap(), Due::default());
        assert_eq!(store.newer(&ours), Ok(None));
    }
}
