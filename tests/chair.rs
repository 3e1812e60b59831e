//! What follows at the chair of a cut that goes otherwise than planned: what is guided by it, its twin, what
//! was agreed, the time, and what is said of it. Checks are in `chair_checks.rs`, random walks in
//! `chair_random.rs`.

mod common;

use common::seat::Chair;
use tautline::cut::{Agreed, Outcome, SectionKey};
use tautline::head::{Landmark, Side};
use tautline::measure::{Length, Unit, Usage, said};
use tautline::plan::built_ins;
use tautline::walk::{
    CheckPoint, Coverage, Kind, Pair, Spent, State, Tolerances, Walk, compare, follow, mend, order,
    spoken,
};

/// Targets are kept to a millionth of a centimetre.
const KEPT: f64 = 1e-6;

fn at(minutes: u64) -> String {
    format!(
        "2026-11-25T{:02}:{:02}:00.000Z",
        9 + minutes / 60,
        minutes % 60
    )
}

/// Presses Done so many times, each a minute after the last, with the targets of an outcome.
fn press(walk: &mut Walk, outcome: &Outcome, times: usize) {
    let keys = order(outcome);
    for i in 0..times {
        let place = walk.current(&keys).unwrap();
        let target = Some(outcome.sections[place].long());
        walk.done(&keys, target, &at(i as u64 + 1));
    }
}

#[test]
fn a_changed_plan_never_rewrites_what_is_cut() {
    let before = Chair::of("uniform-layers", &[("length", "10 cm")]);
    let planned = before.planned();
    let mut walk = Walk::start(&at(0));
    press(&mut walk, &planned, 3);
    assert_eq!(walk.as_cut(&planned), None);

    let after = Chair::of("uniform-layers", &[("length", "8 cm")]);
    let fresh = after.planned();
    let measured = walk.as_cut(&fresh).expect("three sections differ");
    assert_eq!(measured.len(), 3);
    let followed = after.followed(&walk);
    for (i, section) in planned.sections.iter().enumerate().take(3) {
        let root = section.strands[4].root;
        let was = planned.lengths.at(&before.head, root).unwrap();
        let is = followed.lengths.at(&after.head, root).unwrap();
        assert!((was - is).abs() < 0.1, "section {i}: {was} {is}");
    }
    // What travels on from the third is what the third is.
    assert!((followed.sections[3].long().cm() - 10.0).abs() < 0.2);
    let rows = compare(&fresh, &followed, &walk);
    assert!((rows[0].cut.unwrap().cm() - planned.sections[0].long().cm()).abs() < KEPT);
    assert!(rows[0].difference().unwrap() > 1.5 && rows[3].cut.is_none());

    // Opened again it follows the plan; done again it is as short as that.
    walk.back(&order(&fresh));
    let opened = walk.as_cut(&fresh).unwrap();
    assert_eq!(opened.len(), 2);
    walk.done(&order(&fresh), Some(Length::from_cm(8.0)), &at(9));
    assert_eq!(walk.target(&fresh.sections[2].key).unwrap().cm(), 8.0);
}

#[test]
fn a_guide_measured_late_leaves_what_was_cut_by_the_plan() {
    let chair = Chair::of("uniform-layers", &[("length", "10 cm")]);
    let planned = chair.planned();
    let mut walk = Walk::start(&at(0));
    press(&mut walk, &planned, 3);
    let first = &planned.sections[0].key;
    walk.put_down(first, Some(Length::from_cm(9.0)), None, &at(5));
    let followed = chair.followed(&walk);
    let third = followed.sections[2].strands[4].root;
    let is = followed.lengths.at(&chair.head, third).unwrap();
    assert!((is - 10.0).abs() < 0.2, "{is}");
    // Kept as planned, nothing follows at all.
    walk.keep_plan(first, true);
    assert!(walk.measured().is_empty());
    assert_eq!(walk.came_out_at(first).unwrap().cm(), 9.0);
}

#[test]
fn what_a_guide_changes_is_said() {
    let chair = Chair::of("uniform-layers", &[("length", "10 cm")]);
    let planned = chair.planned();
    let keys = order(&planned);
    let mut walk = Walk::start(&at(0));
    walk.put_down(&keys[0], Some(Length::from_cm(9.0)), None, &at(1));
    let after = chair.followed(&walk);
    let changes = follow(&planned, &after, &walk, &keys[0]);
    assert!(changes.moved.len() > 3);
    assert!(
        changes
            .moved
            .iter()
            .all(|m| m.key != keys[0] && m.to < m.from)
    );
    let said = changes.said(Unit::Cm);
    assert!(
        said.contains("later sections become") && said.ends_with("1 cm shorter."),
        "{said}"
    );
    // A stationary line moves with the first section that is cut to it, and with no other.
    let chair = Chair::of("long-layers", &[]);
    let planned = chair.planned();
    let mut layers = planned.sections.iter().filter(|s| s.key.step == "layers");
    let mut said_longer = |name: &str| {
        let section = layers.next().expect(name);
        let mut walk = Walk::start(&at(0));
        let longer = section.long().cm() + 1.0;
        walk.put_down(&section.key, Some(Length::from_cm(longer)), None, &at(1));
        let after = chair.followed(&walk);
        follow(&planned, &after, &walk, &section.key).said(Unit::Cm)
    };
    let first = said_longer("the first section");
    assert!(first.ends_with("1 cm longer."), "{first}");
    assert_eq!(said_longer("the second section"), "Nothing later changes.");
}

#[test]
fn time_is_told_by_stages() {
    let chair = Chair::of("soft-layers-face-frame", &[]);
    let planned = chair.planned();
    let mut walk = Walk::start(&at(0));
    press(&mut walk, &planned, 5);
    let spent = Spent::of(&walk, &chair.plan, &planned, &at(7));
    assert_eq!(spent.total, 7 * 60);
    assert_eq!(
        spent.stages.iter().map(|s| s.seconds).sum::<u64>(),
        spent.total
    );
    assert_eq!(spent.stages[0].done, 2);
    assert_eq!(
        (spent.stages[0].seconds, spent.stages[1].seconds),
        (120, 300)
    );
    assert_eq!(spent.planned, Some(40 * 60));
    let usual: u64 = spent.stages.iter().filter_map(|s| s.usual).sum();
    assert!(usual <= 40 * 60 && usual > 39 * 60, "{usual}");
    assert!(!spent.half);

    // A pause, and being away without one.
    walk.pause(&at(7));
    assert_eq!(
        Spent::of(&walk, &chair.plan, &planned, &at(30)).total,
        7 * 60
    );
    walk.go_on(&at(27));
    assert_eq!(
        Spent::of(&walk, &chair.plan, &planned, &at(40)).total,
        20 * 60
    );
    assert!(Spent::of(&walk, &chair.plan, &planned, &at(40)).half);
    walk.pauses.clear();
    assert_eq!(
        Spent::of(&walk, &chair.plan, &planned, &at(40)).total,
        5 * 60
    );
    // A clock that was put back, and one that does not read.
    for now in ["2026-11-25T08:00:00Z", "soon"] {
        assert_eq!(Spent::of(&walk, &chair.plan, &planned, now).total, 5 * 60);
    }
    walk.started_at = String::new();
    assert_eq!(
        Spent::of(&walk, &chair.plan, &planned, "soon").total,
        4 * 60
    );
}

#[test]
fn a_pair_is_compared_and_matched() {
    let chair = Chair::of("soft-layers-face-frame", &[]);
    let planned = chair.planned();
    let front = |side| SectionKey {
        step: "face-frame".to_owned(),
        side,
        number: 1,
    };
    let (left, right) = (front(Side::Left), front(Side::Right));
    let mut walk = Walk::start(&at(0));
    let pair = Pair::of(&planned, &walk, &right).unwrap();
    assert_eq!((pair.there, pair.difference, pair.meant), (None, None, 0.0));
    assert_eq!(pair.kind, Kind::Face);
    let tolerances = Tolerances::default();
    let target = planned.section(&left).unwrap().long();
    let short = Length::from_cm(target.cm() - 1.0);
    walk.put_down(&left, Some(short), Some(target), &at(1));
    let outcome = chair.followed(&walk);
    let pair = Pair::of(&outcome, &walk, &right).unwrap();
    assert!((pair.difference.unwrap() - 1.0).abs() < 0.01);
    assert_eq!(pair.offer_match(&walk, &tolerances), Some(short));
    walk.match_to(&right, Some(short));
    assert_eq!(walk.measured()[&right], short);
    let pair = Pair::of(&outcome, &walk, &right).unwrap();
    assert_eq!(pair.target_here, short);
    assert!(pair.difference.unwrap().abs() < 0.01);
    assert_eq!(pair.offer_match(&walk, &tolerances), None);
    // Within what is allowed nobody is asked.
    walk.match_to(&right, None);
    let near = Length::from_cm(target.cm() - 0.3);
    walk.put_down(&left, Some(near), Some(target), &at(1));
    let pair = Pair::of(&outcome, &walk, &right).unwrap();
    assert_eq!(pair.offer_match(&walk, &tolerances), None);

    // With a parting aside the sides are not meant alike, and that is no difference.
    let aside = Chair::of("soft-layers-face-frame", &[("parting", "left")]);
    let planned = aside.planned();
    let mut walk = Walk::start(&at(0));
    press(&mut walk, &planned, planned.sections.len());
    for section in planned.sections.iter().filter(|s| s.cuts()) {
        let pair = Pair::of(&planned, &walk, &section.key).unwrap();
        assert!(pair.difference.unwrap().abs() < KEPT, "{pair:?}");
    }
    // Across the middle there is no twin.
    let fringe = Chair::of("straight-fringe", &[]).planned();
    assert!(Pair::of(&fringe, &walk, &fringe.sections[0].key).is_none());
}

#[test]
fn sides_are_brought_to_a_point_they_reach() {
    let point = |id: &str, step: &str, number| {
        let outcome = Chair::of(id, &[]).planned();
        let key = SectionKey {
            step: step.to_owned(),
            side: Side::Left,
            number,
        };
        Pair::of(&outcome, &Walk::default(), &key).unwrap().point
    };
    assert_eq!(point("curtain-fringe", "fringe", 1), CheckPoint::NoseTip);
    assert_eq!(point("one-length-long", "sides", 1), CheckPoint::Chin);
    assert_eq!(point("graduated-bob", "nape", 1), CheckPoint::BackCentre);
}

#[test]
fn what_came_out_too_short_is_blended_and_the_rest_left() {
    let chair = Chair::of("uniform-layers", &[("length", "10 cm")]);
    let planned = chair.planned();
    let agreed = Agreed::from(Length::from_cm(9.0));
    let keys = order(&planned);
    let mut walk = Walk::start(&at(0));
    let mended = |walk: &Walk| {
        let outcome = chair.followed(walk);
        mend(&chair.job(), &agreed, &outcome, walk, &keys[0]).unwrap()
    };
    assert_eq!(mended(&walk), None);
    // As agreed, or so near that no ruler tells.
    for cm in [12.0, 10.0, 9.5, 8.9] {
        walk.put_down(&keys[0], Some(Length::from_cm(cm)), None, &at(1));
        assert_eq!(mended(&walk), None, "{cm}");
    }
    walk.put_down(&keys[0], Some(Length::from_cm(8.0)), None, &at(1));
    let mend = mended(&walk).expect("it hangs a centimetre short");
    assert!((mend.short_by - 1.0).abs() < 0.15, "{}", mend.short_by);
    // 1.25 cm a month of 30.4 days.
    let weeks = mend.short_by / 1.25 * 30.4375 / 7.0;
    assert!((f64::from(mend.weeks) - weeks).abs() <= 0.5, "{weeks}");
    assert!(!mend.blend.is_empty() && mend.blend.len() <= 4);
    let lengths: Vec<f64> = mend.blend.iter().map(|(.., l)| l.cm()).collect();
    assert!(lengths.windows(2).all(|w| w[0] <= w[1]), "{lengths:?}");
    // Cut so, none of them hangs shorter than agreed.
    assert!(
        lengths.iter().all(|cm| (8.99..10.0).contains(cm)),
        "{lengths:?}"
    );
    assert!(
        mend.blend
            .iter()
            .all(|(key, ..)| key.side == Side::Left && key.step == "back")
    );
    assert!(mend.leave.len() > 2);
    let said = mend.said(Unit::Cm);
    assert_eq!(
        said[0],
        "It hangs 1 cm shorter than agreed. Don't take the rest up to it."
    );
    assert!(said[1].starts_with("Leave as planned: ") && said[2].starts_with("Blend over "));
    assert!(said.contains(&format!("Grown back in about {} weeks.", mend.weeks)));
    assert!(said.iter().all(|line| !line.contains('!')));
    // Where the plan is kept nothing follows, so nothing has to be left.
    walk.keep_plan(&keys[0], true);
    let kept = mended(&walk).unwrap();
    assert_eq!((kept.short_by, &kept.blend), (mend.short_by, &mend.blend));
    assert!(kept.leave.is_empty());
    walk.keep_plan(&keys[0], false);
    // Blended and the rest left as planned, only the one section is short.
    let mut measured = walk.measured();
    for section in planned.sections.iter().skip(1).filter(|s| s.cuts()) {
        measured.insert(section.key.clone(), section.long());
    }
    measured.extend(mend.blend.iter().map(|(key, _, l)| (key.clone(), *l)));
    let outcome = chair.cut(&measured);
    for section in outcome.sections.iter().skip(1).filter(|s| s.cuts()) {
        let inner = section.strands[4].root;
        let cm = outcome.lengths.at(&chair.head, inner).unwrap();
        assert!(cm > 8.75, "{}: {cm}", section.section.name);
    }
}

#[test]
fn a_level_that_was_promised_is_mended_too() {
    let chair = Chair::of("one-length-long", &[]);
    let planned = chair.planned();
    let section = &planned.sections[0];
    let root = section.strands[4].root;
    let agreed = Agreed {
        shortest: None,
        no_higher: vec![(root, Landmark::Shoulder)],
    };
    let mut walk = Walk::start(&at(0));
    let mut short = |cm: f64, keep: bool| {
        let came_out = Length::from_cm(section.long().cm() - cm);
        walk.put_down(&section.key, Some(came_out), None, &at(1));
        walk.keep_plan(&section.key, keep);
        let outcome = chair.followed(&walk);
        let mend = mend(&chair.job(), &agreed, &outcome, &walk, &section.key);
        mend.unwrap().map(|mend| mend.short_by)
    };
    let ends = planned.lengths.ends_at(&chair.head, root).unwrap();
    let room = ends - chair.head.landmark(Landmark::Shoulder, Side::Centre).z;
    assert!(room < 0.0, "{room}");
    assert_eq!(short(-room - 0.1, false), None);
    let by = short(1.0 - room, false).unwrap();
    assert!((by - 1.0).abs() < 0.05, "{by}");
    let kept = short(1.0 - room, true).unwrap();
    assert!((kept - by).abs() < 0.05, "{kept}");
}

#[test]
fn the_scalp_is_cut_left_or_out_of_reach() {
    for plan in built_ins() {
        let chair = Chair::of(&plan.id, &[]);
        let planned = chair.planned();
        let scalp: f64 = chair.head.grid().iter().map(|s| s.area).sum();
        let mut walk = Walk::start(&at(0));
        let mut last = f64::INFINITY;
        for _ in 0..=planned.sections.len() {
            let now = Coverage::of(&chair.job(), &planned, &walk);
            let sum = now.cut + now.left + now.short + now.none;
            assert!((sum - scalp).abs() < 1e-6, "{}", plan.id);
            assert!(now.left <= last + 1e-9);
            last = now.left;
            let cuts = planned.sections.iter().filter(|s| s.cuts()).count();
            assert_eq!(now.parcels.len(), cuts);
            if walk.current(&order(&planned)).is_some() {
                press(&mut walk, &planned, 1);
            }
        }
        let now = Coverage::of(&chair.job(), &planned, &walk);
        assert!(now.left == 0.0 && now.cut > 0.0, "{}", plan.id);
        assert!(now.parcels.iter().all(|(_, state)| *state != State::Left));
        let part = plan.covers == tautline::plan::Covers::Part;
        assert_eq!(part, now.none > scalp / 2.0, "{}", plan.id);
    }
}

#[test]
fn what_is_read_aloud_has_whole_words() {
    let mut heard = 0;
    for plan in built_ins() {
        let chair = Chair::of(&plan.id, &[]);
        let outcome = chair.planned();
        let count = outcome.sections.len();
        for unit in [Unit::Cm, Unit::Inches] {
            for (place, section) in outcome.sections.iter().enumerate() {
                let number = section.key.number;
                let brief = chair
                    .plan
                    .brief_for(section.step, number, &chair.choices, unit);
                let step = &chair.plan.steps[section.step];
                let target = section.long();
                let falls = Some("2 cm below the chin");
                let text = spoken(section, place, count, step, &brief, target, falls, unit);
                assert!(text.starts_with(&section.section.name), "{text}");
                for mark in ["°", " cm", "1/", "3/", "..", "  "] {
                    assert!(!text.contains(mark), "{mark}: {text}");
                }
                heard += 1;
                let us = said(&text, Usage::Us).to_lowercase();
                for word in ["fringe", "centre", "metre", "towards"] {
                    assert!(!us.contains(word), "{us}");
                }
            }
        }
    }
    assert!(heard > 500, "{heard}");
    let chair = Chair::of("soft-layers-face-frame", &[]);
    let outcome = chair.planned();
    let section = &outcome.sections[2];
    let brief = chair.plan.brief_for(1, 1, &chair.choices, Unit::Inches);
    let target = Length::from_inches(11.375);
    let step = &chair.plan.steps[1];
    assert_eq!(
        spoken(section, 2, 24, step, &brief, target, None, Unit::Inches),
        "Parting to temple, left. 3 of 24. Cut at 11 and 3 eighths inches. Straight out. \
         Comb to the parting. Fingers parallel to head. Guide: front guide, stays. Cut: point. \
         Tension even, none over the ear. Ear: shield it."
    );
}

/// What a section was cut at: measured before the target on the screen, nothing while it is open; all is cut
/// when every section that cuts is done.
#[test]
fn a_section_tells_what_it_was_cut_at() {
    let chair = Chair::of("one-length-bob", &[]);
    let planned = chair.planned();
    let mut walk = Walk::start(&at(0));
    let cutting = planned.sections.iter().filter(|s| s.cuts()).count();
    press(&mut walk, &planned, 2);
    let [first, third] = [0, 2].map(|i| planned.sections[i].key.clone());
    let target = planned.sections[0].long();
    let kept = walk.cut_at(&first, None).unwrap();
    assert!((kept.cm() - target.cm()).abs() < KEPT);
    let longer = Length::from_cm(target.cm() + 1.2);
    walk.put_down(&first, Some(longer), Some(target), &at(3));
    assert_eq!(walk.cut_at(&first, Some(target)), Some(longer));
    assert_eq!(walk.cut_at(&third, Some(target)), None);
    assert!(!walk.all_cut(&planned));
    press(&mut walk, &planned, cutting - 2);
    assert!(walk.all_cut(&planned));
    // A walk of before targets were kept has what the plan says now.
    for done in &mut walk.done {
        done.target = None;
    }
    assert_eq!(walk.cut_at(&third, Some(target)), Some(target));
    assert_eq!(walk.cut_at(&third, None), None);
}
