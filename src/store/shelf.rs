//! A place that keeps texts under keys.

use super::held::Held;
use super::journal::all_of;
use crate::words::tr;
use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;

/// Why a shelf did not take or give something.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ShelfError {
    /// Nothing more fits.
    #[error(
        "{}",
        tr(
            "There is no room left on this device for Tautline. Nothing saved before is lost. Delete cuts you no longer need, then try again."
        )
    )]
    Full,
    /// The browser does not let pages keep anything.
    #[error(
        "{}",
        tr(
            "This browser keeps nothing for Tautline (a private window, or storage is switched off). What you enter is gone when the page closes."
        )
    )]
    Off,
}

/// Keeps texts under keys. Writes are whole: a failed one leaves the old text.
pub trait Shelf {
    /// The text under `key`.
    ///
    /// # Errors
    /// [`ShelfError::Off`] when the shelf cannot be reached.
    fn get(&self, key: &str) -> Result<Option<String>, ShelfError>;

    /// How long the text under `key` is, UTF-16 units.
    ///
    /// # Errors
    /// [`ShelfError::Off`] when the shelf cannot be reached.
    fn length(&self, key: &str) -> Result<Option<usize>, ShelfError> {
        Ok(self.get(key)?.as_deref().map(units))
    }

    /// Puts a text under `key`, over the old one.
    ///
    /// # Errors
    /// [`ShelfError`] when it does not fit or the shelf cannot be reached; the old text stays.
    fn put(&self, key: &str, text: &str) -> Result<(), ShelfError>;

    /// Takes a key away, if it is there.
    ///
    /// # Errors
    /// [`ShelfError::Off`] when the shelf cannot be reached.
    fn remove(&self, key: &str) -> Result<(), ShelfError>;

    /// All keys.
    ///
    /// # Errors
    /// [`ShelfError::Off`] when the shelf cannot be reached.
    fn keys(&self) -> Result<Vec<String>, ShelfError>;

    /// What could not be written and waits, one for all that stand on this shelf.
    fn held(&self) -> &Held;

    /// Puts a text into the journal, in the place of all that it has of this id: a second copy that
    /// is on the disk soon. A shelf without a journal does nothing.
    fn journal(&self, _id: &str, _key: &str, _text: &str) {}

    /// Puts many texts into the journal at once, all of them or none; `alone` if nothing else is to stay in
    /// it.
    fn journal_many(&self, _alone: bool, _notes: &[Noted]) {}
}

/// A text for the journal.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Noted {
    /// Whose it is; all that the journal has of it gives way.
    pub id: String,
    /// The key it stands under.
    pub key: String,
    /// The text.
    pub text: String,
}

/// How long a text is, UTF-16 units: what local storage counts.
pub(super) fn units(text: &str) -> usize {
    if text.is_ascii() {
        return text.len();
    }
    text.encode_utf16().count()
}

/// A shelf in memory, for tests. It can be made to fail after so many writes.
#[derive(Debug, Default)]
pub struct MemoryShelf {
    texts: RefCell<BTreeMap<String, String>>,
    journal: RefCell<BTreeMap<String, String>>,
    /// Writes that still succeed; none for no end.
    writes_left: RefCell<Option<usize>>,
    /// Whether only one write fails then.
    once: Cell<bool>,
    /// Whether one has failed.
    failed: Cell<bool>,
    /// The most bytes of keys and texts; none for no end.
    most: Cell<Option<usize>>,
    held: Held,
}

impl MemoryShelf {
    /// Lets so many more writes and removals succeed, then fails all of them.
    pub fn fail_after(&self, writes: usize) {
        *self.writes_left.borrow_mut() = Some(writes);
    }

    /// Lets so many more succeed, then fails one.
    pub fn fail_once_after(&self, writes: usize) {
        self.fail_after(writes);
        self.once.set(true);
    }

    /// Holds no more than so many bytes from now on.
    pub fn most(&self, bytes: usize) {
        self.most.set(Some(bytes));
    }

    /// Whether a write has failed since it was told to.
    pub fn spent(&self) -> bool {
        self.failed.get()
    }

    /// Lets writes succeed again.
    pub fn mend(&self) {
        self.once.set(false);
        *self.writes_left.borrow_mut() = None;
    }

    /// All texts by key.
    pub fn texts(&self) -> BTreeMap<String, String> {
        self.texts.borrow().clone()
    }

    /// Puts other texts in the place of all, as if it had forgotten what came since.
    pub fn set_texts(&self, texts: BTreeMap<String, String>) {
        *self.texts.borrow_mut() = texts;
    }

    /// The shelf as a page finds it that is opened anew: what was kept and the journal, nothing that waits.
    pub fn opened_again(&self) -> Self {
        Self {
            texts: self.texts.clone(),
            journal: self.journal.clone(),
            ..Self::default()
        }
    }

    /// What is in the journal, by key.
    pub fn journaled(&self) -> BTreeMap<String, String> {
        self.journal.borrow().clone()
    }

    fn spend(&self) -> Result<(), ShelfError> {
        let mut left = self.writes_left.borrow_mut();
        match &mut *left {
            Some(0) if self.once.get() => {
                self.failed.set(true);
                *left = None;
                Err(ShelfError::Off)
            }
            Some(0) => {
                self.failed.set(true);
                Err(ShelfError::Full)
            }
            Some(left) => {
                *left -= 1;
                Ok(())
            }
            None => Ok(()),
        }
    }

    /// Whether a text fits.
    fn fits(&self, key: &str, text: &str) -> bool {
        let texts = self.texts.borrow();
        let others = texts.iter().filter(|(other, _)| *other != key);
        let held: usize = others.map(|(key, text)| key.len() + text.len()).sum();
        let most = self.most.get();
        most.is_none_or(|most| held + key.len() + text.len() <= most)
    }
}

impl Shelf for MemoryShelf {
    fn get(&self, key: &str) -> Result<Option<String>, ShelfError> {
        Ok(self.texts.borrow().get(key).cloned())
    }

    fn put(&self, key: &str, text: &str) -> Result<(), ShelfError> {
        self.spend()?;
        if !self.fits(key, text) {
            return Err(ShelfError::Full);
        }
        self.texts
            .borrow_mut()
            .insert(key.to_owned(), text.to_owned());
        Ok(())
    }

    fn remove(&self, key: &str) -> Result<(), ShelfError> {
        self.spend()?;
        self.texts.borrow_mut().remove(key);
        Ok(())
    }

    fn keys(&self) -> Result<Vec<String>, ShelfError> {
        Ok(self.texts.borrow().keys().cloned().collect())
    }

    fn held(&self) -> &Held {
        &self.held
    }

    fn journal(&self, id: &str, key: &str, text: &str) {
        let [from, to] = all_of(id);
        let mut journal = self.journal.borrow_mut();
        journal.retain(|key, _| *key < from || *key > to);
        journal.insert(key.to_owned(), text.to_owned());
    }

    fn journal_many(&self, alone: bool, notes: &[Noted]) {
        if alone {
            self.journal.borrow_mut().clear();
        }
        for note in notes {
            self.journal(&note.id, &note.key, &note.text);
        }
    }
}
