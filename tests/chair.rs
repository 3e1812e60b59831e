//! The run at the chair: random walks, and what follows of a cut that goes otherwise than planned.

mod common;

use common::{chosen, mean_head, three_heads};
use proptest::prelude::*;
use tautline::cut::{Agreed, Job, Measured, Outcome, SectionCut, SectionKey, cut};
use tautline::geometry::{Convex, Vec3};
use tautline::hair::Hair;
use tautline::head::{Head, Side};
use tautline::measure::{Length, Unit, Usage, said};
use tautline::plan::{Choices, Plan, built_in, built_ins};
use tautline::walk::{
    CheckPoint, Coverage, Kind, Pair, Spent, State, Tolerances, Walk, check_places, check_runs,
    compare, follow, mend, order, spoken,
};

/// A plan on a head, to be worked out again and again.
struct Chair {
    head: Head,
    hair: Hair,
    plan: Plan,
    choices: Choices,
}

impl Chair {
    fn of(id: &str, answers: &[(&str, &str)]) -> Self {
        let plan = built_in(id).unwrap();
        let choices = chosen(&plan, answers);
        Self {
            head: mean_head(),
            hair: Hair::default(),
            plan,
            choices,
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

    fn cut(&self, measured: &Measured) -> Outcome {
        cut(&self.job(), measured).unwrap()
    }

    fn planned(&self) -> Outcome {
        self.cut(&Measured::new())
    }

    /// As the chair works it out: what was measured, and nothing rewritten that is already cut.
    fn followed(&self, walk: &Walk) -> Outcome {
        let outcome = self.cut(&walk.measured());
        match walk.as_cut(&outcome) {
            Some(measured) => self.cut(&measured),
            None => outcome,
        }
    }
}

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

fn keys(count: usize) -> Vec<SectionKey> {
    (0..count)
        .map(|i| SectionKey {
            step: "step".to_owned(),
            side: [Side::Left, Side::Right][i % 2],
            number: i / 2 + 1,
        })
        .collect()
}

/// The target of a section in the random walks: each has its own.
fn target(order: &[SectionKey], walk: &Walk) -> Option<Length> {
    let place = walk.current(order)?;
    Some(Length::from_cm(10.0 + place as f64))
}

/// Takes one of the things a person may do at the chair.
fn act(walk: &mut Walk, order: &[SectionKey], what: (u8, usize, u8), now: &str) {
    let (what, place, tenths) = what;
    let key = &order[place % order.len()];
    let length = Some(Length::from_cm(f64::from(tenths) / 10.0));
    match what {
        0..=4 => {
            let target = target(order, walk);
            walk.done(order, target, now);
        }
        5 | 6 => walk.back(order),
        7 => walk.go_to(key),
        8 => {
            let target = Some(Length::from_cm(10.0 + (place % order.len()) as f64));
            walk.put_down(key, length, target, now);
        }
        9 => walk.put_down(key, None, None, now),
        10 => walk.keep_plan(key, tenths % 2 == 0),
        11 => walk.match_to(key, length.filter(|_| tenths % 3 > 0)),
        12 => walk.pause(now),
        _ => walk.go_on(now),
    }
}

/// The same walk but for which section is on the screen.
fn anywhere(walk: &Walk) -> Walk {
    Walk {
        at: None,
        ..walk.clone()
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// After any walk: Back takes a Done back, and Done a Back; a value taken back leaves no trace;
    /// and the whole is the same after it was stored.
    #[test]
    fn every_press_can_be_taken_back(
        acts in prop::collection::vec((0_u8..14, 0_usize..7, 1_u8..200), 0..40),
    ) {
        let order = keys(7);
        let mut walk = Walk::start("t0");
        for what in acts {
            act(&mut walk, &order, what, "t");
            prop_assert!(walk.count_done(&order) <= order.len());
            prop_assert!(walk.pauses.iter().rev().skip(1).all(|p| p.to.is_some()));
        }
        let text = serde_json::to_string(&walk).unwrap();
        prop_assert_eq!(&serde_json::from_str::<Walk>(&text).unwrap(), &walk);

        // Done, Back, Done is Done.
        let mut once = walk.clone();
        let of = target(&order, &once);
        once.done(&order, of, "t");
        let mut thrice = once.clone();
        thrice.back(&order);
        let of = target(&order, &thrice);
        thrice.done(&order, of, "t");
        // A section that counted only as measured was not where Done led from.
        let flags = |walk: &Walk| {
            let mut walk = walk.clone();
            walk.done.iter_mut().for_each(|d| d.only_measured = false);
            walk
        };
        prop_assert_eq!(flags(&thrice), flags(&once));

        // Back, Done is nothing, where a section that is done lies behind one that is due.
        let due = walk.current(&order).is_none_or(|place| !walk.is_done(&order[place]));
        let behind = walk.behind(&order);
        if due && behind.is_some_and(|place| walk.is_done(&order[place])) {
            let mut twice = walk.clone();
            twice.back(&order);
            prop_assert_eq!(twice.count_done(&order) + 1, walk.count_done(&order));
            let of = target(&order, &twice);
            twice.done(&order, of, "t");
            prop_assert_eq!(twice.current(&order), walk.current(&order));
            prop_assert_eq!(anywhere(&flags(&twice)), anywhere(&flags(&walk)));
        }

        // A value put down and taken back.
        if let Some(place) = walk.current(&order)
            && walk.entry(&order[place]).is_none()
        {
            let mut twice = walk.clone();
            twice.put_down(&order[place], Some(Length::from_cm(9.0)), None, "t");
            prop_assert!(twice.is_done(&order[place]) && twice.current(&order) == Some(place));
            prop_assert!(twice.shown_is(&order, &order[place]));
            twice.put_down(&order[place], None, None, "t");
            prop_assert_eq!(anywhere(&twice), anywhere(&walk));
        }
    }

    /// However often Back was pressed, Done leads to the end again, once a section.
    #[test]
    fn after_any_walk_done_leads_to_the_end(
        acts in prop::collection::vec((0_u8..14, 0_usize..6, 1_u8..200), 0..30),
    ) {
        let order = keys(6);
        let mut walk = Walk::start("t0");
        for what in acts {
            act(&mut walk, &order, what, "t");
        }
        for _ in 0..12 {
            walk.back(&order);
        }
        // One more where a section that is done is looked at again.
        let due = order.len() - walk.count_done(&order);
        for _ in 0..=due {
            walk.done(&order, None, "t");
        }
        prop_assert_eq!(walk.current(&order), None);
        prop_assert_eq!(walk.count_done(&order), order.len());
        prop_assert!(walk.finished_at.is_some());
    }
}

#[test]
fn a_walk_of_before_all_this_reads_as_it_was() {
    let text = r#"{"started_at":"2026-01-01T10:00:00Z","done":[
        {"key":{"step":"side","side":"left","number":1},"came_out_at":14.5,"at":"2026-01-01T10:05:00Z"},
        {"key":{"step":"side","side":"left","number":2},"at":"2026-01-01T10:07:00Z"}]}"#;
    let walk: Walk = serde_json::from_str(text).unwrap();
    assert_eq!(walk.measured().len(), 1);
    assert!(
        walk.done
            .iter()
            .all(|d| walk.is_done(&d.key) && d.target.is_none())
    );
    // What is not said is not written either.
    let again = serde_json::to_string(&walk).unwrap();
    for new in [
        "target",
        "open",
        "plan_kept",
        "only_measured",
        "matched",
        "pauses",
        "half",
    ] {
        assert!(!again.contains(new), "{again}");
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
    assert!((rows[0].cut.unwrap().cm() - planned.sections[0].long().cm()).abs() < 1e-9);
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
    // A stationary line moves with nobody.
    let chair = Chair::of("long-layers", &[]);
    let planned = chair.planned();
    let first = planned.sections.iter().find(|s| s.key.step == "layers");
    let key = &first.unwrap().key;
    let mut walk = Walk::start(&at(0));
    let longer = first.unwrap().long().cm() + 1.0;
    walk.put_down(key, Some(Length::from_cm(longer)), None, &at(1));
    let after = chair.followed(&walk);
    let said = follow(&planned, &after, &walk, key).said(Unit::Cm);
    assert_eq!(said, "Nothing later is guided by it.");
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
        assert!(pair.difference.unwrap().abs() < 1e-9, "{pair:?}");
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

/// The way along which the last section that took a root was parted there, as its rows say.
fn parted_along(head: &Head, section: &SectionCut, root: Vec3) -> Option<Vec3> {
    let rows = (0..=64).map(|i| section.section.patch.row(head, f64::from(i) / 64.0));
    let mut best = (f64::INFINITY, None);
    for row in rows {
        for pair in row.points().windows(2) {
            let far = pair[0].midpoint(pair[1]).distance(root);
            if far < best.0 {
                best = (far, (pair[1] - pair[0]).try_normalize());
            }
        }
    }
    best.1
}

/// Every cross-check of every built-in cut runs at right angles to the partings of a section that cut the
/// same hair, on three heads and both sides.
#[test]
fn cross_checks_run_at_right_angles_to_the_cut() {
    let (mut looked, mut least) = (0, 90.0_f64);
    for head in three_heads() {
        for plan in built_ins() {
            let (hair, choices) = (Hair::default(), Choices::default());
            let job = Job {
                head: &head,
                hair: &hair,
                plan: &plan,
                choices: &choices,
            };
            let outcome = cut(&job, &Measured::new()).unwrap();
            for section in outcome.sections.iter().filter(|s| !s.cuts()) {
                let places = check_places(&job, &outcome, section).unwrap();
                assert!((1..=3).contains(&places.len()));
                for place in &places {
                    assert!(place.place < 3 && !place.name.is_empty());
                    assert!(head.spot(place.root).out < 1.01);
                    let cm = outcome.lengths.at(&head, place.root).unwrap();
                    assert_eq!(place.expected.cm(), cm);
                }
                let names: std::collections::BTreeSet<_> = places.iter().map(|p| &p.name).collect();
                assert_eq!(names.len(), places.len(), "{names:?}");
                let (Some(middle), true) = (places.iter().find(|p| p.place == 1), places.len() > 1)
                else {
                    continue;
                };
                assert!(check_runs(&places).is_some());
                let way = (places.last().unwrap().root - places[0].root).normalize();
                let normal = head.skull().normal(middle.root);
                let way = (way - normal * way.dot(normal)).normalize();
                let cutting = outcome.sections.iter().filter(|s| s.cuts());
                let angles = cutting
                    .filter(|s| s.section.patch.holds(middle.root))
                    .filter_map(|s| parted_along(&head, s, middle.root))
                    .map(|along| along.dot(way).abs().min(1.0).acos().to_degrees());
                let best = angles.fold(0.0, f64::max);
                assert!(best > 75.0, "{} {}: {best}", plan.id, middle.name);
                looked += 1;
                least = least.min(best);
            }
        }
    }
    println!("{looked} checks, the least angle {least:.1}°");
    assert!(looked > 300, "{looked}");
}

#[test]
fn a_check_compares_left_with_right_alike() {
    for plan in built_ins() {
        let chair = Chair::of(&plan.id, &[]);
        let outcome = chair.planned();
        for section in outcome.sections.iter().filter(|s| !s.cuts()) {
            if section.key.side != Side::Left {
                continue;
            }
            let twin = SectionKey {
                side: Side::Right,
                ..section.key.clone()
            };
            let left = check_places(&chair.job(), &outcome, section).unwrap();
            let twin = outcome.section(&twin).unwrap();
            let right = check_places(&chair.job(), &outcome, twin).unwrap();
            assert_eq!(left.len(), right.len(), "{}", plan.id);
            for (left, right) in left.iter().zip(&right) {
                assert_eq!((left.place, &left.name), (right.place, &right.name));
                assert_eq!(left.kind, right.kind);
                assert!((left.root.x + right.root.x).abs() < 0.01);
            }
        }
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
                let falls = Some("Falls to the chin, 2 cm below it.");
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
        "Parting to temple, left. 3 of 24. 11 and 3 eighths inches. 90 degrees straight out. \
         Comb to the parting. Fingers parallel to head. Guide: front guide, stays. Point. \
         Tension even, none over the ear. Ear: shield it."
    );
}
