//! Documents of one kind on a shelf: under keys with a revision, and an index that says which is in force.

use super::index::{Store, StoreError};
use super::index_text;
use super::journal::{entry_key, gone_key};
use super::lines::readable;
use super::shelf::Shelf;
use crate::json;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Where documents of one kind are kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Place {
    /// The key of the index.
    index: &'static str,
    /// What the keys of the documents begin with.
    document: &'static str,
    /// What stands before their ids in the journal.
    mark: &'static str,
}

/// Saved cuts.
pub(super) const CUTS: Place = Place {
    index: "tautline.index",
    document: "tautline.cut.",
    mark: "",
};
/// Clients and practice heads. They have an index of their own, so that a window with an older version of
/// the app, which knows cuts only, writes nothing over it.
pub(super) const RECORDS: Place = Place {
    index: "tautline.records",
    document: "tautline.record.",
    mark: "@",
};

impl Place {
    /// The key of the index.
    pub(super) const fn index(self) -> &'static str {
        self.index
    }

    /// The key of one revision.
    pub(super) fn key(self, id: &str, revision: u64) -> String {
        format!("{}{id}.{revision}", self.document)
    }

    /// The id that a document has in the journal.
    pub(super) fn journal_id(self, id: &str) -> String {
        format!("{}{id}", self.mark)
    }

    /// The place of an id of the journal, and the id within it.
    pub(super) fn of_journal(id: &str) -> (Self, &str) {
        match id.strip_prefix(RECORDS.mark) {
            Some(id) => (RECORDS, id),
            None => (CUTS, id),
        }
    }
}

/// Which version of each document is the one in force.
#[derive(Clone, Debug, Default, Serialize, Deserialize)]
pub(super) struct Index {
    schema: u32,
    /// From id to revision.
    pub(super) cuts: BTreeMap<String, u64>,
}

impl Index {
    /// It as it is kept.
    pub(super) fn text(&self) -> String {
        serde_json::to_string(self).unwrap_or_default()
    }
}

impl<S: Shelf> Store<S> {
    /// The text of a document in force, and its revision.
    pub(super) fn text_of(&self, place: Place, id: &str) -> Result<(String, u64), StoreError> {
        if let Some(held) = self.held_of(&place.journal_id(id)) {
            return Ok(held);
        }
        match self.text_on_shelf(place, id) {
            // The index may be wrong.
            Err(StoreError::NotFound) if self.heal(place)? => self.text_on_shelf(place, id),
            other => other,
        }
    }

    fn text_on_shelf(&self, place: Place, id: &str) -> Result<(String, u64), StoreError> {
        let revision = self.revision_in_force(place, id)?;
        let revision = revision.ok_or(StoreError::NotFound)?;
        let text = self.shelf.get(&place.key(id, revision))?;
        Ok((text.ok_or(StoreError::NotFound)?, revision))
    }

    /// The text of this revision: as it waits to be kept, or as it is kept.
    pub(super) fn kept_text(
        &self,
        place: Place,
        id: &str,
        revision: u64,
    ) -> Result<Option<String>, StoreError> {
        match self.held_of(&place.journal_id(id)) {
            Some((text, _)) => Ok(Some(text)),
            None => Ok(self.shelf.get(&place.key(id, revision))?),
        }
    }

    /// The text of a document in force, unpacked, where the index was read before; none if there is none.
    pub(super) fn plain_in(
        &self,
        index: &Index,
        place: Place,
        id: &str,
    ) -> Result<Option<String>, StoreError> {
        let Some(revision) = index.cuts.get(id) else {
            return Ok(None);
        };
        Ok(self.kept_text(place, id, *revision)?.map(readable))
    }

    /// Keeps a text: under a new key first, then the index moves, then the old key goes. Whatever fails on
    /// the way, either the old or the new version is in force and whole. `known` is the revision that the
    /// document was read from. Gives the one it has from now on.
    pub(super) fn keep(
        &self,
        place: Place,
        id: &str,
        known: u64,
        text: &str,
    ) -> Result<u64, StoreError> {
        match self.try_keep(place, id, known, text) {
            Ok(revision) => {
                let of = place.journal_id(id);
                self.let_go(&of);
                self.shelf.journal(&of, &entry_key(&of, revision), text);
                self.try_again();
                Ok(revision)
            }
            Err(why) => {
                self.hold(place, id, known, text);
                Err(why)
            }
        }
    }

    /// The same, on the shelf alone.
    pub(super) fn try_keep(
        &self,
        place: Place,
        id: &str,
        known: u64,
        text: &str,
    ) -> Result<u64, StoreError> {
        let old = self.revision_in_force(place, id)?;
        // Past every revision on the shelf, also one that a crash left behind: those follow on the one in
        // force. Looking through all keys would cost the more the more is kept.
        let mut revision = old.unwrap_or(0).max(known).wrapping_add(1);
        while self.shelf.length(&place.key(id, revision))?.is_some() {
            revision = revision.wrapping_add(1);
        }
        self.shelf.put(&place.key(id, revision), text)?;
        if let Err(e) = self.move_index(place, id, revision) {
            // The new text is in nobody's way; the next save goes past it.
            let _ = self.shelf.remove(&place.key(id, revision));
            return Err(e);
        }
        if let Some(old) = old.filter(|old| *old != revision) {
            // What is left behind costs room but no truth.
            let _ = self.shelf.remove(&place.key(id, old));
        }
        Ok(revision)
    }

    /// Deletes a document, read or unread.
    pub(super) fn discard(&self, place: Place, id: &str) -> Result<(), StoreError> {
        let last = self.take_away(place, id)?;
        // A browser that is killed now would bring it back: the journal knows better.
        let id = place.journal_id(id);
        self.let_go(&id);
        self.shelf
            .journal(&id, &gone_key(&id, last.wrapping_add(1)), "");
        self.try_again();
        Ok(())
    }

    /// Takes a document off the shelf; gives its last revision.
    pub(super) fn take_away(&self, place: Place, id: &str) -> Result<u64, StoreError> {
        let mut index = self.index_on_shelf(place)?;
        let revisions = self.revisions(place)?.remove(id).unwrap_or_default();
        if index.cuts.remove(id).is_none() && revisions.is_empty() {
            // It was never kept.
            return Ok(0);
        }
        // Before the index: another window that finds it unnamed but there would take it for lost, and name
        // it again. The one in force goes last.
        for revision in &revisions {
            self.shelf.remove(&place.key(id, *revision))?;
        }
        // From here on it is gone: an index that names it is made anew by whoever meets it.
        if place == CUTS {
            let _ = self.forget_history(id);
            self.forget_line(id);
        }
        let _ = self.write_index(place, &index);
        Ok(revisions.last().copied().unwrap_or(0))
    }

    /// The index as it is kept.
    pub(super) fn index_kept(&self, place: Place) -> Result<Option<String>, StoreError> {
        Ok(self.shelf.get(place.index)?)
    }

    /// Which revision of a document is in force; none if there is none.
    pub(super) fn revision_in_force(
        &self,
        place: Place,
        id: &str,
    ) -> Result<Option<u64>, StoreError> {
        let kept = self.index_kept(place)?;
        if let Some(revision) = kept.and_then(|text| index_text::revision(&text, id)) {
            return Ok(Some(revision));
        }
        Ok(self.index_on_shelf(place)?.cuts.get(id).copied())
    }

    /// Puts another revision of a document in force.
    pub(super) fn move_index(
        &self,
        place: Place,
        id: &str,
        revision: u64,
    ) -> Result<(), StoreError> {
        let kept = self.index_kept(place)?;
        if let Some(text) = kept.and_then(|text| index_text::moved(&text, id, revision)) {
            return Ok(self.shelf.put(place.index, &text)?);
        }
        let mut index = self.index_on_shelf(place)?;
        index.cuts.insert(id.to_owned(), revision);
        self.write_index(place, &index)
    }

    /// The index, what waits to be kept laid over it: for reading only.
    pub(super) fn index(&self, place: Place) -> Result<Index, StoreError> {
        let mut index = self.index_on_shelf(place)?;
        self.lay_held(place, &mut index);
        Ok(index)
    }

    /// The same for all documents at once: one that names what is not there is made anew first.
    pub(super) fn sound_index(&self, place: Place) -> Result<Index, StoreError> {
        for (id, revision) in &self.index_on_shelf(place)?.cuts {
            if self.shelf.length(&place.key(id, *revision))?.is_none() {
                self.heal(place)?;
                break;
            }
        }
        self.index(place)
    }

    /// Makes the index anew where it does not name what is there: two windows wrote it at once, a sign of it
    /// changed, a crash came between a document and the index. Says whether it did. A document that
    /// is in force stays so; of others the newest is. Where the shelf takes no index now, it is not made: reading
    /// goes on with what there is.
    pub(super) fn heal(&self, place: Place) -> Result<bool, StoreError> {
        let index = self.index_on_shelf(place)?;
        let mut cuts = BTreeMap::new();
        for (id, all) in self.revisions(place)? {
            let named = index.cuts.get(&id).copied().filter(|r| all.contains(r));
            if let Some(revision) = named.or_else(|| all.last().copied()) {
                cuts.insert(id, revision);
            }
        }
        if cuts == index.cuts {
            return Ok(false);
        }
        Ok(self.write_index(place, &Index { schema: 1, cuts }).is_ok())
    }

    /// The index as it is kept; made anew from the documents themselves where it is missing or damaged.
    pub(super) fn index_on_shelf(&self, place: Place) -> Result<Index, StoreError> {
        let kept = self.shelf.get(place.index)?;
        if let Some(index) = kept.and_then(|text| json::read::<Index>(&text).ok()) {
            return Ok(index);
        }
        let newest = |(id, revisions): (String, Vec<u64>)| Some((id, *revisions.last()?));
        let mut cuts = BTreeMap::new();
        cuts.extend(self.revisions(place)?.into_iter().filter_map(newest));
        Ok(Index { schema: 1, cuts })
    }

    pub(super) fn write_index(&self, place: Place, index: &Index) -> Result<(), StoreError> {
        Ok(self.shelf.put(place.index, &index.text())?)
    }

    /// All revisions on the shelf by id, rising.
    pub(super) fn revisions(&self, place: Place) -> Result<BTreeMap<String, Vec<u64>>, StoreError> {
        let mut found: BTreeMap<String, Vec<u64>> = BTreeMap::new();
        for key in self.shelf.keys()? {
            let rest = key.strip_prefix(place.document);
            let Some((id, revision)) = rest.and_then(|rest| rest.rsplit_once('.')) else {
                continue;
            };
            if let Ok(revision) = revision.parse() {
                let revisions = found.entry(id.to_owned()).or_default();
                let place = revisions.partition_point(|r| *r < revision);
                revisions.insert(place, revision);
            }
        }
        Ok(found)
    }
}
