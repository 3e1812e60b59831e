//! Clients and practice heads, kept.

use super::index::{Listed, Store, StoreError};
use super::shelf::Shelf;
use super::shelved::RECORDS;
use crate::book::{DocumentError, Record, SavedCut};

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

impl<S: Shelf> Store<S> {
    /// All clients and practice heads, by id.
    ///
    /// # Errors
    /// [`StoreError::Shelf`] when the shelf cannot be reached.
    pub fn records(&self) -> Result<Vec<ListedRecord>, StoreError> {
        let mut all = Vec::new();
        for (id, revision) in self.index(RECORDS)?.cuts {
            let Some(text) = self.shelf.get(&RECORDS.key(&id, revision))? else {
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
        let mut all: Vec<SavedCut> = Vec::new();
        for listed in self.list()? {
            let Listed::Cut(cut) = listed else { continue };
            if cut.visit.of == id {
                let day = cut.day();
                let place = all.partition_point(|other| other.day() >= day);
                all.insert(place, *cut);
            }
        }
        Ok(all)
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
        for listed in self.list()? {
            if let Listed::Cut(cut) = listed
                && (cut.visit.invented || cards.contains(&cut.visit.of))
            {
                self.delete(&cut.id)?;
            }
        }
        cards.iter().try_for_each(|id| self.delete_record(id))
    }
}
