//! Natural fall: against closed forms, and what must be true of every hair that is let go.

use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use std::f64::consts::{FRAC_PI_2, PI, TAU};
use tautline::fall::{Hanging, fall_path, length_to_level, natural_fall};
use tautline::geometry::{Convex, Ellipsoid, Placed, Vec3};
use tautline::hair::{Part, Turn, Wear, Whorl, Worn};
use tautline::head::{Body, BodyPart, Head, Landmark, Side, Spot, Tape, Tapes};

const R: f64 = 9.0;

fn mean_head() -> Head {
    Head::from_tapes(&Tapes::default()).unwrap()
}

/// Roots evenly over the scalp, left and right alike, none on the middle line.
fn roots(head: &Head, rows: usize) -> Vec<Vec3> {
    let mut roots = Vec::new();
    for row in 0..rows {
        let out = (row as f64 + 0.5) / rows as f64;
        let around = ((TAU * out * rows as f64) / 2.0).round().max(1.0) as usize;
        for i in 0..around {
            let azimuth = PI * (i as f64 + 0.5) / around as f64;
            for azimuth in [azimuth, -azimuth] {
                roots.push(head.place(Spot { azimuth, out }));
            }
        }
    }
    roots
}

fn mirrored(p: Vec3) -> Vec3 {
    Vec3::new(-p.x, p.y, p.z)
}

fn ball() -> (Body<Ellipsoid>, Worn) {
    let top = Vec3::Z * R;
    (Body::bare(Ellipsoid::sphere(R)), Worn::between(top, top))
}

/// The tip on a sphere of hair that radiates from its top: along the meridian to the widest level,
/// then plumb.
fn on_a_ball(azimuth: f64, polar: f64, length: f64) -> Vec3 {
    let turned = polar + length / R;
    let (level, below) = if turned <= FRAC_PI_2 {
        (turned, 0.0)
    } else {
        (FRAC_PI_2, (turned - FRAC_PI_2) * R)
    };
    let out = Vec3::new(azimuth.sin(), azimuth.cos(), 0.0);
    (out * level.sin() + Vec3::Z * level.cos()) * R - Vec3::Z * below
}

#[test]
fn on_a_sphere_it_is_the_closed_form() {
    let (body, worn) = ball();
    let mut worst: f64 = 0.0;
    for azimuth in [-3.0, -1.5, -0.2, 0.0, 0.7, 1.6, 2.6, PI] {
        for polar in [0.01, 0.3, 0.8, 1.2, 1.5] {
            let root = on_a_ball(azimuth, polar, 0.0);
            for length in [0.5, 3.0, 8.0, 14.0, 30.0, 60.0] {
                let tip = natural_fall(&body, &worn, &[Hanging::new(root, length)])[0].tip;
                worst = worst.max(tip.distance(on_a_ball(azimuth, polar, length)));
                let z = on_a_ball(azimuth, polar, length).z;
                let back = length_to_level(&body, &worn, root, z).unwrap().cm();
                assert!((back - length).abs() < 1e-3, "{back} for {length}");
            }
        }
        // Below the widest level it hangs from the root.
        let under = on_a_ball(azimuth, 2.0, 0.0);
        let under = under.normalize() * R;
        let root = Vec3::new(under.x, under.y, -1.0).normalize() * R;
        let tip = natural_fall(&body, &worn, &[Hanging::new(root, 7.0)])[0].tip;
        assert!(tip.distance(root - Vec3::Z * 7.0) < 1e-9);
    }
    println!("worst on a sphere: {worst:.2e} cm");
    assert!(worst < 1e-3, "{worst}");
}

#[test]
fn what_lies_below_a_sphere_catches_hair_in_closed_form() {
    // A second sphere, right below the first one's rim: the hair lands on it and goes on over it.
    let (body, worn) = ball();
    let small = 3.0;
    let centre = Vec3::new(R - 1.0, 0.0, -12.0);
    let shape = Placed::new(Ellipsoid::sphere(small), centre);
    let body = body.with(BodyPart::Shoulders, shape);
    let root = on_a_ball(FRAC_PI_2, 1.0, 0.0);
    let to_rim = (FRAC_PI_2 - 1.0) * R;
    let lands = (1.0_f64 / small).asin();
    let drop = 12.0 - small * lands.cos();
    let arc = small * (FRAC_PI_2 - lands);
    let tip = |length: f64| natural_fall(&body, &worn, &[Hanging::new(root, length)])[0];
    let hangs = tip(to_rim + drop - 0.5);
    assert!(hangs.tip.distance(Vec3::new(R, 0.0, -drop + 0.5)) < 1e-3);
    assert_eq!(hangs.rests, None);
    let rests = tip(to_rim + drop + arc / 2.0);
    let polar = (lands + FRAC_PI_2) / 2.0;
    let expected = centre + Vec3::new(polar.sin(), 0.0, polar.cos()) * small;
    assert!(rests.tip.distance(expected) < 1e-3, "{}", rests.tip);
    assert_eq!(rests.rests, Some(BodyPart::Shoulders));
    let past = tip(to_rim + drop + arc + 4.0);
    assert!(past.tip.distance(centre + Vec3::new(small, 0.0, -4.0)) < 1e-3);
}

#[test]
fn hair_runs_along_the_groove_between_two_parts() {
    // Two spheres side by side under the rim: the groove between them is a circle of radius √5.
    let (body, worn) = ball();
    let shape = |y: f64| Placed::new(Ellipsoid::sphere(3.0), Vec3::new(R - 1.0, y, -15.0));
    let body = body
        .with(BodyPart::LeftEar, shape(2.0))
        .with(BodyPart::RightEar, shape(-2.0));
    let root = on_a_ball(FRAC_PI_2, 1.0, 0.0);
    let groove = 5.0_f64.sqrt();
    let lands = (1.0 / groove).asin();
    let before = (FRAC_PI_2 - 1.0) * R + 15.0 - groove * lands.cos();
    let tip = |length: f64| natural_fall(&body, &worn, &[Hanging::new(root, length)])[0];
    let polar = lands + 0.6;
    let along = tip(before + groove * 0.6);
    let expected = Vec3::new(
        R - 1.0 + groove * polar.sin(),
        0.0,
        -15.0 + groove * polar.cos(),
    );
    assert!(
        along.tip.distance(expected) < 0.01,
        "{} {expected}",
        along.tip
    );
    let past = tip(before + groove * (FRAC_PI_2 - lands) + 3.0);
    let expected = Vec3::new(R - 1.0 + groove, 0.0, -18.0);
    assert!(
        past.tip.distance(expected) < 0.02,
        "{} {expected}",
        past.tip
    );
    assert_eq!((past.rests, past.heaped), (None, 0.0));
}

fn check_path(head: &Head, wear: &Wear, root: Vec3, length: f64) -> Result<(), TestCaseError> {
    let body = Body::of(head);
    let worn = wear.on(head);
    let (path, fallen) = fall_path(&body, &worn, Hanging::new(root, length), 0.1);
    prop_assert!(path.iter().all(|p| p.is_finite()) && fallen.tip.is_finite());
    prop_assert_eq!(*path.last().unwrap(), fallen.tip);
    let walked: f64 = path.windows(2).map(|w| w[0].distance(w[1])).sum();
    prop_assert!(
        (walked + fallen.heaped - length).abs() < 0.02,
        "{} + {} of {}",
        walked,
        fallen.heaped,
        length
    );
    prop_assert!(
        fallen.heaped == 0.0,
        "heaped {} at {}",
        fallen.heaped,
        fallen.tip
    );
    // A part that covers the root is passed through until it is left.
    let over_root: Vec<BodyPart> = body
        .parts()
        .iter()
        .filter(|(_, shape)| shape.height(root) < 0.0)
        .map(|(part, _)| *part)
        .collect();
    for pair in path.windows(2) {
        for p in [pair[1], pair[0].midpoint(pair[1])] {
            prop_assert!(body.skull().height(p) > -0.02, "in the skull at {}", p);
            for (part, shape) in body.parts() {
                let inside = shape.height(p) < -0.02;
                prop_assert!(
                    !inside || over_root.contains(part),
                    "in {:?} at {}",
                    part,
                    p
                );
            }
        }
    }
    let highest = path.iter().map(|p| p.z).fold(f64::NEG_INFINITY, f64::max);
    prop_assert!((highest - fallen.highest).abs() < 0.02);
    // Below the widest level nothing but gravity rules, and nothing rises.
    for pair in path.windows(2).filter(|pair| pair[0].z <= 0.0) {
        prop_assert!(pair[1].z <= pair[0].z + 1e-6, "rises at {}", pair[0]);
    }
    Ok(())
}

/// Tapes of one head.
fn any_head() -> impl Strategy<Value = Tapes> {
    let share = || prop::option::of(0.93..1.07_f64);
    (44.0..68.0_f64, share(), share(), share(), share()).prop_filter_map(
        "one head",
        |(around, length, over, nape, chin)| {
            let mut tapes = Tapes::default().with(Tape::Circumference, around).ok()?;
            // Each about as on a mean head.
            for (tape, usual, share) in [
                (Tape::Length, 0.343, length),
                (Tape::EarToEar, 0.61, over),
                (Tape::HairlineToNape, 0.60, nape),
                (Tape::HairlineToChin, 0.345, chin),
            ] {
                if let Some(share) = share {
                    tapes.set(tape, around * usual * share).ok()?;
                }
            }
            Head::from_tapes(&tapes).is_ok().then_some(tapes)
        },
    )
}

fn any_wear() -> impl Strategy<Value = Wear> {
    (
        prop::option::of(-1.0..1.0_f64),
        prop::sample::select(vec![Turn::None, Turn::Clockwise, Turn::Anticlockwise]),
        0.0..1.5_f64,
        prop::option::of((-PI..PI, 0.0..0.6_f64)),
    )
        .prop_map(|(part, turn, strength, place)| Wear {
            part: part.map_or(Part::None, Part::At),
            whorl: Whorl {
                place: place.map(|(azimuth, out)| Spot { azimuth, out }),
                turn,
                strength,
            },
        })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, failure_persistence: None, rng_seed: RngSeed::Fixed(20261125), ..ProptestConfig::default() })]

    #[test]
    fn a_path_is_as_long_as_its_hair_and_outside_the_body(
        tapes in any_head(), wear in any_wear(),
        azimuth in -PI..PI, out in 0.0..1.0_f64, length in 0.0..90.0_f64,
    ) {
        let head = Head::from_tapes(&tapes).unwrap();
        let root = head.place(Spot { azimuth, out });
        check_path(&head, &wear, root, length)?;
    }

    #[test]
    fn length_to_a_level_is_the_inverse_of_falling(
        tapes in any_head(), wear in any_wear(),
        azimuth in -PI..PI, out in 0.0..1.0_f64, z in -60.0..5.0_f64,
    ) {
        let head = Head::from_tapes(&tapes).unwrap();
        let (body, worn) = (Body::of(&head), wear.on(&head));
        let root = head.place(Spot { azimuth, out });
        if let Some(length) = length_to_level(&body, &worn, root, z) {
            let fallen = natural_fall(&body, &worn, &[Hanging { root, length }])[0];
            prop_assert!((fallen.tip.z - z).abs() < 1e-3, "{} for {}", fallen.tip.z, z);
            // What is longer ends no higher: below the widest level nothing rises again.
            if z < 0.0 {
                let longer = natural_fall(&body, &worn, &[Hanging::new(root, length.cm() + 2.0)])[0];
                prop_assert!(longer.tip.z <= z + 1e-3);
            }
        } else {
            prop_assert!(root.z < z, "no length from {} to {}", root, z);
        }
    }

    #[test]
    fn any_heap_of_parts_is_got_over_or_rested_on(
        parts in prop::collection::vec(
            ((2.0..6.0_f64, 2.0..6.0_f64, 2.0..6.0_f64), (-12.0..12.0_f64, -12.0..12.0_f64, -30.0..4.0_f64), -1.0..1.0_f64),
            1..6,
        ),
        wear in any_wear(), azimuth in -PI..PI, polar in 0.0..1.5_f64, length in 0.0..60.0_f64,
    ) {
        let names = [BodyPart::Face, BodyPart::Neck, BodyPart::Trunk, BodyPart::LeftEar, BodyPart::RightEar];
        let (mut body, _) = ball();
        for (name, ((a, b, c), (x, y, z), lean)) in names.into_iter().zip(parts) {
            let shape = Placed::new(Ellipsoid::new(a, b, c), Vec3::new(x, y, z));
            body = body.with(name, shape.leant_left(lean));
        }
        let root = on_a_ball(azimuth, polar, 0.0);
        let worn = wear.on(&mean_head());
        let (path, fallen) = fall_path(&body, &worn, Hanging::new(root, length), 0.2);
        prop_assert!(path.iter().all(|p| p.is_finite()));
        let walked: f64 = path.windows(2).map(|w| w[0].distance(w[1])).sum();
        prop_assert!((walked + fallen.heaped - length).abs() < 0.05, "{} + {} of {}", walked, fallen.heaped, length);
        if body.parts().iter().all(|(_, shape)| shape.height(root) > 0.0) {
            for p in path {
                prop_assert!(body.height(p) > -0.05, "{} deep at {}", body.height(p), p);
            }
        }
    }

    #[test]
    fn left_and_right_are_mirror_images(
        tapes in any_head(), azimuth in 0.01..3.1_f64, out in 0.01..1.0_f64,
        length in 0.0..70.0_f64, part in -1.0..1.0_f64,
    ) {
        let head = Head::from_tapes(&tapes).unwrap();
        let body = Body::of(&head);
        let root = head.place(Spot { azimuth, out });
        let other = mirrored(root);
        let crown = head.landmark(Landmark::Crown, Side::Centre);
        let tip = |front: Vec3, root: Vec3| {
            let worn = Worn::between(front, crown);
            natural_fall(&body, &worn, &[Hanging::new(root, length)])[0].tip
        };
        for azimuth in [0.0, part] {
            let front = head.place(Spot { azimuth, out: 1.0 });
            let (left, right) = (tip(front, root), tip(mirrored(front), other));
            prop_assert!(left.distance(mirrored(right)) < 1e-9, "{} and {}", left, right);
        }
    }
}

#[test]
fn nothing_breaks_it() {
    let head = mean_head();
    let body = Body::of(&head);
    let worn = Wear::parted(f64::NAN).on(&head);
    for root in [
        Vec3::NAN,
        Vec3::ZERO,
        Vec3::Z * 1e9,
        Vec3::new(0.0, 0.0, -50.0),
        Vec3::INFINITY,
    ] {
        for length in [f64::NAN, -3.0, 0.0, 20.0, f64::INFINITY, 1e300] {
            let (path, fallen) = fall_path(&body, &worn, Hanging::new(root, length), f64::NAN);
            assert!(
                fallen.tip.is_finite() && path.iter().all(|p| p.is_finite()),
                "{root} {length}"
            );
        }
        for z in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -20.0] {
            let _ = length_to_level(&body, &worn, root, z);
        }
    }
}

#[test]
fn a_part_sends_hair_to_its_own_side() {
    let head = mean_head();
    let body = Body::of(&head);
    for part in [-0.9, -0.4, 0.0, 0.4, 0.9] {
        let worn = Wear::parted(part).on(&head);
        let crown = head.landmark(Landmark::Crown, Side::Centre);
        for root in roots(&head, 20).into_iter().filter(|r| r.y > crown.y) {
            let (path, _) = fall_path(&body, &worn, Hanging::new(root, 40.0), 0.5);
            let side = worn.side(root).signum();
            // On the scalp it never crosses back over the part.
            for p in path.iter().filter(|p| p.z > 0.0 && p.y > crown.y) {
                assert!(
                    worn.side(*p) * side > -1e-6,
                    "part {part}: from {root} to {p}"
                );
            }
        }
    }
}

#[test]
fn steps_and_roots_are_fine_enough() {
    let head = mean_head();
    let body = Body::of(&head);
    for wear in [Wear::default(), Wear::parted(0.0), Wear::parted(0.5)] {
        let worn = wear.on(&head);
        let mut moved = Vec::new();
        for root in roots(&head, 24) {
            let hair = Hanging::new(root, 45.0);
            let coarse = natural_fall(&body, &worn, &[hair])[0].tip;
            let (_, fine) = fall_path(&body, &worn, hair, 0.1);
            moved.push((coarse.distance(fine.tip), root));
        }
        moved.sort_by(|a, b| a.0.total_cmp(&b.0));
        println!(
            "{wear:?}: median {:.1e}, 99 % {:.1e}, worst {:.1e} at {}",
            moved[moved.len() / 2].0,
            moved[moved.len() * 99 / 100].0,
            moved[moved.len() - 1].0,
            moved[moved.len() - 1].1
        );
        assert!(moved[moved.len() - 1].0 < 0.05);
    }
}
