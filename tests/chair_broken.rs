//! The chair on what nobody should have put down: lengths that hair cannot have, walks that were damaged, plans
//! that were changed in the middle of a walk.

mod common;

use common::seat::Chair;
use std::time::{Duration, Instant};
use tautline::cut::{Agreed, SectionKey};
use tautline::head::Side;
use tautline::measure::{Length, Unit};
use tautline::walk::{
    Done, Matched, Mend, Pair, Pause, Spent, Tolerances, Walk, compare, follow, mend, order,
    without,
};

/// What the screen says after a section was put down.
fn said(chair: &Chair, walk: &Walk, key: &SectionKey) -> String {
    let outcome = chair.followed(walk);
    let before = without(&chair.job(), &outcome, walk, key).unwrap();
    follow(&before, &outcome, walk, key).said(Unit::Cm)
}

const NOW: &str = "2026-11-25T09:00:00.000Z";

fn key(step: &str, side: Side) -> SectionKey {
    SectionKey {
        step: step.to_owned(),
        side,
        number: 1,
    }
}

fn later(seconds: usize) -> String {
    let (minutes, seconds) = (seconds / 60, seconds % 60);
    let (hours, minutes) = (minutes / 60, minutes % 60);
    format!("2026-11-25T{hours:02}:{minutes:02}:{seconds:02}Z")
}

fn done(key: SectionKey, at: String) -> Done {
    Done {
        key,
        came_out_at: None,
        at,
        target: None,
        open: false,
        plan_kept: false,
        only_measured: false,
    }
}

/// A section of its own for each entry.
fn gone(number: usize) -> SectionKey {
    SectionKey {
        number,
        ..key("gone", Side::Left)
    }
}

#[test]
fn no_match_is_offered_or_shown_that_is_longer_than_the_hair() {
    let chair = Chair::of("soft-layers-face-frame", &[]);
    let (left, right) = (
        key("front-guide", Side::Left),
        key("front-guide", Side::Right),
    );
    let mut walk = Walk::start(NOW);
    let offered = |walk: &Walk| {
        let outcome = chair.followed(walk);
        let pair = Pair::of(&outcome, walk, &right).unwrap();
        pair.offer_match(walk, &Tolerances::default())
    };
    let twenty = Some(Length::from_cm(20.0));
    walk.put_down(&left, twenty, None, NOW);
    assert_eq!(offered(&walk), twenty);
    // Typed by mistake: nobody's hair there is as long.
    walk.put_down(&left, Some(Length::from_cm(200.0)), None, NOW);
    assert_eq!(offered(&walk), None);
    // Matched to that all the same, it is told as planned.
    walk.match_to(&right, Some(Length::from_cm(200.0)));
    let outcome = chair.followed(&walk);
    let section = outcome.section(&right).unwrap();
    assert_eq!(walk.to_cut(section), section.long());
    assert!(walk.matches(section).is_none() && section.long().cm() < section.most());
}

#[test]
fn lengths_that_nobody_can_have_put_down_are_not_shown() {
    let chair = Chair::of("soft-layers-face-frame", &[]);
    let planned = chair.followed(&Walk::start(NOW));
    let keys = order(&planned);
    for odd in [1e308, 1e9, -5.0, -1e308, f64::NAN, f64::INFINITY] {
        let length = Length::from_cm(odd);
        let mut walk = Walk::start(NOW);
        walk.matched = vec![Matched {
            key: keys[2].clone(),
            length,
        }];
        for (i, key) in keys.iter().take(2).enumerate() {
            let mut done = done(key.clone(), NOW.to_owned());
            *[&mut done.came_out_at, &mut done.target][i] = Some(length);
            walk.done.push(done);
        }
        walk.check_down(&keys[3], 0, Some(length));
        assert!(walk.measured().is_empty() && walk.checked_at(&keys[3], 0).is_none());
        assert_eq!(walk.as_cut(&planned), None);
        for section in &planned.sections {
            assert_eq!(walk.to_cut(section), section.long(), "{odd}");
        }
        for row in compare(&planned, &planned, &walk) {
            assert!(
                row.cut.is_none_or(|cut| cut == row.planned),
                "{odd}: {row:?}"
            );
        }
    }
}

/// Every entry is looked at once, not once for every pause: 18,000 of each took two minutes on a phone.
#[test]
fn a_walk_of_thousands_of_pauses_is_told_at_once() {
    let chair = Chair::of("soft-layers-face-frame", &[]);
    let planned = chair.followed(&Walk::start(NOW));
    let mut walk = Walk::start("2026-11-25T00:00:00Z");
    let count = 20_000;
    for i in 0..count {
        walk.done.push(done(gone(i), later(4 * i + 4)));
        // One second of every four.
        walk.pauses.push(Pause {
            from: later(4 * i + 1),
            to: Some(later(4 * i + 2)),
        });
    }
    let began = Instant::now();
    let spent = Spent::of(&walk, &chair.plan, &planned, &later(4 * count));
    assert!(began.elapsed() < Duration::from_secs(3));
    assert_eq!(spent.total, 3 * count as u64);
}

#[test]
fn a_minute_that_stands_in_two_pauses_is_taken_off_once() {
    let chair = Chair::of("soft-layers-face-frame", &[]);
    let planned = chair.followed(&Walk::start(NOW));
    let mut walk = Walk::start(&later(0));
    let pause = |from: usize, to: Option<usize>| Pause {
        from: later(from),
        to: to.map(later),
    };
    walk.pauses = vec![
        pause(60, Some(180)),
        pause(120, Some(240)),
        pause(400, Some(300)),
        pause(90, Some(100)),
        pause(540, None),
    ];
    let total = Spent::of(&walk, &chair.plan, &planned, &later(600)).total;
    assert_eq!(total, 600 - 180 - 60);
}

#[test]
fn what_is_too_short_to_go_on_from_is_said() {
    let chair = Chair::of("soft-layers-face-frame", &[]);
    let guide = key("front-guide", Side::Left);
    let mut walk = Walk::start(NOW);
    walk.put_down(&guide, Some(Length::from_cm(0.1)), None, NOW);
    assert_eq!(
        said(&chair, &walk, &guide),
        "3 later sections stay as planned: too little is left to hold them by this."
    );
    // A guide that came out as planned is one all the same.
    let planned = chair.followed(&Walk::start(NOW));
    let long = planned.section(&guide).unwrap().long();
    walk.put_down(&guide, Some(long), None, NOW);
    assert_eq!(said(&chair, &walk, &guide), "Nothing later changes.");
    let shorter = Some(Length::from_cm(long.cm() - 1.0));
    walk.put_down(&guide, shorter, None, NOW);
    assert_eq!(
        said(&chair, &walk, &guide),
        "3 later sections become 1 cm shorter."
    );
}

/// What a changed plan does to what is left is not said of the next value.
#[test]
fn a_value_put_down_after_the_plan_changed_is_told_alone() {
    let before = Chair::of("uniform-layers", &[("length", "10 cm")]);
    let planned = before.followed(&Walk::start(NOW));
    let keys = order(&planned);
    let mut walk = Walk::start(NOW);
    for section in &planned.sections[..3] {
        walk.done(&keys, Some(section.long()), NOW);
    }
    let after = Chair::of("uniform-layers", &[("length", "8 cm")]);
    // The third was cut to 10, and measured it was 10.
    walk.put_down(&keys[2], Some(planned.sections[2].long()), None, NOW);
    assert_eq!(said(&after, &walk, &keys[2]), "Nothing later changes.");
    let nine = Length::from_cm(planned.sections[2].long().cm() - 1.0);
    walk.put_down(&keys[2], Some(nine), None, NOW);
    let said = said(&after, &walk, &keys[2]);
    assert!(said.ends_with("become 1 cm shorter."), "{said}");
}

/// With the plan kept, a section counts as cut to its target, whatever the plan says by now.
#[test]
fn a_changed_plan_does_not_rewrite_a_section_whose_plan_was_kept() {
    let before = Chair::of("uniform-layers", &[("length", "10 cm")]);
    let planned = before.followed(&Walk::start(NOW));
    let keys = order(&planned);
    let mut walk = Walk::start(NOW);
    walk.done(&keys, Some(planned.sections[0].long()), NOW);
    walk.put_down(&keys[0], Some(Length::from_cm(9.5)), None, NOW);
    walk.keep_plan(&keys[0], true);
    assert_eq!(walk.as_cut(&planned), None);
    let after = Chair::of("uniform-layers", &[("length", "12 cm")]);
    let followed = after.followed(&walk);
    assert!((followed.sections[1].long().cm() - 10.0).abs() < 0.2);
    // Followed again, it goes on from what was measured.
    walk.keep_plan(&keys[0], false);
    let followed = after.followed(&walk);
    assert!((followed.sections[1].long().cm() - 9.5).abs() < 0.2);
}

/// However short a section came out: no neighbour is cut shorter than that, nor further from the plan than a
/// blend of half centimetres goes.
#[test]
fn a_blend_never_goes_below_the_short_section() {
    let mut blended = 0;
    for id in [
        "long-layers",
        "long-graduation",
        "square-layers",
        "uniform-layers",
    ] {
        let chair = Chair::of(id, &[]);
        let planned = chair.followed(&Walk::start(NOW));
        let cutting = planned.sections.iter().filter(|s| s.cuts());
        for section in cutting.filter(|s| s.key.side == Side::Left) {
            for cm in [0.0, section.long().cm() - 10.0, section.long().cm() - 3.0] {
                let mut walk = Walk::start(NOW);
                let came_out = Length::from_cm(cm.max(0.0));
                walk.put_down(&section.key, Some(came_out), None, NOW);
                let outcome = chair.followed(&walk);
                let agreed = Agreed::from(section.short());
                // What nobody agreed on holds no blend back.
                let free = Agreed::from(Length::from_cm(cm.max(0.0) + 0.5));
                for agreed in [agreed, free] {
                    let found = mend(&chair.job(), &agreed, &outcome, &walk, &section.key);
                    for (key, name, at) in found.unwrap().map_or_else(Vec::new, |m| m.blend) {
                        let off = at.cm() - planned.section(&key).unwrap().long().cm();
                        assert!(
                            at >= came_out,
                            "{id} {name}: {} for {}",
                            at.cm(),
                            came_out.cm()
                        );
                        assert!((-3.01..0.0).contains(&off), "{id} {name}: {off}");
                        blended += 1;
                    }
                }
            }
        }
    }
    assert!(blended > 100, "{blended}");
}

#[test]
fn time_to_grow_back_is_told_in_weeks_and_then_in_months() {
    let said = |weeks| {
        let mend = Mend {
            short_by: 1.0,
            blend: Vec::new(),
            leave: Vec::new(),
            weeks,
        };
        mend.said(Unit::Cm).join(" ")
    };
    for (weeks, wanted) in [
        (1, "1 week."),
        (16, "16 weeks."),
        (17, "4 months."),
        (132, "30 months."),
    ] {
        let said = said(weeks);
        assert!(
            said.contains(&format!("Grown back in about {wanted}")),
            "{said}"
        );
    }
}

#[test]
fn who_only_looks_again_finishes_nothing_anew() {
    let keys: Vec<SectionKey> = (1..=2).map(gone).collect();
    let mut walk = Walk::start("t0");
    walk.done(&keys, None, "t1");
    walk.done(&keys, None, "t2");
    let finished = walk.clone();
    walk.go_to(&keys[0]);
    walk.done(&keys, None, "t9");
    assert_eq!(walk, finished);
    walk.back(&keys);
    walk.done(&keys, None, "t9");
    assert_eq!(walk.finished_at.as_deref(), Some("t9"));
}
