//! Every built-in cut, on a small, a mean and a large surveyed head: it says what it is for, works out
//! with every answer, is checked clean, and comes out alike on both sides. What each one promises is
//! in `promises.rs`.

mod common;

use common::{answers, chosen, three_heads};
use std::collections::BTreeSet;
use tautline::cut::{Agreed, CutError, Finding, Job, Measured, Outcome, SectionKey, cut, findings};
use tautline::geometry::Vec3;
use tautline::hair::Hair;
use tautline::head::{Head, Landmark, Side};
use tautline::plan::{Area, Caution, Choices, Covers, Held, Kind, Plan, built_in, built_ins};

/// What we allow between the sides, in cm.
const TENTH_OF_A_MILLIMETRE: f64 = 0.01;

/// The cuts the app must have.
const WANTED: &[&str] = &[
    "one-length-bob",
    "one-length-long",
    "graduated-bob",
    "long-graduation",
    "uniform-layers",
    "square-layers",
    "round-layers",
    "long-layers",
    "soft-layers-face-frame",
    "curtain-fringe",
    "side-swept-fringe",
    "straight-fringe",
    "back-layers-forward",
    "tapered-nape",
    "disconnected-layers",
    "trim",
];

fn worked_out(
    head: &Head,
    plan: &Plan,
    choices: &Choices,
) -> Result<(Outcome, Vec<Finding>), CutError> {
    let job = Job {
        head,
        hair: &Hair::default(),
        plan,
        choices,
    };
    let outcome = cut(&job, &Measured::new())?;
    let found = findings(&job, &outcome, &Agreed::default())?;
    Ok((outcome, found))
}

/// The defaults, and each answer of each choice with the others at their defaults.
fn ways(plan: &Plan) -> Vec<(String, Choices)> {
    let mut all = vec![("defaults".to_owned(), Choices::default())];
    for choice in &plan.choices {
        for answer in answers(choice) {
            let choices = chosen(plan, &[(&choice.id, &answer)]);
            all.push((format!("{}={answer}", choice.id), choices));
        }
    }
    all
}

#[test]
fn every_wanted_cut_is_built_in() {
    for id in WANTED {
        assert!(
            built_in(id).is_some(),
            "{id} does not read: `cargo test --lib library` says why"
        );
    }
    assert_eq!(built_ins().len(), WANTED.len());
}

#[test]
fn every_cut_says_whom_it_suits_what_it_does_and_how_it_goes_wrong() {
    for plan in built_ins() {
        let id = &plan.id;
        for text in [
            &plan.name,
            &plan.about,
            &plan.suits,
            &plan.not_for,
            &plan.weight,
        ] {
            assert!(!text.is_empty() && text.len() < 320, "{id}: {text}");
        }
        for list in [&plan.mistakes, &plan.checks] {
            assert!((3..=5).contains(&list.len()), "{id}");
            assert!(list.iter().all(|text| text.ends_with('.')), "{id}");
        }
        // Working judgement: a fringe ten minutes, a whole head up to an hour.
        assert!((5..=60).contains(&plan.minutes), "{id}");
        assert!((2..=4).contains(&plan.choices.len()), "{id}");
        let asks_before = |c: &&tautline::plan::Choice| matches!(c.kind, Kind::Before { .. });
        assert_eq!(plan.choices.iter().filter(asks_before).count(), 1, "{id}");
    }
}

/// A stylist reads a line at the chair in about four seconds, twenty short words. Judgement.
#[test]
fn every_step_can_be_read_at_the_chair() {
    for plan in built_ins() {
        for step in &plan.steps {
            let words = &step.words;
            for text in [
                &words.comb,
                &words.fingers,
                &words.guide,
                &words.technique,
                &words.stance,
            ] {
                let count = text.split_whitespace().count();
                assert!(
                    (1..=20).contains(&count) && text.ends_with('.'),
                    "{}: {text}",
                    plan.id
                );
            }
        }
    }
}

/// Words that are one school's or one brand's, or say nothing.
#[test]
fn no_cut_borrows_a_house_word() {
    let avoided = [
        "solid",
        "distribution",
        "activated",
        "design line",
        "mohican",
        "invisible",
        "structure graphic",
        "increase-layer",
        "mobile",
        "signature",
        "®",
        "™",
    ];
    for plan in built_ins() {
        let text = serde_json::to_string(&plan).unwrap().to_lowercase();
        for word in avoided {
            assert!(!text.contains(word), "{}: {word}", plan.id);
        }
    }
}

#[test]
fn every_cut_ends_with_a_cross_check_of_three_to_five_named_places() {
    for plan in built_ins() {
        let last = plan.steps.last().unwrap();
        assert_eq!(last.held, Held::Check, "{}", plan.id);
        let checks = plan.steps.iter().filter(|s| !s.held.cuts()).count();
        assert_eq!(checks, 1, "{}", plan.id);
        let Area::Places { places } = &last.area else {
            panic!("{} checks no places", plan.id);
        };
        let names: BTreeSet<&str> = places.iter().map(|p| p.name.as_str()).collect();
        assert!((3..=5).contains(&names.len()), "{}", plan.id);
        assert_eq!(names.len(), places.len(), "{}", plan.id);
    }
}

#[test]
fn every_cut_works_out_clean_with_every_answer() {
    let heads = three_heads();
    for plan in built_ins() {
        for head in &heads {
            for (how, choices) in ways(&plan) {
                let (outcome, found) = worked_out(head, &plan, &choices)
                    .unwrap_or_else(|e| panic!("{} {how}: {e}", plan.id));
                assert_eq!(found, [], "{} {how}", plan.id);
                for section in &outcome.sections {
                    // Not said to be too short, so it must reach.
                    assert!(section.reach() > 0.0, "{} {how}", plan.id);
                    for strand in &section.strands {
                        assert!(strand.after <= strand.before && strand.after > 0.0);
                    }
                }
            }
        }
    }
}

#[test]
fn every_cut_has_as_many_sections_a_side_as_one_can_keep_in_mind() {
    let heads = three_heads();
    for plan in built_ins() {
        for head in &heads {
            let (outcome, _) = worked_out(head, &plan, &Choices::default()).unwrap();
            let one_side = outcome
                .sections
                .iter()
                .filter(|s| s.key.side != Side::Right);
            let count = one_side.count();
            let least = match plan.covers {
                Covers::All => 8,
                Covers::Part => 5,
            };
            assert!((least..=26).contains(&count), "{}: {count}", plan.id);
        }
    }
}

/// With hair all too short, what no line reaches is said, section by section, and nothing else is.
#[test]
fn what_does_not_reach_is_said() {
    let heads = three_heads();
    let mut said_at_all = 0;
    for plan in built_ins() {
        for head in &heads {
            for short in ["5", "9", "14"] {
                let choices = chosen(&plan, &[("before", short)]);
                let Ok((outcome, found)) = worked_out(head, &plan, &choices) else {
                    // A guide that cannot be held is refused with a sentence.
                    continue;
                };
                let said: BTreeSet<SectionKey> = found
                    .iter()
                    .filter_map(|f| match f {
                        Finding::NeverReaches { key, .. } => Some(key.clone()),
                        _ => None,
                    })
                    .collect();
                let missed = outcome.sections.iter().filter(|s| s.reach() <= 0.0);
                let missed: BTreeSet<SectionKey> = missed.map(|s| s.key.clone()).collect();
                assert_eq!(said, missed, "{} {short}", plan.id);
                said_at_all += said.len();
            }
        }
    }
    assert!(said_at_all > 100, "{said_at_all}");
}

fn mirrored(p: Vec3) -> Vec3 {
    Vec3::new(-p.x, p.y, p.z)
}

/// Both sides alike with a parting in the middle; with one beside it, the cut of a left parting is
/// the mirror of the cut of a right one.
#[test]
fn every_cut_is_its_own_mirror() {
    for plan in built_ins() {
        let parted = plan.choices.iter().find(|c| c.id == "parting");
        let mut pairs = vec![(Choices::default(), Choices::default())];
        if parted.is_some() {
            let of = |side| chosen(&plan, &[("parting", side)]);
            pairs.push((of("left"), of("right")));
        }
        if parted.is_some_and(|c| c.kind == Kind::SideParting) {
            pairs.remove(0);
        }
        for head in &three_heads() {
            for (one, other) in &pairs {
                let (a, _) = worked_out(head, &plan, one).unwrap();
                let (b, _) = worked_out(head, &plan, other).unwrap();
                let mut worst: f64 = 0.0;
                for strand in a.sections.iter().flat_map(|s| &s.strands) {
                    let here = a.lengths.at(head, strand.root).unwrap();
                    let there = b.lengths.at(head, mirrored(strand.root)).unwrap();
                    worst = worst.max((here - there).abs());
                }
                assert!(worst < TENTH_OF_A_MILLIMETRE, "{}: {worst}", plan.id);
            }
        }
    }
}

/// Where the blades come near eyes, ears or neck, the step says so. Distances are judgement.
#[test]
fn steps_warn_where_the_blades_come_near() {
    let head = &three_heads()[1];
    let brow = head.landmark(Landmark::Brow, Side::Centre);
    let eyes = [-3.2, 3.2].map(|x| brow + Vec3::new(x, -1.0, -2.0));
    let ears = [Side::Left, Side::Right].map(|side| head.landmark(Landmark::AboveEar, side));
    let nape = [head.landmark(Landmark::Nape, Side::Centre)];
    for plan in built_ins() {
        let (outcome, _) = worked_out(head, &plan, &Choices::default()).unwrap();
        for section in outcome.sections.iter().filter(|s| s.cuts()) {
            let step = &plan.steps[section.step];
            let cut = section.strands.iter().filter(|s| s.reaches());
            // A taper is cut near where it grows; how hair is held for a trim nobody knows.
            if matches!(step.held, Held::Trim(_)) {
                continue;
            }
            for blade in cut.map(|s| s.path.map_or(s.root, |path| path.meets)) {
                let near = |places: &[Vec3], cm| places.iter().any(|p| p.distance(blade) < cm);
                for (places, cm, caution) in [
                    (&eyes[..], 5.0, Caution::Eyes),
                    (&ears[..], 2.5, Caution::Ear),
                    (&nape[..], 2.5, Caution::Neck),
                ] {
                    assert!(
                        !near(places, cm) || step.cautions.contains(&caution),
                        "{} {}: {caution:?}",
                        plan.id,
                        step.id
                    );
                }
            }
        }
    }
}

/// A plan written before these fields were known still reads.
#[test]
fn a_plan_without_its_description_still_reads() {
    let plan = built_in("trim").unwrap();
    let mut value = serde_json::to_value(&plan).unwrap();
    let fields = value.as_object_mut().unwrap();
    for field in [
        "not_for", "weight", "mistakes", "checks", "minutes", "wetness", "covers",
    ] {
        assert!(fields.remove(field).is_some(), "{field}");
    }
    let read = Plan::from_json(&value.to_string()).unwrap();
    assert_eq!(read.covers, Covers::All);
    assert_eq!((read.minutes, read.steps), (0, plan.steps));
}
