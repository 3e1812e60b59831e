//! How much is kept, of what a browser lets a page keep.

use super::index::{Store, StoreError};
use super::shelf::Shelf;
use super::shelved::{CUTS, RECORDS};

/// How many characters a browser lets a page keep: most take 5 MiB of text, keys included (WHATWG HTML,
/// "Web storage": five megabytes an origin are suggested).
const MOST: usize = 5_000_000;

/// What is kept, and how much room that takes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Room {
    /// Saved cuts.
    pub cuts: usize,
    /// Clients and practice heads.
    pub records: usize,
    /// Characters of keys and texts.
    pub used: usize,
}

impl Room {
    /// Of how many characters, about.
    pub const MOST: usize = MOST;

    /// How much of it is used, whole percent.
    pub fn percent(self) -> usize {
        (self.used * 100).div_ceil(MOST)
    }
}

impl<S: Shelf> Store<S> {
    /// What is kept, and how much room that takes.
    ///
    /// # Errors
    /// [`StoreError::Shelf`] when the shelf cannot be reached.
    pub fn room(&self) -> Result<Room, StoreError> {
        let mut room = Room {
            cuts: self.index(CUTS)?.cuts.len(),
            records: self.index(RECORDS)?.cuts.len(),
            used: 0,
        };
        for key in self.shelf.keys()? {
            let text = self.shelf.get(&key)?.unwrap_or_default();
            room.used += key.encode_utf16().count() + text.encode_utf16().count();
        }
        Ok(room)
    }
}

#[cfg(test)]
mod tests {
    use super::super::MemoryShelf;
    use super::*;
    use crate::book::SavedCut;

    #[test]
    fn what_is_kept_is_counted_as_a_browser_counts() {
        let store = Store::new(MemoryShelf::default());
        assert_eq!(store.room().unwrap().percent(), 0);
        store.shelf().put("k", "\u{e9}\u{1f642}").unwrap();
        assert_eq!(store.room().unwrap().used, 1 + 1 + 2);
        store.save(&SavedCut::new("a", "x", "trim", "t")).unwrap();
        let room = store.room().unwrap();
        assert_eq!((room.cuts, room.records, room.percent()), (1, 0, 1));
    }
}
