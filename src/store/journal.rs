//! The journal: a second copy of what is kept, for a device that dies.
//!
//! A browser may hold what goes into local storage in memory for seconds; a process that is killed
//! takes it along. So every saved text goes into the journal too, which is on the disk before the
//! next tap, and at the start what the journal has newer is put back. Here stands what is decided,
//! in plain Rust; how a browser keeps it stands beside it.
//!
//! An entry's key is an id, a revision, and for a cut that was deleted a mark: the keys alone tell
//! what has to be read.

use std::collections::BTreeMap;

/// The id that the settings have in the journal; no cut has it.
pub const SETTINGS_ID: &str = ".settings";

/// What stands between the parts of a key; no id has it.
const BETWEEN: char = '\n';
/// What ends the key of a cut that was deleted.
const GONE: &str = "gone";

/// The key of one revision.
pub fn entry_key(id: &str, revision: u64) -> String {
    format!("{id}{BETWEEN}{revision}")
}

/// The key that says that a cut was deleted after that revision.
pub fn gone_key(id: &str, revision: u64) -> String {
    format!("{id}{BETWEEN}{revision}{BETWEEN}{GONE}")
}

/// Between which two keys everything lies that the journal has of an id.
pub fn all_of(id: &str) -> [String; 2] {
    [
        format!("{id}{BETWEEN}"),
        format!("{id}{BETWEEN}{}", char::MAX),
    ]
}

/// A key, read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Entry<'a> {
    /// Whose it is.
    pub id: &'a str,
    /// Which revision.
    pub revision: u64,
    /// Whether it says that the cut was deleted.
    pub gone: bool,
}

/// Reads a key; none if it is none of ours.
pub fn read_key(key: &str) -> Option<Entry<'_>> {
    let mut parts = key.split(BETWEEN);
    let (id, revision) = (parts.next()?, parts.next()?.parse().ok()?);
    let gone = match parts.next() {
        None => false,
        Some(mark) if mark == GONE => true,
        Some(_) => return None,
    };
    (!id.is_empty()).then_some(Entry { id, revision, gone })
}

/// What is to be done at the start.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Due {
    /// Keys whose texts are newer than what is kept.
    pub put_back: Vec<String>,
    /// Keys that say of something kept that it was deleted.
    pub delete: Vec<String>,
    /// Keys that have done their work.
    pub done: Vec<String>,
}

impl Due {
    /// Compares the journal's keys with the revisions that are kept, by id. Of two copies the one
    /// with the higher revision is in force; where they are alike nothing is done.
    pub fn of(keys: &[String], kept: &BTreeMap<String, u64>) -> Self {
        let mut due = Self::default();
        for key in keys {
            let Some(entry) = read_key(key) else { continue };
            let here = kept.get(entry.id).copied();
            let newer = here.is_none_or(|here| entry.revision > here);
            match (entry.gone, here) {
                (false, _) if newer => due.put_back.push(key.clone()),
                (true, Some(_)) if newer => due.delete.push(key.clone()),
                (true, None) => due.done.push(key.clone()),
                _ => {}
            }
        }
        due
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Listed, ListedRecord, MemoryShelf, Settings, Shelf, Store};
    use super::*;
    use crate::book::{Record, SavedCut};
    use crate::head::Kind;
    use crate::measure::Unit;
    use crate::walk::Walk;

    fn keys(of: &[&str]) -> Vec<String> {
        of.iter().map(|key| (*key).to_owned()).collect()
    }

    #[test]
    fn a_key_is_read_as_it_was_written_and_strangers_are_left_alone() {
        let entry = |id, revision, gone| Some(Entry { id, revision, gone });
        assert_eq!(read_key(&entry_key("a.b", 12)), entry("a.b", 12, false));
        assert_eq!(
            read_key(&gone_key("a", u64::MAX)),
            entry("a", u64::MAX, true)
        );
        for strange in ["", "a", "a\n", "a\nx", "\n1", "a\n1\nwell", "a\n-1"] {
            assert_eq!(read_key(strange), None, "{strange:?}");
        }
        let [from, to] = all_of("a");
        for inside in [
            entry_key("a", 0),
            entry_key("a", u64::MAX),
            gone_key("a", 7),
        ] {
            assert!(from < inside && inside < to, "{inside:?}");
        }
        for outside in [entry_key("a.1", 3), entry_key("aa", 3), entry_key("A", 3)] {
            assert!(outside < from || to < outside, "{outside:?}");
        }
    }

    #[test]
    fn only_what_is_newer_is_due() {
        let kept = BTreeMap::from([
            ("a".to_owned(), 4),
            ("b".to_owned(), 4),
            ("c".to_owned(), 4),
        ]);
        let due = Due::of(
            &keys(&[
                "a\n5",
                "b\n4",
                "c\n3",
                "d\n1",
                "a\nodd",
                "c\n3\ngone",
                "e\n9\ngone",
                "b\n5\ngone",
            ]),
            &kept,
        );
        assert_eq!(due.put_back, ["a\n5", "d\n1"]);
        assert_eq!(due.delete, ["b\n5\ngone"]);
        assert_eq!(due.done, ["e\n9\ngone"]);
    }

    type Called = Vec<(String, String)>;

    /// What a store shows: each cut's title, each card's name, and the unit.
    fn seen(shelf: &MemoryShelf) -> (Called, Called, Unit) {
        let store = Store::new(shelf);
        let mut cuts: Vec<_> = store
            .list()
            .unwrap()
            .into_iter()
            .map(|listed| match listed {
                Listed::Cut(cut) => (cut.id, cut.title),
                Listed::Aside { id, .. } => panic!("{id} set aside"),
            })
            .collect();
        cuts.sort();
        let records = store.records().unwrap().into_iter();
        let records = records.map(|listed| match listed {
            ListedRecord::Record(record) => (record.id, record.name),
            ListedRecord::Aside { id, .. } => panic!("{id} set aside"),
        });
        // The lists read lines and names alone, and say the same.
        let lines = store.lines(&[]).unwrap().cuts.into_iter();
        let lines = lines.map(|line| (line.id.clone(), line.title.clone()));
        assert_eq!(cuts, lines.collect::<Called>());
        let records: Called = records.collect();
        let names = store.names(&[]).unwrap().into_iter();
        let names = names.map(|named| (named.id.clone(), named.name.clone()));
        assert_eq!(records, names.collect::<Called>());
        (cuts, records, store.settings().unit)
    }

    #[test]
    fn whatever_the_shelf_forgets_comes_back() {
        // A walk of chance over two cuts, open and finished, two cards of the same ids, and the
        // settings; now and then the shelf falls back to what
        // it was a while before, as local storage does when the browser is killed.
        let mut state = 7_u32;
        let mut chance = |below: u32| {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            (state >> 16) % below
        };
        let shelf = MemoryShelf::default();
        let mut on_disk = shelf.texts();
        let mut ids = ["a".to_owned(), "b".to_owned()];
        let mut of_cards = ids.clone();
        let mut forgotten = 0;
        for n in 0..2000 {
            let store = Store::new(&shelf);
            let slot = chance(2) as usize;
            let id = ids[slot].clone();
            match chance(14) {
                10 => {
                    store.delete_record(&of_cards[slot]).unwrap();
                    of_cards[slot] = format!("id{n}");
                }
                11..=13 => {
                    let name = n.to_string();
                    let record = Record::new(&of_cards[slot], Kind::Person, &name, "t");
                    store.save_record(&record).unwrap();
                }
                0 => {
                    store.delete(&id).unwrap();
                    // No id comes twice.
                    ids[slot] = format!("id{n}");
                }
                1 => store
                    .set_settings(Settings {
                        unit: [Unit::Cm, Unit::Inches][chance(2) as usize],
                        ..Settings::default()
                    })
                    .unwrap(),
                2 => on_disk = shelf.texts(),
                3 => {
                    let before = seen(&shelf);
                    shelf.set_texts(on_disk.clone());
                    forgotten += usize::from(seen(&shelf) != before);
                    // As a start does it.
                    let journal = shelf.journaled();
                    let all: Vec<String> = journal.keys().cloned().collect();
                    let due = store.due(&all).unwrap();
                    for key in due.put_back.iter().chain(&due.delete) {
                        assert!(store.put_back(key, &journal[key]).unwrap(), "{key:?}");
                    }
                    let due = store.due(&keys(&[])).unwrap();
                    assert_eq!(due, Due::default());
                    let journal: Vec<String> = shelf.journaled().into_keys().collect();
                    let due = store.due(&journal).unwrap();
                    assert!(due.put_back.is_empty() && due.delete.is_empty(), "{due:?}");
                    assert_eq!(seen(&shelf), before, "step {n}");
                    on_disk = shelf.texts();
                }
                _ => {
                    let mut cut = SavedCut::new(&id, &format!("{n}"), "trim", "t");
                    // A finished one is kept, and journaled, packed.
                    let finished_at = (n % 3 == 0).then(|| "t".to_owned());
                    cut.walk = Some(Walk {
                        finished_at,
                        ..Walk::start("t")
                    });
                    store.save(&cut).unwrap();
                }
            }
        }
        assert!(forgotten > 50, "{forgotten}");
    }

    #[test]
    fn a_damaged_entry_and_an_older_one_change_nothing() {
        let shelf = MemoryShelf::default();
        let store = Store::new(&shelf);
        for title in ["one", "two"] {
            store.save(&SavedCut::new("a", title, "trim", "t")).unwrap();
        }
        let before = shelf.texts();
        for (key, text) in [
            ("a\n9", "{oh"),
            ("a\n9", ""),
            ("a\n1", &SavedCut::new("a", "old", "trim", "t").to_json()),
            ("a\n1\ngone", ""),
            ("odd", "{}"),
            (".settings\n9", "[]x"),
        ] {
            assert!(!store.put_back(key, text).unwrap(), "{key:?}");
            assert_eq!(shelf.texts(), before, "{key:?}");
        }
        // Of a newer app: it can't be read here, but it must not be lost either.
        assert!(store.put_back("a\n9", "{\"schema\":99}").unwrap());
        assert!(shelf.get("tautline.cut.a.9").unwrap().is_some());
    }
}
