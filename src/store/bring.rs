//! A file taken in: what would come of it, said before, and then all of it or nothing.

use super::file::{Document, Incoming, saved_at as saved_at_of};
use super::index::{SETTINGS, Store, StoreError};
use super::journal::{SETTINGS_ID, entry_key, gone_key};
use super::settings::Settings;
use super::shelf::{Noted, Shelf, ShelfError};
use super::shelved::{CUTS, Index, Place, RECORDS};
use crate::json;

/// How many documents of one kind there are of each sort.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    /// In the file and not here.
    pub new: usize,
    /// Here as in the file, sign for sign.
    pub same: usize,
    /// Here, saved later than in the file or at the same time: what is here stays.
    pub later_here: usize,
    /// Here, saved earlier than in the file: the file's stays.
    pub later_in_file: usize,
    /// In the file, but it does not read: it is taken in and set aside.
    pub damaged: usize,
    /// Here and not in the file.
    pub only_here: usize,
}

/// What a file would come to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Intent {
    /// Saved cuts.
    pub cuts: Counts,
    /// Clients and practice heads.
    pub records: Counts,
}

/// How a file is taken in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// To what is here; of two versions of one document the later saved stays.
    Merge,
    /// In the place of everything that is here, what was set included.
    Replace,
}

/// What is to become of one document.
enum Fate {
    Same,
    Stays,
    /// It goes in under this name.
    New(String),
    Over,
}

/// What is done to the shelf, to be taken back if any of it fails.
struct Done<'a, S> {
    shelf: &'a S,
    /// Keys and what stood under them before.
    before: Vec<(String, Option<String>)>,
}

impl<S: Shelf> Done<'_, S> {
    fn put(&mut self, key: &str, text: &str) -> Result<(), ShelfError> {
        let before = self.shelf.get(key)?;
        self.shelf.put(key, text)?;
        self.before.push((key.to_owned(), before));
        Ok(())
    }

    fn remove(&mut self, key: &str) -> Result<(), ShelfError> {
        let before = self.shelf.get(key)?;
        self.shelf.remove(key)?;
        self.before.push((key.to_owned(), before));
        Ok(())
    }

    /// Puts everything back as it was, what came in first out first: then the rest fits again.
    fn take_back(self) {
        let (there, new): (Vec<_>, Vec<_>) = self
            .before
            .into_iter()
            .rev()
            .partition(|(_, before)| before.is_some());
        for (key, _) in new {
            let _ = self.shelf.remove(&key);
        }
        for (key, before) in there {
            let _ = self.shelf.put(&key, &before.unwrap_or_default());
        }
    }
}

impl Incoming {
    /// What would come of it, before anything is done.
    ///
    /// # Errors
    /// [`StoreError::Shelf`] when the shelf cannot be reached.
    pub fn look<S: Shelf>(&self, store: &Store<S>) -> Result<Intent, StoreError> {
        let mut intent = Intent::default();
        for (place, counts) in [(CUTS, &mut intent.cuts), (RECORDS, &mut intent.records)] {
            let index = store.index(place)?;
            for document in self.documents.iter().filter(|d| d.place == place) {
                let damaged = document.saved_at.is_none();
                match store.fate(&index, document)? {
                    Fate::Same => counts.same += 1,
                    Fate::New(_) if damaged => counts.damaged += 1,
                    Fate::New(_) => counts.new += 1,
                    Fate::Stays => counts.later_here += 1,
                    Fate::Over => counts.later_in_file += 1,
                }
            }
            let named = |id: &String| {
                self.documents
                    .iter()
                    .any(|d| d.place == place && d.id == *id)
            };
            counts.only_here = index.cuts.keys().filter(|id| !named(id)).count();
        }
        Ok(intent)
    }

    /// How many documents it has.
    pub fn count(&self) -> usize {
        self.documents.len()
    }

    /// What was set, if that reads.
    fn read_settings(&self) -> Option<Settings> {
        json::read(self.settings.as_ref()?).ok()
    }
}

impl<S: Shelf> Store<S> {
    fn fate(&self, index: &Index, document: &Document) -> Result<Fate, StoreError> {
        let Document {
            place,
            id,
            text,
            saved_at,
            ..
        } = document;
        let Some(here) = self.plain_in(index, *place, id)? else {
            return Ok(Fate::New(id.clone()));
        };
        if here == *text {
            return Ok(Fate::Same);
        }
        let kept = saved_at_of(*place, here);
        match (saved_at, kept) {
            (Some(theirs), Some(ours)) if *theirs > ours => Ok(Fate::Over),
            (Some(_), Some(_)) => Ok(Fate::Stays),
            // One of the two does not read, and is never dropped for it: both stay.
            _ => self.beside(index, *place, id, text),
        }
    }

    /// A free name beside one that is taken; none is needed where the same text has one already.
    fn beside(
        &self,
        index: &Index,
        place: Place,
        id: &str,
        text: &str,
    ) -> Result<Fate, StoreError> {
        for n in 1_u32.. {
            let other = format!("{id}~{n}");
            match self.plain_in(index, place, &other)? {
                Some(here) if here == text => return Ok(Fate::Same),
                Some(_) => {}
                None => return Ok(Fate::New(other)),
            }
        }
        Ok(Fate::Stays)
    }

    /// Takes a file in: all of it, or nothing and a sentence.
    ///
    /// A new text goes under a new key, then the indexes move, then old keys go, as with a single save; if
    /// anything fails on the way everything is put back. Where both do not fit beside each other, what goes
    /// anyway goes first. The journal takes all of it in one transaction, with a mark for all that goes, so
    /// that nothing comes back at the next start.
    ///
    /// # Errors
    /// [`StoreError::Shelf`]; everything is as it was.
    pub fn take_in(&self, incoming: &Incoming, way: Way) -> Result<(), StoreError> {
        match self.try_in(incoming, way, false) {
            Err(StoreError::Shelf(ShelfError::Full)) => self.try_in(incoming, way, true),
            other => other,
        }
    }

    fn try_in(&self, incoming: &Incoming, way: Way, room_first: bool) -> Result<(), StoreError> {
        let mut done = Done {
            shelf: &self.shelf,
            before: Vec::new(),
        };
        match self.write_in(incoming, way, room_first, &mut done) {
            Ok(notes) => {
                for note in &notes {
                    self.let_go(&note.id);
                }
                if way == Way::Replace {
                    self.let_all_go();
                }
                self.shelf.journal_many(way == Way::Replace, &notes);
                self.try_again();
                Ok(())
            }
            Err(why) => {
                done.take_back();
                Err(why)
            }
        }
    }

    fn write_in(
        &self,
        incoming: &Incoming,
        way: Way,
        room_first: bool,
        done: &mut Done<'_, S>,
    ) -> Result<Vec<Noted>, StoreError> {
        let mut notes = Vec::new();
        let mut goes = Vec::new();
        let mut writes = Vec::new();
        let mut indexes = Vec::new();
        for place in [CUTS, RECORDS] {
            let (mut index, here) = (self.index_on_shelf(place)?, self.index(place)?);
            let revisions = self.revisions(place)?;
            let last = |id: &str| {
                revisions
                    .get(id)
                    .and_then(|all| all.last())
                    .copied()
                    .unwrap_or(0)
            };
            let mut fresh = Index::default();
            for document in incoming.documents.iter().filter(|d| d.place == place) {
                let id = match (way, self.fate(&here, document)?) {
                    (Way::Merge, Fate::Same | Fate::Stays) => continue,
                    (Way::Merge, Fate::New(id)) => id,
                    _ => document.id.clone(),
                };
                let revision = last(&id).wrapping_add(1);
                let text = document.as_kept();
                writes.push((place.key(&id, revision), text.clone()));
                let of = place.journal_id(&id);
                notes.push(Noted {
                    key: entry_key(&of, revision),
                    id: of,
                    text,
                });
                fresh.cuts.insert(id, revision);
            }
            for (id, all) in &revisions {
                if way == Way::Merge && !fresh.cuts.contains_key(id) {
                    continue;
                }
                goes.extend(all.iter().map(|revision| place.key(id, *revision)));
                if place == CUTS {
                    goes.extend([Self::undo_key(id), Self::line_key(id)]);
                }
                if !fresh.cuts.contains_key(id) {
                    let of = place.journal_id(id);
                    notes.push(Noted {
                        key: gone_key(&of, last(id).wrapping_add(1)),
                        id: of,
                        text: String::new(),
                    });
                }
            }
            if way == Way::Replace {
                index.cuts = fresh.cuts;
            } else {
                index.cuts.extend(fresh.cuts);
            }
            indexes.push((place, index));
        }
        if room_first {
            for key in &goes {
                done.remove(key)?;
            }
        }
        for (key, text) in writes {
            done.put(&key, &text)?;
        }
        let settings = incoming.read_settings().filter(|_| way == Way::Replace);
        if let Some(settings) = settings {
            let revision = self.settings_revision().wrapping_add(1);
            let text = Self::settings_text(settings, revision);
            done.put(SETTINGS, &text)?;
            notes.push(Noted {
                id: SETTINGS_ID.to_owned(),
                key: entry_key(SETTINGS_ID, revision),
                text,
            });
        }
        for (place, index) in indexes {
            done.put(place.index(), &index.text())?;
        }
        if !room_first {
            for key in &goes {
                // What is left behind costs room but no truth.
                let _ = self.shelf.remove(key);
            }
        }
        Ok(notes)
    }
}
