//! The words of every built-in cut, in British and in American usage.

use std::collections::BTreeSet;
use tautline::measure::{Usage, graduation, said};
use tautline::plan::{Group, Plan, Technique, built_in, built_ins};

/// Every text of a plan that a person reads.
fn texts(plan: &Plan) -> Vec<String> {
    let mut all = Vec::new();
    plan.clone().each_text(&mut |text| all.push(text.clone()));
    all.extend(plan.cautions().map(|c| c.sentence().to_owned()));
    all.extend(
        plan.steps
            .iter()
            .filter_map(|s| s.technique)
            .map(|t| t.sentence().to_owned()),
    );
    all
}

/// What is wrong with a text in a usage.
fn faults(text: &str, usage: Usage) -> Vec<String> {
    let small = text.to_lowercase();
    let words: Vec<&str> = small
        .split(|c: char| !c.is_alphanumeric() && c != '\'')
        .filter(|w| !w.is_empty())
        .collect();
    let (never, pairs): (&[&str], &[[&str; 2]]) = match usage {
        Usage::Uk => (
            &[
                "bang",
                "bangs",
                "center",
                "color",
                "gray",
                "toward",
                "traveling",
                "license",
            ],
            &[["a", "fringes"]],
        ),
        Usage::Es => return Vec::new(),
        Usage::Us => (
            &[
                "fringe",
                "fringes",
                "centre",
                "centred",
                "colour",
                "grey",
                "towards",
                "forwards",
                "backwards",
                "travelling",
                "licence",
                "metre",
                "neighbour",
            ],
            &[
                ["a", "bangs"],
                ["an", "bangs"],
                ["one", "bangs"],
                ["this", "bangs"],
                ["bangs", "is"],
                ["bangs", "has"],
                ["bangs", "was"],
                ["bangs", "falls"],
                ["bangs", "hangs"],
                ["bangs", "ends"],
                ["bangs", "parts"],
                ["bangs", "it"],
                ["a", "straight"],
                ["round", "the"],
                ["each", "around"],
            ],
        ),
    };
    let mut faults: Vec<String> = words
        .iter()
        .filter(|w| never.contains(w))
        .map(|w| format!("{w}: {text}"))
        .collect();
    let spaced: Vec<&str> = small.split_whitespace().collect();
    for pair in spaced.windows(2) {
        if pair[0] == pair[1] {
            faults.push(format!("{} twice: {text}", pair[0]));
        }
    }
    for pair in words.windows(2) {
        if pairs.iter().any(|p| p[0] == pair[0] && p[1] == pair[1]) {
            faults.push(format!("{} {}: {text}", pair[0], pair[1]));
        }
    }
    if text.trim() != text || text.contains("  ") {
        faults.push(format!("blanks: {text}"));
    }
    if text.chars().next().is_some_and(char::is_lowercase) {
        faults.push(format!("begins small: {text}"));
    }
    faults
}

#[test]
fn every_text_of_every_built_in_cut_is_right_in_both_usages() {
    let mut turned = BTreeSet::new();
    let mut looked = 0;
    for plan in built_ins() {
        for usage in [Usage::Uk, Usage::Us] {
            for text in texts(&plan.clone().said(usage)) {
                let shown = said(&text, usage).into_owned();
                assert_eq!(faults(&shown, usage), Vec::<String>::new(), "{}", plan.id);
                looked += 1;
            }
        }
        for text in texts(&plan) {
            let us = said(&text, Usage::Us).into_owned();
            if us != text {
                turned.insert(us);
            }
        }
    }
    // To be read over: `cargo test --test words -- --nocapture`.
    for text in &turned {
        println!("{text}");
    }
    assert!(
        looked > 1000 && turned.len() > 20,
        "{looked} {}",
        turned.len()
    );
    assert!(
        turned.contains("Bangs last, almost dry.")
            || turned.iter().any(|t| t.contains("Bangs last"))
    );
}

#[test]
fn the_check_itself_can_fail() {
    for (text, usage) in [
        ("A fringe", Usage::Us),
        ("The bangs is long", Usage::Us),
        ("Cut a bangs", Usage::Us),
        ("Bangs", Usage::Uk),
        ("The the end", Usage::Uk),
        ("small", Usage::Uk),
    ] {
        assert!(!faults(text, usage).is_empty(), "{text}");
    }
}

#[test]
fn what_is_kept_stays_british_and_names_that_would_mislead_change() {
    let plan = built_in("long-graduation").unwrap();
    let us = plan.clone().said(Usage::Us);
    assert_eq!(plan.clone().said(Usage::Uk), plan);
    assert_eq!(plan.name, "Long graduation");
    assert!(
        !us.name.to_lowercase().contains("graduation"),
        "{}",
        us.name
    );
    assert_eq!(
        (plan.group(), us.group()),
        (Group::Graduated, Group::Layered)
    );
    // What is cut, and what is asked by id, is the same.
    let ids = |plan: &Plan| {
        plan.choices
            .iter()
            .map(|c| c.id.clone())
            .collect::<Vec<_>>()
    };
    assert_eq!(ids(&plan), ids(&us));
    for (uk, us) in plan.steps.iter().zip(&us.steps) {
        assert_eq!(
            (&uk.id, &uk.held, uk.technique),
            (&us.id, &us.held, us.technique)
        );
    }
    assert_ne!(graduation(Usage::Uk), graduation(Usage::Us));
    for usage in [Usage::Uk, Usage::Us] {
        assert_eq!(faults(graduation(usage), usage), Vec::<String>::new());
    }
}

/// The technique that a text names first, if it names one.
fn named_in(text: &str) -> Option<Technique> {
    let text = text.to_lowercase();
    let key = |technique: Technique| match technique {
        Technique::Blunt => "blunt",
        Technique::Point => "point",
        Technique::Notch => "notch",
        Technique::Slide => "slide",
        Technique::Freehand => "freehand",
        Technique::OverComb => "over comb",
    };
    let at = |technique: Technique| Some((text.find(key(technique))?, technique));
    let first = Technique::ALL.into_iter().filter_map(at);
    first
        .min_by_key(|(at, _)| *at)
        .map(|(_, technique)| technique)
}

#[test]
fn every_cutting_step_has_a_technique_that_its_words_name_first() {
    for plan in built_ins() {
        for step in &plan.steps {
            let named = named_in(&step.words.technique);
            if step.held.cuts() {
                assert!(step.technique.is_some(), "{} {}", plan.id, step.id);
                assert_eq!(step.technique, named, "{} {}", plan.id, step.id);
            } else {
                assert_eq!(step.technique, None, "{} {}", plan.id, step.id);
            }
        }
    }
    for technique in Technique::ALL {
        assert_eq!(named_in(technique.sentence()), Some(technique));
        assert!(technique.sentence().starts_with(technique.name()));
    }
    assert_eq!(named_in("Look for a step."), None);
}

#[test]
fn the_library_has_something_to_say_of_every_cut() {
    for plan in built_ins() {
        let id = &plan.id;
        assert!(plan.group.is_some() && plan.minutes > 0, "{id}");
        for text in [&plan.suits, &plan.not_for, &plan.weight] {
            assert!(text.ends_with('.'), "{id}: {text}");
        }
        assert!(plan.mistakes.len() >= 3 && plan.checks.len() >= 3, "{id}");
        let short = plan.in_short();
        assert!(
            short.ends_with('.') && (25..=130).contains(&short.len()),
            "{id}: {short}"
        );
        assert!(plan.about.starts_with(short));
        let each: Vec<_> = plan.cautions().collect();
        for step in &plan.steps {
            assert!(step.cautions.iter().all(|c| each.contains(c)), "{id}");
        }
        let once: BTreeSet<&str> = each.iter().map(|c| c.sentence()).collect();
        assert_eq!(once.len(), each.len(), "{id}");
    }
    for group in Group::ALL {
        assert!(
            built_ins().iter().any(|plan| plan.group() == group),
            "{}",
            group.title()
        );
    }
}
