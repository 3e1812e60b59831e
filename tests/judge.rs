//! A cut against its own plan, on examples worked by hand.

use tautline::book::{
    CRITERIA, Evidence, Expected, How, Judged, Mark, Marks, Measure, Off, Period, Said, SavedCut,
    Standard, Visit, When, expected, judge,
};
use tautline::cut::{Measured, SectionKey};
use tautline::head::{Kind, Landmark, Side};
use tautline::measure::{Length, Unit};

fn cm(cm: f64) -> Length {
    Length::from_cm(cm)
}

/// A place that the plan cuts from 30 cm to so many.
fn place(place: Landmark, side: Side, after: f64) -> Expected {
    Expected {
        place,
        side,
        after: cm(after),
        after_hanging: cm(after),
        before: cm(30.0),
        before_hanging: cm(30.0),
    }
}

/// Five places: nape in the middle, two pairs.
fn five() -> Vec<Expected> {
    vec![
        place(Landmark::Temple, Side::Left, 20.0),
        place(Landmark::Temple, Side::Right, 20.0),
        place(Landmark::BehindEar, Side::Left, 16.0),
        place(Landmark::BehindEar, Side::Right, 15.0),
        place(Landmark::Nape, Side::Centre, 12.0),
    ]
}

fn measured(of: &[Expected], typed: &[&str]) -> Visit {
    let mut visit = Visit::default();
    for (place, typed) in of.iter().zip(typed) {
        visit.put(Measure {
            place: place.place,
            side: place.side,
            when: When::After,
            how: How::Combed,
            typed: (*typed).to_owned(),
            expected: None,
        });
    }
    visit
}

#[test]
fn deviations_are_signed_and_twins_are_held_against_the_plan() {
    let places = five();
    let visit = measured(&places, &["20.3 cm", "19.4 cm", "16 cm", "15.2 cm", ""]);
    let judged = judge(&places, &visit, &Marks::default());
    let deviations: Vec<Option<f64>> = judged.places.iter().map(|p| p.deviation).collect();
    let wanted = [Some(0.3), Some(-0.6), Some(0.0), Some(0.2), None];
    assert_eq!(deviations, wanted);
    // The temple differs by 0.9; behind the ear the plan has the left 1 cm longer, and it is only 0.8.
    let twins: Vec<Option<f64>> = judged.places.iter().map(|p| p.from_twin).collect();
    assert_eq!(twins, [Some(0.9), Some(-0.9), Some(-0.2), Some(0.2), None]);
    let offs: Vec<Option<Off>> = judged.places.iter().map(|p| p.off).collect();
    assert_eq!(
        offs,
        [
            Some(Off::Within),
            Some(Off::Short),
            Some(Off::Best),
            Some(Off::Best),
            None
        ]
    );
    // Four of five measured: one more is wanted.
    assert_eq!(judged.mark, Mark::Open(1));
    assert_eq!(judged.largest().unwrap().deviation, Some(-0.6));
}

#[test]
fn the_mark_follows_the_persons_own_numbers_and_too_short_weighs_more() {
    let places = five();
    let marks = Marks::default();
    let mark =
        |typed: &[&str], marks: &Marks| judge(&places, &measured(&places, typed), marks).mark;
    for (typed, wanted) in [
        // All within 0.25.
        (["20.2", "19.8", "16", "15", "12"], Mark::Merit),
        // 4 of 5 within 0.25, the fifth within 0.5: 0.8 of them is enough.
        (["20.5", "19.8", "16", "15", "12"], Mark::Merit),
        (["20.5", "19.5", "16", "15", "12"], Mark::Pass),
        // One too long: 4 of 5 within.
        (["23", "20", "16", "15", "12"], Mark::Merit),
        // Two too long: only 3 of 5, but they can be taken off.
        (["23", "21", "16", "15", "12"], Mark::PutRight),
        // Two short by no more than twice the mark.
        (["19.2", "19.2", "16", "15", "12"], Mark::NotYet),
        // One short by no more than twice, the rest fine: a pass, but no merit.
        (["19.2", "20", "16", "15", "12"], Mark::Pass),
        // One short by more than twice.
        (["18.9", "20", "16", "15", "12"], Mark::NotYet),
    ] {
        let typed = typed.map(|cm| [cm, " cm"].concat());
        let typed: Vec<&str> = typed.iter().map(String::as_str).collect();
        assert_eq!(mark(&typed, &marks), wanted, "{typed:?}");
    }
    let wide = Marks { pass: 2.0, ..marks };
    let typed = ["18.9 cm", "20 cm", "16 cm", "15 cm", "12 cm"];
    assert_eq!(mark(&typed, &wide), Mark::Merit);
    let all = Marks {
        share: 1.0,
        ..marks
    };
    assert_eq!(
        mark(&["23 cm", "20 cm", "16 cm", "15 cm", "12 cm"], &all),
        Mark::PutRight
    );
}

#[test]
fn what_it_comes_to_is_said_and_softer_before_the_client() {
    let places = five();
    let marks = Marks::default();
    let visit = measured(&places, &["23 cm", "18.9 cm", "16 cm", "15 cm", "12 cm"]);
    let judged = judge(&places, &visit, &marks);
    let said = judged.said(&marks, Unit::Cm, false).join(" ");
    assert!(
        said.starts_with("3 of 5 places within 0.5 cm: not yet, by your own mark."),
        "{said}"
    );
    assert!(
        said.contains("One place is too long: take it off"),
        "{said}"
    );
    assert!(
        said.contains("One place is short: that weighs more"),
        "{said}"
    );
    let seen = judged.said(&marks, Unit::Cm, true);
    assert_eq!(seen, ["3 of 5 places within 0.5 cm. Look again."]);
    for off in [Off::Best, Off::Within, Off::Long, Off::Short, Off::FarShort] {
        assert!(!off.said(true).contains("too") && !off.said(true).contains("short"));
    }
    let inches = judged.said(&marks, Unit::Inches, false).join(" ");
    assert!(inches.contains("within 1/4 in"), "{inches}");
}

#[test]
fn a_place_that_the_plan_leaves_does_not_count_and_a_kept_plan_does() {
    let mut places = five();
    places[4].after = places[4].before;
    let mut visit = measured(&places, &["20 cm", "20 cm", "16 cm", "15 cm", "12 cm"]);
    let judged = judge(&places, &visit, &Marks::default());
    assert_eq!((judged.cut, judged.measured, judged.within), (4, 4, 4));
    assert_eq!(judged.mark, Mark::Merit);
    // The plan was another when it was measured: that one counts.
    visit.measures[0].expected = Some(cm(21.0));
    let judged = judge(&places, &visit, &Marks::default());
    assert_eq!(judged.places[0].deviation, Some(-1.0));
    // Unless no plan can have said it.
    for nonsense in [f64::NAN, -1e308, 1e308] {
        visit.measures[0].expected = Some(cm(nonsense));
        let judged = judge(&places, &visit, &Marks::default());
        assert_eq!(judged.places[0].deviation, Some(0.0));
    }
    // What does not read was not measured.
    visit.measures[0].typed = "twenty".to_owned();
    let judged = judge(&places, &visit, &Marks::default());
    assert_eq!(judged.places[0].deviation, None);
}

#[test]
fn a_bob_on_a_practice_head_is_expected_even_on_both_sides_and_cut_everywhere() {
    let mut cut = SavedCut::new("a", "Practice", "one-length-bob", "2026-11-25T09:00:00Z");
    cut.shape.kind = Kind::Practice;
    let ready = cut.ready().unwrap();
    let all = expected(&ready).unwrap();
    // Five places in the middle, four pairs.
    assert_eq!(all.len(), 13);
    let planned = ready.outcome(&Measured::new()).unwrap();
    for (one, place) in all.iter().zip(planned.at_places(&ready.head).unwrap()) {
        assert!((one.after.cm() - place.cut.cm()).abs() <= 0.05);
        assert!(one.after <= one.before && one.after_hanging <= one.after);
    }
    let of = |place, side| {
        all.iter()
            .find(|e| (e.place, e.side) == (place, side))
            .unwrap()
    };
    let (left, right) = (
        of(Landmark::Temple, Side::Left),
        of(Landmark::Temple, Side::Right),
    );
    assert_eq!(left.after, right.after);
    // What is measured on the way does not move the plan that is judged by.
    let mut walk = tautline::walk::Walk::start("2026-11-25T09:00:00Z");
    let key = planned.sections[0].key.clone();
    walk.put_down(&key, Some(cm(3.0)), None, "2026-11-25T09:01:00Z");
    cut.walk = Some(walk);
    assert_eq!(expected(&cut.ready().unwrap()).unwrap(), all);
    // A fringe leaves the nape.
    let fringe = SavedCut::new("b", "", "straight-fringe", "");
    let all = expected(&fringe.ready().unwrap()).unwrap();
    let cuts: Vec<Landmark> = all.iter().filter(|e| e.cuts()).map(|e| e.place).collect();
    assert_eq!(cuts, [Landmark::FrontHairline]);
}

#[test]
fn the_walk_tells_the_time_the_half_and_the_largest_deviation() {
    let cut = SavedCut::new("a", "", "straight-fringe", "2026-11-25T09:00:00Z");
    let ready = cut.ready().unwrap();
    let planned = ready.outcome(&Measured::new()).unwrap();
    let order = tautline::walk::order(&planned);
    let mut walk = tautline::walk::Walk::start("2026-11-25T09:00:00Z");
    for (i, key) in order.iter().enumerate() {
        let target = planned.section(key).filter(|s| s.cuts()).map(|s| s.long());
        // The second comes out 0.8 cm short, the third 0.3 cm long.
        let off = [0.0, -0.8, 0.3].get(i).copied().unwrap_or(0.0);
        if let Some(target) = target.filter(|_| off != 0.0) {
            walk.put_down(key, Some(cm(target.cm() + off)), Some(target), "");
        }
        walk.done(&order, target, &format!("2026-11-25T09:{:02}:00Z", i + 1));
    }
    let followed = ready.followed(&walk).unwrap();
    let facts = Evidence::of(&walk, &ready, &planned, &followed, "");
    assert_eq!((facts.done, facts.sections), (order.len(), order.len()));
    assert_eq!(facts.planned, Some(600));
    let (key, _, off): (SectionKey, String, f64) = facts.largest.unwrap();
    assert_eq!(key, order[1]);
    assert!((off + 0.8).abs() < 1e-9);
    // A minute a section; measuring alone put nothing's time down.
    let minutes = facts.seconds / 60;
    assert!(
        minutes as usize <= order.len() && minutes as usize + 2 >= order.len(),
        "{minutes}"
    );
    let half = facts.half.unwrap();
    assert!(
        half < facts.seconds && half * 2 + 240 > facts.seconds,
        "{half}"
    );
}

#[test]
fn criteria_have_names_of_their_own_and_unknown_answers_stay() {
    for (i, one) in CRITERIA.iter().enumerate() {
        assert!(!one.standards.is_empty() && !one.words.ends_with('.'));
        assert!(
            CRITERIA[..i].iter().all(|other| other.id != one.id),
            "{}",
            one.id
        );
    }
    for standard in Standard::ALL {
        assert!(CRITERIA.iter().any(|c| c.standards.contains(&standard)));
    }
    let of = |period| CRITERIA.iter().filter(|c| c.period == period).count();
    assert!(Period::ALL.into_iter().all(|period| of(period) >= 5));

    let mut cut = SavedCut::new("a", "", "trim", "");
    assert!(!cut.to_json().contains("judged"));
    let text = cut.to_json().replacen(
        "\"choices\"",
        r#""visit": {"judged": {"answers": {"guided": "met", "of_later": "half", "safe": "perhaps"}, "remarks": {"of_later": "x"}, "well": "line"}}, "choices""#,
        1,
    );
    cut = SavedCut::from_json(&text).unwrap();
    let judged = &mut cut.visit.judged;
    assert_eq!(judged.said("guided"), Some(Said::Met));
    assert_eq!((judged.said("safe"), judged.said("of_later")), (None, None));
    assert_eq!(judged.count(Period::During), (1, 1, of(Period::During)));
    judged.put("held", Said::NotYet.word());
    judged.put("guided", "");
    judged.put_remark("held", "drops at the ear");
    assert_eq!(judged.count(Period::During), (0, 1, of(Period::During)));
    let again = SavedCut::from_json(&cut.to_json()).unwrap();
    assert_eq!(again, cut);
    assert!(cut.to_json().contains("\"of_later\":\"half\""));
    assert_eq!(again.visit.judged.remark("held"), "drops at the ear");
    assert_eq!(Judged::default().count(Period::After).1, 0);
}

#[test]
fn marks_are_laid_into_their_range_whatever_is_stored() {
    let read = |text: &str| serde_json::from_str::<Marks>(text).unwrap();
    assert_eq!(read("{}"), Marks::default());
    let odd = read(r#"{"pass": -4, "best": 1e308, "share": 1e308, "more": 1}"#);
    assert_eq!((odd.pass(), odd.best(), odd.share()), (0.1, 0.1, 1.0));
    let nan = Marks {
        pass: f64::NAN,
        best: f64::NAN,
        share: f64::NAN,
    };
    assert_eq!((nan.pass(), nan.best(), nan.share()), (0.5, 0.25, 0.8));
}
