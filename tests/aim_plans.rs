//! Aiming in the built-in cuts: what was found is a plan, the search ends, and why is said in words.

mod common;

use common::mean_head;
use std::time::{Duration, Instant};
use tautline::cut::{Aiming, Falls, Goal, Height, Job, Measured, What, Wish, aim, cut, means_of};
use tautline::hair::Hair;
use tautline::measure::{Length, Unit};
use tautline::plan::{Choices, Plan, built_ins};

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

/// Every built-in cut with four goals: it ends soon, and what gives way says why.
#[test]
fn four_goals_in_every_built_in_cut() {
    for plan in built_ins() {
        let case = Case::of(plan);
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
        assert!(took.as_secs() < 20);
    }
}
