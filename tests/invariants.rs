//! What must hold of every cut on every head, whatever the plan: drawn at random, with what shrinks
//! to the least that breaks it.

#[path = "common/any.rs"]
mod any;
mod common;

use any::config;
use common::try_run;
use proptest::prelude::*;
use tautline::cut::Outcome;
use tautline::head::Head;

fn holds_of(head: &Head, outcome: &Outcome) {
    let last = outcome.sections.last().map(|s| s.step);
    for section in &outcome.sections {
        let key = &section.key;
        let (short, long) = (section.short().cm(), section.long().cm());
        assert!(
            0.0 <= short && short <= long && long.is_finite(),
            "{key:?}: {short} {long}"
        );
        assert!((0.0..=1.0).contains(&section.reach()), "{key:?}");
        assert!(section.off().cm() >= 0.0);
        for strand in &section.strands {
            assert!(
                strand.after.is_finite() && strand.after >= 0.0,
                "{key:?}: {strand:?}"
            );
            // No cut lengthens.
            assert!(strand.after <= strand.before, "{key:?}: {strand:?}");
            if let Some(cut_at) = strand.cut_at {
                assert!(cut_at.is_finite() && cut_at >= 0.0, "{key:?}: {strand:?}");
                assert_eq!(strand.after, strand.before.min(cut_at));
            }
            let now = outcome.lengths.at(head, strand.root).unwrap();
            assert!(
                (0.0..=strand.after + 1e-9).contains(&now),
                "{key:?}: {now} {strand:?}"
            );
            // What the map says is what the sections say, but where another section cut it too: roots
            // on the middle line lie on both sides' edges.
            let cut_again = outcome.sections.iter().any(|s| {
                (s.step != section.step || s.key != section.key)
                    && s.step >= section.step
                    && s.section.patch.holds(strand.root)
            });
            // A row may bend out of its region by a hair's breadth between its points.
            let held = section.section.patch.holds(strand.root);
            if Some(section.step) == last && !cut_again && held {
                assert!(
                    (now - strand.after).abs() < 1e-9,
                    "{key:?}: {now} {strand:?}"
                );
            }
        }
    }
}

proptest! {
    #![proptest_config(config(500))]

    #[test]
    fn whatever_is_planned_no_cut_lengthens_and_all_is_a_number(
        head in any::head(),
        hair in any::hair(),
        plan in any::any_plan(),
    ) {
        match try_run(&head, &hair, &plan) {
            Ok(outcome) => holds_of(&head, &outcome),
            Err(e) => {
                let said = e.to_string();
                prop_assert!(said.ends_with('.') && said.len() > 20, "{said}");
                prop_assert!(!said.contains("NaN") && !said.contains("inf"), "{said}");
            }
        }
    }
}
