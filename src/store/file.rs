//! Everything that is kept as one file, and the reading of one.
//!
//! ```text
//! {"kind":"tautline","schema":1,"saved_at":"2026-11-26T17:00:00.000Z","settings":{…},
//!  "records":[…],"cuts":[…],"aside":[{"place":"cut","id":"…","text":"…"}]}
//! ```
//! Documents stand in it as they are kept, sign for sign. What does not read, or does not say the name
//! it is kept under, stands under `aside` as a text. What can be taken back does not travel, nor does the
//! lock. The file that is saved after a crash (`kind` `tautline-rescue`: every key of the shelf and its
//! text) is read too.

use super::index::{SETTINGS, Store, StoreError};
use super::lines::readable;
use super::shelf::{MemoryShelf, Shelf};
use super::shelved::{CUTS, Place, RECORDS};
use crate::book::{DocumentError, Record, SavedCut, keep_packed};
use crate::json;
use crate::words::tr;
use serde::de::{Error, SeqAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize};
use serde_json::value::RawValue;
use std::collections::BTreeMap;
use std::marker::PhantomData;

const KIND: &str = "tautline";
const RESCUE: &str = "tautline-rescue";
const SEALED: &str = "tautline-sealed";
const PLAN: &str = "tautline-plan";
/// The version of the file that this app writes.
const SCHEMA: u32 = 1;
/// The most bytes of a file that are read: six times what a browser lets a page keep.
pub const MOST_FILE: u32 = 32_000_000;
/// The most documents of one kind. Judgement: more than a working life has visits that fit.
const MOST_DOCUMENTS: usize = 20_000;
/// The longest name that a document is kept under. Judgement: ours have some 20 signs.
const LONGEST_ID: usize = 80;

/// Why a file can't be taken in.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum FileError {
    /// It is larger than anything that could be kept.
    #[error(
        "{}",
        tr("This file is larger than anything Tautline can keep. Nothing was changed.")
    )]
    TooLarge,
    /// It is cut short, or no file of ours.
    #[error(
        "{}",
        tr(
            "This file is damaged, cut short, or not one that Tautline saved. Nothing was changed."
        )
    )]
    Damaged,
    /// A newer version of the app saved it.
    #[error(
        "{}",
        tr(
            "A newer Tautline saved this file. Load the page again to get the new version. Nothing was changed."
        )
    )]
    Newer,
    /// It is sealed.
    #[error("{}", tr("This file is sealed: its passphrase is needed."))]
    Sealed,
    /// It holds one plan.
    #[error(
        "{}",
        tr(
            "This is one plan that was passed on, not a file of everything. “Open a plan from a file or link” is for it."
        )
    )]
    Plan,
}

/// A file as it is written and read.
#[derive(Debug, Default, Serialize, Deserialize)]
#[serde(default)]
struct Whole {
    kind: String,
    schema: u32,
    #[serde(skip_serializing_if = "String::is_empty")]
    saved_at: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    settings: Option<Box<RawValue>>,
    #[serde(deserialize_with = "few")]
    records: Vec<Box<RawValue>>,
    #[serde(deserialize_with = "few")]
    cuts: Vec<Box<RawValue>>,
    #[serde(deserialize_with = "few")]
    aside: Vec<Aside>,
    /// Of a file saved after a crash.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    keys: BTreeMap<String, String>,
}

/// Reads no more than [`MOST_DOCUMENTS`]: a file of millions of nothings would take all memory.
fn few<'a, T: Deserialize<'a>, D: Deserializer<'a>>(from: D) -> Result<Vec<T>, D::Error> {
    struct Few<T>(PhantomData<T>);
    impl<'a, T: Deserialize<'a>> Visitor<'a> for Few<T> {
        type Value = Vec<T>;
        fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
            f.write_str("a list")
        }
        fn visit_seq<A: SeqAccess<'a>>(self, mut from: A) -> Result<Vec<T>, A::Error> {
            let mut all = Vec::new();
            while let Some(next) = from.next_element()? {
                if all.len() == MOST_DOCUMENTS {
                    return Err(A::Error::custom("too many"));
                }
                all.push(next);
            }
            Ok(all)
        }
    }
    from.deserialize_seq(Few(PhantomData))
}

/// A text that does not stand as a document.
#[derive(Debug, Serialize, Deserialize)]
struct Aside {
    place: Word,
    id: String,
    text: String,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Word {
    Cut,
    Record,
}

/// One document of a file.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Document {
    pub(super) place: Place,
    pub(super) id: String,
    pub(super) text: String,
    /// When it was saved; none if it does not read.
    pub(super) saved_at: Option<String>,
    /// Whether it is a cut that is finished, which is kept packed.
    finished: bool,
}

impl Document {
    /// It as it is kept.
    pub(super) fn as_kept(&self) -> String {
        if self.finished {
            keep_packed(&self.text)
        } else {
            self.text.clone()
        }
    }

    /// Looks at a text; `id` is the name it was kept under, where that is known.
    fn of(place: Place, id: Option<String>, text: String, nth: usize) -> Self {
        let mut finished = false;
        let read = if place == RECORDS {
            Record::from_json(&text).map(|record| (record.id, record.saved_at))
        } else {
            SavedCut::from_json(&text).map(|cut| {
                finished = cut.finished();
                (cut.id, cut.saved_at)
            })
        };
        let (own, saved_at) = match read {
            Ok((own, at)) => (Some(own), Some(at)),
            Err(DocumentError::Newer | DocumentError::Damaged) => (own_id(&text), None),
        };
        let sound = |id: &String| {
            (1..=LONGEST_ID).contains(&id.len())
                && !id.contains(|c: char| c.is_control() || c == '@')
        };
        let id = [id, own].into_iter().flatten().find(sound);
        Self {
            place,
            id: id.unwrap_or_else(|| format!("unnamed-{nth}")),
            text,
            saved_at,
            finished,
        }
    }
}

/// When the document that a text is was saved; none if it does not read.
pub(super) fn saved_at(place: Place, text: String) -> Option<String> {
    Document::of(place, None, text, 0).saved_at
}

/// The name that a text says of itself.
fn own_id(text: &str) -> Option<String> {
    Some(json::tree(text).ok()?.get("id")?.as_str()?.to_owned())
}

impl<S: Shelf> Store<S> {
    /// Everything that is kept, as the text of one file.
    ///
    /// # Errors
    /// [`StoreError::Shelf`] when the shelf cannot be reached.
    pub fn to_file(&self, now: &str) -> Result<String, StoreError> {
        let settings = self.shelf.get(SETTINGS)?;
        let whole = Whole {
            settings: settings.and_then(|text| RawValue::from_string(text).ok()),
            ..Whole::default()
        };
        let mut ids = Vec::new();
        for (place, word) in [(RECORDS, Word::Record), (CUTS, Word::Cut)] {
            let index = self.index(place)?;
            ids.push((place, word, index.cuts.into_keys().collect()));
        }
        self.written(whole, ids, now)
    }

    /// One client or practice head and their visits, as the text of a file that can be taken in like that
    /// of everything.
    ///
    /// # Errors
    /// [`StoreError::Shelf`] when the shelf cannot be reached.
    pub fn card_to_file(&self, id: &str, now: &str) -> Result<String, StoreError> {
        let lines = self.lines(&[])?.cuts;
        let ours = lines.iter().filter(|line| line.of == id);
        let visits = ours.map(|line| line.id.clone()).collect();
        let ids = vec![
            (RECORDS, Word::Record, vec![id.to_owned()]),
            (CUTS, Word::Cut, visits),
        ];
        self.written(Whole::default(), ids, now)
    }

    fn written(
        &self,
        whole: Whole,
        ids: Vec<(Place, Word, Vec<String>)>,
        now: &str,
    ) -> Result<String, StoreError> {
        let mut whole = Whole {
            kind: KIND.to_owned(),
            schema: SCHEMA,
            saved_at: now.to_owned(),
            ..whole
        };
        for (place, word, ids) in ids {
            for id in ids {
                let text = match self.text_of(place, &id) {
                    Ok((text, _)) => readable(text),
                    Err(StoreError::NotFound) => continue,
                    Err(why) => return Err(why),
                };
                let same = |raw: &RawValue| raw.get() == text;
                let reads = own_id(&text).as_ref() == Some(&id);
                let raw = RawValue::from_string(text.clone()).ok();
                match raw.filter(|raw| reads && same(raw)) {
                    Some(raw) if word == Word::Record => whole.records.push(raw),
                    Some(raw) => whole.cuts.push(raw),
                    None => whole.aside.push(Aside {
                        place: word,
                        id,
                        text,
                    }),
                }
            }
        }
        // Texts and numbers: writing them cannot fail.
        Ok(serde_json::to_string(&whole).unwrap_or_default())
    }
}

/// A file that is being read, some documents at a time, so that a page can go on meanwhile.
#[derive(Debug)]
pub struct Reading {
    /// What is still to be looked at, the last first.
    waiting: Vec<(Place, Option<String>, String)>,
    of: usize,
    read: Incoming,
}

/// A file that was read: documents, and what was set.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Incoming {
    /// When it was saved, as an ISO 8601 time; empty if it does not say.
    pub saved_at: String,
    pub(super) settings: Option<String>,
    /// Records before cuts, each by id.
    pub(super) documents: Vec<Document>,
}

impl Reading {
    /// Opens the text of a file.
    ///
    /// # Errors
    /// [`FileError`] with a sentence, whatever the text is.
    pub fn begin(text: &str) -> Result<Self, FileError> {
        if text.len() > MOST_FILE as usize {
            return Err(FileError::TooLarge);
        }
        let text = text.trim_start_matches('\u{feff}');
        // Read as it stands: in a tree numbers would lose how they were written.
        let whole: Whole = serde_json::from_str(text).map_err(|_| FileError::Damaged)?;
        match whole.kind.as_str() {
            RESCUE => return Self::of_rescue(whole.keys),
            SEALED => return Err(FileError::Sealed),
            PLAN => return Err(FileError::Plan),
            KIND => {}
            _ => return Err(FileError::Damaged),
        }
        match whole.schema {
            SCHEMA => {}
            0 => return Err(FileError::Damaged),
            _ => return Err(FileError::Newer),
        }
        let mut waiting = Vec::new();
        for (place, all) in [(CUTS, whole.cuts), (RECORDS, whole.records)] {
            for raw in all {
                waiting.push((place, None, raw.get().to_owned()));
            }
        }
        for Aside { place, id, text } in whole.aside {
            let place = if place == Word::Record { RECORDS } else { CUTS };
            waiting.push((place, Some(id), text));
        }
        let settings = whole.settings.map(|raw| raw.get().to_owned());
        Ok(Self::over(waiting, settings, whole.saved_at))
    }

    /// A file saved after a crash: its keys are a shelf.
    fn of_rescue(keys: BTreeMap<String, String>) -> Result<Self, FileError> {
        let shelf = MemoryShelf::default();
        shelf.set_texts(keys);
        let store = Store::new(shelf);
        let mut waiting = Vec::new();
        for place in [CUTS, RECORDS] {
            let index = store.index(place).map_err(|_| FileError::Damaged)?;
            for id in index.cuts.into_keys() {
                if let Ok((text, _)) = store.text_of(place, &id) {
                    waiting.push((place, Some(id), readable(text)));
                }
            }
        }
        let settings = store.shelf.get(SETTINGS).ok().flatten();
        Ok(Self::over(waiting, settings, String::new()))
    }

    fn over(
        waiting: Vec<(Place, Option<String>, String)>,
        settings: Option<String>,
        saved_at: String,
    ) -> Self {
        let read = Incoming {
            saved_at,
            settings,
            documents: Vec::new(),
        };
        Self {
            of: waiting.len(),
            waiting,
            read,
        }
    }

    /// How many documents were looked at, and of how many.
    pub fn so_far(&self) -> (usize, usize) {
        (self.of - self.waiting.len(), self.of)
    }

    /// Looks at the next document; false once there is none.
    pub fn step(&mut self) -> bool {
        let nth = self.waiting.len();
        let Some((place, id, text)) = self.waiting.pop() else {
            return false;
        };
        let document = Document::of(place, id, text, nth);
        let all = &mut self.read.documents;
        let order = |d: &Document| (d.place == CUTS, d.id.clone());
        let at = all.partition_point(|d| order(d) < order(&document));
        match all.get_mut(at).filter(|d| order(d) == order(&document)) {
            // Two of one name: the later saved stays.
            Some(twin) if document.saved_at > twin.saved_at => *twin = document,
            Some(_) => {}
            None => all.insert(at, document),
        }
        true
    }

    /// What was read.
    pub fn done(mut self) -> Incoming {
        while self.step() {}
        self.read
    }
}
