//! Every operation of the store with a fault at every one of its writes: whatever is read afterwards is the
//! state before or the state after, and what was to be saved is kept once there is room.

use std::collections::{BTreeMap, BTreeSet, HashSet};
use tautline::book::{Record, SavedCut};
use tautline::head::Kind;
use tautline::measure::Unit;
use tautline::plan::{Choices, History, Sketch, built_in};
use tautline::store::{
    Incoming, Listed, ListedRecord, MemoryShelf, Reading, Settings, Store, StoreError, Way,
};
use tautline::walk::Walk;

/// Numbers of chance, alike in every run.
struct Chance(u32);

impl Chance {
    fn below(&mut self, end: u32) -> u32 {
        self.0 = self.0.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (self.0 >> 8) % end
    }
}

/// What a person may do to a store.
#[derive(Clone, Debug)]
enum Operation {
    /// A cut is kept: its id, its title, whether it is finished.
    Save(String, String, bool),
    Rename(String, String),
    Delete(String),
    Card(String, String, bool),
    DeleteCard(String),
    Set(bool),
    History(String),
    TakeInventedAway,
    Merge(Incoming),
    Replace(Incoming),
    Lists,
    Start,
}

fn cut(id: &str, title: &str, finished: bool) -> SavedCut {
    let mut cut = SavedCut::new(id, title, "trim", "2026-01-01T00:00:00.000Z");
    cut.visit.invented = id.starts_with('i');
    if finished {
        cut.walk = Some(Walk {
            finished_at: Some("2026-01-01".to_owned()),
            ..Walk::start("2026-01-01")
        });
    }
    cut
}

fn history() -> History {
    let plan = built_in("trim").unwrap();
    let before = Sketch {
        plan,
        choices: Choices::default(),
    };
    let mut after = before.clone();
    after.plan.name = "another".to_owned();
    let mut history = History::default();
    history.record(&before, &after);
    history
}

fn done(store: &Store<MemoryShelf>, operation: &Operation) -> Result<(), StoreError> {
    match operation {
        Operation::Save(id, title, finished) => {
            let mut cut = cut(id, title, *finished);
            cut.revision = store.load(id).map_or(0, |kept| kept.revision);
            store.save(&cut).map(|_| ())
        }
        Operation::Rename(id, title) => match store.load(id) {
            Ok(mut cut) => {
                cut.title.clone_from(title);
                store.save(&cut).map(|_| ())
            }
            Err(_) => Ok(()),
        },
        Operation::Delete(id) => store.delete(id),
        Operation::Card(id, name, invented) => {
            let mut card = store
                .record(id)
                .unwrap_or_else(|_| Record::new(id, Kind::Person, "", "t"));
            card.name.clone_from(name);
            card.invented = *invented;
            store.save_record(&card).map(|_| ())
        }
        Operation::DeleteCard(id) => store.delete_record(id),
        Operation::Set(inches) => store.set_settings(Settings {
            unit: if *inches { Unit::Inches } else { Unit::Cm },
            ..Settings::default()
        }),
        Operation::History(id) => {
            store.set_history(id, &history());
            Ok(())
        }
        Operation::TakeInventedAway => store.take_invented_away(),
        Operation::Merge(incoming) => store.take_in(incoming, Way::Merge),
        Operation::Replace(incoming) => store.take_in(incoming, Way::Replace),
        Operation::Lists => {
            store.lines(&[])?;
            store.names(&[])?;
            store.list().map(|_| ())
        }
        Operation::Start => {
            let journal: Vec<String> = store.shelf().journaled().into_keys().collect();
            let due = store.due(&journal)?;
            for key in due.put_back.iter().chain(&due.delete) {
                let text = store.shelf().journaled()[key].clone();
                store.put_back(key, &text)?;
            }
            Ok(())
        }
    }
}

/// Of each document what tells its versions apart; the unit of the settings.
type State = (BTreeMap<String, String>, Unit);

fn state(store: &Store<MemoryShelf>) -> State {
    let mut all = BTreeMap::new();
    for listed in store.list().unwrap() {
        match listed {
            Listed::Cut(cut) => all.insert(
                format!("cut {}", cut.id),
                format!("{} {}", cut.title, cut.finished()),
            ),
            Listed::Aside { id, .. } => panic!("{id} set aside"),
        };
    }
    for listed in store.records().unwrap() {
        match listed {
            ListedRecord::Record(card) => {
                all.insert(format!("card {}", card.id), card.name.clone())
            }
            ListedRecord::Aside { id, .. } => panic!("{id} set aside"),
        };
    }
    (all, store.settings().unit)
}

/// Whether each document is as before or as after.
fn between(now: &State, before: &State, after: &State) -> bool {
    let ids: BTreeSet<&String> = [now, before, after]
        .iter()
        .flat_map(|state| state.0.keys())
        .collect();
    ids.into_iter().all(|id| {
        let now = now.0.get(id);
        now == before.0.get(id) || now == after.0.get(id)
    }) && (now.1 == before.1 || now.1 == after.1)
}

fn file(chance: &mut Chance, n: u32) -> Incoming {
    let store = Store::new(MemoryShelf::default());
    for id in ["a", "b", "f", "i"] {
        if chance.below(2) == 0 {
            let mut cut = cut(id, &format!("file {n}"), chance.below(2) == 0);
            cut.saved_at = format!("202{}-06-01T00:00:00.000Z", 5 + chance.below(3));
            store.save(&cut).unwrap();
        }
    }
    let card = Record::new("r", Kind::Person, &format!("file {n}"), "2026-06-01");
    store.save_record(&card).unwrap();
    Reading::begin(&store.to_file("t").unwrap()).unwrap().done()
}

fn any(chance: &mut Chance, n: u32) -> Operation {
    let id = ["a", "b", "f", "i", "j"][chance.below(5) as usize].to_owned();
    let of = ["r", "s"][chance.below(2) as usize].to_owned();
    match chance.below(20) {
        0..=4 => Operation::Save(id, n.to_string(), chance.below(3) == 0),
        5 => Operation::Rename(id, format!("named {n}")),
        6 | 7 => Operation::Delete(id),
        8..=10 => Operation::Card(of, n.to_string(), chance.below(3) == 0),
        11 => Operation::DeleteCard(of),
        12 => Operation::Set(chance.below(2) == 0),
        13 | 14 => Operation::History(id),
        15 => Operation::TakeInventedAway,
        16 => Operation::Merge(file(chance, n)),
        17 => Operation::Replace(file(chance, n)),
        18 => Operation::Lists,
        _ => Operation::Start,
    }
}

/// The store on a copy of the shelf, as a page that is opened anew has it.
fn opened(shelf: &MemoryShelf) -> Store<MemoryShelf> {
    Store::new(shelf.opened_again())
}

#[test]
fn a_fault_at_any_write_of_any_operation_leaves_the_state_before_or_after() {
    let mut chance = Chance(8);
    let store = Store::new(MemoryShelf::default());
    let (mut faults, mut failed) = (0, 0);
    let mut kinds = HashSet::new();
    for n in 0..400 {
        let operation = any(&mut chance, n);
        let before = state(&store);
        let whole = opened(store.shelf());
        done(&whole, &operation).unwrap();
        let after = state(&whole);
        for once in [false, true] {
            for writes in 0.. {
                let tried = opened(store.shelf());
                if once {
                    tried.shelf().fail_once_after(writes);
                } else {
                    tried.shelf().fail_after(writes);
                }
                let result = done(&tried, &operation);
                let spent = tried.shelf().spent();
                tried.shelf().mend();
                let what = format!("{operation:?}, {writes} writes, {result:?}");
                // This page goes on: what was done counts, also where it could not be kept yet.
                let now = state(&tried);
                assert!(between(&now, &before, &after), "{what}: {now:?}");
                let holds = matches!(
                    operation,
                    Operation::Save(..)
                        | Operation::Rename(..)
                        | Operation::Card(..)
                        | Operation::Set(..)
                );
                if holds || result.is_ok() {
                    assert_eq!(now, after, "{what}");
                }
                // Killed here, without its journal.
                let crashed = Store::new(tried.shelf().opened_again());
                let on_disk = state(&crashed);
                assert!(between(&on_disk, &before, &after), "{what}: {on_disk:?}");
                // Killed here, and started with its journal.
                done(&crashed, &Operation::Start).unwrap();
                let started = state(&crashed);
                assert!(between(&started, &before, &after), "{what}: {started:?}");
                if holds || result.is_ok() {
                    assert_eq!(started, after, "{what}, started anew");
                }
                // Room again: it is all kept, and nothing is left lying about.
                assert_eq!(tried.try_again(), 0, "{what}");
                let kept = state(&opened(tried.shelf()));
                assert_eq!(kept, now, "{what}");
                faults += 1;
                failed += usize::from(result.is_err());
                kinds.insert(std::mem::discriminant(&operation));
                if !spent {
                    break;
                }
            }
        }
        done(&store, &operation).unwrap();
    }
    println!(
        "{faults} faults, {failed} of them failed an operation, {} kinds",
        kinds.len()
    );
    assert!(
        faults > 2000 && failed > 500 && kinds.len() == 12,
        "{faults} {failed}"
    );
}

#[test]
fn a_window_that_looks_in_the_middle_of_a_deletion_does_not_bring_the_cut_back() {
    let store = Store::new(MemoryShelf::default());
    for id in ["a", "b"] {
        store.save(&cut(id, id, false)).unwrap();
    }
    let open = store.load("a").unwrap();
    let named = |shelf: &MemoryShelf| shelf.texts()["tautline.index"].contains("\"a\"");
    for writes in 0.. {
        let deleting = opened(store.shelf());
        deleting.shelf().fail_after(writes);
        let _ = deleting.delete("a");
        let over = !deleting.shelf().spent();
        deleting.shelf().mend();
        let before = named(deleting.shelf());
        let other = opened(deleting.shelf());
        let seen = other.newer(&open);
        assert!(
            before || matches!(seen, Err(StoreError::NotFound)),
            "{writes} writes: {seen:?}"
        );
        assert!(
            before || !named(other.shelf()),
            "{writes} writes: named again"
        );
        if over {
            assert!(writes > 2 && !before);
            break;
        }
    }
}
