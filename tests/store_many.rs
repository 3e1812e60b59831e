//! A thousand visits of two hundred clients in the room that a browser gives.

use std::sync::{Arc, OnceLock};
use tautline::book::{Catalogue, Line, Query, Record, SavedCut, Sort};
use tautline::cut::{Measured, SectionKey};
use tautline::head::{Kind, Tape};
use tautline::measure::Length;
use tautline::plan::{Plan, built_ins};
use tautline::store::{Held, Listed, MemoryShelf, Shelf, ShelfError, Store, USUAL_ROOM};
use tautline::walk::{Walk, order};

/// A shelf that is held elsewhere too, to be looked at.
#[derive(Clone, Copy)]
struct Shared<'a>(&'a MemoryShelf);

impl Shelf for Shared<'_> {
    fn get(&self, key: &str) -> Result<Option<String>, ShelfError> {
        self.0.get(key)
    }
    fn put(&self, key: &str, text: &str) -> Result<(), ShelfError> {
        self.0.put(key, text)
    }
    fn remove(&self, key: &str) -> Result<(), ShelfError> {
        self.0.remove(key)
    }
    fn keys(&self) -> Result<Vec<String>, ShelfError> {
        self.0.keys()
    }
    fn held(&self) -> &Held {
        self.0.held()
    }
}

/// Numbers of chance, alike in every run.
struct Chance(u32);

impl Chance {
    fn below(&mut self, end: u32) -> u32 {
        self.0 = self.0.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (self.0 >> 8) % end
    }

    fn one<'a>(&mut self, of: &[&'a str]) -> &'a str {
        of[self.below(of.len() as u32) as usize]
    }
}

const VISITS: u32 = 1000;
const CLIENTS: u32 = 200;
const NAMES: [&str; 8] = ["Zoë", "Ann", "Bo", "José", "Mei", "Kofi", "Łucja", "Ian"];
const TAGS: [&str; 4] = ["wet", "exam", "colour after", "first"];
const WORDS: [&str; 8] = [
    "likes it off the neck",
    "cowlick at the left front",
    "thick behind the ears",
    "comes back before a wedding",
    "short fringe next time",
    "fine at the temples",
    "dries it straight",
    "wants more weight",
];

/// A walk through all sections, each done, some measured and checked, as a person leaves it.
fn walk(order: &[SectionKey], targets: &[Length], day: &str, chance: &mut Chance) -> Walk {
    let time = |n: u32| {
        format!(
            "{day}T{:02}:{:02}:{:02}.{:03}Z",
            9 + n / 3600,
            n / 60 % 60,
            n % 60,
            n * 7 % 1000
        )
    };
    let mut now = chance.below(4000);
    let mut walk = Walk::start(&time(now));
    for (key, target) in order.iter().zip(targets) {
        now += 20 + chance.below(90);
        let target = Length::from_cm(target.cm() + f64::from(chance.below(1000)) / 700.0);
        walk.done(order, Some(target), &time(now));
        if chance.below(3) == 0 {
            let measured = Length::from_cm(f64::from(chance.below(60)) / 2.0 + 5.0);
            walk.put_down(key, Some(measured), Some(target), &time(now));
        }
    }
    walk.check_down(
        &order[0],
        1,
        Some(Length::from_cm(f64::from(chance.below(300)) / 10.0)),
    );
    walk.finished_at = Some(time(now));
    walk
}

/// A built-in plan, its sections in order, and what they are cut to.
type Planned = (Plan, Vec<SectionKey>, Vec<Length>);

/// The visit of this number; every third has a plan of its own.
fn visit(number: u32, chance: &mut Chance) -> SavedCut {
    static PLANS: OnceLock<Vec<Planned>> = OnceLock::new();
    let plans = PLANS.get_or_init(|| {
        let with_sections = built_ins().into_iter().map(|plan| {
            let ready = SavedCut::new("a", "a", &plan.id, "t").ready().unwrap();
            let outcome = ready.outcome(&Measured::new()).unwrap();
            let targets = outcome.sections.iter().map(|s| s.long()).collect();
            (plan, order(&outcome), targets)
        });
        with_sections.collect()
    });
    let (plan, order, targets) = &plans[chance.below(plans.len() as u32) as usize];
    let day = format!(
        "20{}-{:02}-{:02}",
        22 + number / 250,
        number / 21 % 12 + 1,
        number % 21 + 1
    );
    let id = format!("19{:08x}a-{:x}", number * 86_400, chance.below(1 << 24));
    let mut cut = SavedCut::new(
        &id,
        &format!("Cut of {day}"),
        &plan.id,
        &format!("{day}T18:00:00.000Z"),
    );
    for (tape, around) in [
        (Tape::Circumference, 54),
        (Tape::Length, 18),
        (Tape::Breadth, 14),
        (Tape::EarToEar, 33),
    ] {
        cut.tapes
            .insert(tape, format!("{around}.{} cm", chance.below(10)));
    }
    if number.is_multiple_of(3) {
        let mut own = plan.clone();
        own.name = format!("{} of {day}", plan.name);
        for step in &mut own.steps {
            step.longer = f64::from(chance.below(40)) / 20.0;
            step.words.comb = format!("{}, {}.", step.words.comb, chance.one(&WORDS));
        }
        cut.own = Some(Box::new(own));
    }
    cut.visit.of = format!("r{}", chance.below(CLIENTS));
    cut.visit.notes = [chance.one(&WORDS), chance.one(&WORDS), chance.one(&WORDS)].join(", ");
    cut.visit.tags = vec![chance.one(&TAGS).to_owned()];
    cut.visit.return_on = format!("{}-01-{:02}", 2023 + number / 250, number % 28 + 1);
    cut.walk = Some(walk(order, targets, &day, chance));
    cut
}

fn full() -> MemoryShelf {
    let shelf = MemoryShelf::default();
    let store = Store::new(Shared(&shelf));
    let mut chance = Chance(11);
    for n in 0..CLIENTS {
        let name = format!("{} {}", chance.one(&NAMES), chance.one(&NAMES));
        let mut record = Record::new(
            &format!("r{n}"),
            Kind::Person,
            &name,
            "2026-11-25T10:00:00.000Z",
        );
        record
            .tapes
            .insert(Tape::Circumference, format!("5{}.5 cm", n % 10));
        record.notes = chance.one(&WORDS).to_owned();
        store.save_record(&record).unwrap();
    }
    for n in 0..VISITS {
        store.save(&visit(n, &mut chance)).unwrap();
    }
    shelf
}

#[test]
fn a_thousand_visits_fit_with_room_to_spare() {
    let shelf = full();
    let store = Store::new(Shared(&shelf));
    let used = store.used().unwrap();
    let of = |mark: &str| -> usize {
        let texts = shelf.texts();
        let ours = texts.iter().filter(|(key, _)| key.starts_with(mark));
        ours.map(|(key, text)| key.len() + text.len()).sum()
    };
    let plain: usize = store
        .list()
        .unwrap()
        .iter()
        .map(|listed| match listed {
            Listed::Cut(cut) => cut.to_json().len(),
            Listed::Aside { id, .. } => panic!("{id}"),
        })
        .sum();
    println!(
        "{used} of {USUAL_ROOM}: cuts {}, lines {}, records {}, index {}; unpacked {plain}",
        of("tautline.cut."),
        of("tautline.line."),
        of("tautline.record."),
        of("tautline.index"),
    );
    assert!(
        plain > USUAL_ROOM,
        "it is packing that makes them fit: {plain}"
    );
    // Judgement: half of it stays for what is at the chair, histories, and other pages of the same address.
    assert!(used < USUAL_ROOM / 2, "{used}");
    // All of it is ASCII but the notes: as bytes it is as much.
    let bytes: usize = shelf
        .texts()
        .iter()
        .map(|(key, text)| key.len() + text.len())
        .sum();
    assert!(bytes < used + used / 50, "{bytes}");
}

#[test]
fn a_thousand_lines_say_what_their_documents_say_and_are_found() {
    let shelf = full();
    let store = Store::new(Shared(&shelf));
    let lines = store.lines(&[]).unwrap();
    assert_eq!((lines.cuts.len(), lines.aside.len()), (VISITS as usize, 0));
    for line in &lines.cuts {
        let cut = store.load(&line.id).unwrap();
        assert_eq!(**line, Line::of(&cut, line.length));
    }
    let names = store.names(&[]).unwrap();
    let name = |id: &str| {
        names
            .iter()
            .find(|n| n.id == id)
            .map_or(String::new(), |n| n.name.clone())
    };
    let all = Catalogue::of(&lines.cuts, &Catalogue::default(), &name, &|line| {
        line.own.clone().unwrap_or_else(|| line.plan.clone())
    });
    assert_eq!(all.tags(), ["colour after", "exam", "first", "wet"]);
    let found = |words: &str, tag: &str| {
        let (words, tag) = (words.to_owned(), tag.to_owned());
        all.find(&Query {
            words,
            tag,
            sort: Sort::Day,
        })
    };
    assert_eq!(found("", "").len(), VISITS as usize);
    // Against a plain look through all documents.
    let mut expected = 0;
    for line in &lines.cuts {
        let cut = store.load(&line.id).unwrap();
        let fits = name(&cut.visit.of).contains("Zoë") && cut.day().starts_with("2024");
        expected += usize::from(fits && cut.visit.tags == ["wet"]);
    }
    assert!(expected > 0);
    assert_eq!(found("ZOE 2024-", "wet").len(), expected);
    let march = lines.cuts.iter().filter(|l| l.day.starts_with("2023-03"));
    assert_eq!(found("march 2023", "").len(), march.count());
    let days: Vec<String> = found("zoe", "")
        .iter()
        .map(|e| e.line.day.clone())
        .collect();
    assert!(days.is_sorted_by(|a, b| a >= b) && days.len() > 100);
    assert_eq!(
        store.visits_of("r7").unwrap().len(),
        lines.cuts.iter().filter(|l| l.of == "r7").count()
    );
}

#[test]
fn lines_and_documents_agree_whatever_is_done_to_them() {
    let shelf = MemoryShelf::default();
    let mut chance = Chance(5);
    let mut known: Vec<Arc<Line>> = Vec::new();
    for n in 0..600 {
        let store = Store::new(Shared(&shelf));
        let id = format!("c{}", chance.below(12));
        let here = store.load(&id).ok();
        match (chance.below(8), here) {
            (0, _) => store.delete(&id).unwrap(),
            (1, Some(cut)) => shelf.remove(&format!("tautline.line.{}", cut.id)).unwrap(),
            (2, Some(cut)) => {
                // By other hands, under the same revision.
                let key = format!("tautline.cut.{id}.{}", cut.revision);
                let title = format!("{} by hand", cut.title);
                shelf
                    .put(&key, &SavedCut { title, ..cut }.to_json())
                    .unwrap();
            }
            (3, Some(cut)) => shelf
                .put(&format!("tautline.cut.{id}.{}", cut.revision), "{oh")
                .unwrap(),
            (4, _) => {
                // A save that no line and no old text survives.
                shelf.fail_after(chance.below(4) as usize);
                let _ = store.save(&visit(n, &mut Chance(n)));
                shelf.mend();
            }
            (_, here) => {
                let made = visit(n, &mut chance);
                let walk = made.walk.clone().filter(|_| chance.below(2) == 0);
                let revision = here.map_or(0, |cut| cut.revision);
                store
                    .save(&SavedCut {
                        id,
                        walk,
                        revision,
                        ..made
                    })
                    .unwrap();
            }
        }
        let lines = store.lines(&known).unwrap();
        let mut read = Vec::new();
        let mut aside = 0;
        for listed in store.list().unwrap() {
            match listed {
                Listed::Cut(cut) => {
                    let length = shelf.length(&format!("tautline.cut.{}.{}", cut.id, cut.revision));
                    // What waits to be kept is on no shelf: its line is made from the text that waits.
                    let waits = || lines.cuts.iter().find(|line| line.id == cut.id);
                    let length = length.unwrap().or_else(|| Some(waits()?.length));
                    read.push(Line::of(&cut, length.unwrap()));
                }
                Listed::Aside { .. } => aside += 1,
            }
        }
        read.sort_by(|a, b| a.id.cmp(&b.id));
        let lines_read: Vec<Line> = lines.cuts.iter().map(|line| (**line).clone()).collect();
        assert_eq!(lines_read, read, "step {n}");
        assert_eq!(lines.aside.len(), aside, "step {n}");
        if chance.below(3) > 0 {
            known = lines.cuts;
        }
    }
}
