//! What every released version of the app left on a device is read by this one: whole stores, files, links.

use std::collections::BTreeMap;
use tautline::book::{Passed, Record, SavedCut, keep_packed};
use tautline::cut::Measured;
use tautline::measure::{Hand, Unit, Usage};
use tautline::store::{
    Listed, ListedRecord, Look, MemoryShelf, Reading, Store, Way, is_sealed, open,
};

const STORES: [(&str, &str); 5] = [
    ("store-1", include_str!("data/saved/store-1.json")),
    ("store-2", include_str!("data/saved/store-2.json")),
    ("store-3", include_str!("data/saved/store-3.json")),
    ("store-4", include_str!("data/saved/store-4.json")),
    ("store-5", include_str!("data/saved/store-5.json")),
];

type Texts = BTreeMap<String, String>;

/// Local storage and the journal of a fixture.
fn laid(text: &str) -> (Texts, Texts) {
    let tree: serde_json::Value = serde_json::from_str(text).unwrap();
    let texts = |name: &str| -> Texts {
        let all = tree.get(name).and_then(|all| all.as_object());
        let all = all.into_iter().flatten();
        all.map(|(key, text)| (key.clone(), text.as_str().unwrap().to_owned()))
            .collect()
    };
    (texts("keys"), texts("journal"))
}

/// The store that this app makes of it at its start.
fn started(text: &str) -> Store<MemoryShelf> {
    let (keys, journal) = laid(text);
    let shelf = MemoryShelf::default();
    shelf.set_texts(keys);
    let store = Store::new(shelf);
    let due = store
        .due(&journal.keys().cloned().collect::<Vec<_>>())
        .unwrap();
    for key in due.put_back {
        assert!(store.put_back(&key, &journal[&key]).unwrap(), "{key:?}");
    }
    store
}

fn cuts(store: &Store<MemoryShelf>) -> Vec<SavedCut> {
    let all = store.list().unwrap().into_iter();
    all.map(|listed| match listed {
        Listed::Cut(cut) => *cut,
        Listed::Aside { id, why, .. } => panic!("{id}: {why}"),
    })
    .collect()
}

#[test]
fn a_store_as_every_version_left_it_is_read_whole_and_works_out() {
    for (name, text) in STORES {
        let store = started(text);
        let cuts = cuts(&store);
        assert!(!cuts.is_empty(), "{name}");
        for cut in &cuts {
            let ready = cut.ready().unwrap();
            let outcome = ready.outcome(&Measured::new()).unwrap();
            assert!(!outcome.sections.is_empty(), "{name} {}", cut.id);
            if let Some(walk) = &cut.walk {
                assert!(ready.followed(walk).is_ok(), "{name} {}", cut.id);
                for done in &walk.done {
                    let section = outcome.section(&done.key);
                    assert!(section.is_some(), "{name} {}: {:?}", cut.id, done.key);
                }
            }
        }
        for listed in store.records().unwrap() {
            assert!(matches!(listed, ListedRecord::Record(_)), "{name}");
        }
        assert_eq!(store.lines(&[]).unwrap().cuts.len(), cuts.len(), "{name}");
        // What was kept is still so, sign for sign, until it is changed.
        let (keys, _) = laid(text);
        let now = store.shelf().texts();
        for (key, text) in &keys {
            if key.starts_with("tautline.cut.") && name != "store-3" {
                assert_eq!(now.get(key), Some(text), "{name} {key}");
            }
        }
        // And kept again by this app it is sound.
        for cut in cuts {
            store.save(&cut).unwrap();
        }
        let mut faults = store.faults();
        if name == "store-2" {
            faults.retain(|fault| !fault.contains("taken back"));
        }
        assert!(faults.is_empty(), "{name}: {faults:?}");
    }
}

#[test]
fn what_was_set_and_what_could_be_taken_back_is_still_so() {
    let of = |n: usize| started(STORES[n].1);
    assert_eq!(of(0).settings().unit, Unit::Inches);
    assert!(
        of(0).settings().buzz,
        "as in a new app where it was not asked yet"
    );
    let two = of(1).settings();
    assert_eq!((two.usage, two.hand), (Some(Usage::Us), Hand::Left));
    // The journal had the settings, and the cut, two saves later.
    let three = of(2);
    assert_eq!(three.settings().unit, Unit::Inches);
    assert_eq!(
        three.load("19ab-3").unwrap().title,
        "Invented, own plan, later"
    );
    assert_eq!(of(3).settings().look, Some(Look::Dark));
    assert_eq!(of(3).record("19ab-r").unwrap().name, "A. Fern (invented)");

    // The first changes did not say which plan they belong to: they can't be taken back any more.
    assert!(!of(1).history("19ab-3").can_undo());
    let cut = three.load("19ab-3").unwrap();
    let mut sketch = cut.sketch().unwrap();
    let mut history = three.history("19ab-3");
    assert!(history.can_undo());
    history.undo(&mut sketch);
    assert_ne!(sketch.plan.name, "Layers, changed (invented)");
    let five = of(4);
    let own = cuts(&five)
        .into_iter()
        .find(|cut| cut.own.is_some())
        .unwrap();
    assert!(five.history(&own.id).can_undo());
    assert!(cuts(&five).iter().any(SavedCut::finished));
}

#[test]
fn the_file_after_a_crash_of_every_version_is_taken_in() {
    for (name, text) in STORES {
        let there = Store::new(MemoryShelf::default());
        let incoming = Reading::begin(text).unwrap().done();
        there.take_in(&incoming, Way::Replace).unwrap();
        assert_eq!(cuts(&there).len(), cuts(&started(text)).len(), "{name}");
        assert!(there.faults().is_empty(), "{name}: {:?}", there.faults());
    }
}

#[test]
fn files_and_links_of_every_version_are_read() {
    let everything = include_str!("data/saved/everything-1.json");
    let sealed = include_str!("data/saved/sealed-1.json");
    assert!(is_sealed(sealed));
    let opened = open(sealed, "invented passphrase").unwrap();
    for text in [everything, &opened] {
        let there = Store::new(MemoryShelf::default());
        there
            .take_in(&Reading::begin(text).unwrap().done(), Way::Merge)
            .unwrap();
        assert_eq!(cuts(&there).len(), 2);
        assert_eq!(there.records().unwrap().len(), 1);
        assert!(there.faults().is_empty());
    }
    let link = include_str!("data/saved/link-1.txt").trim();
    let file = include_str!("data/saved/plan-1.json");
    for text in [link, file] {
        let passed = Passed::read(text).unwrap();
        let cut = passed.to_cut("p", "2026-11-26T20:00:00.000Z");
        assert_eq!(cut.plan().unwrap().name, "A name of its own");
        assert!(cut.ready().unwrap().outcome(&Measured::new()).is_ok());
    }
}

#[test]
fn there_is_a_fixture_of_every_schema() {
    let mut schemas: Vec<u32> = STORES
        .iter()
        .flat_map(|(_, text)| cuts(&started(text)))
        .map(|cut| cut.schema)
        .collect();
    schemas.sort_unstable();
    schemas.dedup();
    // Raised, it wants a store as the version before left it.
    let newest = SavedCut::new("a", "", "trim", "t").schema;
    assert_eq!(schemas, (1..=newest).collect::<Vec<_>>());
    let card = Record::from_json(include_str!("data/saved/record-1.json")).unwrap();
    assert_eq!(card.schema, 1);
    let newest = Record::new("r", card.shape.kind, "", "t").schema;
    assert_eq!(card.schema, newest);
    // Packed and plain.
    let packed = keep_packed("{\"schema\":1}");
    assert!(packed.starts_with('~'));
    let texts = laid(STORES[4].1).0;
    assert!(texts.values().any(|text| text.starts_with('~')));
    assert!(texts.keys().any(|key| key.starts_with("tautline.line.")));
}
