//! A plan that is passed on arrives as it was, and whatever else arrives is refused in a sentence.

#[path = "common/any.rs"]
mod any;
mod common;

use proptest::prelude::*;
use tautline::book::{LINK_MARK, Left, PassError, Passed, SavedCut, pack};
use tautline::consult::{Ask, Growth, Mark};
use tautline::cut::{Measured, Outcome};
use tautline::hair::LengthMap;
use tautline::head::{Back, Side, Spot, Tape};
use tautline::measure::Length;
use tautline::plan::{Choices, Held, Plan, Sketch, built_ins};

/// A visit with a head, hair, and things that are nobody else's business.
fn visit(plan: &Plan) -> SavedCut {
    let mut cut = SavedCut::new("a", "Invented Person's cut", &plan.id, "2026-11-25");
    cut.tapes.insert(Tape::Circumference, "57.5 cm".to_owned());
    cut.tapes.insert(Tape::EarToEar, "13 3/4 in".to_owned());
    cut.shape.back = Back::Flat;
    cut.consultation.put(Ask::Curl, "wavy");
    cut.consultation.put(Ask::Ears, "on");
    cut.consultation.put(Ask::Note, "Secret note");
    cut.consultation.put(Ask::Occasion, "event");
    let spot = Spot {
        azimuth: 2.9,
        out: 0.6,
    };
    cut.consultation.marks = vec![Mark::at(Growth::Cowlick, spot)];
    cut.visit.of = "client-7".to_owned();
    cut.visit.notes = "Visible note".to_owned();
    let head = cut.head().unwrap();
    let long =
        &mut |_: Side, root: tautline::geometry::Vec3| Ok::<f64, ()>(30.0 + root.z + 0.3 * root.x);
    cut.left = Some(Left {
        map: LengthMap::of(&head, false, long).unwrap().to_text(),
        of: "visit-7".to_owned(),
        day: "2026-09-09".to_owned(),
        grown: Length::from_cm(1.25),
    });
    for choice in &plan.choices {
        let other = ["left", "chin", "collarbone", "9 cm", "shoulder"];
        let mut choices = cut.choices.clone();
        if other
            .into_iter()
            .any(|word| choices.set(plan, &choice.id, word).is_ok())
        {
            cut.choices = choices;
        }
    }
    cut
}

fn outcome(cut: &SavedCut) -> Result<Outcome, String> {
    let ready = cut.ready().map_err(|e| e.to_string())?;
    ready.outcome(&Measured::new()).map_err(|e| e.to_string())
}

fn same_lengths(one: &SavedCut, other: &SavedCut) {
    let (one, other) = (outcome(one), outcome(other));
    let (one, other) = match (one, other) {
        (Ok(one), Ok(other)) => (one, other),
        (one, other) => return assert_eq!(one.err(), other.err()),
    };
    assert_eq!(one.sections.len(), other.sections.len());
    for (a, b) in one.sections.iter().zip(&other.sections) {
        assert_eq!(a.key, b.key);
        for (a, b) in [(a.short(), b.short()), (a.long(), b.long())] {
            assert!((a.cm() - b.cm()).abs() < 1e-9, "{} {}", a.cm(), b.cm());
        }
    }
}

/// By link and by file: the same plan, choices and lengths, and nothing private.
fn arrives(cut: &SavedCut) {
    let passed = Passed::of(cut, "", true).unwrap();
    let link = format!(
        "https://example.invalid/take{LINK_MARK}{}",
        passed.to_link_part()
    );
    for text in [
        &link,
        &passed.to_file(),
        &format!("  {link}\nLook at this!"),
    ] {
        let read = Passed::read(text).unwrap();
        let made = read.to_cut("b", "2026-11-26");
        assert_eq!((&made.id, &made.title), (&"b".to_owned(), &passed.name));
        assert_eq!(made.plan(), cut.plan());
        assert_eq!((&made.choices, &made.aims), (&cut.choices, &cut.aims));
        assert_eq!(made.own.is_some(), cut.own.is_some());
        same_lengths(&made, cut);
        let kept = made.to_json();
        for private in [
            "Secret",
            "Invented",
            "client-7",
            "Visible",
            "event",
            "visit-7",
            "2026-09-09",
        ] {
            assert!(!kept.contains(private), "{private}: {kept}");
            assert!(!passed.to_file().contains(private), "{private}");
        }
    }
    let bare = Passed::of(cut, "Mine", false).unwrap();
    let made = Passed::read(&bare.to_link_part()).unwrap().to_cut("b", "");
    assert!(
        made.left.is_none()
            && made.tapes.is_empty()
            && made.consultation.is_empty()
            && made.shape.is_usual()
    );
    assert_eq!((made.plan(), made.title.as_str()), (cut.plan(), "Mine"));
}

#[test]
fn every_built_in_plan_arrives_as_it_was() {
    for plan in built_ins() {
        let cut = visit(&plan);
        arrives(&cut);
        let mut cut = cut;
        cut.left = None;
        let link = Passed::of(&cut, "", true).unwrap().to_link_part();
        assert!(link.len() < 700, "{}: {}", plan.id, link.len());
    }
}

#[test]
fn every_changed_plan_arrives_as_it_was_changed() {
    let all = built_ins();
    for (i, plan) in all.iter().enumerate() {
        let other = &all[(i + 1) % all.len()];
        let mut ways: Vec<Plan> = Vec::new();
        // Held otherwise, called otherwise, a step gone, a step of another plan, another order.
        let mut own = plan.clone();
        own.steps[0].longer += 1.25;
        own.steps[0].words.comb = "Otherwise.".to_owned();
        ways.push(own.clone());
        own.name = "Mine".to_owned();
        own.mistakes = Vec::new();
        own.us = None;
        ways.push(own.clone());
        let mut step = other.steps[0].clone();
        step.id = "from-another".to_owned();
        step.recuts.clear();
        step.apart.clear();
        own.steps.insert(0, step);
        ways.push(own.clone());
        if plan.steps.len() > 1 {
            own.steps.pop();
            ways.push(own);
            let mut turned = plan.clone();
            turned.steps.reverse();
            ways.push(turned);
        }
        for own in ways {
            if own.check().is_err() {
                continue;
            }
            let mut cut = visit(plan);
            let choices = cut.choices.clone();
            cut.take(Sketch { plan: own, choices });
            arrives(&cut);
        }
    }
}

proptest! {
    #![proptest_config(any::config(40))]

    #[test]
    fn any_plan_arrives_as_it_was(plan in any::any_plan()) {
        let mut cut = SavedCut::new("a", "", &plan.id, "");
        cut.take(Sketch { plan, choices: Choices::default() });
        let passed = Passed::of(&cut, "", true).unwrap();
        match Passed::read(&passed.to_link_part()) {
            // A number keeps as many digits as a document does.
            Ok(read) => same_lengths(&read.to_cut("b", ""), &cut),
            Err(why) => prop_assert!(cut.ready().is_err(), "{}", why),
        }
    }

    #[test]
    fn whatever_is_read_is_a_plan_or_a_sentence(text in "\\PC{0,200}", at in 0..4000_usize, sign in "\\PC") {
        let _ = Passed::read(&text);
        let good = Passed::of(&visit(&built_ins()[0]), "", true).unwrap();
        for text in [good.to_file(), good.to_link_part()] {
            let at = at % text.len();
            if text.is_char_boundary(at) {
                let _ = Passed::read(&text[..at]);
                let _ = Passed::read(&[&text[..at], &sign, &text[at..]].concat());
            }
        }
    }
}

fn refused(text: &str) -> PassError {
    Passed::read(text).unwrap_err()
}

#[test]
fn what_is_no_plan_is_refused_in_a_sentence() {
    let plan = &built_ins()[0];
    let mut cut = visit(plan);
    let mut own = plan.clone();
    own.name = "Mine".to_owned();
    cut.own = Some(Box::new(own));
    let good = Passed::of(&cut, "Mine", true).unwrap().to_file();
    assert!(Passed::read(&good).is_ok());
    let with = |from: &str, to: &str| {
        assert!(good.contains(from), "{from}");
        good.replacen(from, to, 1)
    };
    for strange in [
        "",
        "hello",
        "[]",
        "https://example.invalid/take",
        "🙂",
        "<script>",
    ] {
        assert!(
            matches!(refused(strange), PassError::NotOne | PassError::Damaged),
            "{strange}"
        );
    }
    for strange in ["{}", "{\"kind\":\"tautline\"}", "{\"kind\":4}"] {
        assert_eq!(refused(strange), PassError::NotOne, "{strange}");
    }
    assert_eq!(
        refused(&with("\"schema\":1", "\"schema\":2")),
        PassError::Newer
    );
    assert_eq!(
        refused(&with("\"schema\":1", "\"schema\":\"1\"")),
        PassError::Damaged
    );
    for damaged in [
        &good[..good.len() / 2],
        &with("\"minutes\":", "\"minutes\":NaN"),
        &with("\"minutes\":", "\"minutes\":1e999"),
        &["{\"kind\":\"tautline-plan\",\"x\":", &"[".repeat(100_000)].concat(),
        &[
            "{\"kind\":\"tautline-plan\",\"x\":",
            &"{\"a\":".repeat(50_000),
        ]
        .concat(),
    ] {
        assert_eq!(refused(damaged), PassError::Damaged);
    }
    assert_eq!(refused(&" {".repeat(400_000)), PassError::TooLarge);
    // A bomb: a hundred million signs in a hundred thousand.
    let bomb = pack(&" ".repeat(50_000_000));
    assert!(bomb.len() < 100_000);
    assert_eq!(refused(&bomb), PassError::TooLarge);
    let long = "x".repeat(121);
    assert_eq!(
        refused(&with("\"name\":\"Mine\"", &format!("\"name\":\"{long}\""))),
        PassError::TooLong
    );
    let longer = "x".repeat(8001);
    assert_eq!(
        refused(&with("\"about\":\"", &format!("\"about\":\"{longer}"))),
        PassError::TooLong
    );
}

#[test]
fn a_plan_that_contradicts_itself_or_its_head_is_refused() {
    let plan = &built_ins()[0];
    let mut cut = visit(plan);
    let mut own = plan.clone();
    own.steps[0].longer = 1e308;
    cut.own = Some(Box::new(own.clone()));
    let faulty = |cut: &SavedCut| refused(&Passed::of(cut, "", true).unwrap().to_file());
    assert!(matches!(faulty(&cut), PassError::Faulty(_)));
    own.steps[0].longer = 0.0;
    own.steps = vec![own.steps[0].clone(); 90];
    cut.own = Some(Box::new(own));
    assert!(matches!(faulty(&cut), PassError::Faulty(_)));
    cut.own = None;
    for (tape, cm) in [
        (Tape::Circumference, "48 cm"),
        (Tape::Length, "23 cm"),
        (Tape::Breadth, "17.9 cm"),
    ] {
        cut.tapes.insert(tape, cm.to_owned());
    }
    assert!(matches!(faulty(&cut), PassError::Faulty(_)));
}

#[test]
fn another_version_of_a_built_in_plan_is_not_taken_for_the_same() {
    let plan = &built_ins()[0];
    let link = Passed::of(&visit(plan), "", false).unwrap().to_link_part();
    let text = tautline::book::unpack(&link, 100_000).unwrap();
    let mut tree = tautline::json::tree(&text).unwrap();
    tree["changed"]["of"] = 7.into();
    assert_eq!(refused(&pack(&tree.to_string())), PassError::OtherVersion);
    tree["plan"] = "unknown".into();
    assert_eq!(refused(&pack(&tree.to_string())), PassError::OtherVersion);
}

#[test]
fn one_changed_step_fits_a_code_that_a_phone_reads() {
    for plan in built_ins() {
        let mut own = plan.clone();
        own.name = "Mine".to_owned();
        let last = own.steps.len() - 1;
        own.steps[last].longer = 0.5;
        if let Held::Travelling(travel) = &mut own.steps[last].held {
            travel.over = tautline::plan::Over::default();
        }
        let mut cut = visit(&plan);
        cut.left = None;
        let choices = cut.choices.clone();
        cut.take(Sketch { plan: own, choices });
        let length = Passed::of(&cut, "", true).unwrap().to_link_part().len();
        assert!(length < 1000, "{}: {length}", plan.id);
    }
}
