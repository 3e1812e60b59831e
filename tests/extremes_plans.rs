//! Built-in plans as a restless hand leaves them, for clients who answer anything: everything that is
//! asked of such a plan is answered or refused in a sentence, soon, and never a panic.

#[path = "common/any.rs"]
mod any;
#[path = "common/asked.rs"]
mod asked;
mod common;
#[path = "common/edits.rs"]
mod edits;

use any::config;
use asked::consultation;
use edits::{Edit, TYPED, edit};
use proptest::prelude::*;
use serde_json::Value;
use std::time::{Duration, Instant};
use tautline::book::{NotReady, SavedCut};
use tautline::consult::{Consultation, advice};
use tautline::cut::{
    Aiming, Aims, Falls, Height, Job, Live, Measured, Turns, What, Wish, before, cut, findings,
    means_of,
};
use tautline::head::{Landmark, Tape};
use tautline::measure::{Unit, read_change, read_degrees, read_length, storable};
use tautline::plan::{Area, Change, Given, Held, History, Plan, Sketch, built_ins};

/// No answer may take longer, by itself, even while the machine is busy with other things.
const SOON: Duration = Duration::from_secs(10);

/// Tapes as typed: a few of them, likely or not.
fn tapes() -> BoxedStrategy<Vec<(Tape, String)>> {
    let tape = (
        any::one_of(&Tape::ALL),
        0.0..=1.0_f64,
        prop::option::weighted(0.2, prop::sample::select(&TYPED[..])),
    )
        .prop_map(|(tape, share, typed)| {
            let (low, high) = tape.range();
            let cm = low + (high - low) * share;
            (tape, typed.map_or(format!("{cm:.1} cm"), str::to_owned))
        });
    prop::collection::vec(tape, 0..3).boxed()
}

fn said(sentence: &str) {
    let ends = sentence.ends_with(['.', '?', '!']);
    assert!(ends && sentence.len() > 8, "{sentence}");
    assert!(
        !sentence.contains("NaN") && !sentence.contains("inf ") && !sentence.contains("inf."),
        "{sentence}"
    );
    assert!(sentence.len() < 600, "{} letters", sentence.len());
}

/// What it comes to, and that it came soon.
fn soon<T>(what: &str, work: impl FnOnce() -> T) -> T {
    let began = Instant::now();
    let done = work();
    let took = began.elapsed();
    assert!(took < SOON, "{what}: {took:?}");
    done
}

/// Everything that the screens ask of a saved cut.
fn asked(saved: &SavedCut) {
    let plan = saved.plan().unwrap();
    for fault in plan.faults() {
        said(&fault.words);
        assert!(fault.step.is_none_or(|step| step < plan.steps.len()));
    }
    let _ = means_of(&plan);
    let ready = match saved.ready() {
        Ok(ready) => ready,
        Err(NotReady::UnknownPlan) => panic!("the plan is there"),
        Err(why) => return said(&why.to_string()),
    };
    let job = ready.job();
    let outcome = match soon("cut", || cut(&job, &Measured::new())) {
        Ok(outcome) => outcome,
        Err(why) => {
            said(&why.to_string());
            let stuck = Live::new(&job).err();
            assert!(
                stuck.is_some_and(|s| s.step < job.plan.steps.len()),
                "{why}"
            );
            return;
        }
    };
    for strand in outcome.sections.iter().flat_map(|s| &s.strands) {
        assert!(
            strand.after.is_finite() && strand.after >= 0.0,
            "{strand:?}"
        );
        assert!(strand.after <= strand.before + 1e-9, "{strand:?}");
    }
    for section in &outcome.sections {
        for length in [section.short(), section.long(), section.off()] {
            assert!(length.cm().is_finite() && length.cm() >= 0.0, "{section:?}");
        }
    }
    let live = soon("live", || Live::new(&job)).expect("what is cut is cut step by step");
    live_again(&live, &job);
    match soon("let down", || outcome.let_down(&job, 80)) {
        Ok(down) => {
            for fallen in &down.fallen {
                assert!(fallen.tip.is_finite());
            }
            assert!(down.lowest().is_finite());
            if let Some((level, sharp)) = down.weight_level(job.head) {
                assert!(level.z.is_finite() && sharp.is_finite());
            }
            match soon("summary", || outcome.summary(&job, &down)) {
                Ok(told) => {
                    for place in told.places {
                        assert!(place.cut.cm().is_finite() && place.ends.z.is_finite());
                    }
                }
                Err(why) => said(&why.to_string()),
            }
        }
        Err(why) => said(&why.to_string()),
    }
    match soon("findings", || findings(&job, &outcome, &ready.agreed)) {
        Ok(all) => all.iter().for_each(|f| said(&f.to_string())),
        Err(why) => said(&why.to_string()),
    }
    assert!(before(&job).sections.is_empty());
    let _ = advice(&saved.consultation);
}

/// Numbers as a hand can enter them.
fn storable_plan(plan: &Plan) -> Plan {
    fn settle(value: &mut Value) {
        match value {
            Value::Number(n) if n.is_f64() => *value = storable(n.as_f64().unwrap()).into(),
            Value::Array(all) => all.iter_mut().for_each(settle),
            Value::Object(all) => all.values_mut().for_each(settle),
            _ => {}
        }
    }
    let mut value = serde_json::to_value(plan).unwrap();
    settle(&mut value);
    serde_json::from_value(value).unwrap()
}

fn live_again(live: &Live, job: &Job<'_>) {
    for step in 0..=job.plan.steps.len() + 1 {
        let again = live.again(job, step).expect("nothing was changed");
        assert_eq!(
            again.outcome().sections.len(),
            live.outcome().sections.len()
        );
    }
}

fn saved(
    which: usize,
    edits: &[Edit],
    consultation: Consultation,
    tapes: Vec<(Tape, String)>,
) -> SavedCut {
    let plan = built_ins().swap_remove(which);
    let mut saved = SavedCut::new("a", "Invented", &plan.id, "t0");
    saved.tapes = tapes.into_iter().collect();
    saved.consultation = consultation;
    let written = plan.clone();
    let mut history = History::default();
    let start = saved.sketch().unwrap();
    for edit in edits {
        let was = saved.sketch().unwrap();
        let mut now = was.clone();
        edit.make(&mut now.plan);
        now.plan = storable_plan(&now.plan);
        for step in 0..now.plan.steps.len() {
            now.plan.forget_words(step, &written);
        }
        saved.take(now);
        history.record(&was, &saved.sketch().unwrap());
    }
    // Kept, it reads, and is the same; what was done can be taken back to the beginning, and done again.
    let text = saved.to_json();
    assert_eq!(SavedCut::from_json(&text).as_ref(), Ok(&saved), "{text}");
    let end = saved.sketch().unwrap();
    let mut now = end.clone();
    history = History::from_json(&history.to_json(usize::MAX));
    while history.can_undo() {
        history.undo(&mut now);
    }
    assert_eq!(now, start);
    while history.can_redo() {
        history.redo(&mut now);
    }
    assert_eq!(now, end);
    saved
}

/// How many cases; more by hand.
fn cases(usual: u32) -> ProptestConfig {
    let wanted = std::env::var("TAUTLINE_CASES").ok();
    let mut config = config(wanted.and_then(|n| n.parse().ok()).unwrap_or(usual));
    if let Some(seed) = std::env::var("TAUTLINE_SEED")
        .ok()
        .and_then(|s| s.parse().ok())
    {
        config.rng_seed = proptest::test_runner::RngSeed::Fixed(seed);
    }
    config
}

proptest! {
    #![proptest_config(cases(60))]

    /// An edited plan, for a client who answers anything.
    #[test]
    fn an_edited_plan_is_worked_out_or_refused(
        which in 0..built_ins().len(),
        edits in prop::collection::vec(edit(), 0..10),
        consultation in consultation(&TYPED),
        tapes in tapes(),
    ) {
        asked(&saved(which, &edits, consultation, tapes));
    }

    /// A plan dragged along: worked out from any step on it is what it is from the first.
    #[test]
    fn a_dragged_plan_is_worked_out_from_where_it_differs(
        which in 0..built_ins().len(),
        edits in prop::collection::vec(edit(), 0..4),
        drag in edit(),
    ) {
        let saved = saved(which, &edits, Consultation::default(), Vec::new());
        let Ok(ready) = saved.ready() else { return Ok(()) };
        let Ok(live) = Live::new(&ready.job()) else { return Ok(()) };
        let mut plan = ready.plan.clone();
        drag.make(&mut plan);
        prop_assume!(plan.check().is_ok());
        let from = plan.steps.iter().zip(&ready.plan.steps).take_while(|(a, b)| a == b).count();
        let job = Job { plan: &plan, ..ready.job() };
        match (live.again(&job, from), Live::new(&job)) {
            (Ok(a), Ok(b)) => {
                prop_assert_eq!(a.outcome().sections.len(), b.outcome().sections.len());
                for (a, b) in a.outcome().sections.iter().zip(&b.outcome().sections) {
                    prop_assert!((a.long().cm() - b.long().cm()).abs() < 1e-9);
                }
            }
            (Err(a), Err(b)) => prop_assert_eq!(a, b),
            (a, b) => prop_assert!(false, "{:?} {:?}", a.err(), b.err()),
        }
    }
}

/// Wishes that somebody may have, or that a damaged document holds.
fn wish() -> BoxedStrategy<Wish> {
    let odd = [0.0, -0.0, 2.5, -40.0, 250.0, 1e9, -1e308];
    let odd = || prop_oneof![3 => -10.0..10.0_f64, 1 => prop::sample::select(odd.to_vec())];
    (
        any::one_of(&What::ALL),
        any::one_of(&Landmark::LEVELS),
        odd(),
        odd(),
    )
        .prop_map(|(what, landmark, below, most)| Wish {
            what,
            on: true,
            at: Height { landmark, below },
            most,
        })
        .boxed()
}

proptest! {
    #![proptest_config(cases(12))]

    /// Aiming in an edited plan: each slice is short, it ends, and its answer is a plan.
    #[test]
    fn aiming_in_an_edited_plan_ends(
        which in 0..built_ins().len(),
        edits in prop::collection::vec(edit(), 0..6),
        consultation in consultation(&TYPED),
        wishes in prop::collection::vec(wish(), 1..3),
    ) {
        let saved = saved(which, &edits, consultation, Vec::new());
        let Ok(ready) = saved.ready() else { return Ok(()) };
        let job = ready.job();
        let Ok(outcome) = cut(&job, &Measured::new()) else { return Ok(()) };
        let Ok(falls) = Falls::of(&job, &outcome) else { return Ok(()) };
        let aims = Aims { wishes, fixed: Vec::new() }.filled(&job, &falls);
        let means = means_of(&saved.plan().unwrap());
        let (_, goals): (Vec<_>, Vec<_>) = aims.goals(&job).into_iter().unzip();
        let began = Instant::now();
        let mut aiming = match Aiming::start(&job, &goals, &means) {
            Ok(aiming) => aiming,
            Err(why) => { said(&why.to_string()); return Ok(()) }
        };
        while !soon("a slice", || aiming.advance(&job)) {
            prop_assert!(began.elapsed() < Duration::from_secs(60), "{} tries", aiming.tries());
        }
        match aiming.answer(&job) {
            Ok(aimed) => {
                prop_assert!(aimed.by.iter().all(|b| b.is_finite()), "{:?}", aimed.by);
                for met in &aimed.goals {
                    prop_assert!(met.miss.is_finite(), "{met:?}");
                    said(&met.goal.said(met.miss, Unit::Cm));
                }
                let mut plan = saved.plan().unwrap();
                for change in aimed.changes() {
                    said(&change.said(&plan, Unit::Inches));
                    change.make(&mut plan);
                }
                let mut kept = saved.clone();
                kept.take(Sketch { plan, choices: saved.choices.clone() });
                prop_assert!(kept.ready().is_ok(), "{:?}", kept.ready().err());
                prop_assert_eq!(SavedCut::from_json(&kept.to_json()), Ok(kept));
            }
            Err(why) => said(&why.to_string()),
        }
    }
}

/// What is typed never reads as a number that can't be kept.
#[test]
fn what_reads_is_finite() {
    let digits = "9".repeat(400);
    let huge = format!("{digits}/{digits}");
    let odd = [
        &huge, &digits, "1e400", "1/0", "0/0", "1e308 in", "nan", "infinity", "+inf", "1/1e-320",
        "-1/0", "1e400 mm", "٣", "1_000", "0x10", "8 1/0",
    ];
    for text in TYPED.iter().chain(&odd) {
        for unit in [Unit::Cm, Unit::Inches] {
            for read in [read_length(text, unit), read_change(text, unit)] {
                assert!(
                    read.is_err() || read.is_ok_and(|l| l.cm().is_finite()),
                    "{text}"
                );
            }
        }
        for zero in ["-0", "−0", "-0.0"] {
            assert!(read_degrees(zero, (-90, 90)).unwrap().is_sign_positive());
            assert!(read_change(zero, Unit::Cm).unwrap().cm().is_sign_positive());
        }
        let degrees = read_degrees(text, (-90, 90));
        assert!(
            degrees.is_err() || degrees.is_ok_and(f64::is_finite),
            "{text}"
        );
    }
}

/// A length typed in either unit, or aimed at, comes out of a stored document as it went in: else
/// what was changed could not be taken back once another screen was opened.
#[test]
fn what_is_typed_is_kept_to_the_last_digit_and_taken_back_after_reading_it_again() {
    let plan = built_ins().swap_remove(0);
    let mut texts: Vec<String> = (1..200).map(|i| format!("{i}/8 in")).collect();
    texts.extend((1..100).map(|i| format!("{i}/7 cm")));
    texts.extend((1..100).map(|i| format!("0.{i}0{i}3{i}7{i}9{i}1 in")));
    for text in texts {
        let mut saved = SavedCut::new("a", "Invented", &plan.id, "t0");
        let start = saved.sketch().unwrap();
        let mut now = start.clone();
        now.plan.steps[0].longer = read_change(&text, Unit::Cm).unwrap().cm();
        let degrees = text.split(' ').next().unwrap();
        now.plan.steps[0].tilt.forward = read_degrees(degrees, (-60, 60)).unwrap_or(1.0 / 3.0);
        now.plan.steps[0].tilt.forward = storable(now.plan.steps[0].tilt.forward);
        let turned = tautline::cut::Change {
            step: now.plan.steps[1].id.clone(),
            turns: Turns::Length,
            by: 0.1 + 0.2,
        };
        turned.make(&mut now.plan);
        saved.take(now.clone());
        let mut history = History::default();
        history.record(&start, &now);
        let mut again = SavedCut::from_json(&saved.to_json())
            .unwrap()
            .sketch()
            .unwrap();
        assert_eq!(again, now, "{text}");
        history.undo(&mut again);
        assert_eq!(again, start, "{text}");
        assert!(history.can_redo(), "{text}");
    }
}

/// What a document may hold and no field takes: too much to work out, or no hair at all.
#[test]
fn what_is_too_much_to_work_out_is_said() {
    let plan = |id: &str| tautline::plan::built_in(id).unwrap();
    let mut steps = plan("uniform-layers");
    while steps.steps.len() < 300 {
        steps.duplicate(0);
    }
    let mut edges = plan("soft-layers-face-frame");
    edges.steps[1].area = Area::Pivoting {
        edges: vec![tautline::plan::Edge::Temple; 1001],
        names: vec![String::new(); 1000],
    };
    let mut rise = plan("tapered-nape");
    let mut below = rise.clone();
    for (plan, to) in [(&mut rise, 1e308), (&mut below, 0.5)] {
        for step in &mut plan.steps {
            if let Held::Taper(taper) = &mut step.held {
                taper.rise = to;
                taper.hairline = Given::Fixed(-5.0);
                taper.up_to = Given::Fixed(-1.0);
            }
        }
    }
    for (plan, step) in [
        (steps, None),
        (edges, Some(1)),
        (rise, Some(0)),
        (below, Some(0)),
    ] {
        let fault = plan.faults().into_iter().next().unwrap();
        said(&fault.words);
        assert!(fault.step == step || step == Some(0), "{fault:?}");
        let mut saved = SavedCut::new("a", "Invented", &plan.id, "t0");
        saved.own = Some(Box::new(plan));
        assert!(saved.ready().is_err());
        asked(&saved);
    }
}

/// A history that was tampered with, or is another plan's, changes nothing and stops nothing.
#[test]
fn a_damaged_history_changes_nothing() {
    let plans = built_ins();
    let start = Sketch {
        plan: plans[0].clone(),
        choices: tautline::plan::Choices::default(),
    };
    let mut now = start.clone();
    let mut history = History::default();
    now.plan.steps[0].longer = 1.0;
    history.record(&start, &now);
    assert!(Change::between(&start, &now).is_some());
    let text = history.to_json(usize::MAX);
    for (of, with) in [
        ("\"at\":0", "\"at\":4294967295"),
        ("\"at\":0", "\"at\":18446744073709551615"),
        ("\"at\":0", "\"at\":-1"),
        ("\"at\":0", "\"at\":3"),
        ("\"count\":", "\"count\":9"),
        ("\"steps\":[", "\"steps\":[null,"),
        ("\"past\":[", "\"past\":[{},"),
        ("\"longer\":1.0", "\"longer\":2.0"),
        ("\"longer\":1.0", "\"longer\":null"),
        ("\"longer\":1.0", "\"longer\":1e999"),
    ] {
        let damaged = text.replace(of, with);
        assert_ne!(damaged, text, "{of}");
        let mut history = History::from_json(&damaged);
        let mut there = now.clone();
        history.undo(&mut there);
        assert_eq!(there, now, "{with}");
        history.redo(&mut there);
        assert_eq!(there, now, "{with}");
    }
}
