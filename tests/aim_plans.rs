//! Aiming in the built-in cuts: what was found is a plan, the search ends, and why is said in words.

mod common;

use common::mean_head;
use std::time::{Duration, Instant};
use tautline::book::SavedCut;
use tautline::cut::{
    Aiming, Aims, Falls, Goal, Height, Job, Means, Measured, Turns, What, Wish, aim, cut, means_of,
};
use tautline::hair::Hair;
use tautline::head::Landmark;
use tautline::measure::{Length, Unit};
use tautline::plan::{Choices, Plan, built_in, built_ins};

struct Case {
    plan: Plan,
    head: tautline::head::Head,
    hair: Hair,
    choices: Choices,
}

impl Case {
    fn of(plan: Plan) -> Self {
        Self {
            plan,
            head: mean_head(),
            hair: Hair::default(),
            choices: Choices::default(),
        }
    }

    fn job(&self) -> Job<'_> {
        Job {
            head: &self.head,
            hair: &self.hair,
            plan: &self.plan,
            choices: &self.choices,
        }
    }

    fn falls(&self) -> Falls {
        let outcome = cut(&self.job(), &Measured::new()).unwrap();
        Falls::of(&self.job(), &outcome).unwrap()
    }

    /// A wish so much lower than things fall now.
    fn lower(&self, what: What, cm: f64) -> Goal {
        let z = self.falls().z(what).unwrap() - cm;
        Wish {
            what,
            on: true,
            at: Height::near(&self.head, what.landmarks(), z),
            most: 0.0,
        }
        .goal(&self.job())
    }
}

/// The plan with the changes made gives the very targets that the answer was worked out with.
#[test]
fn an_answer_made_in_the_plan_gives_the_same_targets() {
    for plan in built_ins() {
        let mut case = Case::of(plan);
        let means = means_of(&case.plan);
        if means.is_empty() {
            continue;
        }
        let goals = [case.lower(What::Front, 1.3), case.lower(What::Back, 0.8)];
        let began = Instant::now();
        let answer = aim(&case.job(), &goals, &means).unwrap();
        println!("{}: {:.0?}", case.plan.id, began.elapsed());
        for change in answer.changes() {
            println!("  {}", change.said(&case.plan, Unit::Cm));
            assert!((change.by * 10.0 - (change.by * 10.0).round()).abs() < 1e-6);
            change.make(&mut case.plan);
        }
        case.plan.check().unwrap();
        let made = cut(&case.job(), &Measured::new()).unwrap();
        assert_eq!(made.sections.len(), answer.outcome.sections.len());
        for (a, b) in made.sections.iter().zip(&answer.outcome.sections) {
            assert!((a.long().cm() - b.long().cm()).abs() < 1e-6, "{:?}", a.key);
            assert!((a.short().cm() - b.short().cm()).abs() < 1e-6);
            assert!((a.off().cm() - b.off().cm()).abs() < 1e-6);
        }
    }
}

/// Every one of the means by itself: turned in the engine and made in the plan it is the same, for
/// walls and slopes too.
#[test]
fn every_means_turned_is_a_plan() {
    let mut turned = 0;
    for plan in built_ins() {
        let case = Case::of(plan);
        let goal = [case.lower(What::Back, 1.0)];
        for means in means_of(&case.plan) {
            let (low, high) = means.range;
            assert!(low <= 0.0 && high >= 0.0 && low < high, "{means:?}");
            let by = if means.turns == Turns::Length {
                1.5
            } else {
                7.0
            };
            let by = if by <= high { by } else { -by };
            let held = Means {
                range: (by, by),
                ..means
            };
            // Some cannot be held so.
            let Ok(answer) = aim(&case.job(), &goal, &[held]) else {
                continue;
            };
            let [change] = &answer.changes()[..] else {
                panic!("{}: one change", case.plan.id)
            };
            assert!((change.by - by).abs() < 1e-9);
            let mut made = case.plan.clone();
            change.make(&mut made);
            assert_ne!(made, case.plan);
            let job = Job {
                plan: &made,
                ..case.job()
            };
            let made = cut(&job, &Measured::new()).unwrap();
            for (a, b) in made.sections.iter().zip(&answer.outcome.sections) {
                assert!((a.long().cm() - b.long().cm()).abs() < 1e-6, "{:?}", a.key);
                assert!((a.off().cm() - b.off().cm()).abs() < 1e-6, "{:?}", a.key);
            }
            turned += 1;
        }
    }
    assert!(turned > 40, "{turned}");
}

/// A limit and a wish that cannot both be: the sentence names what stands against it, and slopes are
/// told in the person's unit.
#[test]
fn why_is_said_with_names() {
    let case = Case::of(built_in("soft-layers-face-frame").unwrap());
    let job = case.job();
    let mut aims = Aims::default().filled(&job, &case.falls());
    assert!(aims.goals(&job).is_empty(), "nothing counts at first");
    for wish in &mut aims.wishes {
        match wish.what {
            What::Off => (wish.on, wish.most) = (true, 1.0),
            What::Front => (wish.on, wish.at) = (true, Landmark::Cheekbone.into()),
            _ => {}
        }
    }
    let goals: Vec<Goal> = aims.goals(&job).into_iter().map(|(_, goal)| goal).collect();
    let means = means_of(&case.plan);
    let answer = aim(&job, &goals, &means).unwrap();
    assert!(!answer.goals[0].gives_way() && answer.goals[1].gives_way());
    let why = answer.why(1, &case.plan, Unit::Cm).unwrap();
    assert_eq!(why, "It gives way to: no more than 1 cm comes off.");
    assert_eq!(answer.why(0, &case.plan, Unit::Cm), None);
    let said = goals[1].said(answer.goals[1].miss, Unit::Cm);
    assert!(
        said.starts_with("Front pieces end ") && said.contains(" below the cheekbone"),
        "{said}"
    );
    let turns = answer.turns(1, &case.plan, Unit::Cm);
    let guide = "Each cm more length in “Front guide” lowers it by 1 cm.";
    assert!(turns.iter().any(|t| t == guide), "{turns:?}");
    let turns = answer.turns(1, &case.plan, Unit::Inches);
    let guide = "Each inch more length in “Front guide” lowers it by 1 in.";
    assert!(turns.iter().any(|t| t == guide), "{turns:?}");
    // By itself, with the guide held near its place, it cannot be met at all.
    let narrow = Means {
        step: "front-guide".to_owned(),
        turns: Turns::Length,
        range: (-1.0, 1.0),
    };
    let answer = aim(&job, &goals[1..], &[narrow]).unwrap();
    let why = answer.why(0, &case.plan, Unit::Cm).unwrap();
    assert!(
        why.contains("not even with “Front guide” 1 cm shorter"),
        "{why}"
    );
}

/// No cut lengthens: what lies lower than the hair does is said to be so.
#[test]
fn hair_that_is_too_short_is_said() {
    let case = Case::of(built_in("soft-layers-face-frame").unwrap());
    let waist = Wish {
        what: What::Front,
        on: true,
        at: Landmark::Waist.into(),
        most: 0.0,
    };
    let goal = [waist.goal(&case.job())];
    let answer = aim(&case.job(), &goal, &means_of(&case.plan)).unwrap();
    let why = answer.why(0, &case.plan, Unit::Cm).unwrap();
    assert_eq!(why, "The hair is not that long: no cut brings it there.");
}

/// Slopes are what they say: a cm of guide more moves the end by what was told.
#[test]
fn slopes_are_what_they_say() {
    let case = Case::of(built_in("soft-layers-face-frame").unwrap());
    let goal = [case.lower(What::Front, 3.0)];
    let means = means_of(&case.plan);
    let answer = aim(&case.job(), &goal, &means).unwrap();
    let guide = means.iter().position(|m| m.step == "front-guide").unwrap();
    let mut plan = case.plan.clone();
    for change in answer.changes() {
        change.make(&mut plan);
    }
    let ends = |plan: &Plan| {
        let job = Job { plan, ..case.job() };
        let outcome = cut(&job, &Measured::new()).unwrap();
        Falls::of(&job, &outcome).unwrap().z(What::Front).unwrap()
    };
    let before = ends(&plan);
    plan.steps[0].longer += 0.2;
    let moved = (ends(&plan) - before) / 0.2;
    let told = answer.goals[0].sensitivity[guide];
    assert!((moved - told).abs() < 0.1, "{moved} for {told}");
}

#[test]
fn heights_are_said_read_and_stepped() {
    let head = mean_head();
    let chin = Height::from(Landmark::Chin);
    assert_eq!(chin.said(Unit::Cm), "at the chin");
    let lower = chin.lower(2.5);
    assert_eq!(lower.said(Unit::Cm), "2.5 cm below the chin");
    assert_eq!(lower.said(Unit::Inches), "1 in below the chin");
    assert_eq!(chin.lower(-2.54).typed(Unit::Inches), "−1 in");
    assert_eq!(Height::read_below("−1", Unit::Inches), Ok(-2.54));
    assert_eq!(Height::read_below(" 1,5 cm", Unit::Inches), Ok(1.5));
    assert!(Height::read_below("low", Unit::Cm).is_err());
    // The frame's heights and the landmark's agree.
    let level = head
        .landmark(Landmark::Chin, tautline::head::Side::Centre)
        .z;
    assert!((lower.z(&head) - (level - 2.5)).abs() < 1e-12);
    let among = What::Front.landmarks();
    assert_eq!(Height::snapped(&head, among, level - 0.6), chin);
    assert_eq!(Height::snapped(&head, among, level - 0.9).below, 1.0);
    assert_eq!(chin.next(&head, among, true).landmark, Landmark::JawCorner);
    assert_eq!(chin.next(&head, among, false).landmark, Landmark::Shoulder);
    let waist = Height::from(Landmark::Waist);
    assert_eq!(waist.next(&head, among, false), waist);
    let up = chin.stepped(&head, among, 1, Unit::Cm);
    assert!((up.z(&head) - level - 0.5).abs() < 0.051, "{up:?}");
    assert!(
        Height {
            below: f64::NAN,
            ..chin
        }
        .z(&head)
        .is_finite()
    );
}

#[test]
fn wishes_move_in_importance_and_are_kept() {
    let case = Case::of(built_in("graduated-bob").unwrap());
    let mut aims = Aims::default().filled(&case.job(), &case.falls());
    let order = |aims: &Aims| aims.wishes.iter().map(|w| w.what).collect::<Vec<_>>();
    assert_eq!(order(&aims), What::ALL);
    aims.shift(What::Front, true);
    assert_eq!(order(&aims)[1], What::Front);
    aims.shift(What::Off, true);
    aims.shift(What::Back, false);
    assert_eq!(order(&aims)[0], What::Off);
    let means = &means_of(&case.plan)[0];
    aims.fix(means, true);
    aims.fix(means, true);
    assert!(aims.is_fixed(means) && aims.fixed.len() == 1);
    let mut saved = SavedCut::new("a", "Practice", "graduated-bob", "t0");
    let bare = saved.to_json();
    assert!(!bare.contains("aims"), "{bare}");
    saved.aims = aims.clone();
    let read = SavedCut::from_json(&saved.to_json()).unwrap();
    assert_eq!(read.aims, aims);
    // What was wished stays, and is filled up in its own order.
    let mut one = Aims::default();
    one.wishes.push(*aims.wish(What::Weight).unwrap());
    let filled = one.filled(&case.job(), &case.falls());
    assert_eq!(
        (filled.wishes.len(), filled.wishes[0].what),
        (6, What::Weight)
    );
    aims.fix(means, false);
    assert!(!aims.is_fixed(means));
}

/// Nothing may be turned: a sentence, no search.
#[test]
fn all_held_fast_is_said() {
    let case = Case::of(built_in("trim").unwrap());
    let goal = [case.lower(What::Back, 1.0)];
    let refused = aim(&case.job(), &goal, &[]).unwrap_err();
    assert!(
        refused.to_string().contains("Free a guide length"),
        "{refused}"
    );
    // No goal: nothing changes.
    let answer = aim(&case.job(), &[], &means_of(&case.plan)).unwrap();
    assert!(answer.changes().is_empty());
}

/// Four goals, some of which cannot be: it ends soon, in short slices, and what gives way says why.
#[test]
fn four_goals_end_and_say_why() {
    for id in [
        "soft-layers-face-frame",
        "graduated-bob",
        "round-layers",
        "straight-fringe",
    ] {
        let case = Case::of(built_in(id).unwrap());
        let means = means_of(&case.plan);
        let most = Length::from_cm((case.falls().off - 1.0).max(0.0));
        let goals = [
            Goal::NoMoreOff(most),
            case.lower(What::Front, 2.0),
            case.lower(What::Weight, 1.5),
            case.lower(What::Back, -2.0),
        ];
        let began = Instant::now();
        let mut aiming = Aiming::start(&case.job(), &goals, &means).unwrap();
        let mut longest = Duration::ZERO;
        loop {
            let slice = Instant::now();
            let done = aiming.advance(&case.job());
            longest = longest.max(slice.elapsed());
            if done {
                break;
            }
        }
        let answer = aiming.answer(&case.job()).unwrap();
        let took = began.elapsed();
        println!(
            "{} ({} means): {took:.0?}, {} tries, longest slice {longest:.0?}",
            case.plan.id,
            means.len(),
            aiming.tries()
        );
        for (i, met) in answer.goals.iter().enumerate() {
            let why = answer.why(i, &case.plan, Unit::Cm);
            println!("  {} {why:?}", met.goal.said(met.miss, Unit::Cm));
            for said in answer.turns(i, &case.plan, Unit::Cm) {
                println!("      {said}");
            }
            assert_eq!(why.is_some(), met.gives_way());
        }
        assert!(aiming.tries() < 2000);
    }
}
