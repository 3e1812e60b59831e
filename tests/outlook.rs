//! When a cut is outgrown, and the day to return as a calendar takes it.

use icalendar::parser::{read_calendar, unfold};
use tautline::book::{Learned, LookedAt, Outlook, Rate, Record, SavedCut, WornAs, calendar};
use tautline::consult::{Ask, Zone};
use tautline::cut::Measured;
use tautline::head::{Kind, Landmark};
use tautline::measure::Day;
use tautline::plan::built_ins;

fn day(text: &str) -> Day {
    Day::read(text).unwrap()
}

fn looked(cut: &SavedCut, record: Option<&Record>) -> Outlook {
    let ready = cut.ready().unwrap();
    let followed = ready.outcome(&Measured::new()).unwrap();
    let rate = Rate::of(record, &Learned::default());
    Outlook::of(cut, &ready, &followed, day("2026-11-25"), rate, record).unwrap()
}

/// The trade's intervals (common practice, no source): fringe 2 to 4 weeks, short 4 to 6, crisp bob 4 to 8,
/// layers 6 to 10, long 8 to 12. With the defaults the soonest of every built-in cut lies within its own.
#[test]
fn the_defaults_land_where_the_trade_does() {
    for plan in built_ins() {
        let cut = SavedCut::new("a", "Invented", &plan.id, "2026-11-25T09:00:00Z");
        let outlook = looked(&cut, None);
        let soonest = outlook.soonest().unwrap();
        let (from, to) = soonest.worn.trade();
        println!(
            "{:24} {:?} {:?} {:.1} weeks ({from} to {to})",
            plan.id,
            soonest.spot,
            soonest.worn,
            soonest.weeks.unwrap()
        );
        for place in &outlook.places {
            println!("      {:?} {:?} {:?}", place.spot, place.worn, place.weeks);
        }
        assert!(soonest.is_usual(), "{}", plan.id);
    }
}

/// A fringe that hangs free: a centimetre at 1.25 cm a month is 0.8 months, 24.35 days, 3.48 weeks.
#[test]
fn a_fringe_is_outgrown_when_a_centimetre_has_grown() {
    let cut = SavedCut::new("a", "Invented", "straight-fringe", "2026-11-25T09:00:00Z");
    let outlook = looked(&cut, None);
    let fringe = outlook.soonest().unwrap();
    assert_eq!(
        (fringe.worn, fringe.name()),
        (WornAs::Face, Some("Fringe and face"))
    );
    assert!(
        (fringe.weeks.unwrap() - 3.48).abs() < 0.25,
        "{:?}",
        fringe.weeks
    );
    let due = fringe.day.unwrap();
    assert!((22..=26).contains(&day("2026-11-25").until(due)), "{due}");
    // Sides and back were not cut: nothing is told of them.
    let zones = |spot: LookedAt| matches!(spot, LookedAt::Zone(Zone::Sides | Zone::Back));
    assert!(outlook.places.iter().all(|place| !zones(place.spot)));
}

#[test]
fn faster_hair_and_less_patience_bring_the_day_nearer_and_a_practice_head_has_none() {
    let cut = SavedCut::new("a", "Invented", "one-length-bob", "2026-11-25T09:00:00Z");
    let weeks = |record: &Record| {
        let outlook = looked(&cut, Some(record));
        outlook.soonest().map(|place| place.weeks.unwrap())
    };
    let mut record = Record::new("c", Kind::Person, "Invented", "t0");
    let usual = weeks(&record).unwrap();
    record.growth = "2.5".to_owned();
    let fast = weeks(&record).unwrap();
    assert!((usual / fast - 2.0).abs() < 0.05, "{usual} {fast}");
    record
        .outgrown
        .insert("outline".to_owned(), "1 cm".to_owned());
    let picky = weeks(&record).unwrap();
    assert!((fast / picky - 2.0).abs() < 0.15, "{fast} {picky}");
    // What does not read, or what nobody means, is as usual.
    for typed in ["soon", "0", "900 cm"] {
        record
            .outgrown
            .insert("outline".to_owned(), typed.to_owned());
        assert_eq!(weeks(&record), Some(fast));
    }
    record.kind = Kind::Practice;
    assert_eq!(weeks(&record), None);
}

/// Ends half a centimetre above what was agreed have so much longer.
#[test]
fn what_was_agreed_counts_where_ends_lie_near_it() {
    let mut cut = SavedCut::new("a", "Invented", "one-length-long", "2026-11-25T09:00:00Z");
    cut.consultation.put(Ask::EndsAt(Zone::Back), "collarbone");
    let outlook = looked(&cut, None);
    let back = |outlook: &Outlook| {
        let zone = |place: &&tautline::book::Outgrown| place.spot == LookedAt::Zone(Zone::Back);
        outlook.places.iter().find(zone).cloned().unwrap()
    };
    assert_eq!(back(&outlook).at, Some(Landmark::Collarbone));
    // What was never met is no measure.
    cut.consultation.put(Ask::EndsAt(Zone::Back), "waist");
    let mut other = cut.clone();
    other
        .choices
        .set(&cut.plan().unwrap(), "landmark", "collarbone")
        .unwrap();
    assert_eq!(back(&looked(&other, None)).at, None);
}

/// RFC 5545: lines end in CRLF and are no longer than 75 octets (3.1), folded before a blank; comma,
/// semicolon, backslash and line break are escaped in a text (3.3.11); PRODID, VERSION (3.6), UID and DTSTAMP
/// (3.6.1) are there; a date is of eight digits (3.3.4). `icalendar`, another hand's reader, reads it back.
#[test]
fn the_calendar_file_is_what_the_standard_says_and_reads_back() {
    let title = "Haircut: “Straight fringe”, soft; with a \\ and\na second line, and so much of it that the line must be folded: éééééééééééééééééééééééééééééé";
    let text = calendar(
        "19a-7",
        day("2026-12-28"),
        title,
        "2026-11-25T09:05:07.123Z",
    );
    assert!(text.ends_with("END:VCALENDAR\r\n"));
    for line in text.split_terminator("\r\n") {
        assert!(line.len() <= 75, "{line}");
        assert!(!line.contains(['\r', '\n']));
    }
    assert!(text.contains("\r\n "), "folded");
    let whole = text.replace("\r\n ", "");
    assert!(whole.contains(
        "SUMMARY:Haircut: “Straight fringe”\\, soft\\; with a \\\\ and\\na second line\\,"
    ));
    for line in [
        "VERSION:2.0",
        "PRODID:-//Tautline//EN",
        "DTSTAMP:20261125T090507Z",
        "DTSTART;VALUE=DATE:20261228",
    ] {
        assert_eq!(
            whole.split("\r\n").filter(|l| *l == line).count(),
            1,
            "{line}"
        );
    }
    assert_eq!(whole.matches("UID:").count(), 1);
    let unfolded = unfold(&text);
    let read = read_calendar(&unfolded).unwrap();
    let event = read.components.iter().find(|c| c.name == "VEVENT").unwrap();
    let value = |name: &str| {
        let property = event.properties.iter().find(|p| p.name == name).unwrap();
        property.val.as_ref().to_owned()
    };
    assert_eq!(value("DTSTART"), "20261228");
    assert_eq!(value("SUMMARY"), title);
    for odd in ["", "now", "2026-11-25", "2026-11-25T9:5"] {
        let text = calendar("a", day("2026-12-28"), "Haircut", odd);
        let stamp = text
            .split("\r\n")
            .find(|l| l.starts_with("DTSTAMP:"))
            .unwrap();
        assert_eq!(stamp.len(), "DTSTAMP:20261125T090507Z".len(), "{odd}");
    }
}
