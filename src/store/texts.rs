//! The texts of cuts as they are kept, for what goes through all of them for a few.

use super::index::Store;
use super::shelf::Shelf;
use super::shelved::CUTS;

impl<S: Shelf> Store<S> {
    /// The text of one revision of a cut, unread; none if it is not there. Which revisions are in force says
    /// [`Store::revisions_in_force`], once for all.
    pub fn text(&self, id: &str, revision: u64) -> Option<String> {
        self.shelf.get(&CUTS.key(id, revision)).ok().flatten()
    }
}
