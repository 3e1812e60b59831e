//! Whatever is said in a consultation, it is kept and answered.

#[path = "common/any.rs"]
mod any;
#[path = "common/asked.rs"]
mod asked;
mod common;

use any::{config, one_of};
use asked::{asks, words};
use proptest::prelude::*;
use tautline::book::SavedCut;
use tautline::consult::{Ask, Growth, Mark, advice};
use tautline::cut::{Measured, findings};
use tautline::head::Spot;
use tautline::plan::built_ins;

fn any_answer() -> BoxedStrategy<(Ask, String)> {
    (
        prop::sample::select(asks()),
        any::<prop::sample::Index>(),
        0.0..60.0_f64,
        "\\PC{0,12}",
        0..4,
    )
        .prop_map(|(ask, which, cm, text, kind)| {
            let words = words(ask);
            let answer = match kind {
                0 => text,
                _ if words.is_empty() => format!("{cm:.1} cm"),
                _ => which.get(&words).clone(),
            };
            (ask, answer)
        })
        .boxed()
}

fn any_mark() -> BoxedStrategy<Mark> {
    let growths: &'static [Growth] = &Growth::ALL;
    let wild = prop_oneof![-10.0..10.0_f64, Just(f64::NAN), Just(f64::INFINITY)];
    (
        one_of(growths),
        wild.clone(),
        wild,
        "[0-9]{0,2}( cm)?|\\PC{0,5}",
    )
        .prop_map(|(growth, azimuth, out, longer)| {
            let mut mark = Mark::at(growth, Spot { azimuth, out });
            mark.longer = longer;
            mark
        })
        .boxed()
}

proptest! {
    #![proptest_config(config(150))]

    /// Whatever is answered: nothing is lost, and the cut comes out or says in a sentence why not.
    #[test]
    fn any_consultation_is_kept_and_worked_out(
        answers in prop::collection::vec(any_answer(), 0..14),
        marks in prop::collection::vec(any_mark(), 0..4),
        plan in any::<prop::sample::Index>(),
    ) {
        let plans = built_ins();
        let mut cut = SavedCut::new("a", "Invented", &plan.get(&plans).id, "t0");
        for (ask, answer) in &answers {
            cut.consultation.put(*ask, answer);
        }
        cut.consultation.marks = marks;
        prop_assert_eq!(&SavedCut::from_json(&cut.to_json()).unwrap(), &cut);
        let ready = cut.ready().unwrap();
        let _ = (advice(&cut.consultation), cut.consultation.wishes());
        match ready.outcome(&Measured::new()) {
            Ok(outcome) => {
                findings(&ready.job(), &outcome, &ready.agreed).unwrap();
                for section in &outcome.sections {
                    prop_assert!(section.long().cm().is_finite());
                }
            }
            Err(why) => prop_assert!(why.to_string().ends_with('.')),
        }
    }
}
