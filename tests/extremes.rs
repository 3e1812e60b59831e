//! Whatever stands in a plan, a head or a question: an answer or a sentence, soon, and never a panic.

#[path = "common/any.rs"]
mod any;
mod common;

use any::config;
use proptest::prelude::*;
use proptest::sample::Index;
use serde_json::Value;
use std::time::{Duration, Instant};
use tautline::cut::{
    Agreed, Goal, Job, Means, Measured, Outcome, SectionKey, Turns, USUAL_DRIFT, aim, cut, drift,
    findings, let_down,
};
use tautline::hair::{FallsTo, Hair};
use tautline::head::{Head, Landmark, Side, Spot, Tape, Tapes};
use tautline::measure::Length;
use tautline::plan::{Choices, Plan, Sides, built_in};

/// What is put in the place of a number.
const NUMBERS: [f64; 16] = [
    0.0, -0.0, -1.0, 1e9, -1e9, 1e-9, 0.001, 0.5, 2.0, 45.0, 50.0, 90.0, 180.0, 720.0, 1000.0,
    1.7e308,
];
/// No cut may take longer.
const SOON: Duration = Duration::from_secs(2);

/// Every value of a document that `wanted` picks.
fn picked<'a>(
    value: &'a mut Value,
    wanted: &impl Fn(&Value) -> bool,
    all: &mut Vec<&'a mut Value>,
) {
    if wanted(value) {
        all.push(value);
        return;
    }
    match value {
        Value::Array(items) => items.iter_mut().for_each(|v| picked(v, wanted, all)),
        Value::Object(entries) => entries.values_mut().for_each(|v| picked(v, wanted, all)),
        _ => {}
    }
}

/// Changes one of those values, if there is any.
fn put(
    document: &mut Value,
    which: &Index,
    wanted: impl Fn(&Value) -> bool,
    change: impl FnOnce(&mut Value),
) {
    let mut all = Vec::new();
    picked(document, &wanted, &mut all);
    let count = all.len();
    if count > 0 {
        change(all.swap_remove(which.index(count)));
    }
}

#[derive(Clone, Debug)]
enum Change {
    /// A number replaced.
    Number(Index, f64),
    /// A word replaced by another word of the document.
    Word(Index, Index),
    /// A list emptied.
    Emptied(Index),
    /// A list's first entry said once more.
    Twice(Index),
}

fn change() -> BoxedStrategy<Change> {
    let number = prop_oneof![any::one_of(&NUMBERS), -100.0..100.0_f64];
    prop_oneof![
        8 => (proptest::prelude::any::<Index>(), number).prop_map(|(i, n)| Change::Number(i, n)),
        3 => (proptest::prelude::any::<Index>(), any::<Index>()).prop_map(|(i, j)| Change::Word(i, j)),
        1 => proptest::prelude::any::<Index>().prop_map(Change::Emptied),
        1 => proptest::prelude::any::<Index>().prop_map(Change::Twice),
    ]
    .boxed()
}

/// A list whose entries hold no lists of their own, or one in six of the others.
fn a_list(value: &Value) -> bool {
    value.as_array().is_some_and(|items| {
        let text = Value::Array(items.clone()).to_string();
        !text[1..].contains('[') || text.len().is_multiple_of(6)
    })
}

fn changed(mut document: Value, changes: &[Change]) -> Value {
    for change in changes {
        match change {
            Change::Number(i, n) => {
                put(&mut document, i, Value::is_number, |v| *v = Value::from(*n));
            }
            Change::Word(i, j) => {
                let mut said = Value::Null;
                put(&mut document, j, Value::is_string, |v| said = v.clone());
                put(&mut document, i, Value::is_string, |v| *v = said);
            }
            Change::Emptied(i) => put(&mut document, i, a_list, |v| *v = Value::Array(Vec::new())),
            Change::Twice(i) => put(&mut document, i, a_list, |v| {
                let list = v.as_array_mut().unwrap();
                list.extend(list.first().cloned());
            }),
        }
    }
    document
}

/// Heads at the edges of what the tapes take: the least and the most of each, as far as they make one
/// head.
fn edge_head() -> BoxedStrategy<Head> {
    let ends = prop::array::uniform6(prop::option::weighted(0.3, prop::bool::ANY));
    let edge = ends.prop_filter_map("no head", |ends| {
        let mut tapes = Tapes::default();
        for (tape, most) in Tape::ALL.into_iter().zip(ends) {
            if let Some(most) = most {
                let (low, high) = tape.range();
                tapes.set(tape, if most { high } else { low }).unwrap();
            }
        }
        Head::from_tapes(&tapes).ok()
    });
    prop_oneof![edge, any::head()].boxed()
}

fn said(sentence: &str) {
    assert!(sentence.ends_with('.') && sentence.len() > 15, "{sentence}");
    assert!(
        !sentence.contains("NaN") && !sentence.contains("inf"),
        "{sentence}"
    );
}

fn checked(head: &Head, plan: &Plan, hair: &Hair) -> Option<Outcome> {
    let choices = Choices::default();
    let job = Job {
        head,
        hair,
        plan,
        choices: &choices,
    };
    let began = Instant::now();
    let outcome = cut(&job, &Measured::new());
    assert!(began.elapsed() < SOON, "{:?}", began.elapsed());
    match outcome {
        Ok(outcome) => {
            let most = 80 * 2 * plan.steps.len() + 100;
            assert!(outcome.sections.len() <= most, "{}", outcome.sections.len());
            for strand in outcome.sections.iter().flat_map(|s| &s.strands) {
                assert!(
                    strand.after.is_finite() && strand.after >= 0.0,
                    "{strand:?}"
                );
                assert!(strand.after <= strand.before, "{strand:?}");
            }
            Some(outcome)
        }
        Err(e) => {
            said(&e.to_string());
            None
        }
    }
}

proptest! {
    #![proptest_config(config(400))]

    /// Plans as files, with a few numbers, words and lists changed.
    #[test]
    fn a_plan_that_was_tampered_with_is_cut_or_refused(
        head in edge_head(),
        hair in any::hair(),
        plan in prop_oneof![Just(built_in("soft-layers-face-frame").unwrap()), any::any_plan()],
        changes in prop::collection::vec(change(), 1..5),
    ) {
        let text = changed(serde_json::to_value(&plan).unwrap(), &changes).to_string();
        match Plan::from_json(&text) {
            Ok(plan) => { checked(&head, &plan, &hair); }
            Err(e) => said(&e.to_string()),
        }
    }

    /// Heads at the ends of what can be entered, any plan; then everything that is asked of a plan.
    #[test]
    fn a_head_at_the_edge_answers_every_question(
        head in edge_head(),
        hair in any::hair(),
        plan in any::any_plan(),
        which in proptest::prelude::any::<Index>(),
        odd in any::one_of(&NUMBERS),
    ) {
        let Some(outcome) = checked(&head, &plan, &hair) else { return Ok(()) };
        let choices = Choices::default();
        let job = Job { head: &head, hair: &hair, plan: &plan, choices: &choices };
        let agreed = Agreed {
            shortest: Some(FallsTo::from_cm(odd)),
            no_higher: vec![(head.landmark(Landmark::Nape, Side::Centre), Landmark::Chin)],
        };
        match findings(&job, &outcome, &agreed) {
            Ok(all) => all.iter().for_each(|f| said(&f.to_string())),
            Err(e) => said(&e.to_string()),
        }
        match let_down(&head, &outcome.lengths, &job.wear(), 60) {
            Ok(down) => for fallen in &down.fallen {
                prop_assert!(fallen.tip.is_finite());
            },
            Err(e) => said(&e.to_string()),
        }
        // A section measured at anything.
        if !outcome.sections.is_empty() {
            let key: SectionKey = outcome.sections[which.index(outcome.sections.len())].key.clone();
            let measured = Measured::from([(key, Length::from_cm(odd))]);
            match cut(&job, &measured) {
                Ok(again) => for strand in again.sections.iter().flat_map(|s| &s.strands) {
                    prop_assert!(strand.after.is_finite() && strand.after >= 0.0, "{strand:?}");
                },
                Err(e) => said(&e.to_string()),
            }
        }
    }
}

proptest! {
    #![proptest_config(config(30))]

    #[test]
    fn drift_by_anything_is_a_number(
        head in edge_head(),
        plan in any::any_plan(),
        degrees in any::one_of(&NUMBERS),
        cm in any::one_of(&NUMBERS),
    ) {
        let (hair, choices) = (Hair::default(), Choices::default());
        let job = Job { head: &head, hair: &hair, plan: &plan, choices: &choices };
        for by in [USUAL_DRIFT, (degrees, cm)] {
            match drift(&job, by) {
                Ok(all) => for drifted in all {
                    prop_assert!(drifted.spread().is_finite(), "{by:?} {drifted:?}");
                },
                Err(e) => said(&e.to_string()),
            }
        }
    }
}

proptest! {
    #![proptest_config(config(30))]

    /// Goals and means that nobody would ask for.
    #[test]
    fn aiming_at_anything_ends(
        azimuth in any::one_of(&NUMBERS),
        out in any::one_of(&NUMBERS),
        landmark in any::one_of(&[Landmark::Brow, Landmark::HighPoint, Landmark::Waist]),
        off in any::one_of(&NUMBERS),
        range in (any::one_of(&NUMBERS), any::one_of(&NUMBERS)),
        degrees in prop::bool::ANY,
    ) {
        let head = common::mean_head();
        let mut plan = built_in("soft-layers-face-frame").unwrap();
        for step in &mut plan.steps {
            step.sides = Sides::Left;
        }
        let (hair, choices) = (Hair::default(), Choices::default());
        let job = Job { head: &head, hair: &hair, plan: &plan, choices: &choices };
        let place = Spot::at_degrees(azimuth, out);
        let goals = [
            Goal::EndsAt { place, height: landmark.into() },
            Goal::NoMoreOff(Length::from_cm(off)),
        ];
        let turns = if degrees { Turns::Elevation } else { Turns::Length };
        let means = [Means { step: "back".to_owned(), turns, range }];
        let began = Instant::now();
        match aim(&job, &goals, &means) {
            Ok(aimed) => {
                prop_assert!(aimed.by.iter().all(|b| b.is_finite()), "{:?}", aimed.by);
                for met in &aimed.goals {
                    prop_assert!(met.miss.is_finite(), "{met:?}");
                    said(&met.goal.said(met.miss, tautline::measure::Unit::Cm));
                }
            }
            Err(e) => said(&e.to_string()),
        }
        prop_assert!(began.elapsed() < Duration::from_secs(20));
    }
}

/// A search without an end once never ended.
#[test]
fn means_without_an_end_are_bounded() {
    let head = common::mean_head();
    let plan = built_in("soft-layers-face-frame").unwrap();
    let (hair, choices) = (Hair::default(), Choices::default());
    let job = Job {
        head: &head,
        hair: &hair,
        plan: &plan,
        choices: &choices,
    };
    let place = Spot::at_degrees(170.0, 0.9);
    let landmark = Landmark::Waist;
    let goals = [Goal::EndsAt {
        place,
        height: landmark.into(),
    }];
    for turns in [Turns::Elevation, Turns::Length] {
        let means = [Means {
            step: "back".to_owned(),
            turns,
            range: (0.001, f64::INFINITY),
        }];
        let aimed = aim(&job, &goals, &means).unwrap();
        assert!(aimed.by[0].is_finite() && aimed.by[0] <= 300.0);
    }
}
