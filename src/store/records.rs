//! Clients and practice heads, kept.

use super::index::{Store, StoreError};
use super::shelf::{Shelf, units};
use super::shelved::RECORDS;
use crate::book::{DocumentError, Record, SavedCut};
use crate::json;
use std::sync::Arc;

/// A client or a practice head as it stands in the book.
#[derive(Clone, Debug, PartialEq)]
pub enum ListedRecord {
    /// It reads.
    Record(Box<Record>),
    /// It does not; its text is kept.
    Aside {
        /// Its id.
        id: String,
        /// Why it does not read.
        why: DocumentError,
        /// Its whole text, to be saved as a file.
        text: String,
    },
}

/// What a client or a practice head is called.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Named {
    /// Its id.
    pub id: String,
    /// The revision and the length of the card that it was read from.
    revision: u64,
    length: usize,
    /// Its name; empty if it has none or does not read.
    pub name: String,
}

impl Named {
    /// The one of this id among all, which are in the order of their ids.
    pub fn among<'a>(all: &'a [Arc<Self>], id: &str) -> Option<&'a Arc<Self>> {
        let at = all.binary_search_by(|named| named.id.as_str().cmp(id));
        at.ok().and_then(|at| all.get(at))
    }
}

impl<S: Shelf> Store<S> {
    /// All clients and practice heads, by id.
    ///
    /// # Errors
    /// [`StoreError::Shelf`] when the shelf cannot be reached.
    pub fn records(&self) -> Result<Vec<ListedRecord>, StoreError> {
        let mut all = Vec::new();
        for (id, revision) in self.sound_index(RECORDS)?.cuts {
            let Some(text) = self.kept_text(RECORDS, &id, revision)? else {
                continue;
            };
            all.push(match Record::from_json(&text) {
                Ok(record) => ListedRecord::Record(Box::new(Record {
                    id,
                    revision,
                    ..record
                })),
                Err(why) => ListedRecord::Aside { id, why, text },
            });
        }
        Ok(all)
    }

    /// The client or practice head of this id.
    ///
    /// # Errors
    /// [`StoreError`] with a sentence.
    pub fn record(&self, id: &str) -> Result<Record, StoreError> {
        let (text, revision) = self.text_of(RECORDS, id)?;
        let id = id.to_owned();
        Ok(Record {
            id,
            revision,
            ..Record::from_json(&text)?
        })
    }

    /// Keeps a client or a practice head, as [`Store::save`] keeps a cut; gives its revision.
    ///
    /// # Errors
    /// [`StoreError::Shelf`]; the version kept before stays in force.
    pub fn save_record(&self, record: &Record) -> Result<u64, StoreError> {
        self.keep(RECORDS, &record.id, record.revision, &record.to_json())
    }

    /// Deletes a client or a practice head. Their visits are cuts, to be deleted with them.
    ///
    /// # Errors
    /// [`StoreError::Shelf`].
    pub fn delete_record(&self, id: &str) -> Result<(), StoreError> {
        self.discard(RECORDS, id)
    }

    /// All visits of a client or a practice head that read, the latest day first.
    ///
    /// # Errors
    /// [`StoreError::Shelf`].
    pub fn visits_of(&self, id: &str) -> Result<Vec<SavedCut>, StoreError> {
        Ok(self.visits_among(&self.lines(&[])?.cuts, id))
    }

    /// The names of all clients and practice heads, by id. `known` are those that were read before, in the
    /// same order: those that still hold are taken over.
    ///
    /// # Errors
    /// [`StoreError::Shelf`].
    pub fn names(&self, known: &[Arc<Named>]) -> Result<Vec<Arc<Named>>, StoreError> {
        let mut names = Vec::new();
        for (id, revision) in self.sound_index(RECORDS)?.cuts {
            let key = RECORDS.key(&id, revision);
            let held = self.held_of(&RECORDS.journal_id(&id));
            let length = match &held {
                Some((text, _)) => Some(units(text)),
                None => self.shelf.length(&key)?,
            };
            let Some(length) = length else { continue };
            let before = Named::among(known, &id).filter(|_| held.is_none());
            let holds = |n: &&Arc<Named>| (n.revision, n.length) == (revision, length);
            if let Some(named) = before.filter(holds) {
                names.push(named.clone());
                continue;
            }
            // The whole card is not needed.
            let text = match held {
                Some((text, _)) => Some(text),
                None => self.shelf.get(&key)?,
            };
            let tree = text.and_then(|text| json::tree(&text).ok());
            let name = tree.and_then(|tree| Some(tree.get("name")?.as_str()?.trim().to_owned()));
            names.push(Arc::new(Named {
                id,
                revision,
                length,
                name: name.unwrap_or_default(),
            }));
        }
        Ok(names)
    }

    /// Deletes the invented salon: its cards, and every visit that belongs to them.
    ///
    /// # Errors
    /// [`StoreError::Shelf`]; what is left can be taken away again.
    pub fn take_invented_away(&self) -> Result<(), StoreError> {
        let mut cards = Vec::new();
        for listed in self.records()? {
            if let ListedRecord::Record(record) = listed
                && record.invented
            {
                cards.push(record.id);
            }
        }
        for cut in self.lines(&[])?.cuts {
            if cut.invented || cards.contains(&cut.of) {
                self.delete(&cut.id)?;
            }
        }
        cards.iter().try_for_each(|id| self.delete_record(id))
    }
}

#[cfg(test)]
mod tests {
    use super::super::MemoryShelf;
    use super::*;
    use crate::head::Kind;

    #[test]
    fn names_are_read_anew_where_a_card_changed() {
        let shelf = MemoryShelf::default();
        let store = Store::new(&shelf);
        for (id, name) in [("b", "Bo"), ("a", " Ada ")] {
            let record = Record::new(id, Kind::Person, name, "t");
            store.save_record(&record).unwrap();
        }
        let first = store.names(&[]).unwrap();
        let name = |all: &[Arc<Named>], id| Named::among(all, id).map(|named| named.name.clone());
        assert_eq!(name(&first, "a").as_deref(), Some("Ada"));
        assert_eq!(name(&first, "c"), None);
        let mut bo = store.record("b").unwrap();
        bo.name = "Bob".to_owned();
        store.save_record(&bo).unwrap();
        let second = store.names(&first).unwrap();
        assert_eq!(name(&second, "b").as_deref(), Some("Bob"));
        assert!(Arc::ptr_eq(&second[0], &first[0]) && !Arc::ptr_eq(&second[1], &first[1]));
        store.delete_record("a").unwrap();
        assert_eq!(store.names(&second).unwrap().len(), 1);
    }
}
