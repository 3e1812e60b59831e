//! What is held: angles at a root, the head's tilt, curl and allowances. Common practice, no source.

mod common;

use common::holding::{afters, back, radial, travelling};
use common::{from_head, from_room, mean_head, plan, run, step, try_run};
use tautline::cut::{Outcome, Pose, Stand};
use tautline::hair::{Allowance, Growth, Hair};
use tautline::head::{Landmark, Region, Side};
use tautline::measure::Length;
use tautline::plan::{Fall, FallLine, Fingers, Given, Held, Pattern, Reference, Step, Tilt};

/// An elevation said against the head and against the room is one direction; at the sides they agree
/// closely, at the nape, crown and top they differ by tens of degrees.
#[test]
fn elevations_convert_at_every_root() {
    let head = mean_head();
    let pose = Pose::of(&head, Tilt::default());
    for sample in head.samples(200) {
        let stand = Stand::at(&head, sample.root, &pose);
        for degrees in [0.0, 1.0, 45.0, 90.0, 135.0, 179.0] {
            let said = from_head(degrees);
            assert!((stand.converted(said, Reference::Head).degrees - degrees).abs() < 1e-9);
            let room = stand.converted(said, Reference::Room);
            let again = stand.converted(room, Reference::Head);
            assert!(
                (again.degrees - degrees).abs() < 1e-6,
                "{degrees} {again:?}"
            );
        }
        for degrees in [0.0, 30.0, 90.0, 180.0] {
            let said = stand.elevation(stand.direction(from_room(degrees)), Reference::Room);
            assert!((said - degrees).abs() < 1e-9, "{said} {degrees}");
        }
    }
    let differs = |landmark, side| {
        let stand = Stand::at(&head, head.landmark(landmark, side), &pose);
        stand.converted(from_head(90.0), Reference::Room).degrees - 90.0
    };
    assert!(differs(Landmark::InFrontOfEar, Side::Left).abs() < 20.0);
    assert!(differs(Landmark::Crown, Side::Centre) > 30.0);
    assert!(differs(Landmark::Nape, Side::Centre) < -15.0);
    assert!((differs(Landmark::HighPoint, Side::Centre) - 90.0).abs() < 1e-3);
}

/// Chin down: the nape then hangs free of the neck, and hair cut level there is longer than it looks
/// upright.
#[test]
fn a_tilted_head_changes_what_is_level() {
    let head = mean_head();
    let held = Held::Fall(Fall {
        to: Given::Fixed(Landmark::Shoulder),
        line: FallLine::Level,
        below: Given::Fixed(0.0),
    });
    let of = |forward| {
        let tilted = Step {
            tilt: Tilt { forward, left: 0.0 },
            ..step("a", back(), Pattern::Whole, held.clone())
        };
        let outcome = run(&head, &plan("waist", vec![tilted]));
        // Beside the middle of the back.
        let last = outcome.sections[0].strands[6..].iter();
        last.map(|s| s.after).collect::<Vec<f64>>()
    };
    let (upright, tilted) = (of(0.0), of(25.0));
    for (a, b) in upright.iter().zip(&tilted) {
        assert!(b > a && b - a < 9.0, "{a} {b}");
    }
}

/// Hair that hangs at 0.8 of its combed length is cut longer by a quarter to fall to the same place.
#[test]
fn curl_is_cut_longer_to_fall_to_the_same_place() {
    let head = mean_head();
    let held = Held::Fall(Fall {
        to: Given::Fixed(Landmark::Collarbone),
        line: FallLine::Level,
        below: Given::Fixed(0.0),
    });
    let plan = plan("waist", vec![step("a", vec![], radial(3.0), held)]);
    let mut curly = Hair::default();
    let (hangs, straight) = (Length::from_cm(24.0), Length::from_cm(30.0));
    curly.measure_lock(Region::Crown, hangs, straight).unwrap();
    let plain = run(&head, &plan);
    let longer = try_run(&head, &curly, &plan).unwrap();
    for (a, b) in afters(&plain).iter().zip(afters(&longer)) {
        assert!((b - a / 0.8).abs() < 1e-9);
    }
    let root = plain.sections[0].strands[4].root;
    let falls = |o: &Outcome| o.lengths.falls_to(&head, root).unwrap().cm();
    assert!((falls(&plain) - falls(&longer)).abs() < 1e-9);
    // Six weeks on.
    let grown = longer.lengths.clone().grown(Growth::default(), 6.0);
    let more = grown.at(&head, root).unwrap() - longer.lengths.at(&head, root).unwrap();
    assert!((more - 1.725).abs() < 1e-3);
}

#[test]
fn an_allowance_leaves_hair_longer_over_the_ear_only() {
    let head = mean_head();
    let ear = head.landmark(Landmark::AboveEar, Side::Left);
    let mut hair = Hair::default();
    hair.allowances.push(Allowance {
        at: ear.to_array(),
        within: 4.0,
        more: Length::from_cm(0.8),
        reason: None,
    });
    let held = travelling(90.0, Fingers::ParallelToHead, 10.0);
    let plan = plan("40", vec![step("a", vec![], radial(2.0), held)]);
    let (plain, allowed) = (run(&head, &plan), try_run(&head, &hair, &plan).unwrap());
    let at = |o: &Outcome, p| o.lengths.at(&head, p).unwrap();
    assert!(at(&allowed, ear) - at(&plain, ear) > 0.5);
    let far = head.landmark(Landmark::Occipital, Side::Centre);
    assert!((at(&allowed, far) - at(&plain, far)).abs() < 0.15);
}
