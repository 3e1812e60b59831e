//! A practice head's hair as something that is used up.

use std::time::Instant;
use tautline::book::{Ledger, Record, SavedCut};
use tautline::cut::Measured;
use tautline::head::{Kind, Region};
use tautline::measure::Length;
use tautline::walk::{Walk, order};

fn head(new: &str) -> Record {
    let mut record = Record::new("h", Kind::Practice, "Invented head", "t0");
    record.new_length = new.to_owned();
    record
}

fn attempt(record: &Record, id: &str, plan: &str, day: &str, answers: &[(&str, &str)]) -> SavedCut {
    let mut cut = record.new_cut(id, id, plan, "2026-11-01T10:00:00Z");
    cut.visit.day = day.to_owned();
    let built_in = cut.plan().unwrap();
    for (choice, answer) in answers {
        cut.choices.set(&built_in, choice, answer).unwrap();
    }
    let outcome = cut.ready().unwrap().outcome(&Measured::new()).unwrap();
    let mut walk = Walk::start("2026-11-01T10:00:00Z");
    let all = order(&outcome);
    for section in &outcome.sections {
        let target = section.cuts().then(|| section.long());
        walk.done(&all, target, "2026-11-01T10:30:00Z");
    }
    cut.walk = Some(walk);
    cut
}

fn mean(ledger: &Ledger, region: Region) -> f64 {
    let zone = ledger.remaining.iter().find(|zone| zone.region == region);
    zone.unwrap().mean.cm()
}

#[test]
fn a_new_head_has_its_new_length_and_every_attempt_takes_off_what_it_takes() {
    let record = head("45 cm");
    let fresh = Ledger::of(&record, &[]).unwrap();
    assert_eq!((fresh.new, fresh.said), (Length::from_cm(45.0), true));
    for zone in &fresh.remaining {
        assert!((zone.shortest.cm() - 45.0).abs() < 1e-9, "{zone:?}");
        assert!((zone.mean.cm() - 45.0).abs() < 1e-9, "{zone:?}");
    }
    // In the order of their days, whatever the order they come in.
    let uniform = attempt(&record, "b", "uniform-layers", "2026-11-08", &[]);
    let trim = attempt(
        &record,
        "a",
        "trim",
        "2026-11-01",
        &[("off", "2 cm"), ("before", "45 cm")],
    );
    let ledger = Ledger::of(&record, &[uniform.clone(), trim.clone()]).unwrap();
    let ids: Vec<&str> = ledger.attempts.iter().map(|a| a.id.as_str()).collect();
    assert_eq!(ids, ["a", "b"]);
    let after_trim = &ledger.attempts[0].left;
    for zone in after_trim {
        assert!((zone.mean.cm() - 43.0).abs() < 0.02, "{zone:?}");
    }
    // 10 cm all over by then: what is there shorter stays.
    for region in Region::ALL {
        assert!((mean(&ledger, region) - 10.0).abs() < 1.0, "{region:?}");
    }
    // Nothing grows, and a trim after that is one from there.
    let again = attempt(
        &record,
        "c",
        "trim",
        "2027-11-08",
        &[("off", "1 cm"), ("before", "10 cm")],
    );
    let later = Ledger::of(&record, &[uniform, trim, again]).unwrap();
    let top = mean(&later, Region::Top) - mean(&ledger, Region::Top);
    assert!((top + 1.0).abs() < 0.2, "{top}");
}

#[test]
fn what_was_not_cut_is_no_attempt_and_nothing_said_is_said() {
    let record = head("");
    let planned = record.new_cut("x", "x", "trim", "t0");
    let mut broken = attempt(&record, "y", "trim", "2026-11-01", &[]);
    broken.plan = "nobody-has-it".to_owned();
    let ledger = Ledger::of(&record, &[planned, broken]).unwrap();
    assert!(!ledger.said && ledger.attempts.is_empty());
    assert_eq!(ledger.unread, ["y"]);
}

#[test]
fn on_a_new_head_most_cuts_can_be_made_one_after_the_other_and_on_a_short_one_few() {
    let record = head("60 cm");
    let fresh = Ledger::of(&record, &[]).unwrap();
    let began = Instant::now();
    let still = fresh.still();
    let took = began.elapsed();
    println!("all cuts and their order: {took:?}");
    for cut in &still.each {
        println!("  {:24} {:.2} of {:.2}", cut.plan, cut.reaches, cut.meant);
    }
    assert_eq!(still.each.len(), tautline::plan::built_ins().len());
    println!("in this order:");
    let order = still.order;
    for cut in &order {
        println!("  {:24} {:.2} of {:.2}", cut.plan, cut.reaches, cut.meant);
    }
    // Long before short: a trim is the first, the shortest of all the last.
    let place = |id: &str| order.iter().position(|cut| cut.plan == id);
    assert_eq!(place("trim"), Some(0));
    assert_eq!(place("tapered-nape"), Some(order.len() - 1));
    assert!(order.len() >= 6, "{}", order.len());
    // A short cut that was made leaves few.
    let short = attempt(&record, "s", "tapered-nape", "2026-11-01", &[]);
    let used = Ledger::of(&record, &[short]).unwrap();
    let left = used.still().order;
    assert!(left.len() < order.len(), "{}", left.len());
    let can = |ledger: &Ledger, id: &str| {
        let each = ledger.still().each;
        each.iter()
            .find(|cut| cut.plan == id)
            .unwrap()
            .can_be_made()
    };
    assert!(can(&fresh, "one-length-bob") && !can(&used, "one-length-bob"));
}

#[test]
fn the_next_cut_on_a_head_begins_with_what_is_left_on_it() {
    assert!(Ledger::of(&head(""), &[]).unwrap().begins().is_none());
    let record = head("45 cm");
    let fresh = Ledger::of(&record, &[]).unwrap();
    let mut next = record.new_cut("n", "n", "trim", "t0");
    next.left = fresh.begins();
    let off = |cut: &SavedCut| {
        let ready = cut.ready().unwrap();
        let outcome = ready.outcome(&Measured::new()).unwrap();
        outcome.sections[0].long().cm()
    };
    assert!((off(&next) - 44.0).abs() < 0.01);
    let trimmed = attempt(&record, "a", "trim", "2026-11-01", &[("before", "45 cm")]);
    let used = Ledger::of(&record, &[trimmed]).unwrap();
    let left = used.begins().unwrap();
    assert_eq!((left.of.as_str(), left.day.as_str()), ("a", "2026-11-01"));
    next.left = Some(left);
    assert!((off(&next) - 43.0).abs() < 0.02, "{}", off(&next));
}
