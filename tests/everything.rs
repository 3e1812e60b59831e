//! Everything goes out as one file and comes back sign for sign; all of it or nothing.

use proptest::prelude::*;
use std::collections::BTreeMap;
use tautline::book::{Record, SavedCut};
use tautline::head::Kind;
use tautline::measure::Unit;
use tautline::store::{
    Counts, FileError, Incoming, Intent, Listed, MemoryShelf, Reading, Settings, ShelfError, Store,
    StoreError, Way,
};
use tautline::walk::Walk;

fn cut(id: &str, title: &str, at: &str) -> SavedCut {
    SavedCut::new(id, title, "soft-layers-face-frame", at)
}

/// A store with two cuts, a client, a set unit, and what can't be read.
fn full() -> Store<MemoryShelf> {
    let shelf = MemoryShelf::default();
    let store = Store::new(shelf);
    store.save(&cut("a", "one", "2026-01-01")).unwrap();
    store
        .save(&cut("b", "two \u{1f642} \"</script>\"", "2026-01-02"))
        .unwrap();
    // One that is finished is kept packed.
    let mut finished = cut("f", "three", "2026-01-02");
    finished.walk = Some(Walk {
        finished_at: Some("2026-01-02".to_owned()),
        ..Walk::start("2026-01-02")
    });
    store.save(&finished).unwrap();
    let record = Record::new("r", Kind::Person, "Invented", "2026-01-03");
    store.save_record(&record).unwrap();
    let unit = Unit::Inches;
    store
        .set_settings(Settings {
            unit,
            ..Settings::default()
        })
        .unwrap();
    store
}

/// A shelf whose texts are laid by hand.
fn laid(texts: BTreeMap<String, String>) -> MemoryShelf {
    let shelf = MemoryShelf::default();
    shelf.set_texts(texts);
    shelf
}

fn texts(store: &Store<MemoryShelf>) -> BTreeMap<String, String> {
    store.shelf().texts()
}

/// The documents by id, whatever their revision.
fn documents(store: &Store<MemoryShelf>) -> BTreeMap<String, String> {
    let mut all = BTreeMap::new();
    for (key, text) in texts(store) {
        if key.starts_with("tautline.cut.") || key.starts_with("tautline.record.") {
            let (id, _) = key.rsplit_once('.').unwrap();
            assert!(all.insert(id.to_owned(), text).is_none(), "{key} twice");
        }
    }
    all
}

fn read(text: &str) -> Incoming {
    Reading::begin(text).unwrap().done()
}

#[test]
fn out_wiped_and_back_again_everything_is_what_it_was() {
    let mut all = texts(&full());
    // Written otherwise than we would, in numbers and order; damaged; newer; kept under another name.
    let odd = "{ \"title\":\"odd\",\"schema\":3, \"id\":\"odd\",\"saved_at\":\"2026-01-01\",\"plan\":\"trim\",\"x\":1.50000000000000000001}";
    for (key, text) in [
        ("tautline.cut.odd.7", odd),
        ("tautline.cut.broken.1", "{\"schema\":3,"),
        ("tautline.cut.newer.1", "{\"schema\":99,\"id\":\"newer\"}"),
        ("tautline.cut.other.1", &cut("name", "x", "2026").to_json()),
        (
            "tautline.cut.spaced.1",
            &format!(" {}\n", cut("spaced", "x", "2026").to_json()),
        ),
        ("tautline.record.rb.1", "no"),
    ] {
        all.insert(key.to_owned(), text.to_owned());
    }
    all.remove("tautline.index");
    all.remove("tautline.records");
    let here = Store::new(laid(all));
    let file = here.to_file("2026-11-26T10:00:00.000Z").unwrap();
    let there = Store::new(MemoryShelf::default());
    let incoming = read(&file);
    assert_eq!(incoming.count(), 10);
    assert!(!file.contains("~"), "nothing in it is packed");
    there.take_in(&incoming, Way::Replace).unwrap();
    assert_eq!(documents(&there), documents(&here));
    assert_eq!(there.settings().unit, Unit::Inches);
    // And the file made of it is the same again, but for how often the settings were kept.
    let again = there.to_file("2026-11-26T10:00:00.000Z").unwrap();
    assert_eq!(again.len(), file.len());
    // A merge onto itself changes nothing.
    let before = texts(&there);
    there.take_in(&read(&again), Way::Merge).unwrap();
    assert_eq!(texts(&there), before);
}

#[test]
fn a_card_goes_out_with_its_visits_and_nothing_else() {
    let store = full();
    let mut visit = cut("v", "Visit", "2026-01-04");
    visit.visit.of = "r".to_owned();
    store.save(&visit).unwrap();
    let file = store.card_to_file("r", "2026-01-05").unwrap();
    assert!(
        !file.contains("inches") && !file.contains("three"),
        "{file}"
    );
    let other = Store::new(MemoryShelf::default());
    other.take_in(&read(&file), Way::Merge).unwrap();
    let (there, here) = (documents(&other), documents(&store));
    assert_eq!(there.len(), 2);
    for (id, text) in &there {
        assert_eq!(here.get(id), Some(text), "{id}");
    }
    assert_eq!(
        store
            .card_to_file("gone", "t")
            .unwrap()
            .matches("\"id\"")
            .count(),
        0
    );
}

#[test]
fn a_merge_says_before_what_it_does_and_the_later_saved_stays() {
    let file = {
        let store = full();
        store.save(&cut("c", "in the file", "2026-03-01")).unwrap();
        store.save(&cut("d", "in the file", "2026-03-01")).unwrap();
        store.save(&cut("n", "new", "2026-03-01")).unwrap();
        store.to_file("t").unwrap()
    };
    let store = full();
    store.save(&cut("c", "here, later", "2026-04-01")).unwrap();
    store
        .save(&cut("d", "here, earlier", "2026-02-01"))
        .unwrap();
    store.save(&cut("h", "here only", "2026-02-01")).unwrap();
    store.set_settings(Settings::default()).unwrap();
    let incoming = read(&file);
    let expected = Intent {
        cuts: Counts {
            new: 1,
            same: 3,
            later_here: 1,
            later_in_file: 1,
            damaged: 0,
            only_here: 1,
        },
        records: Counts {
            same: 1,
            ..Counts::default()
        },
    };
    let before = texts(&store);
    assert_eq!(incoming.look(&store).unwrap(), expected);
    assert_eq!(texts(&store), before, "looked at only");
    store.take_in(&incoming, Way::Merge).unwrap();
    let title = |id: &str| store.load(id).unwrap().title;
    assert_eq!(
        ["c", "d", "h", "n"].map(title),
        ["here, later", "in the file", "here only", "new"]
    );
    assert_eq!(store.settings().unit, Unit::Cm, "a merge sets nothing");
    assert!(
        store.load("d").unwrap().revision > 1,
        "a window that has it open notices"
    );
}

#[test]
fn what_does_not_read_is_set_aside_and_pushes_nothing_out() {
    let store = full();
    let good = cut("a", "one", "2026-01-01").to_json();
    let damaged = "{\"schema\":3,\"id\":\"a\",\"title\":4}";
    let file = |cut: &str| format!("{{\"kind\":\"tautline\",\"schema\":1,\"cuts\":[{cut}]}}");
    let incoming = read(&file(damaged));
    assert_eq!(incoming.look(&store).unwrap().cuts.damaged, 1);
    for _ in 0..2 {
        store.take_in(&incoming, Way::Merge).unwrap();
        let all = documents(&store);
        assert_eq!(all["tautline.cut.a"], good);
        assert_eq!(all["tautline.cut.a~1"], damaged);
        assert_eq!(all.len(), 5);
    }
    // The other way round, the damaged one here stays too.
    let here = Store::new(laid(BTreeMap::from([(
        "tautline.cut.a.1".to_owned(),
        damaged.to_owned(),
    )])));
    here.take_in(&read(&file(&good)), Way::Merge).unwrap();
    assert_eq!(documents(&here)["tautline.cut.a"], damaged);
    assert_eq!(here.load("a~1").unwrap().title, "one");
}

#[test]
fn the_file_of_a_crash_is_read() {
    let store = full();
    let keys: BTreeMap<String, String> = texts(&store);
    let file = serde_json::json!({"kind": "tautline-rescue", "keys": keys}).to_string();
    let there = Store::new(MemoryShelf::default());
    there.take_in(&read(&file), Way::Replace).unwrap();
    assert_eq!(documents(&there), documents(&store));
    assert_eq!(there.settings().unit, Unit::Inches);
}

#[test]
fn a_failure_at_any_write_leaves_everything_as_it_was() {
    let mut failed = 0;
    for way in [Way::Merge, Way::Replace] {
        let file = {
            let store = full();
            store.save(&cut("a", "one, later", "2026-05-01")).unwrap();
            store.save(&cut("n", "new", "2026-05-01")).unwrap();
            store.to_file("t").unwrap()
        };
        let incoming = read(&file);
        for writes in 0..30 {
            let store = full();
            store.save(&cut("h", "here", "2026-05-01")).unwrap();
            let (before, journal) = (texts(&store), store.shelf().journaled());
            store.shelf().fail_once_after(writes);
            let taken = store.take_in(&incoming, way);
            store.shelf().mend();
            match taken {
                Ok(()) => assert_eq!(store.load("a").unwrap().title, "one, later"),
                Err(StoreError::Shelf(ShelfError::Off)) => {
                    failed += 1;
                    assert_eq!(texts(&store), before, "{way:?} after {writes}");
                    assert_eq!(store.shelf().journaled(), journal);
                }
                Err(why) => panic!("{why}"),
            }
        }
    }
    assert!(failed > 6, "{failed}");
}

#[test]
fn a_full_shelf_gets_room_first_or_stays_as_it_was() {
    let file = full().to_file("t").unwrap();
    let incoming = read(&file);
    let size = |texts: &BTreeMap<String, String>| -> usize {
        texts.iter().map(|(k, t)| k.len() + t.len()).sum()
    };
    let store = full();
    store
        .save(&cut("h", &"long ".repeat(400), "2026-05-01"))
        .unwrap();
    let before = texts(&store);
    // As much as there is now, and no more: what goes anyway makes room.
    store.shelf().most(size(&before) + 40);
    store.take_in(&incoming, Way::Replace).unwrap();
    assert_eq!(documents(&store), documents(&full()));
    // Too much for it whatever goes.
    let large = {
        let store = full();
        store
            .save(&cut("l", &"long ".repeat(4000), "2026-05-01"))
            .unwrap();
        store.to_file("t").unwrap()
    };
    let before = texts(&store);
    for way in [Way::Replace, Way::Merge] {
        let taken = store.take_in(&read(&large), way);
        assert_eq!(taken, Err(StoreError::Shelf(ShelfError::Full)), "{way:?}");
        assert_eq!(texts(&store), before, "{way:?}");
    }
}

#[test]
fn nothing_that_was_replaced_comes_back_at_the_next_start() {
    let store = full();
    store.save(&cut("h", "here only", "2026-05-01")).unwrap();
    let on_disk = texts(&store);
    let other = Store::new(MemoryShelf::default());
    other.save(&cut("a", "another", "2020-01-01")).unwrap();
    store
        .take_in(&read(&other.to_file("t").unwrap()), Way::Replace)
        .unwrap();
    let after = documents(&store);
    assert_eq!(after.len(), 1);
    let journal: Vec<String> = store.shelf().journaled().into_keys().collect();
    let due = store.due(&journal).unwrap();
    assert!(due.put_back.is_empty() && due.delete.is_empty(), "{due:?}");
    // Local storage forgot it all: the journal brings it about again.
    store.shelf().set_texts(on_disk);
    for (key, text) in store.shelf().journaled() {
        store.put_back(&key, &text).unwrap();
    }
    assert_eq!(documents(&store), after);
}

fn refused(text: &str) -> FileError {
    Reading::begin(text)
        .map(|reading| reading.so_far())
        .unwrap_err()
}

#[test]
fn what_is_no_file_of_ours_is_refused_in_a_sentence() {
    let file = full().to_file("t").unwrap();
    for n in (0..file.len()).step_by(7) {
        if file.is_char_boundary(n) {
            assert_eq!(refused(&file[..n]), FileError::Damaged, "cut off at {n}");
        }
    }
    for strange in [
        "",
        "[]",
        "{}",
        "null",
        "hello",
        "{\"kind\":\"other\"}",
        "{\"kind\":\"tautline\"}",
        "{\"kind\":\"tautline\",\"schema\":1,\"cuts\":3}",
        "{\"kind\":\"tautline\",\"schema\":1,\"cuts\":[NaN]}",
        "{\"kind\":\"tautline\",\"schema\":-1}",
        &[
            "{\"kind\":\"tautline\",\"schema\":1,\"cuts\":[",
            &"7,".repeat(1_000_000),
            "7]}",
        ]
        .concat(),
        &"[".repeat(100_000),
        &[
            "{\"kind\":\"tautline\",\"schema\":1,\"cuts\":",
            &"[".repeat(100_000),
        ]
        .concat(),
    ] {
        assert_eq!(refused(strange), FileError::Damaged, "{strange:.60}");
    }
    assert_eq!(
        refused("{\"kind\":\"tautline\",\"schema\":2,\"cuts\":[]}"),
        FileError::Newer
    );
    assert_eq!(
        refused("{\"kind\":\"tautline-sealed\",\"schema\":1}"),
        FileError::Sealed
    );
    assert_eq!(
        refused("{\"kind\":\"tautline-plan\",\"schema\":1}"),
        FileError::Plan
    );
    // Whole as a file, but of nonsense: set aside under names that keys can have.
    let nested = ["[".repeat(100_000), "]".repeat(100_000)].concat();
    let file = format!(
        "{{\"kind\":\"tautline\",\"schema\":1,\"cuts\":[{nested},7,{{\"id\":\"a\\nb\"}},{{\"id\":\"@x\"}},{{\"id\":\"\"}}],\"aside\":[{{\"place\":\"cut\",\"id\":\"{}\",\"text\":\"\"}}]}}",
        "i".repeat(3000)
    );
    let store = Store::new(MemoryShelf::default());
    let incoming = read(&file);
    assert_eq!(incoming.look(&store).unwrap().cuts.damaged, 6);
    store.take_in(&incoming, Way::Merge).unwrap();
    let aside = |listed: &Listed| matches!(listed, Listed::Aside { .. });
    assert_eq!(store.list().unwrap().iter().filter(|l| aside(l)).count(), 6);
    assert!(
        texts(&store)
            .keys()
            .all(|key| key.len() < 120 && !key.contains('\n'))
    );
}

proptest! {
    /// Whatever a file says: it is refused or taken in whole, and what it was taken from stays readable.
    #[test]
    fn any_change_of_a_file_is_refused_or_taken_in(at in 0..3000_usize, sign in "\\PC{0,2}", cut_off in 0..3_usize) {
        let file = full().to_file("t").unwrap();
        let at = at % file.len();
        prop_assume!(file.is_char_boundary(at) && file.is_char_boundary((at + cut_off).min(file.len())));
        let text = [&file[..at], &sign, &file[(at + cut_off).min(file.len())..]].concat();
        if let Ok(reading) = Reading::begin(&text) {
            let incoming = reading.done();
            let store = full();
            incoming.look(&store).unwrap();
            store.take_in(&incoming, Way::Merge).unwrap();
            prop_assert!(store.list().unwrap().len() >= 2);
        }
    }
}
