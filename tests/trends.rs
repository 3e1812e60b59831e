//! What comes back in several cuts, against examples worked by hand and published tables.

use tautline::book::{
    Group, How, Line, Marks, Measure, Past, Plans, SavedCut, Slip, Trends, When, Which, sign_test,
};
use tautline::cut::SectionKey;
use tautline::head::{Kind, Landmark, Region, Side};
use tautline::measure::{Length, Unit};
use tautline::plan::Lift;
use tautline::walk::{Done, Walk};

/// The largest count of the rarer sign at which the sign test is significant at 5 %, both sides, by the number
/// of pairs: Dixon and Mood 1946, table 1, as it is reprinted in textbooks of statistics.
const CRITICAL: [(usize, usize); 20] = [
    (6, 0),
    (7, 0),
    (8, 0),
    (9, 1),
    (10, 1),
    (11, 1),
    (12, 2),
    (13, 2),
    (14, 2),
    (15, 3),
    (16, 3),
    (17, 4),
    (18, 4),
    (19, 4),
    (20, 5),
    (21, 5),
    (22, 5),
    (23, 6),
    (24, 6),
    (25, 7),
];

#[test]
fn the_sign_test_agrees_with_the_published_tables() {
    for (pairs, most) in CRITICAL {
        assert!(sign_test(most, pairs - most) <= 0.05, "{pairs}");
        assert!(sign_test(most + 1, pairs - most - 1) > 0.05, "{pairs}");
    }
    // With five pairs or fewer nothing is.
    assert!(sign_test(0, 5) > 0.05);
    // Cumulative binomial tables for p = 0.5, to four decimals: P(X ≤ k) of n.
    for (n, k, table) in [
        (5, 1, 0.1875),
        (10, 2, 0.0547),
        (15, 3, 0.0176),
        (20, 5, 0.0207),
        (20, 8, 0.2517),
        (25, 7, 0.0216),
    ] {
        let ours = sign_test(k, n - k) / 2.0;
        assert!((ours - table).abs() < 5e-5, "{n} {k}: {ours}");
    }
    assert_eq!((sign_test(3, 3), sign_test(0, 0)), (1.0, 1.0));
    assert_eq!(sign_test(7, 2), sign_test(2, 7));
    assert!(sign_test(0, 100_000) < 1e-9 && sign_test(usize::MAX, 0) < 1e-9);
}

fn slip(region: Region, side: Side, cm: f64) -> Slip {
    Slip {
        region: Some(region),
        side,
        lift: Some(Lift::Fall),
        cm,
    }
}

fn past(day: usize, slips: Vec<Slip>) -> Past {
    Past {
        id: format!("c{day}"),
        day: format!("2026-11-{day:02}"),
        title: String::new(),
        slips,
    }
}

/// Five cuts: the right comes out 0.8, 0.7, 0.9, 0.1 and 0.5 cm short, the left as planned.
fn right_is_short() -> Vec<Past> {
    let off = [0.8, 0.7, 0.9, 0.1, 0.5];
    let cut = |(i, cm): (usize, &f64)| {
        past(
            i + 1,
            vec![
                slip(Region::Nape, Side::Right, -cm),
                slip(Region::Back, Side::Right, -cm),
                slip(Region::Nape, Side::Left, 0.0),
                slip(Region::Back, Side::Left, 0.1),
            ],
        )
    };
    off.iter().enumerate().map(cut).collect()
}

#[test]
fn a_side_that_runs_short_is_told_once_with_its_counts() {
    let mut cuts = right_is_short();
    // In any order.
    cuts.reverse();
    let trends = Trends::of(cuts, &Marks::default());
    let told = trends.told();
    assert_eq!(told.len(), 1, "{told:?}");
    let trend = told[0];
    assert_eq!(trend.group, Group::Side(Side::Right));
    // By hand: the mean of 0.8 0.7 0.9 0.1 0.5 is 0.6; squares off it 0.04 0.01 0.09 0.25 0.01 make 0.4, over
    // four 0.1.
    assert!((trend.mean + 0.6).abs() < 1e-9);
    assert!((trend.spread - 0.1_f64.sqrt()).abs() < 1e-9);
    // 0.8, 0.7 and 0.9 are beyond the mark of 0.5; beyond a ruler's doubt also 0.5 itself.
    assert_eq!((trend.short, trend.long, trend.ways), (3, 0, (4, 0)));
    assert_eq!(trend.chance, 0.125);
    assert_eq!(
        trend.said(Unit::Cm),
        "The right side runs 0.6 cm short, in 4 of 5 cuts. So few cuts may still be chance."
    );
    assert_eq!(trend.cuts[0], (0, -0.8));
    let left = trends.group(Group::Side(Side::Left)).unwrap();
    assert!(!left.told && (left.mean - 0.05).abs() < 1e-9);
}

#[test]
fn six_of_six_is_hardly_chance_and_two_cuts_are_no_habit() {
    let cuts = |count: usize| -> Vec<Past> {
        (1..=count)
            .map(|day| past(day, vec![slip(Region::Nape, Side::Left, 0.4)]))
            .collect()
    };
    let trends = Trends::of(cuts(6), &Marks::default());
    let told = trends.told();
    assert!(told[0].sure());
    assert_eq!(
        told[0].said(Unit::Cm),
        "All of it runs 0.4 cm long, in 6 of 6 cuts. Chance alone would hardly do that."
    );
    assert!(Trends::of(cuts(2), &Marks::default()).told().is_empty());
    assert!(Trends::of(Vec::new(), &Marks::default()).all.is_empty());
}

#[test]
fn what_a_ruler_cannot_tell_or_comes_out_both_ways_is_not_told() {
    let of = |all: &[f64]| {
        let cuts = all.iter().enumerate();
        let cuts = cuts.map(|(i, &cm)| past(i + 1, vec![slip(Region::Top, Side::Left, cm)]));
        Trends::of(cuts.collect(), &Marks::default()).told().len()
    };
    assert_eq!(of(&[-0.2, -0.2, -0.2, -0.2, -0.2, -0.2, -0.2]), 0);
    assert_eq!(of(&[-1.0, 1.0, -1.0, 1.0, -0.9]), 0);
    // One great slip makes no habit.
    assert_eq!(of(&[-5.0, 0.0, 0.0, 0.0]), 0);
    assert_eq!(of(&[-0.5, -0.5, -0.5]), 1);
}

#[test]
fn a_region_on_both_sides_is_told_as_a_region_and_a_worse_part_beside_it() {
    let cut = |day| {
        past(
            day,
            vec![
                slip(Region::Nape, Side::Left, -0.7),
                slip(Region::Nape, Side::Right, -0.7),
                slip(Region::Top, Side::Left, 0.6),
                slip(Region::Top, Side::Right, 0.6),
            ],
        )
    };
    let trends = Trends::of((1..=4).map(cut).collect(), &Marks::default());
    let said: Vec<String> = trends.told().iter().map(|t| t.said(Unit::Cm)).collect();
    assert!(
        said.iter()
            .any(|s| s.starts_with("The nape runs 0.7 cm short, in 4 of 4 cuts.")),
        "{said:?}"
    );
    assert!(
        said.iter()
            .any(|s| s.starts_with("The top runs 0.6 cm long, in 4 of 4 cuts.")),
        "{said:?}"
    );
    assert_eq!(said.len(), 2);
}

fn key(step: &str, side: Side, number: usize) -> SectionKey {
    SectionKey {
        step: step.to_owned(),
        side,
        number,
    }
}

fn done(key: SectionKey, target: Option<f64>, came_out_at: Option<f64>) -> Done {
    Done {
        key,
        came_out_at: came_out_at.map(Length::from_cm),
        at: "2026-11-25T09:10:00Z".to_owned(),
        target: target.map(Length::from_cm),
        open: false,
        plan_kept: false,
        only_measured: false,
    }
}

fn finished() -> SavedCut {
    let mut cut = SavedCut::new("a", "Practice", "one-length-bob", "2026-11-25T10:00:00Z");
    cut.walk = Some(Walk {
        finished_at: Some("2026-11-25T09:40:00Z".to_owned()),
        done: vec![
            done(key("nape", Side::Left, 1), Some(12.0), Some(11.4)),
            // Not measured, not known, mistyped, nonsense.
            done(key("nape", Side::Right, 1), Some(12.0), None),
            done(key("nape", Side::Right, 2), None, Some(12.0)),
            done(key("back", Side::Right, 1), Some(14.0), Some(141.0)),
            done(key("back", Side::Left, 1), Some(1e308), Some(14.0)),
            done(key("gone", Side::Left, 1), Some(14.0), Some(14.5)),
        ],
        ..Walk::start("2026-11-25T09:00:00Z")
    });
    cut.visit.put(Measure {
        place: Landmark::Temple,
        side: Side::Right,
        when: When::After,
        how: How::Combed,
        typed: "20.4 cm".to_owned(),
        expected: Some(Length::from_cm(20.0)),
    });
    cut.visit.put(Measure {
        place: Landmark::Temple,
        side: Side::Right,
        when: When::Before,
        how: How::Combed,
        typed: "44 cm".to_owned(),
        expected: Some(Length::from_cm(40.0)),
    });
    cut
}

#[test]
fn a_finished_cut_is_read_from_its_stored_values_alone() {
    let cut = finished();
    let mut plans = Plans::default();
    let past = Past::of(&cut, &Which::All, &mut plans).unwrap();
    assert_eq!(past.day, "2026-11-25");
    let told: Vec<(Option<Region>, Side, Option<Lift>, i64)> = past
        .slips
        .iter()
        .map(|s| (s.region, s.side, s.lift, (s.cm * 100.0).round() as i64))
        .collect();
    assert_eq!(
        told,
        [
            (Some(Region::Nape), Side::Left, Some(Lift::Fall), -60),
            (None, Side::Left, None, 50),
            (Some(Region::Side), Side::Right, None, 40),
        ]
    );
    // The plan of a cut that this app does not have says nothing of where.
    let mut unknown = cut.clone();
    unknown.plan = "of-tomorrow".to_owned();
    let past = Past::of(&unknown, &Which::All, &mut plans).unwrap();
    assert_eq!((past.slips[0].region, past.slips[0].lift), (None, None));
    // A changed plan is read as it was changed.
    let mut own = cut.clone();
    let mut plan = cut.plan().unwrap();
    plan.steps[0].held = plan.steps[0].held.as_kind(1);
    own.own = Some(Box::new(plan));
    let past = Past::of(&own, &Which::All, &mut plans).unwrap();
    assert_eq!(past.slips[0].lift, Some(Lift::Out));
}

#[test]
fn only_the_cuts_that_were_asked_for_are_looked_at() {
    let mut plans = Plans::default();
    let cut = finished();
    let mut of = |cut: &SavedCut, which: &Which| {
        let sure = Past::of(cut, which, &mut plans).is_some();
        // By its line every one of them may be.
        assert!(!sure || which.may_be(&Line::of(cut, 0)));
        sure
    };
    let ours = Which::Of("r1".to_owned());
    assert!(of(&cut, &Which::All) && !of(&cut, &Which::Practice) && !of(&cut, &ours));
    let mut practice = cut.clone();
    practice.shape.kind = Kind::Practice;
    practice.visit.of = "r1".to_owned();
    assert!(of(&practice, &Which::Practice) && of(&practice, &ours));
    practice.visit.invented = true;
    assert!(
        !of(&practice, &Which::All) && !of(&practice, &Which::Practice) && of(&practice, &ours)
    );
    let mut open = cut.clone();
    open.walk.as_mut().unwrap().finished_at = None;
    assert!(!of(&open, &Which::All));
    assert!(!Which::All.may_be(&Line::of(&open, 0)));
    assert!(!ours.may_be(&Line::of(&cut, 0)));
}
