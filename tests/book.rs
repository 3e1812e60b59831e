//! The book's documents: what a card takes from a visit, what is never passed on, and documents of every
//! version that was ever written.

use tautline::book::{How, Measure, Record, SavedCut, Visit, When};
use tautline::consult::Ask;
use tautline::cut::Measured;
use tautline::head::{Kind, Landmark, Side, Tape};
use tautline::measure::{Day, Length};
use tautline::walk::Walk;

fn cut(day: &str) -> SavedCut {
    let mut cut = SavedCut::new("v", "Visit", "straight-fringe", "2026-11-20T10:00:00.000Z");
    cut.visit.day = day.to_owned();
    cut
}

#[test]
fn a_card_takes_head_and_hair_of_the_latest_visit_and_no_private_note() {
    let mut card = Record::new("r", Kind::Practice, "Head", "2026-01-01T00:00:00Z");
    let mut late = cut("2026-11-20");
    late.tapes.insert(Tape::Circumference, "54 cm".to_owned());
    late.consultation.put(Ask::Curl, "wavy");
    late.consultation.put(Ask::Note, "private words");
    assert!(card.take_from(&late));
    assert!(!card.take_from(&late), "nothing changed the second time");
    let mut early = cut("2026-03-01");
    early.tapes.insert(Tape::Circumference, "60 cm".to_owned());
    assert!(!card.take_from(&early));
    assert_eq!(card.tapes[&Tape::Circumference], "54 cm");
    assert_eq!(card.consultation.answer(Ask::Curl), "wavy");
    assert_eq!(card.shape.kind, Kind::Practice, "it stays what it is");
    assert!(!card.to_json().contains("private words"));
    // A new visit begins with them, as somebody's.
    let new = card.new_cut("n", "New", "trim", "2026-11-26T08:00:00Z");
    assert_eq!(new.tapes, late.tapes);
    assert_eq!(new.visit.of, "r");
    assert!(!new.to_json().contains("private words"));
}

#[test]
fn the_day_of_a_visit_is_as_put_down_else_when_it_began_else_when_it_was_saved() {
    let mut cut = cut("");
    assert_eq!(cut.day(), "2026-11-20");
    cut.walk = Some(Walk::start("2026-11-22T09:00:00.000Z"));
    assert_eq!(cut.day(), "2026-11-22");
    cut.visit.day = "2026-11-19".to_owned();
    assert_eq!(cut.day(), "2026-11-19");
    for odd in ["yesterday", "2026-02-30", "99999-01-01", "2026-11-19<b>"] {
        cut.visit.day = odd.to_owned();
        assert_eq!(cut.day(), "2026-11-22", "{odd}");
    }
    cut.walk = None;
    cut.saved_at = "x".to_owned();
    assert_eq!(cut.day(), "");
}

#[test]
fn measures_take_each_others_place_and_say_how_far_off_they_are() {
    let measure = |typed: &str, when, how| Measure {
        place: Landmark::Crown,
        side: Side::Left,
        when,
        how,
        typed: typed.to_owned(),
        expected: Some(Length::from_cm(12.0)),
    };
    let mut visit = Visit::default();
    visit.put(measure("11 cm", When::After, How::Combed));
    visit.put(measure("11.4 cm", When::After, How::Combed));
    visit.put(measure("9", When::After, How::Hanging));
    let found = visit
        .measure(Landmark::Crown, Side::Left, When::After, How::Combed)
        .unwrap();
    assert!((found.difference().unwrap() + 0.6).abs() < 1e-9);
    assert_eq!(visit.measures.len(), 2);
    visit.put(measure("short", When::After, How::Combed));
    let found = visit.measure(Landmark::Crown, Side::Left, When::After, How::Combed);
    assert_eq!(
        found.unwrap().difference(),
        None,
        "kept as typed, judged as nothing"
    );
    visit.put(measure(" ", When::After, How::Combed));
    assert_eq!(visit.measures.len(), 1);
}

/// The calendar against ISO 8601's own examples and leap years of the Gregorian rule: 2000 is one, 1900 and
/// 2100 are none (ISO 8601:2004, 3.2.1, from memory).
#[test]
fn days_follow_the_gregorian_calendar() {
    let day = |text| Day::read(text).unwrap();
    assert_eq!(day("1999-12-31").after_days(60).to_string(), "2000-02-29");
    assert_eq!(day("2100-02-28").after_days(1).to_string(), "2100-03-01");
    assert_eq!(day("1900-02-28").until(day("1900-03-01")), 1);
    // 25 November 2026 to the same day four years on has one leap day in it.
    assert_eq!(day("2026-11-25").until(day("2030-11-25")), 4 * 365 + 1);
    assert_eq!(day("2026-11-25").after_days(i64::MAX), day("2026-11-25"));
}

#[test]
fn cuts_of_every_version_read_and_work_out() {
    let texts = [
        (1, include_str!("data/saved/cut-1.json")),
        (2, include_str!("data/saved/cut-2.json")),
    ];
    for (schema, text) in texts {
        let cut = SavedCut::from_json(text).unwrap();
        assert_eq!(cut.schema, schema);
        assert!(cut.visit.is_empty());
        let outcome = cut.ready().unwrap().outcome(&Measured::new()).unwrap();
        let walk = cut.walk.as_ref().unwrap();
        assert!(outcome.section(&walk.done[0].key).is_some());
        // Written again it is the same cut.
        assert_eq!(SavedCut::from_json(&cut.to_json()).unwrap(), cut);
    }
    let card = Record::from_json(include_str!("data/saved/record-1.json")).unwrap();
    assert_eq!(card.name, "A. Fern (invented)");
    assert_eq!(Record::from_json(&card.to_json()).unwrap(), card);
}

#[test]
fn a_card_cut_off_anywhere_is_refused_and_never_a_panic() {
    let text = include_str!("data/saved/record-1.json").trim();
    for (at, _) in text.char_indices() {
        assert!(Record::from_json(&text[..at]).is_err(), "{at}");
    }
    assert!(
        Record::from_json(r#"{"schema":2,"id":[]}"#)
            .unwrap_err()
            .to_string()
            .contains("newer")
    );
}
