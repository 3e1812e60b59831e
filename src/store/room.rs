//! How much is kept, of what a browser lets a page keep.

use super::index::{Store, StoreError};
use super::shelf::Shelf;
use super::shelved::{CUTS, RECORDS};
use super::used::USUAL_ROOM;

/// What is kept, and how much room that takes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Room {
    /// Saved cuts.
    pub cuts: usize,
    /// Clients and practice heads.
    pub records: usize,
    /// Characters of keys and texts, also of what other pages of the same address keep: they share the room.
    pub used: usize,
}

/// From how much on there is little room left, percent. Judgement.
const LITTLE: usize = 80;

impl Room {
    /// Of how many characters, about.
    pub const MOST: usize = USUAL_ROOM;

    /// How much of it is used, whole percent.
    pub fn percent(self) -> usize {
        self.used.saturating_mul(100).div_ceil(USUAL_ROOM)
    }

    /// Whether there is little room left.
    pub fn nearly_full(self) -> bool {
        self.percent() >= LITTLE
    }
}

/// The key that says that the browser was asked to keep all of it.
const ASKED: &str = "tautline.asked";

impl<S: Shelf> Store<S> {
    /// Whether the browser is to be asked now to keep all of it: once, and never again.
    pub fn asks_to_last(&self) -> bool {
        // What can't be put down would be asked again and again.
        self.shelf.get(ASKED) == Ok(None) && self.shelf.put(ASKED, "1").is_ok()
    }

    /// What is kept, and how much room that takes.
    ///
    /// # Errors
    /// [`StoreError::Shelf`] when the shelf cannot be reached.
    pub fn room(&self) -> Result<Room, StoreError> {
        Ok(Room {
            cuts: self.index(CUTS)?.cuts.len(),
            records: self.index(RECORDS)?.cuts.len(),
            used: self.used()?,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::super::MemoryShelf;
    use super::*;
    use crate::book::SavedCut;

    #[test]
    fn what_is_kept_is_counted() {
        let store = Store::new(MemoryShelf::default());
        assert_eq!(store.room().unwrap().percent(), 0);
        store.save(&SavedCut::new("a", "x", "trim", "t")).unwrap();
        let room = store.room().unwrap();
        assert_eq!((room.cuts, room.records, room.percent()), (1, 0, 1));
        let room = |share: usize| Room {
            used: USUAL_ROOM / 100 * share,
            ..Room::default()
        };
        assert!(!room(79).nearly_full() && room(81).nearly_full());
    }
}
