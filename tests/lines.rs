//! Lines that go round the head with the first section, slope from the parting, or lie over a comb.
//! Unless a test names a source, its rule is common practice, no source.

mod common;

use common::{chosen, from_head, mean_head, plan, run, step, surveyed_heads};
use tautline::cut::{CuttingLine, Job, Measured, Outcome, SectionCut, cut};
use tautline::hair::Hair;
use tautline::head::{Head, Landmark, Side, Spot};
use tautline::plan::{
    Bound, Choice, ChoiceError, Choices, Cut, Edge, End, Fall, FallLine, Fingers, Given, Held,
    Kind, Line, Over, Parting, Pattern, Plan, Rule, Sides, Start, Station, Taper,
};

fn cm(cm: f64) -> Given<f64> {
    Given::Fixed(cm)
}

fn at(head: &Head, outcome: &Outcome, azimuth: f64, out: f64) -> f64 {
    let root = head.place(Spot::at_degrees(azimuth, out));
    outcome.lengths.at(head, root).unwrap()
}

fn ends(head: &Head, outcome: &Outcome, azimuth: f64, out: f64) -> f64 {
    let root = head.place(Spot::at_degrees(azimuth, out));
    outcome.lengths.ends_at(head, root).unwrap()
}

fn back_above_the_bone() -> Vec<Bound> {
    vec![
        Bound::Behind(Line::ToHighPoint(Edge::AboveEar)),
        Bound::Above(Line::Level {
            at: Landmark::Occipital,
            up: 0.0,
        }),
    ]
}

/// Everything combed down to one section: whatever grows above it is longer by its way down, and all of
/// it ends together.
#[test]
fn a_line_that_goes_along_the_first_section_gathers_all_ends_there() {
    for head in surveyed_heads() {
        let held = Held::Stationary(Cut {
            station: Station::AlongFirst,
            elevation: from_head(45.0),
            over: Over::None,
            fingers: Fingers::ParallelToHead,
            length: Rule::Length(cm(8.0)),
        });
        let pattern = Pattern::Horizontal {
            spacing: 2.0,
            from: End::Bottom,
        };
        let steps = vec![step("a", back_above_the_bone(), pattern, held)];
        let outcome = run(&head, &plan("60", steps));
        let lines = outcome.sections.iter().filter(|s| s.key.side == Side::Left);
        let lines: Vec<&SectionCut> = lines.collect();
        let one = lines[0].line.as_ref().unwrap();
        assert!(matches!(**one, CuttingLine::Following(_)));
        for section in &lines {
            assert!(std::sync::Arc::ptr_eq(section.line.as_ref().unwrap(), one));
        }
        // In the middle as behind the ear: not one straight line that the sides are brought to.
        for azimuth in [120.0, 150.0, 178.0] {
            let [low, high] = [0.45, 0.25].map(|out| ends(&head, &outcome, azimuth, out));
            assert!((low - high).abs() < 0.3, "{azimuth}: {low} {high}");
        }
        let [near, far] = [120.0, 178.0].map(|az| ends(&head, &outcome, az, 0.4));
        assert!((near - far).abs() < 1.0, "{near} {far}");
    }
}

fn fringe(degrees: f64, sides: Sides, parting: &str) -> (Plan, Choices) {
    let region = vec![Bound::Before(Line::Fringe {
        depth: 5.0,
        width: 28.0,
    })];
    let held = Held::Fall(Fall {
        to: Given::Fixed(Landmark::Brow),
        line: FallLine::Aside(degrees),
        below: cm(1.0),
    });
    let mut only = step("a", region, Pattern::Whole, held);
    only.sides = sides;
    let mut plan = plan("collarbone", vec![only]);
    plan.choices.push(Choice {
        id: "parting".to_owned(),
        ask: String::new(),
        kind: Kind::Parting,
        default: "centre".to_owned(),
        settles: None,
    });
    let choices = chosen(&plan, &[("parting", parting)]);
    (plan, choices)
}

fn worked_out(head: &Head, (plan, choices): &(Plan, Choices)) -> Outcome {
    let job = Job {
        head,
        hair: &Hair::default(),
        plan,
        choices,
    };
    cut(&job, &Measured::new()).unwrap()
}

#[test]
fn a_line_aside_is_lower_away_from_the_parting() {
    let head = mean_head();
    let brow = head.landmark(Landmark::Brow, Side::Centre).z;
    for degrees in [20.0_f64, 40.0] {
        let outcome = worked_out(&head, &fringe(degrees, Sides::Both, "centre"));
        for section in &outcome.sections {
            for strand in &section.strands {
                let meets = strand.path.unwrap().meets;
                let due = brow - 1.0 - meets.x.abs() * degrees.to_radians().tan();
                assert!((meets.z - due).abs() < 0.02, "{meets} {due}");
            }
        }
    }
    // Taken across the middle it is one slope, lower on the side away from the parting.
    let left = worked_out(&head, &fringe(25.0, Sides::Across, "left"));
    let right = worked_out(&head, &fringe(25.0, Sides::Across, "right"));
    let at_the_parting = Parting::Left.azimuth().to_degrees();
    assert!((ends(&head, &left, at_the_parting, 0.99) - (brow - 1.0)).abs() < 0.3);
    for (azimuth, other) in [(20.0, -20.0), (10.0, -10.0)] {
        assert!(at(&head, &left, azimuth, 0.97) < at(&head, &left, other, 0.97));
        let (a, b) = (
            at(&head, &left, azimuth, 0.97),
            at(&head, &right, other, 0.97),
        );
        assert!((a - b).abs() < 0.01, "{a} {b}");
    }
    // With the parting in the middle neither side is the lower one.
    let level = worked_out(&head, &fringe(25.0, Sides::Across, "centre"));
    let [l, r] = [20.0, -20.0].map(|az| ends(&head, &level, az, 0.97));
    assert!((l - r).abs() < 0.01 && (l - (brow - 1.0)).abs() < 0.1);
}

fn tapered() -> Plan {
    let held = Held::Taper(Taper {
        hairline: cm(0.8),
        rise: 0.4,
        up_to: cm(4.0),
    });
    let pattern = Pattern::Vertical {
        spacing: 2.5,
        from: Start::Back,
    };
    let below = vec![Bound::Below(Line::Horseshoe)];
    plan("20", vec![step("a", below, pattern, held)])
}

/// So long at the hairline, so much longer a centimetre, and no longer than told.
#[test]
fn a_taper_is_as_long_as_its_way_up_from_the_hairline_says() {
    for head in surveyed_heads() {
        let outcome = run(&head, &tapered());
        for azimuth in [85.0_f64, 100.0, 120.0, 150.0, 179.0] {
            let way = head.meridian(azimuth.to_radians()).hairline();
            for up in [0.05, 1.0, 2.0, 4.0, 7.0] {
                let length = at(&head, &outcome, azimuth, 1.0 - up / way);
                let due = (0.8 + 0.4 * up).min(4.0);
                // Above the ear the ridge is not 8 cm up.
                let above = azimuth < 150.0 && up > 5.0;
                assert!(
                    above || (length - due).abs() < 0.02,
                    "{azimuth} {up}: {length}"
                );
            }
        }
        // Before the ear it is measured from the sideburn, not from the face.
        let temple = head.landmark(Landmark::Temple, Side::Left);
        let sideburn = head.landmark(Landmark::InFrontOfEar, Side::Left);
        let due = (0.8 + 0.4 * (temple.z - sideburn.z)).min(4.0);
        let inside = head.place(Spot::at_degrees(53.0, 0.99));
        let length = outcome.lengths.at(&head, inside).unwrap();
        assert!((length - due).abs() < 0.15, "{length} {due}");
        for section in &outcome.sections {
            assert!(section.cuts() && section.reach() == 1.0 && section.guide.is_none());
        }
    }
}

#[test]
fn a_side_parting_is_never_in_the_middle() {
    let (mut plan, _) = fringe(20.0, Sides::Across, "left");
    plan.choices[1].kind = Kind::SideParting;
    plan.choices[1].default = "left".to_owned();
    let mut choices = Choices::default();
    assert_eq!(choices.parting(&plan), Parting::Left);
    choices.set(&plan, "parting", "right").unwrap();
    assert_eq!(choices.parting(&plan), Parting::Right);
    assert!(matches!(
        choices.set(&plan, "parting", "centre"),
        Err(ChoiceError::NotAnOption { .. })
    ));
    assert_eq!(choices.parting(&plan), Parting::Right);
}

/// A comb that stands a little off takes less off, all over the taper.
#[test]
fn a_taper_drifts_with_the_comb_and_with_nothing_else() {
    let head = mean_head();
    let plan = tapered();
    let job = Job {
        head: &head,
        hair: &Hair::default(),
        plan: &plan,
        choices: &Choices::default(),
    };
    for d in tautline::cut::drift(&job, (10.0, 0.3)).unwrap() {
        assert!(d.elevation.is_none());
        assert!((d.hold.1 - 0.3).abs() < 1e-6, "{:?}", d.hold);
    }
}

/// Close to a round head a straight line runs into it; that must not make the guide too short to hold.
#[test]
fn a_line_low_over_the_ridge_is_laid_on_every_head() {
    for head in surveyed_heads() {
        for landmark in [Landmark::Chin, Landmark::Shoulder] {
            let held = Held::Stationary(Cut {
                station: Station::EarToEar,
                elevation: common::from_room(45.0),
                over: Over::None,
                fingers: Fingers::Level,
                length: Rule::EndsAt(Given::Fixed(landmark)),
            });
            let pattern = Pattern::Vertical {
                spacing: 3.0,
                from: Start::Front,
            };
            let region = vec![Bound::Behind(Line::ToHighPoint(Edge::AboveEar))];
            let outcome = run(
                &head,
                &plan("waist", vec![step("a", region, pattern, held)]),
            );
            let first = &outcome.sections[0];
            let root = first.section.patch.at(&head, 0.0, 1.0);
            let guide = first.guide.unwrap().cm();
            let line = first.line.as_ref().unwrap();
            let reach = line.cuts_at(&head, &Hair::default(), root, 90.0).unwrap();
            assert!(
                (reach - guide).abs() < 1e-3,
                "{landmark:?}: {reach} {guide}"
            );
        }
    }
}
