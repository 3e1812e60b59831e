//! The consultation: each answer changes what it should and nothing else, and none is lost.

mod common;

use common::mean_head;
use tautline::book::SavedCut;
use tautline::consult::{Ask, Consultation, Growth, Mark, Topic, Zone, advice};
use tautline::cut::{Finding, Job, Measured, Outcome, SectionCut, What, cut, findings};
use tautline::hair::{CutAt, Hair, Reason, State, Turn};
use tautline::head::{Head, Landmark, Region, Side, Spot};
use tautline::plan::{Choices, Parting, Plan, Value, built_in, built_ins};

/// A tenth of a millimetre, cm.
const FINE: f64 = 0.01;

fn said(answers: &[(Ask, &str)]) -> Consultation {
    let mut said = Consultation::default();
    for (ask, answer) in answers {
        said.put(*ask, answer);
    }
    said
}

fn out(head: &Head, hair: &Hair, plan: &Plan) -> Outcome {
    let job = Job {
        head,
        hair,
        plan,
        choices: &Choices::default(),
    };
    cut(&job, &Measured::new()).unwrap()
}

/// Every section of all built-in plans, without and with what was said.
fn pairs(head: &Head, said: &Consultation) -> Vec<(SectionCut, SectionCut)> {
    let hair = said.hair(head);
    let plans = built_ins();
    let both = plans.iter().flat_map(|plan| {
        let (plain, with) = (out(head, &Hair::default(), plan), out(head, &hair, plan));
        plain.sections.into_iter().zip(with.sections)
    });
    both.collect()
}

#[test]
fn one_lock_tells_how_far_all_hair_hangs() {
    let head = mean_head();
    let lock = [
        (Ask::LockHangs(None), "24 cm"),
        (Ask::LockCombed(None), "30 cm"),
    ];
    let hair = said(&lock).hair(&head);
    assert!(!hair.estimated);
    for region in Region::ALL {
        let falls = hair.falls_to(CutAt::from_cm(20.0), region).cm();
        assert!((falls - 16.0).abs() < 1e-12);
    }
    // Every section of a plan falls to 0.8 of what it is cut at.
    let plan = built_in("uniform-layers").unwrap();
    let outcome = out(&head, &hair, &plan);
    for strand in outcome.sections.iter().flat_map(|s| &s.strands) {
        let falls = outcome.lengths.hangs(strand.root, strand.after).cm();
        assert!((falls - 0.8 * strand.after).abs() < 1e-9);
    }
    // A second lock counts in its own region only.
    let mut two = said(&lock);
    two.put(Ask::LockHangs(Some(Region::Nape)), "15 cm");
    two.put(Ask::LockCombed(Some(Region::Nape)), "30 cm");
    let hair = two.hair(&head);
    assert_eq!(hair.hanging(Region::Nape), 0.5);
    assert_eq!(hair.hanging(Region::Front), 0.8);
}

#[test]
fn a_curl_is_estimated_until_a_lock_is_measured() {
    let head = mean_head();
    let of = |answers: &[(Ask, &str)]| said(answers).hair(&head);
    for (curl, hangs) in [
        ("straight", 0.975),
        ("wavy", 0.9),
        ("curly", 0.75),
        ("coily", 0.45),
    ] {
        let hair = of(&[(Ask::Curl, curl)]);
        assert!(hair.estimated && (hair.hanging(Region::Back) - hangs).abs() < 1e-12);
    }
    let mut curly = said(&[
        (Ask::Curl, "curly"),
        (Ask::LockHangs(None), "20 cm"),
        (Ask::LockCombed(None), "25 cm"),
    ]);
    assert_eq!(curly.hair(&head).hanging(Region::Back), 0.8);
    assert!(!curly.hair(&head).estimated);
    // A lock that cannot be counts as none, and says so.
    curly.put(Ask::LockHangs(None), "30 cm");
    assert!(curly.hair(&head).estimated);
    let fault = curly.fault(Ask::LockCombed(None)).unwrap();
    assert!(fault.contains("Measure again"), "{fault}");
    curly.put(Ask::LockHangs(None), "long");
    assert!(curly.fault(Ask::LockHangs(None)).is_some());
    assert_eq!(curly.answer(Ask::LockHangs(None)), "long");
    assert_eq!(of(&[(Ask::State, "wet")]).state, State::Wet);
    assert_eq!(of(&[]), Hair::default());
}

/// Near the places hair is left longer, by no more than was said; elsewhere nothing changes.
fn lengthens_near_only(said: &Consultation, most: f64, reason: Reason) {
    let head = mean_head();
    let hair = said.hair(&head);
    let (mut grew, mut told) = (0, 0);
    for (plain, with) in pairs(&head, said) {
        let mut longest = 0.0_f64;
        for (a, b) in plain.strands.iter().zip(&with.strands) {
            let more = b.after - a.after;
            let allowed = hair.allowance(a.root);
            assert!(
                more > -FINE && more < allowed + FINE,
                "{:?}: {more} of {allowed}",
                plain.key
            );
            if b.reaches() {
                longest = longest.max(more);
            }
            grew += usize::from(more > 0.9 * most);
        }
        if let Some(left_on) = with.left_on() {
            told += 1;
            assert!(left_on.most.cm() <= most + 1e-9 && left_on.reasons == [reason]);
            assert!(left_on.most.cm() > longest - FINE, "{:?}", plain.key);
        } else {
            assert!(!with.cuts() || longest < 0.1 + FINE, "{:?}", plain.key);
        }
    }
    println!("{grew} strands by nine tenths of it, {told} sections told");
    assert!(grew > 0 && told > 0);
}

#[test]
fn an_ear_allowance_lengthens_the_sections_near_the_ear_only() {
    let ears = said(&[(Ask::Ears, "on"), (Ask::EarsBy, "0.7 cm")]);
    lengthens_near_only(&ears, 0.7, Reason::Ear);
}

#[test]
fn a_cowlick_lengthens_the_sections_near_it_only() {
    let mut cowlick = Consultation::default();
    cowlick.marks = vec![Mark::at_named(Growth::Cowlick, 1).unwrap()];
    cowlick.marks[0].longer = "1.5 cm".to_owned();
    lengthens_near_only(&cowlick, 1.5, Reason::Cowlick);
}

/// Left longer for the curl, all that a line cuts stays so much longer, unless it was too short.
#[test]
fn curls_are_left_longer_everywhere() {
    let head = mean_head();
    let curls = said(&[(Ask::Curls, "on"), (Ask::CurlsBy, "3 cm")]);
    let hair = curls.hair(&head);
    for id in ["uniform-layers", "one-length-bob", "graduated-bob"] {
        let plan = built_in(id).unwrap();
        let (plain, with) = (
            out(&head, &Hair::default(), &plan),
            out(&head, &hair, &plan),
        );
        let mut full = 0;
        for (a, b) in plain.sections.iter().zip(&with.sections) {
            for (a, b) in a.strands.iter().zip(&b.strands) {
                let more = b.after - a.after;
                assert!((-FINE..3.0 + FINE).contains(&more), "{id} {more}");
                full += usize::from(more > 3.0 - FINE);
            }
            if b.cuts() && b.reach() > 0.99 {
                assert_eq!(b.left_on().unwrap().reasons, [Reason::Curl]);
                assert!((b.left_on().unwrap().most.cm() - 3.0).abs() < FINE);
            }
        }
        assert!(full > 50, "{id}: {full}");
    }
}

#[test]
fn a_trim_takes_the_same_off_everywhere() {
    let head = mean_head();
    let ears = said(&[(Ask::Ears, "on"), (Ask::Curls, "on")]);
    let trim = built_in("trim").unwrap();
    let (plain, with) = (
        out(&head, &Hair::default(), &trim),
        out(&head, &ears.hair(&head), &trim),
    );
    for (a, b) in plain.sections.iter().zip(&with.sections) {
        assert!((a.off().cm() - b.off().cm()).abs() < FINE);
        assert_eq!(b.left_on(), None);
    }
}

/// Only one side is worked out where hair is left longer on both alike; the other is its mirror.
#[test]
fn allowances_on_both_sides_come_out_alike() {
    let head = mean_head();
    let mut both = said(&[(Ask::Ears, "on"), (Ask::EarsBy, "1 cm")]);
    both.marks = vec![
        Mark::at_named(Growth::Cowlick, 0).unwrap(),
        Mark::at_named(Growth::NapeUp, 11).unwrap(),
        Mark::at_named(Growth::NapeUp, 12).unwrap(),
    ];
    let hair = both.hair(&head);
    assert!(hair.sides_alike());
    // A hair's breadth from alike: both sides are worked out.
    let mut apart = hair.clone();
    apart.allowances[0].at[1] += 1e-3;
    assert!(!apart.sides_alike());
    for plan in built_ins() {
        let (alike, each) = (out(&head, &hair, &plan), out(&head, &apart, &plan));
        for (a, b) in alike.sections.iter().zip(&each.sections) {
            for (a, b) in a.strands.iter().zip(&b.strands) {
                assert!((a.after - b.after).abs() < FINE, "{}", plan.id);
            }
            let most = |s: &SectionCut| s.left_on().map_or(0.0, |l| l.most.cm());
            assert!((most(a) - most(b)).abs() < FINE);
        }
        if Choices::default().parting(&plan) != Parting::Centre {
            continue;
        }
        for section in alike.sections.iter().filter(|s| s.key.side == Side::Left) {
            let mut key = section.key.clone();
            key.side = Side::Right;
            let twin = alike.section(&key).unwrap();
            assert!((section.long().cm() - twin.long().cm()).abs() < FINE);
            assert!((section.short().cm() - twin.short().cm()).abs() < FINE);
        }
    }
    both.marks.push(Mark::at_named(Growth::Cowlick, 1).unwrap());
    assert!(!both.hair(&head).sides_alike());
}

#[test]
fn limits_and_the_shortest_are_findings() {
    let head = mean_head();
    let find = |said: &Consultation, plan: &Plan| {
        let (hair, choices) = (Hair::default(), Choices::default());
        let job = Job {
            head: &head,
            hair: &hair,
            plan,
            choices: &choices,
        };
        let outcome = cut(&job, &Measured::new()).unwrap();
        findings(&job, &outcome, &said.agreed(&head)).unwrap()
    };
    let plan = built_in("one-length-bob").unwrap();
    let none = find(&Consultation::default(), &plan);
    for zone in Zone::ALL {
        let kept = find(&said(&[(Ask::NoShorter(zone), "brow")]), &plan);
        assert_eq!(kept, none);
        let broken = find(&said(&[(Ask::NoShorter(zone), "chest")]), &plan);
        let high = |f: &&Finding| {
            matches!(
                f,
                Finding::TooHigh {
                    landmark: Landmark::Chest,
                    ..
                }
            )
        };
        let high: Vec<String> = broken
            .iter()
            .filter(high)
            .map(ToString::to_string)
            .collect();
        println!("{high:?}");
        // Left and right are said once.
        assert_eq!(high.len(), 1);
        let place = ["the front", "the sides", "the back"][zone as usize];
        assert!(high[0].contains(place), "{high:?}");
    }
    let short = find(&said(&[(Ask::Shortest, "40 cm")]), &plan);
    assert!(short.iter().any(|f| matches!(f, Finding::TooShort { .. })));
    assert_eq!(find(&said(&[(Ask::Shortest, "1 cm")]), &plan), none);
}

#[test]
fn the_parting_worn_answers_a_plan_that_asks() {
    let left = said(&[(Ask::Parting, "left")]);
    let layers = built_in("soft-layers-face-frame").unwrap();
    let none = Choices::default();
    assert_eq!(left.choices(&layers, &none).parting(&layers), Parting::Left);
    // What was chosen in the plan counts.
    let mut own = Choices::default();
    own.set(&layers, "parting", "right").unwrap();
    assert_eq!(left.choices(&layers, &own).parting(&layers), Parting::Right);
    // A parting in the middle says nothing of a side.
    let swept = built_in("side-swept-fringe").unwrap();
    let centre = said(&[(Ask::Parting, "centre")]);
    assert_eq!(centre.choices(&swept, &none), none);
    let right = said(&[(Ask::Parting, "right")]);
    assert_eq!(right.choices(&swept, &none).parting(&swept), Parting::Right);
}

#[test]
fn two_goes_double_the_fringe_and_end_at_the_same_lengths() {
    let head = mean_head();
    let twice = said(&[(Ask::TwoGoes, "on"), (Ask::TwoGoesBy, "3 cm")]);
    let mut doubled = Vec::new();
    for plain in built_ins() {
        let plan = twice.plan(plain.clone()).unwrap();
        let more = plan.steps.len() - plain.steps.len();
        if more == 0 {
            assert_eq!(plan, plain);
            continue;
        }
        doubled.push((plain.id.clone(), more));
        let (once, two) = (
            out(&head, &Hair::default(), &plain),
            out(&head, &Hair::default(), &plan),
        );
        for step in &plain.steps {
            let of = |outcome: &Outcome, id: &str| -> Vec<SectionCut> {
                let all = outcome.sections.iter().filter(|s| s.key.step == id);
                all.cloned().collect()
            };
            let (one, same) = (of(&once, &step.id), of(&two, &step.id));
            assert_eq!(one.len(), same.len());
            for (a, b) in one.iter().zip(&same) {
                for (a, b) in a.strands.iter().zip(&b.strands) {
                    assert!((a.after - b.after).abs() < FINE, "{} {}", plain.id, step.id);
                }
            }
            let first = of(&two, &format!("{}-first-go", step.id));
            for (first, last) in first.iter().zip(&same) {
                assert!((first.long().cm() - last.long().cm() - 3.0).abs() < 0.1);
            }
        }
        let job = |plan| (plan, Hair::default(), Choices::default());
        let said = |(plan, hair, choices): (&Plan, Hair, Choices), outcome| {
            let job = Job {
                head: &head,
                hair: &hair,
                plan,
                choices: &choices,
            };
            findings(&job, outcome, &Consultation::default().agreed(&head)).unwrap()
        };
        assert_eq!(said(job(&plain), &once), said(job(&plan), &two));
    }
    println!("{doubled:?}");
    for id in [
        "straight-fringe",
        "curtain-fringe",
        "side-swept-fringe",
        "soft-layers-face-frame",
    ] {
        assert!(doubled.contains(&(id.to_owned(), 1)), "{id}");
    }
    // A plan that has a step of that name already.
    let again = twice.plan(twice.plan(built_in("straight-fringe").unwrap()).unwrap());
    assert_eq!(again.unwrap().steps.len(), 5);
}

#[test]
fn wishes_answer_what_a_plan_asks_of_front_and_outline() {
    let wishes = said(&[
        (Ask::EndsAt(Zone::Front), "chin"),
        (Ask::EndsAt(Zone::Back), "chest"),
    ]);
    let answer = |plan: &str, choice: &str, choices: &Choices| {
        let plan = built_in(plan).unwrap();
        wishes.choices(&plan, choices).value(&plan, choice).unwrap()
    };
    let none = Choices::default();
    let at = |landmark| Value::Landmark(landmark);
    let layers = answer("soft-layers-face-frame", "landmark", &none);
    assert_eq!(layers, at(Landmark::Chin));
    let long = answer("one-length-long", "landmark", &none);
    assert_eq!(long, at(Landmark::Chest));
    // What the plan does not offer is no answer, and one given in the plan wins.
    let fringe = answer("curtain-fringe", "landmark", &none);
    assert_eq!(fringe, at(Landmark::Brow));
    let plan = built_in("soft-layers-face-frame").unwrap();
    let mut chosen = Choices::default();
    chosen.set(&plan, "landmark", "cheekbone").unwrap();
    let layers = answer("soft-layers-face-frame", "landmark", &chosen);
    assert_eq!(layers, at(Landmark::Cheekbone));
}

#[test]
fn wishes_begin_an_aim() {
    let wishes = said(&[
        (Ask::EndsAt(Zone::Front), "mouth_corner"),
        (Ask::NoShorter(Zone::Back), "collarbone"),
        (Ask::WeightAt, "occipital"),
        (Ask::EndsAt(Zone::Sides), "nonsense"),
    ])
    .wishes();
    let told: Vec<_> = wishes.iter().map(|w| (w.what, w.at.landmark)).collect();
    assert_eq!(
        told,
        [
            (What::Shortest, Landmark::Collarbone),
            (What::Front, Landmark::MouthCorner),
            (What::Weight, Landmark::Occipital),
        ]
    );
    assert!(wishes.iter().all(|w| w.on && w.at.below == 0.0));
}

#[test]
fn advice_follows_from_the_answers_and_contradictions_are_said() {
    assert_eq!(advice(&Consultation::default()), []);
    let against = said(&[
        (Ask::EndsAt(Zone::Front), "brow"),
        (Ask::NoShorter(Zone::Front), "chin"),
    ]);
    let all = advice(&against);
    assert!(all[0].warns && all[0].text.contains("brow") && all[0].text.contains("chin"));
    let within = said(&[
        (Ask::EndsAt(Zone::Back), "chest"),
        (Ask::NoShorter(Zone::Back), "collarbone"),
    ]);
    assert_eq!(advice(&within), []);
    for (face, _) in Ask::Face.answers() {
        let all = advice(&said(&[(Ask::Face, face)]));
        assert!(matches!(&all[..], [one] if one.topic == Topic::Face && !one.warns));
    }
    let first = advice(&said(&[(Ask::Occasion, "first")]));
    assert!(first[0].text.starts_with("Cut less"));
}

#[test]
fn a_whorl_is_where_the_hair_radiates_from() {
    let head = mean_head();
    let mut whorl = Consultation::default();
    let spot = Spot::at_degrees(170.0, 0.4);
    whorl.marks = vec![Mark::at(Growth::WhorlClockwise, spot)];
    let hair = whorl.hair(&head);
    assert_eq!(hair.whorl.turn, Turn::Clockwise);
    let place = hair.whorl.place.unwrap();
    assert!((place.azimuth - spot.azimuth).abs() < 1e-3);
    let (plan, choices) = (built_in("uniform-layers").unwrap(), Choices::default());
    let job = Job {
        head: &head,
        hair: &hair,
        plan: &plan,
        choices: &choices,
    };
    assert_eq!(job.wear().whorl, hair.whorl);
}

#[test]
fn older_documents_read_and_unknown_answers_stay() {
    // As the first version wrote it.
    let first = r#"{"schema":1,"id":"a","saved_at":"2026-11-25T08:00:00.000Z","title":"Invented","tapes":{"circumference":"54 cm"},"plan":"soft-layers-face-frame","choices":{"landmark":"chin"}}"#;
    let cut = SavedCut::from_json(first).unwrap();
    assert!(cut.consultation.is_empty());
    assert!(cut.ready().is_ok());
    let newer = r#"{"answers":{"curl":"spiral","mood":"good"},"marks":[{"growth":"cowlick","azimuth":10.0}],"more":[1]}"#;
    let read: Consultation = serde_json::from_str(newer).unwrap();
    assert_eq!(read.hair(&mean_head()).hanging(Region::Top), 1.0);
    let again = serde_json::to_string(&read).unwrap();
    assert!(again.contains("spiral") && again.contains("mood"));
    let empty: Consultation = serde_json::from_str("{}").unwrap();
    assert!(empty.is_empty());
}
