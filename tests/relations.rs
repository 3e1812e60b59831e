//! How lengths hang together: left with right, near with far, section with section, low with high.
//! Unless a test names a source, its rule is common practice, no source.

#[path = "common/any.rs"]
mod any;
mod common;

use any::config;
use common::{from_head, mean_head, plan, run, step, surveyed_heads, try_run};
use proptest::prelude::*;
use tautline::cut::{Outcome, SectionCut, SectionKey, let_down};
use tautline::fall::WeightLine;
use tautline::geometry::{Target, Vec3, taut, walk};
use tautline::hair::{Allowance, Hair, Wear};
use tautline::head::{Head, Landmark, Side, Spot, Tapes};
use tautline::plan::{
    Bound, Carried, Choice, Cut, Edge, End, Fingers, Given, Held, Kind, Line, Over, Pattern, Plan,
    Rule, Sides, Start, Station, Travel, Trim, built_ins,
};

/// The plan, worn with this parting, and everything else in a mirror where `turned`.
fn worn(plan: &Plan, parting: &str, turned: bool) -> Plan {
    let mut plan = plan.clone();
    plan.choices.push(Choice {
        id: "parting".to_owned(),
        ask: String::new(),
        kind: Kind::Parting,
        default: parting.to_owned(),
        settles: None,
    });
    if turned {
        for step in &mut plan.steps {
            step.tilt.left = -step.tilt.left;
            step.sides = match step.sides {
                Sides::Left => Sides::Right,
                Sides::Right => Sides::Left,
                other => other,
            };
        }
    }
    plan
}

fn in_a_mirror(hair: &Hair) -> Hair {
    let mut hair = hair.clone();
    for Allowance { at, .. } in &mut hair.allowances {
        at[0] = -at[0];
    }
    hair
}

proptest! {
    #![proptest_config(config(250))]

    /// A plan and its mirror image give lengths in a mirror, to a tenth of a millimetre, on a head whose
    /// sides are alike. Across the middle sections are numbered from one side to the other: left out.
    #[test]
    fn a_mirrored_plan_gives_mirrored_lengths(
        head in any::even_head(),
        hair in any::hair(),
        plan in any::any_plan(),
        side in prop::bool::ANY,
    ) {
        prop_assume!(plan.steps.iter().all(|s| s.sides != Sides::Across));
        let (one, other) = if side { ("left", "right") } else { ("centre", "centre") };
        let here = try_run(&head, &hair, &worn(&plan, one, false));
        let there = try_run(&head, &in_a_mirror(&hair), &worn(&plan, other, true));
        prop_assert_eq!(here.is_ok(), there.is_ok(), "{:?} {:?}", here.err(), there.err());
        let (Ok(here), Ok(there)) = (here, there) else { return Ok(()) };
        prop_assert_eq!(here.sections.len(), there.sections.len());
        // What lies beside an edge that is hardly more than a point is a matter of rounding.
        let beside = here.sections.iter().any(|s| {
            plan.steps[s.step].held.rule() == Some(&Rule::Beside)
                && s.section.patch.row(&head, 0.0).length() < 1.0
        });
        prop_assume!(!beside);
        for section in &here.sections {
            let side = match section.key.side {
                Side::Left => Side::Right,
                Side::Right => Side::Left,
                Side::Centre => Side::Centre,
            };
            let key = SectionKey { side, ..section.key.clone() };
            let twin = there.section(&key).unwrap();
            // A parting that is a closed ring about the top has one place for both of its ends, between
            // which only rounding decides.
            let row = section.section.patch.row(&head, 0.5);
            let (first, last) = (row.points().first(), row.points().last());
            let ring = first.zip(last).is_some_and(|(a, b)| a.distance(*b) < 0.01);
            if ring && row.length() > 0.0 { continue; }
            for (a, b) in section.strands.iter().zip(&twin.strands) {
                prop_assert!(a.root.distance(Vec3::new(-b.root.x, b.root.y, b.root.z)) < 1e-3, "{:?} {} {}", section.key, a.root, b.root);
                prop_assert!((a.after - b.after).abs() < 0.01, "{:?}: {a:?} {b:?}", key);
            }
        }
    }

    /// A hold that stays: no two roots differ by more than they lie apart along the scalp, and further
    /// back along a hair's own way, away from the line, it is longer; where it lies on the head, by all
    /// of the distance. Derived: a shortest way is at most as long as the way over another place.
    #[test]
    fn hair_to_a_line_that_stays_is_longer_further_away(
        head in any::head(),
        azimuth in -180.0..180.0_f64,
        out in 0.05..0.9_f64,
        (station, off, lean) in (0.05..0.9_f64, 3.0..30.0_f64, -0.8..0.8_f64),
        turn in 0.0..std::f64::consts::TAU,
        further in 0.2..3.0_f64,
        point in prop::bool::ANY,
    ) {
        let skull = head.skull();
        let root = head.place(Spot::at_degrees(azimuth, out));
        let base = head.place(Spot::at_degrees(azimuth * 0.37, station));
        let up = tautline::geometry::Convex::normal(skull, base);
        let aside = up.any_orthonormal_vector();
        let middle = base + (up + aside * lean).normalize() * off;
        let target = if point {
            Target::Point(middle)
        } else {
            let along = aside * 4.0;
            Target::Segment(middle - along, middle + along)
        };
        // A line that reaches into the head is refused elsewhere.
        let Ok(path) = taut(skull, root, &target) else { return Ok(()) };
        let length = |p: Vec3| taut(skull, p, &target).unwrap().length;
        let (a, b) = tautline::geometry::Convex::normal(skull, root).any_orthonormal_pair();
        let any_way = a * turn.cos() + b * turn.sin();
        let near = walk(skull, root, any_way, further).point;
        prop_assert!((length(near) - path.length).abs() < further + 1e-3);
        let n = tautline::geometry::Convex::normal(skull, root);
        let back = -(path.heading - n * path.heading.dot(n));
        // Straight over its root hair has no way along the scalp; far round another way is as short.
        if back.length() > 0.05 && path.wrapped < 10.0 {
            let there = length(walk(skull, root, back.normalize(), further).point);
            prop_assert!(there > path.length - 1e-4, "{there} {path:?}");
            if path.wrapped > 0.0 {
                prop_assert!((there - path.length - further).abs() < 1e-3, "{there} {path:?}");
            }
        }
    }
}

fn stationary(degrees: f64, length: f64) -> Held {
    Held::Stationary(Cut {
        station: Station::Parting,
        elevation: from_head(degrees),
        over: Over::None,
        fingers: Fingers::ParallelToHead,
        length: Rule::Length(Given::Fixed(length)),
    })
}

fn travelling(degrees: f64, length: f64, fingers: Fingers) -> Held {
    Held::Travelling(Travel {
        elevation: from_head(degrees),
        over: Over::None,
        fingers,
        guide: Carried::Neighbour,
        length: Rule::Length(Given::Fixed(length)),
    })
}

fn left(outcome: &Outcome) -> Vec<&SectionCut> {
    let sections = outcome.sections.iter();
    sections.filter(|s| s.key.side == Side::Left).collect()
}

fn nape() -> Vec<Bound> {
    let bone = Line::Level {
        at: Landmark::Occipital,
        up: 0.0,
    };
    vec![Bound::Behind(Line::EarToEar), Bound::Below(bone)]
}

proptest! {
    #![proptest_config(config(120))]

    /// Sections that turn about the high point away from a line over the parting, up to behind the ear:
    /// at the same distance from the high point each next one is at least as long, and so is its shortest
    /// hair. (Its longest may not be: above the ear the hairline lies higher than before it. Further
    /// back it need not be either: the way over the round of the side is longer than over the crown.)
    #[test]
    fn sections_that_turn_away_from_their_line_are_never_shorter(
        head in any::head(),
        length in 6.0..30.0_f64,
        spacing in 1.5..5.0_f64,
        far in 2.0..10.0_f64,
    ) {
        let radial = Pattern::Radial { spacing, from: Start::Front };
        let front = vec![Bound::Before(Line::ToHighPoint(Edge::BehindEar))];
        let plan = plan("150", vec![step("a", front, radial, stationary(90.0, length))]);
        let outcome = run(&head, &plan);
        let sections = left(&outcome);
        for pair in sections.windows(2) {
            let [a, b] = [pair[0], pair[1]].map(|s| s.short().cm());
            prop_assert!(b > a - 1e-3, "{:?}: {a} {b}", pair[1].key);
        }
        let top = head.landmark(Landmark::HighPoint, Side::Centre);
        let at = |degrees: i32| {
            let (x, y) = f64::from(degrees).to_radians().sin_cos();
            let root = walk(head.skull(), top, Vec3::new(x, y, 0.0), far).point;
            let line = sections[0].line.as_ref().unwrap();
            line.cuts_at(&head, &Hair::default(), root, 150.0).unwrap()
        };
        for degrees in (0..100).step_by(20) {
            prop_assert!(at(degrees + 20) > at(degrees) - 1e-3, "{degrees}° {far}");
        }
    }

    /// Straight out all over, parallel, with a guide that goes along: one length (trade's first rule).
    #[test]
    fn straight_out_all_over_is_one_length(
        head in any::head(),
        // Combed to the middle of sections wide for its length, hair there would be shorter.
        length in 6.0..20.0_f64,
        spacing in 1.0..2.0_f64,
    ) {
        let radial = Pattern::Radial { spacing, from: Start::Front };
        let held = travelling(90.0, length, Fingers::ParallelToHead);
        let outcome = run(&head, &plan("150", vec![step("a", vec![], radial, held)]));
        for section in &outcome.sections {
            let (short, long) = (section.short().cm(), section.long().cm());
            prop_assert!(length - 0.3 < short && long < length + 0.7, "{length}: {short} {long}");
        }
    }

    /// Sections that share a guide agree at the edge they have in common, to half a millimetre.
    #[test]
    fn sections_agree_at_their_shared_edge(
        head in any::head(),
        degrees in 20.0..100.0_f64,
        length in 5.0..20.0_f64,
        spacing in 1.0..2.5_f64,
        upright in prop::bool::ANY,
    ) {
        let pattern = if upright {
            Pattern::Vertical { spacing, from: Start::Back }
        } else {
            Pattern::Horizontal { spacing, from: End::Bottom }
        };
        let held = travelling(degrees, length, Fingers::ParallelToHead);
        let outcome = run(&head, &plan("150", vec![step("a", nape(), pattern, held)]));
        for pair in left(&outcome).windows(2) {
            for along in [0.0, 0.3, 0.5, 0.8, 1.0] {
                let root = pair[1].section.patch.at(&head, 0.0, along);
                let own = |s: &SectionCut| {
                    let line = s.line.as_ref().unwrap();
                    line.cuts_at(&head, &Hair::default(), root, 150.0).unwrap()
                };
                let (a, b) = (own(pair[0]), own(pair[1]));
                prop_assert!((a - b).abs() < 0.05, "{:?} {along}: {a} {b}", pair[1].key);
            }
        }
    }
}

/// The weight line of a back cut in level sections at this elevation, hair hanging.
fn weight(head: &Head, degrees: f64) -> WeightLine {
    let pattern = Pattern::Horizontal {
        spacing: 1.5,
        from: End::Bottom,
    };
    let back = vec![Bound::Behind(Line::EarToEar)];
    let held = travelling(degrees, 8.0, Fingers::ParallelToHead);
    let outcome = run(head, &plan("150", vec![step("a", back, pattern, held)]));
    // What no section holds is as long as before and hangs far below.
    let down = let_down(head, &outcome.lengths, &Wear::parted(0.0), 900).unwrap();
    println!(
        "{degrees}: {:.2?}",
        down.weight.side(tautline::fall::Quarter::Back).line
    );
    down.weight
        .side(tautline::fall::Quarter::Back)
        .line
        .unwrap()
}

/// 0° is the heaviest line, and the higher hair is held, the softer the line, up to 90°.
#[test]
fn weight_falls_as_elevation_rises() {
    for head in surveyed_heads() {
        let lines = [0.0, 30.0, 45.0, 60.0, 90.0].map(|degrees| weight(&head, degrees));
        for pair in lines.windows(2) {
            assert!(pair[1].sharpness < pair[0].sharpness, "{lines:?}");
        }
    }
}

/// A trim takes off what it says once, on an edge that sections or sides have in common too.
#[test]
fn a_trim_takes_off_the_same_on_shared_edges() {
    let head = mean_head();
    let off = Given::Fixed(2.0);
    let radial = Pattern::Radial {
        spacing: 3.0,
        from: Start::Front,
    };
    let trim = step("a", vec![], radial, Held::Trim(Trim { off }));
    let outcome = run(&head, &plan("40", vec![trim]));
    for section in &outcome.sections {
        for along in [0.0, 0.5, 1.0] {
            let root = section.section.patch.at(&head, 0.0, along);
            let now = outcome.lengths.at(&head, root).unwrap();
            assert!((now - 38.0).abs() < 1e-9, "{:?}: {now}", section.key);
        }
    }
}

/// On an even head the right side is taken from the left; an ear a millionth of a centimetre higher makes
/// every section be worked out for itself. Both must say the same.
#[test]
fn the_mirrored_side_is_what_it_would_be_worked_out() {
    let head = |up: f64| {
        let mut tapes = Tapes::default();
        tapes.set_left_ear_up(up).unwrap();
        Head::from_tapes(&tapes).unwrap()
    };
    let (even, uneven) = (head(0.0), head(1e-6));
    assert!(even.is_even() && !uneven.is_even());
    for plan in built_ins() {
        let (mirrored, own) = (run(&even, &plan), run(&uneven, &plan));
        for (a, b) in mirrored.sections.iter().zip(&own.sections) {
            assert_eq!(a.key, b.key);
            let near = |a: f64, b: f64| (a - b).abs() < 0.01;
            assert!(
                near(a.short().cm(), b.short().cm()),
                "{} {:?}",
                plan.id,
                a.key
            );
            assert!(
                near(a.long().cm(), b.long().cm()),
                "{} {:?}",
                plan.id,
                a.key
            );
            for (s, t) in a.strands.iter().zip(&b.strands) {
                assert!(near(s.after, t.after), "{} {:?}", plan.id, a.key);
            }
        }
    }
}
