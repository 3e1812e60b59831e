//! How much is kept.

use super::index::{Store, StoreError};
use super::shelf::{Shelf, units};

/// How much local storage usually takes, UTF-16 units, keys and texts together: 5 Mi in the browsers that
/// count so. Common practice, no source.
pub const USUAL_ROOM: usize = 5 * 1024 * 1024;

impl<S: Shelf> Store<S> {
    /// How much is kept at this address, UTF-16 units, keys and texts together: other pages of a shared
    /// address take room too.
    ///
    /// # Errors
    /// [`StoreError::Shelf`].
    pub fn used(&self) -> Result<usize, StoreError> {
        let mut used: usize = 0;
        for key in self.shelf.keys()? {
            let length = self.shelf.length(&key)?.unwrap_or(0);
            used = used.saturating_add(units(&key)).saturating_add(length);
        }
        Ok(used)
    }
}

#[cfg(test)]
mod tests {
    use super::super::MemoryShelf;
    use super::*;

    #[test]
    fn what_is_used_is_counted_as_local_storage_counts() {
        let shelf = MemoryShelf::default();
        let store = Store::new(&shelf);
        assert_eq!(store.used(), Ok(0));
        shelf.put("tautline.a", "é🙂x").unwrap();
        shelf.put("another", "not ours").unwrap();
        // 10 of the key, 1 + 2 + 1 of the text; 7 + 8 of the other.
        assert_eq!(store.used(), Ok(29));
    }
}
