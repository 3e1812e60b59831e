//! Saved cuts on a shelf, with an index.

use super::journal::{SETTINGS_ID, entry_key};
use super::lines::readable;
use super::settings::Settings;
use super::shelf::{Shelf, ShelfError};
use super::shelved::{CUTS, Place, RECORDS};
use crate::book::{DocumentError, SavedCut, keep_packed, plain};
use crate::json;
use crate::plan::History;
use crate::words::tr;

pub(super) const SETTINGS: &str = "tautline.settings";
const UNDO: &str = "tautline.undo.";
/// The most that is kept of what was changed in one cut, bytes: some hundreds of changes.
const MOST_UNDO: usize = 200_000;

/// Why something was not kept or not found.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum StoreError {
    /// The shelf failed.
    #[error(transparent)]
    Shelf(#[from] ShelfError),
    /// The document cannot be used.
    #[error(transparent)]
    Document(#[from] DocumentError),
    /// There is no such cut.
    #[error(
        "{}",
        tr("This is not on this device. It may have been deleted, or saved on another one.")
    )]
    NotFound,
}

/// A cut as it stands in the list.
#[derive(Clone, Debug, PartialEq)]
pub enum Listed {
    /// It reads.
    Cut(Box<SavedCut>),
    /// It does not; its text is kept.
    Aside {
        /// Its id.
        id: String,
        /// Why it does not read.
        why: DocumentError,
        /// Its whole text, unpacked if it unpacks, to be saved as a file.
        text: String,
    },
}

/// Saved cuts and settings on a shelf.
#[derive(Clone, Copy, Debug)]
pub struct Store<S> {
    pub(super) shelf: S,
}

impl<S: Shelf> Store<S> {
    /// A store on this shelf.
    pub const fn new(shelf: S) -> Self {
        Self { shelf }
    }

    /// The shelf it stands on.
    pub const fn shelf(&self) -> &S {
        &self.shelf
    }

    /// All cuts, the last saved first; those that do not read at the end.
    ///
    /// # Errors
    /// [`StoreError::Shelf`] when the shelf cannot be reached.
    pub fn list(&self) -> Result<Vec<Listed>, StoreError> {
        let mut cuts = Vec::new();
        let mut aside = Vec::new();
        for (id, revision) in self.sound_index(CUTS)?.cuts {
            let Some(text) = self.kept_text(CUTS, &id, revision)? else {
                continue;
            };
            match SavedCut::from_json(&text) {
                Ok(cut) => {
                    // It is what it is kept as, whatever it says of itself.
                    let cut = SavedCut {
                        id,
                        revision,
                        ..cut
                    };
                    let later = |other: &SavedCut| other.saved_at >= cut.saved_at;
                    let place = cuts.partition_point(later);
                    cuts.insert(place, cut);
                }
                Err(why) => aside.push(Listed::Aside {
                    id,
                    why,
                    text: readable(text),
                }),
            }
        }
        Ok(cuts
            .into_iter()
            .map(|cut| Listed::Cut(Box::new(cut)))
            .chain(aside)
            .collect())
    }

    /// The cut of this id.
    ///
    /// # Errors
    /// [`StoreError`] with a sentence.
    pub fn load(&self, id: &str) -> Result<SavedCut, StoreError> {
        let (text, revision) = self.text_of(CUTS, id)?;
        let id = id.to_owned();
        Ok(SavedCut {
            id,
            revision,
            ..SavedCut::from_json(&text)?
        })
    }

    /// Keeps a cut: under a new key first, then the index moves, then the old key goes. Whatever
    /// fails on the way, either the old or the new version is in force and whole.
    ///
    /// One that is finished is kept packed. Gives the revision it has from now on.
    ///
    /// # Errors
    /// [`StoreError::Shelf`]; the version kept before stays in force.
    pub fn save(&self, cut: &SavedCut) -> Result<u64, StoreError> {
        let mut text = cut.to_json();
        if cut.finished() {
            text = keep_packed(&text);
        }
        let revision = self.keep(CUTS, &cut.id, cut.revision, &text)?;
        self.line_of(cut, revision, &text);
        if cut.finished() {
            self.pack_history(&cut.id);
        }
        Ok(revision)
    }

    /// The cut as it is kept now, if that is another revision than this one: another window saved
    /// it since.
    ///
    /// # Errors
    /// [`StoreError::NotFound`] if it was deleted since, and what [`Store::load`] may say.
    pub fn newer(&self, cut: &SavedCut) -> Result<Option<SavedCut>, StoreError> {
        let kept = self.revision_in_force(CUTS, &cut.id)?;
        if cut.revision == 0 || kept == Some(cut.revision) {
            return Ok(None);
        }
        self.load(&cut.id).map(Some)
    }

    /// A text that is another one whenever anything was kept or deleted since.
    ///
    /// # Errors
    /// [`StoreError::Shelf`].
    pub fn in_force(&self) -> Result<String, StoreError> {
        let index = |place: Place| Ok::<_, StoreError>(self.index_kept(place)?.unwrap_or_default());
        let (cuts, records) = (index(CUTS)?, index(RECORDS)?);
        Ok(format!("{cuts}{records}{}", self.held_turn()))
    }

    /// Deletes a cut, read or unread.
    ///
    /// # Errors
    /// [`StoreError::Shelf`].
    pub fn delete(&self, id: &str) -> Result<(), StoreError> {
        self.discard(CUTS, id)
    }

    /// The key of what can be taken back in a cut.
    pub(super) fn undo_key(id: &str) -> String {
        format!("{UNDO}{id}")
    }

    /// What was changed in a cut's plan, to be taken back.
    pub fn history(&self, id: &str) -> History {
        let text = self.shelf.get(&format!("{UNDO}{id}")).ok().flatten();
        let plain = text.as_deref().and_then(|text| plain(text).ok());
        plain
            .map(|text| History::from_json(&text))
            .unwrap_or_default()
    }

    /// Packs what was changed in a cut's plan: it is not often asked for once the cut is finished.
    fn pack_history(&self, id: &str) {
        let key = format!("{UNDO}{id}");
        if let Ok(Some(text)) = self.shelf.get(&key)
            && text.starts_with('{')
        {
            // Where there is no room it stays as it is.
            let _ = self.shelf.put(&key, &keep_packed(&text));
        }
    }

    /// Forgets what was changed in a cut's plan.
    pub(super) fn forget_history(&self, id: &str) -> Result<(), StoreError> {
        Ok(self.shelf.remove(&format!("{UNDO}{id}"))?)
    }

    /// Keeps what was changed in a cut's plan, the oldest changes left out where it gets much. Where
    /// there is no room it is let go: the plan itself matters more.
    pub fn set_history(&self, id: &str, history: &History) {
        let key = format!("{UNDO}{id}");
        if self.shelf.put(&key, &history.to_json(MOST_UNDO)).is_err() {
            let _ = self.shelf.remove(&key);
        }
    }

    /// The settings; those of a new app where none are kept, and of each that does not read.
    pub fn settings(&self) -> Settings {
        let held = self.held_of(SETTINGS_ID).map(|(text, _)| text);
        let text = held.or_else(|| self.shelf.get(SETTINGS).ok().flatten());
        text.map(|text| Settings::from_text(&text))
            .unwrap_or_default()
    }

    /// Keeps the settings.
    ///
    /// # Errors
    /// [`StoreError::Shelf`].
    pub fn set_settings(&self, settings: Settings) -> Result<(), StoreError> {
        let revision = self.settings_revision().wrapping_add(1);
        let text = Self::settings_text(settings, revision);
        if let Err(why) = self.shelf.put(SETTINGS, &text) {
            self.hold_over(SETTINGS_ID, revision.wrapping_sub(1), 0, &text);
            return Err(why.into());
        }
        self.let_go(SETTINGS_ID);
        self.shelf
            .journal(SETTINGS_ID, &entry_key(SETTINGS_ID, revision), &text);
        self.try_again();
        Ok(())
    }

    /// The settings as they are kept: one more field in front of theirs, for the journal.
    pub(super) fn settings_text(settings: Settings, revision: u64) -> String {
        let text = serde_json::to_string(&settings).unwrap_or_default();
        format!(
            "{{\"revision\":{revision},{}",
            text.strip_prefix('{').unwrap_or("}")
        )
    }

    /// How often the settings were kept.
    pub fn settings_revision(&self) -> u64 {
        let text = self.shelf.get(SETTINGS).ok().flatten();
        let tree = text.and_then(|text| json::tree(&text).ok());
        let revision = tree.and_then(|tree| tree.get("revision").and_then(json::Tree::as_u64));
        revision.unwrap_or(0)
    }
}

#[cfg(test)]
mod tests {
    use super::super::MemoryShelf;
    use super::*;
    use crate::measure::{Unit, Usage};

    impl Shelf for &MemoryShelf {
        fn get(&self, key: &str) -> Result<Option<String>, ShelfError> {
            (**self).get(key)
        }
        fn put(&self, key: &str, text: &str) -> Result<(), ShelfError> {
            (**self).put(key, text)
        }
        fn remove(&self, key: &str) -> Result<(), ShelfError> {
            (**self).remove(key)
        }
        fn keys(&self) -> Result<Vec<String>, ShelfError> {
            (**self).keys()
        }
        fn held(&self) -> &super::super::Held {
            (**self).held()
        }
        fn journal(&self, id: &str, key: &str, text: &str) {
            (**self).journal(id, key, text);
        }
        fn journal_many(&self, alone: bool, notes: &[super::super::shelf::Noted]) {
            (**self).journal_many(alone, notes);
        }
    }

    fn cut(id: &str, title: &str, at: &str) -> SavedCut {
        SavedCut::new(id, title, "soft-layers-face-frame", at)
    }

    fn titles(store: &Store<&MemoryShelf>) -> Vec<String> {
        let named = |listed| match listed {
            Listed::Cut(cut) => cut.title,
            Listed::Aside { id, .. } => format!("aside {id}"),
        };
        store.list().unwrap().into_iter().map(named).collect()
    }

    #[test]
    fn cuts_are_listed_last_saved_first_loaded_and_deleted() {
        let shelf = MemoryShelf::default();
        let store = Store::new(&shelf);
        store.save(&cut("a", "one", "2026-01-01")).unwrap();
        store.save(&cut("b", "two", "2026-01-02")).unwrap();
        store.save(&cut("a", "one again", "2026-01-03")).unwrap();
        assert_eq!(titles(&store), ["one again", "two"]);
        assert_eq!(store.load("a").unwrap().title, "one again");
        store.delete("a").unwrap();
        assert_eq!(titles(&store), ["two"]);
        assert_eq!(store.load("a"), Err(StoreError::NotFound));
        // One document, its line and the index.
        assert_eq!(shelf.keys().unwrap().len(), 3);
    }

    #[test]
    fn a_crash_at_any_write_leaves_the_old_or_the_new_version() {
        for writes in 0..5 {
            let shelf = MemoryShelf::default();
            let store = Store::new(&shelf);
            store.save(&cut("a", "old", "2026-01-01")).unwrap();
            shelf.fail_after(writes);
            let saved = store.save(&cut("a", "new", "2026-01-02"));
            let shelf = shelf.opened_again();
            let store = Store::new(&shelf);
            let expected = if saved.is_ok() { "new" } else { "old" };
            assert_eq!(titles(&store), [expected], "after {writes} writes");
            store.save(&cut("a", "later", "2026-01-03")).unwrap();
            assert_eq!(titles(&store), ["later"]);
        }
    }

    #[test]
    fn damaged_documents_are_set_aside_and_a_damaged_index_is_made_anew() {
        let shelf = MemoryShelf::default();
        let store = Store::new(&shelf);
        store.save(&cut("a", "one", "2026-01-01")).unwrap();
        store.save(&cut("b.c", "two", "2026-01-02")).unwrap();
        shelf.put("tautline.index", "{oh").unwrap();
        assert_eq!(titles(&store), ["two", "one"]);
        shelf.put("tautline.cut.a.1", "{\"schema\":1,").unwrap();
        assert_eq!(titles(&store), ["two", "aside a"]);
        assert!(matches!(
            store.load("a"),
            Err(StoreError::Document(DocumentError::Damaged))
        ));
        let Listed::Aside { text, .. } = &store.list().unwrap()[1] else {
            panic!("set aside")
        };
        assert_eq!(text, "{\"schema\":1,");
    }

    #[test]
    fn a_document_is_what_it_is_kept_as_and_no_revision_is_the_last() {
        let shelf = MemoryShelf::default();
        let store = Store::new(&shelf);
        store.save(&cut("a", "one", "2026-01-01")).unwrap();
        let text = cut("b", "one", "2026-01-01").to_json();
        shelf.put("tautline.cut.a.1", &text).unwrap();
        assert_eq!(store.load("a").unwrap().id, "a");
        let Listed::Cut(listed) = &store.list().unwrap()[0] else {
            panic!("a cut")
        };
        assert_eq!(listed.id, "a");
        let end = format!("tautline.cut.a.{}", u64::MAX);
        shelf.put(&end, &text).unwrap();
        for title in ["two", "three"] {
            store.save(&cut("a", title, "2026-01-02")).unwrap();
            assert_eq!(titles(&store), [title]);
        }
    }

    #[test]
    fn settings_are_kept_and_a_damaged_one_is_that_of_a_new_app() {
        let shelf = MemoryShelf::default();
        let store = Store::new(&shelf);
        assert_eq!(store.settings().unit, Unit::Cm);
        store
            .set_settings(Settings {
                unit: Unit::Inches,
                ..Settings::default()
            })
            .unwrap();
        assert_eq!(store.settings().unit, Unit::Inches);
        // A usage is kept only once it was chosen.
        assert!(
            !shelf
                .get("tautline.settings")
                .unwrap()
                .unwrap()
                .contains("usage")
        );
        shelf
            .put("tautline.settings", "{\"usage\":\"us\"}")
            .unwrap();
        assert_eq!(store.settings().usage, Some(Usage::Us));
        shelf.put("tautline.settings", "[]x").unwrap();
        assert_eq!(store.settings().unit, Unit::Cm);
    }
}
