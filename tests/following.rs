//! At the chair the plan follows what was really cut: every target that a section guides is what a fresh
//! plan with that guide gives, and nothing else moves. On every built-in cut, a small and a large head.
//!
//! The fresh plan is made by changing the plan's data, never by the engine's own way of moving a guide.

mod common;

use common::{chosen, mean_head, three_heads};
use tautline::cut::{
    CutError, Job, Measured, Outcome, SectionCut, SectionKey, Strand, cut, cut_on, guided_by,
};
use tautline::geometry::bracketed;
use tautline::hair::Hair;
use tautline::head::{Head, Side};
use tautline::measure::Length;
use tautline::plan::{Choices, Given, Held, Plan, Rule, built_in, built_ins};

/// What we allow between a target that follows and a fresh plan's, cm.
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

/// What must not move did not.
fn still(plan: &Plan, was: &SectionCut, now: &SectionCut, because: &SectionKey) {
    let by = moved(was, now);
    let of = (&was.key, because);
    assert!(by <= STILL, "{}: {of:?}: moved by {by} cm", plan.id);
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
                    let came_out = measured[&guide.key].cm();
                    let fresh = fresh(&head, plan, index, &guide.key, came_out);
                    let fresh = run(&head, &fresh, &Measured::new());
                    let pairs = planned.sections.iter().zip(&followed.sections);
                    for ((was, now), then) in pairs.zip(&fresh.sections) {
                        let own = was.key.side == side || side == Side::Centre;
                        // The guide itself keeps what it should have been.
                        if was.key == guide.key || was.step < index || !own {
                            still(plan, was, now, &guide.key);
                            continue;
                        }
                        let off = moved(now, then);
                        let of = (&was.key, &guide.key);
                        assert!(off <= ALLOWED, "{}: {of:?}: {off} cm off", plan.id);
                        worst = worst.max(off);
                        looked_at += 1;
                    }
                }
            }
        }
    }
    println!("{looked_at} targets, {worst} cm off at most");
    assert!(looked_at > 1500, "{looked_at}");
}

/// A section whose hair guides no line of its step is its own affair there; a travelling guide carries it
/// on to the sections after it.
#[test]
fn what_is_no_guide_moves_only_what_reads_its_hair() {
    let (mut alone, mut carried) = (0, 0);
    for head in heads() {
        for plan in &built_ins() {
            let planned = run(&head, plan, &Measured::new());
            for own in planned.sections.iter().filter(|s| s.cuts()) {
                let held = &plan.steps[own.step].held;
                if own.key.number == 1 && says_its_guide(held) {
                    continue;
                }
                let followed = run(&head, plan, &short(own));
                let travels = matches!(held, Held::Travelling(_));
                let pairs = planned.sections.iter().zip(&followed.sections);
                for (was, now) in pairs {
                    let own_side = was.key.side == own.key.side;
                    let later = was.step == own.step && was.key.number > own.key.number;
                    if own_side && later && travels {
                        let by = now.long().cm() - was.long().cm();
                        let of = (&was.key, &own.key);
                        assert!((-1.6..-0.3).contains(&by), "{}: {of:?}: {by}", plan.id);
                        carried += 1;
                    } else if !own_side && own.key.side != Side::Centre
                        || was.step < own.step
                        || was.step == own.step
                    {
                        still(plan, was, now, &own.key);
                        alone += 1;
                    }
                }
            }
        }
    }
    assert!(alone > 5000 && carried > 100, "{alone} {carried}");
}

#[test]
fn what_came_out_as_planned_changes_nothing() {
    for head in heads() {
        for plan in &built_ins() {
            let planned = run(&head, plan, &Measured::new());
            let cut = planned.sections.iter().filter(|s| s.cuts());
            let measured = cut.map(|s| (s.key.clone(), s.long())).collect();
            let followed = run(&head, plan, &measured);
            for (was, now) in planned.sections.iter().zip(&followed.sections) {
                still(plan, was, now, &was.key);
            }
        }
    }
}

/// One line cut in several steps is one line: the outline of a bob goes on from the nape as it was cut.
#[test]
fn sides_go_on_from_the_outline_as_the_nape_left_it() {
    let head = mean_head();
    let plan = built_in("one-length-bob").unwrap();
    let planned = run(&head, &plan, &Measured::new());
    let measured = short(&planned.sections[0]);
    let followed = run(&head, &plan, &measured);
    let side = planned.sections[0].key.side;
    for (was, now) in planned.sections.iter().zip(&followed.sections).skip(1) {
        let by = was.long().cm() - now.long().cm();
        let follows = was.key.side == side;
        assert!(
            (by - f64::from(follows)).abs() < 0.01,
            "{:?}: {by}",
            was.key
        );
    }
    // Measured again at the side, it goes on from there.
    let at_side = |s: &&SectionCut| s.key.step == "sides" && s.key.side == side;
    let first = followed.sections.iter().find(at_side).unwrap();
    let mut twice = measured;
    twice.insert(first.key.clone(), Length::from_cm(first.long().cm() + 0.4));
    let again = run(&head, &plan, &twice);
    for (now, then) in followed.sections.iter().zip(&again.sections) {
        let by = then.long().cm() - now.long().cm();
        let follows = at_side(&now) && now.key != first.key;
        assert!(
            by.abs() < 0.01 || follows || !now.cuts(),
            "{:?}: {by}",
            now.key
        );
        assert!((by - 0.4).abs() < 0.01 || !follows, "{:?}: {by}", now.key);
    }
}

#[test]
fn sides_that_came_out_alike_stay_alike() {
    let head = mean_head();
    for plan in &built_ins() {
        let planned = run(&head, plan, &Measured::new());
        let first = |s: &&SectionCut| s.key.number == 1 && s.cuts();
        let firsts = planned.sections.iter().filter(first);
        let measured: Measured = firsts.flat_map(short).collect();
        let followed = run(&head, plan, &measured);
        for left in followed
            .sections
            .iter()
            .filter(|s| s.key.side == Side::Left)
        {
            let twin = SectionKey {
                side: Side::Right,
                ..left.key.clone()
            };
            if let Some(right) = followed.section(&twin) {
                let planned = |of| planned.section(of).unwrap();
                let as_planned = moved(planned(&left.key), planned(&twin));
                let off = moved(left, right);
                assert!(off <= as_planned + ALLOWED, "{}: {twin:?}: {off}", plan.id);
            }
        }
    }
}

/// At the chair only what the newest measure changes is worked out again: on the left, on the right, taken
/// back, with a parting in the middle and aside.
#[test]
fn going_on_from_the_last_time_is_as_from_the_start() {
    let head = mean_head();
    for plan in &built_ins() {
        let parting = plan.choices.iter().find(|c| c.id == "parting");
        let aside = parting.map(|_| chosen(plan, &[("parting", "right")]));
        for choices in [Some(Choices::default()), aside].into_iter().flatten() {
            let job = Job {
                head: &head,
                hair: &Hair::default(),
                plan,
                choices: &choices,
            };
            let mut last = cut(&job, &Measured::new()).unwrap();
            let mut measured = Measured::new();
            let keys: Vec<_> = last.sections.iter().map(|s| s.key.clone()).collect();
            for key in keys.iter().step_by(4).chain(&keys[..1]) {
                let section = last.section(key).unwrap();
                if !section.cuts() {
                    continue;
                }
                if measured.remove(key).is_none() {
                    measured.extend(short(section));
                }
                last = cut_on(&job, &last, &measured).unwrap();
                let whole = cut(&job, &measured).unwrap();
                assert_eq!(last.sections.len(), whole.sections.len());
                for (then, now) in last.sections.iter().zip(&whole.sections) {
                    assert_eq!(then.key, now.key);
                    still(plan, now, then, key);
                    let [then, now] = [&last, &whole].map(|o| {
                        let at = |s: &Strand| o.lengths.at(&head, s.root).unwrap();
                        now.strands.iter().map(at).sum::<f64>()
                    });
                    assert!((then - now).abs() < 1e-4, "{}: {key:?}", plan.id);
                }
            }
        }
    }
}

#[test]
fn a_section_names_what_it_guides() {
    let head = mean_head();
    for plan in &built_ins() {
        let job = Job {
            head: &head,
            hair: &Hair::default(),
            plan,
            choices: &Choices::default(),
        };
        let planned = run(&head, plan, &Measured::new());
        let guides = planned.sections.iter().filter(|s| s.key.number <= 2);
        for own in guides {
            let named = guided_by(&job, &planned, &own.key).unwrap();
            let followed = run(&head, plan, &short(own));
            let pairs = planned.sections.iter().zip(&followed.sections);
            for (was, now) in pairs {
                let by = moved(was, now);
                let is = named.contains(&was.key);
                let of = (&was.key, &own.key);
                let moves = by > 0.01 && now.cuts() && was.key != own.key;
                assert!(is == moves, "{}: {of:?}: {by}", plan.id);
            }
        }
    }
}

#[test]
fn the_front_guide_guides_the_face_frame_of_its_side() {
    let head = mean_head();
    let plan = built_in("soft-layers-face-frame").unwrap();
    let job = Job {
        head: &head,
        hair: &Hair::default(),
        plan: &plan,
        choices: &Choices::default(),
    };
    let planned = run(&head, &plan, &Measured::new());
    let key = |step: &str, side, number| SectionKey {
        step: step.to_owned(),
        side,
        number,
    };
    for side in [Side::Left, Side::Right] {
        let named = guided_by(&job, &planned, &key("front-guide", side, 1)).unwrap();
        let frame: Vec<_> = (1..=3).map(|n| key("face-frame", side, n)).collect();
        assert_eq!(named, frame);
        // The last of all guides nothing, nor does a check, nor what is not there.
        for step in ["cross-check", "none"] {
            let named = guided_by(&job, &planned, &key(step, side, 1)).unwrap();
            assert_eq!(named, []);
        }
    }
}

#[test]
fn hair_as_it_came_out_is_so_much_shorter_and_never_longer_than_before() {
    let head = mean_head();
    for plan in &built_ins() {
        for section in &run(&head, plan, &Measured::new()).sections {
            let long = section.long().cm();
            for cm in [long, long - 1.0, long + 1.0, 0.0, 500.0, f64::NAN] {
                let strands = section.as_cut(Length::from_cm(cm));
                assert_eq!(strands.len(), section.strands.len());
                for (now, was) in strands.iter().zip(&section.strands) {
                    assert!((0.0..=was.before).contains(&now.after), "{:?}", section.key);
                    let by = now.after - was.after;
                    assert!(cm != long || by.abs() < 1e-9, "{}: {by}", plan.id);
                    let short = section.cuts() && section.reach() >= 1.0 && was.after > 1.0;
                    assert!(
                        cm != long - 1.0 || !short || (by + 1.0).abs() < 1e-3,
                        "{by}"
                    );
                }
            }
        }
    }
}

/// A guide that nothing can be held by leaves the rest as planned, and says so.
#[test]
fn what_is_too_short_to_go_on_from_blanks_nothing() {
    let head = mean_head();
    let plan = built_in("soft-layers-face-frame").unwrap();
    let planned = run(&head, &plan, &Measured::new());
    let measured = Measured::from([(planned.sections[0].key.clone(), Length::from_cm(0.1))]);
    let followed = run(&head, &plan, &measured);
    assert_eq!(followed.sections.len(), planned.sections.len());
    for (was, now) in planned.sections.iter().zip(&followed.sections) {
        let left = now.key.step == "face-frame" && now.key.side == planned.sections[0].key.side;
        assert_eq!(followed.follows(now), !left, "{:?}", now.key);
        // The line is as planned; the front guide's own hair can be no longer than it is.
        assert!(!left || now.long() <= was.long(), "{:?}", now.key);
    }
}
