//! Whatever a person writes down as measured, in any plan on any head: the plan goes on, hair never grows,
//! and going on from the last time is as from the start.

#[path = "common/any.rs"]
mod any;
mod common;

use any::config;
use proptest::prelude::*;
use proptest::sample::Index;
use tautline::cut::{Job, Measured, Outcome, before, cut, cut_on};
use tautline::hair::Hair;
use tautline::head::Head;
use tautline::measure::Length;
use tautline::plan::{Choices, Plan, built_ins};

/// What going on and beginning anew may differ by, cm: one tells the right in a mirror, the other not.
const ALIKE: f64 = 1e-6;

fn came_out() -> BoxedStrategy<Vec<(Index, f64)>> {
    let cm = prop_oneof![4 => 0.0..80.0, 1 => Just(0.0), 1 => Just(500.0), 1 => Just(-1.0)];
    prop::collection::vec((any::<Index>(), cm), 1..5).boxed()
}

fn never_longer(job: &Job<'_>, outcome: &Outcome, measured: &Measured) {
    let was = before(job).lengths;
    for section in &outcome.sections {
        for strand in &section.strands {
            assert!(
                (0.0..=strand.before).contains(&strand.after),
                "{measured:?}: {strand:?}"
            );
            let [was, is] = [&was, &outcome.lengths].map(|l| l.at(job.head, strand.root).unwrap());
            assert!(is <= was + 1e-6 && is >= 0.0, "{measured:?}: {is} of {was}");
        }
    }
}

/// Writes these down one after another, each as a length or as so much off the target.
fn put_down(head: &Head, hair: &Hair, plan: &Plan, came_out: &[(Index, f64)], off: bool) {
    let choices = Choices::default();
    let job = Job {
        head,
        hair,
        plan,
        choices: &choices,
    };
    let Ok(planned) = cut(&job, &Measured::new()) else {
        return;
    };
    if planned.sections.is_empty() {
        return;
    }
    let (mut last, mut measured) = (planned.clone(), Measured::new());
    for (index, cm) in came_out {
        let section = index.get(&last.sections);
        let cm = if off {
            section.long().cm() + (cm - 40.0) / 20.0
        } else {
            *cm
        };
        measured.insert(section.key.clone(), Length::from_cm(cm));
        let whole = cut(&job, &measured).expect("what can be planned can be gone on from");
        last = cut_on(&job, &last, &measured).unwrap();
        assert_eq!(whole.sections.len(), planned.sections.len());
        for (whole, on) in whole.sections.iter().zip(&last.sections) {
            assert_eq!(whole.key, on.key);
            let by = (whole.long().cm() - on.long().cm()).abs();
            assert!(by <= ALIKE, "{measured:?}: {:?}: {by}", whole.key);
        }
        never_longer(&job, &whole, &measured);
    }
}

proptest! {
    #![proptest_config(config(96))]

    #[test]
    fn built_in_cuts_go_on(
        which in any::<Index>(),
        came_out in came_out(),
        off in any::<bool>(),
        hair in any::hair(),
    ) {
        put_down(&common::mean_head(), &hair, which.get(&built_ins()), &came_out, off);
    }

    #[test]
    fn any_plan_on_any_head_goes_on(
        head in prop_oneof![any::head(), any::even_head()],
        hair in any::hair(),
        plan in any::any_plan(),
        came_out in came_out(),
        off in any::<bool>(),
    ) {
        put_down(&head, &hair, &plan, &came_out, off);
    }
}
