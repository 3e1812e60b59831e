//! Plans that are changed: taken back and done again, arranged, at fault, told in words, worked out
//! from where they differ.

mod common;

use common::mean_head;
use proptest::prelude::*;
use tautline::cut::{Job, Live, Measured, TOLD, before, cut};
use tautline::hair::Hair;
use tautline::head::{Head, Landmark};
use tautline::measure::Unit;
use tautline::plan::{
    Choices, Field, Given, Held, History, Plan, Rule, Sides, Sketch, built_in, built_ins,
};

fn sketch(id: &str) -> Sketch {
    Sketch {
        plan: built_in(id).unwrap(),
        choices: Choices::default(),
    }
}

fn job<'a>(head: &'a Head, hair: &'a Hair, plan: &'a Plan, choices: &'a Choices) -> Job<'a> {
    Job {
        head,
        hair,
        plan,
        choices,
    }
}

/// One of the things that a hand may do to a plan.
fn doing(sketch: &mut Sketch, which: u8, at: usize) {
    let plan = &mut sketch.plan;
    let step = at % plan.steps.len().max(1);
    match which {
        0 => drop(plan.duplicate(step)),
        1 => drop(plan.move_step(step, at / 3)),
        2 if plan.steps.len() > 1 => plan.remove(step),
        3 => drop(plan.mirror(step)),
        4 => plan.change_over(step),
        5 => drop(plan.add_step()),
        6 => plan.name.push('!'),
        7 => {
            if let Some(step) = plan.steps.get_mut(step) {
                step.held = step.held.as_kind(at % 7);
                step.longer += 1.5;
            }
        }
        8 => {
            let id = plan.choices.first().map(|c| (c.id.clone(), c.kind.clone()));
            if let Some((id, tautline::plan::Kind::Length { least, .. })) = id {
                let plan = plan.clone();
                sketch
                    .choices
                    .set(&plan, &id, &format!("{least} cm"))
                    .unwrap();
            }
        }
        _ => {
            if let Some(step) = plan.steps.get_mut(step) {
                step.sides = [Sides::Left, Sides::Right, Sides::Across, Sides::Both][at % 4];
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, ..ProptestConfig::default() })]
    /// Whatever is done can be taken back to the very beginning and done again to the very end, also
    /// after it was kept and read again.
    #[test]
    fn everything_is_taken_back_and_done_again(
        which in 0_usize..16,
        doings in prop::collection::vec((0_u8..10, 0_usize..40), 1..40),
    ) {
        let plan = built_ins().swap_remove(which);
        let start = Sketch { plan, choices: Choices::default() };
        let mut now = start.clone();
        let mut history = History::default();
        let mut states = vec![start.clone()];
        for (kind, at) in doings {
            let was = now.clone();
            doing(&mut now, kind, at);
            history.record(&was, &now);
            if now != was {
                states.push(now.clone());
            }
        }
        let end = now.clone();
        history = History::from_json(&history.to_json(usize::MAX));
        for state in states.iter().rev().skip(1) {
            prop_assert!(history.can_undo());
            history.undo(&mut now);
            prop_assert_eq!(&now, state);
        }
        prop_assert!(!history.can_undo());
        for state in &states[1..] {
            history.redo(&mut now);
            prop_assert_eq!(&now, state);
        }
        prop_assert!(!history.can_redo());
        prop_assert_eq!(now, end);
        let _ = start;
    }
}

#[test]
fn a_change_after_taking_back_begins_anew_and_much_history_keeps_its_latest() {
    let mut now = sketch("graduated-bob");
    let mut history = History::default();
    for i in 0..200 {
        let was = now.clone();
        now.plan.steps[i % 3].longer = 0.5 + i as f64;
        history.record(&was, &now);
    }
    let (mut short, mut there) = (History::from_json(&history.to_json(20_000)), now.clone());
    assert!(history.to_json(20_000).len() <= 20_000);
    short.undo(&mut there);
    assert_eq!(there.plan.steps[199 % 3].longer, 0.5 + 196.0);
    history.undo(&mut now);
    let was = now.clone();
    now.plan.remove(0);
    history.record(&was, &now);
    assert!(!history.can_redo());
    // One that belongs to another plan changes nothing.
    let mut other = sketch("trim");
    history.undo(&mut other);
    assert_eq!(other, sketch("trim"));
    assert_eq!(History::from_json("{no"), History::default());
}

#[test]
fn what_contradicts_itself_is_said_of_the_step_where_it_is() {
    for plan in built_ins() {
        assert_eq!(plan.faults(), Vec::new(), "{}", plan.id);
    }
    let good = built_in("soft-layers-face-frame").unwrap();
    let fault = |change: fn(&mut Plan)| {
        let mut plan = good.clone();
        change(&mut plan);
        let faults = plan.faults();
        assert!(plan.check().is_err());
        assert!(!faults.is_empty());
        (faults[0].step, faults[0].field, faults[0].words.clone())
    };
    // The sides are guided by the front piece: moved before it, they say so.
    let (step, field, words) = fault(|plan| {
        plan.move_step(1, 0);
    });
    assert_eq!((step, field), (Some(0), Field::Guide));
    assert!(words.contains("Front guide"), "{words}");
    let (step, _, words) = fault(|plan| plan.remove(0));
    assert_eq!(step, Some(0));
    assert!(words.contains("gone"), "{words}");
    let steep = fault(|plan| {
        if let Held::Stationary(cut) = &mut plan.steps[1].held {
            cut.elevation.degrees = 200.0;
        }
    });
    assert_eq!((steep.0, steep.1), (Some(1), Field::Hold));
    let nan = fault(|plan| plan.steps[2].longer = f64::NAN);
    assert_eq!((nan.0, nan.1), (Some(2), Field::Guide));
    let unknown = fault(|plan| {
        if let Some(rule) = plan.steps[2].held.rule_mut() {
            *rule = Rule::Length(Given::Choice("nowhere".to_owned()));
        }
    });
    assert_eq!((unknown.0, unknown.1), (Some(2), Field::Guide));
    assert_eq!(fault(|plan| plan.steps.clear()).0, None);
}

/// A duplicated, mirrored step has its own name and stands on the other side; its twin cuts alike.
#[test]
fn a_mirrored_step_cuts_the_other_side_alike() {
    let head = mean_head();
    let mut plan = built_in("uniform-layers").unwrap();
    plan.steps.truncate(1);
    plan.steps[0].sides = Sides::Left;
    plan.steps[0].tilt.left = 10.0;
    let there = plan.mirror(0);
    assert_eq!((there, plan.steps[1].sides), (1, Sides::Right));
    assert_eq!(plan.steps[1].tilt.left, -10.0);
    assert_ne!(plan.steps[0].id, plan.steps[1].id);
    let mut upright = plan.clone();
    upright.steps[0].tilt.left = 0.0;
    upright.change_over(0);
    assert!(upright.steps[0].tilt.left.is_sign_positive());
    assert_eq!(plan.faults(), Vec::new());
    let (hair, choices) = (Hair::default(), Choices::default());
    let outcome = cut(&job(&head, &hair, &plan, &choices), &Measured::new()).unwrap();
    let of = |step: usize| {
        let ours = outcome.sections.iter().filter(move |s| s.step == step);
        ours.map(|s| (s.short().cm(), s.long().cm()))
    };
    assert!(of(0).count() > 3);
    for (left, right) in of(0).zip(of(1)) {
        assert!((left.0 - right.0).abs() < 0.01 && (left.1 - right.1).abs() < 0.01);
    }
}

/// What is left longer than its guide says comes out longer by that, where it is held straight out.
#[test]
fn a_step_left_longer_is_longer() {
    let head = mean_head();
    let (hair, choices) = (Hair::default(), Choices::default());
    let mut plan = built_in("uniform-layers").unwrap();
    let longest = |plan: &Plan| {
        let outcome = cut(&job(&head, &hair, plan, &choices), &Measured::new()).unwrap();
        outcome.spread(Some(0)).unwrap().1.cm()
    };
    let was = longest(&plan);
    plan.steps[0].longer = 2.0;
    assert!((longest(&plan) - was - 2.0).abs() < 0.1);
}

/// Working out from where a plan differs comes to the same as working it out whole, at every root.
#[test]
fn a_changed_plan_worked_out_from_the_change_is_the_same_plan() {
    let head = mean_head();
    let (hair, choices) = (Hair::default(), Choices::default());
    for mut plan in built_ins() {
        let live = Live::new(&job(&head, &hair, &plan, &choices)).unwrap();
        let cutting = plan.steps.iter().filter(|s| s.held.cuts()).count();
        let step = cutting - 1;
        match &mut plan.steps[step].held {
            Held::Stationary(cut) => cut.elevation.degrees += 7.0,
            Held::Travelling(travel) => travel.elevation.degrees -= 7.0,
            _ => plan.steps[step].longer = 0.7,
        }
        let changed = job(&head, &hair, &plan, &choices);
        let quick = live.again(&changed, step).unwrap();
        let whole = cut(&changed, &Measured::new()).unwrap();
        assert_eq!(quick.outcome().sections.len(), whole.sections.len());
        for (a, b) in quick.outcome().sections.iter().zip(&whole.sections) {
            for (a, b) in a.strands.iter().zip(&b.strands) {
                assert!((a.after - b.after).abs() < 1e-9, "{}", plan.id);
            }
        }
        // Told of nine roots, a section is told to a centimetre, what a hand in motion sees.
        for (a, b) in quick.outcome().sections.iter().zip(&whole.sections) {
            if b.reach() >= 1.0 {
                let off = (a.long().cm() - b.long().cm()).abs();
                assert!(off < 1.0, "{} {}: {off}", plan.id, b.section.name);
            }
        }
    }
}

/// Hair let down on one side and mirrored is hair let down on both.
#[test]
fn half_a_head_let_down_is_the_whole_head() {
    let head = mean_head();
    let (hair, choices) = (Hair::default(), Choices::default());
    for id in ["soft-layers-face-frame", "graduated-bob"] {
        let plan = built_in(id).unwrap();
        let job = job(&head, &hair, &plan, &choices);
        let outcome = cut(&job, &Measured::new()).unwrap();
        let half = outcome.let_down(&job, 300).unwrap();
        let whole = tautline::cut::let_down(&head, &outcome.lengths, &job.wear(), 300).unwrap();
        assert_eq!(half.fallen.len(), whole.fallen.len());
        for (a, b) in half.fallen.iter().zip(&whole.fallen) {
            assert!(a.tip.distance(b.tip) < 0.02, "{id}: {} {}", a.tip, b.tip);
        }
        let line = |down: &tautline::cut::LetDown| down.weight_level(&head).unwrap().0.z;
        assert!((line(&half) - line(&whole)).abs() < 0.05);
    }
}

#[test]
fn a_plan_is_told_at_named_places_and_hair_before_is_longer_everywhere() {
    let head = mean_head();
    let (hair, choices) = (Hair::default(), Choices::default());
    for plan in built_ins() {
        let job = job(&head, &hair, &plan, &choices);
        let was = before(&job);
        let is = cut(&job, &Measured::new()).unwrap();
        let told = |outcome: &tautline::cut::Outcome| {
            outcome
                .summary(&job, &outcome.let_down(&job, 200).unwrap())
                .unwrap()
        };
        let (was, is) = (told(&was), told(&is));
        assert_eq!(is.places.len(), TOLD.len());
        assert!(was.spread.is_none() && is.spread.is_some());
        for (was, is) in was.places.iter().zip(&is.places) {
            assert!(is.longer_than(was) <= 1e-6, "{} {:?}", plan.id, is.place);
            assert!(is.ends.z >= was.ends.z - 0.1, "{} {:?}", plan.id, is.place);
        }
    }
    // Common practice, no source: one length ends on one level all round.
    let plan = built_in("one-length-bob").unwrap();
    let job = job(&head, &hair, &plan, &choices);
    let outcome = cut(&job, &Measured::new()).unwrap();
    let told = outcome
        .summary(&job, &outcome.let_down(&job, 200).unwrap())
        .unwrap();
    let back: Vec<f64> = told
        .places
        .iter()
        .filter(|p| [Landmark::Occipital, Landmark::Nape, Landmark::BehindEar].contains(&p.place))
        .map(|p| p.ends.z)
        .collect();
    assert!(
        (back[0] - back[1]).abs() < 0.3 && (back[0] - back[2]).abs() < 0.3,
        "{back:?}"
    );
}

/// Words told from the data follow the hold; what somebody wrote stays.
#[test]
fn words_follow_the_hold() {
    let written = built_in("soft-layers-face-frame").unwrap();
    let mut plan = written.clone();
    plan.steps[1].words.fingers = "Mine.".to_owned();
    if let Held::Stationary(cut) = &mut plan.steps[1].held {
        cut.elevation.degrees = 60.0;
    }
    plan.forget_words(1, &written);
    let told = plan.clone().told(Unit::Cm);
    assert_eq!(told.steps[1].words.fingers, "Mine.");
    assert!(
        told.steps[1].words.comb.contains("60°"),
        "{:?}",
        told.steps[1].words
    );
    assert!(told.steps[1].words.guide.contains("Front guide"));
    assert_eq!(
        told.steps[1].words.technique,
        written.steps[1].words.technique
    );
    // Untouched, nothing is forgotten.
    assert_eq!(told.steps[2].words, written.steps[2].words);
    // Every way to hold has words for all three.
    for kind in 0..7 {
        plan.steps[1].held = plan.steps[1].held.as_kind(kind);
        let words = plan.words(1, Unit::Inches);
        assert!(
            ![&words.comb, &words.fingers, &words.guide]
                .iter()
                .any(|w| w.is_empty())
        );
    }
}
