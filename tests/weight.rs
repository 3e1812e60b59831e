//! Shape and weight of fallen hair, and the trade's rules about both.

use std::f64::consts::{PI, TAU};
use tautline::fall::{
    BIN, Edge, HAIRS_PER_CM2, Hanging, Patched, Quarter, Silhouette, View, Weight, fall_path,
    natural_fall,
};
use tautline::geometry::{Ellipsoid, Vec3};
use tautline::hair::{Before, Wear, Worn};
use tautline::head::{Body, Head, Landmark, Side, Spot, Tapes};
use tautline::measure::Length;

fn mean_head() -> Head {
    Head::from_tapes(&Tapes::default()).unwrap()
}

/// Roots over the scalp with the patch of each in cm², left and right alike, none on the middle
/// line: rings about the high point, each cut into cells as long as the ring is wide.
fn roots(head: &Head, rings: usize) -> Vec<(Vec3, f64)> {
    let mut roots = Vec::new();
    for ring in 0..rings {
        let (inner, outer) = (ring as f64 / rings as f64, (ring + 1) as f64 / rings as f64);
        let out = (inner + outer) / 2.0;
        let around = ((TAU * out * rings as f64) / 2.0).round().max(1.0) as usize;
        let half = PI / around as f64 / 2.0;
        for i in 0..around {
            let azimuth = PI * (i as f64 + 0.5) / around as f64;
            for azimuth in [azimuth, -azimuth] {
                let at = |azimuth: f64, out: f64| head.place(Spot { azimuth, out });
                let along = at(azimuth, outer) - at(azimuth, inner);
                let aside = at(azimuth + half, out) - at(azimuth - half, out);
                roots.push((at(azimuth, out), along.cross(aside).length()));
            }
        }
    }
    roots
}

/// All hair of one length, or all hair ending on one level, let go and weighed.
fn fallen(body: &Body, head: &Head, wear: &Wear, before: Before, rings: usize) -> Vec<Patched> {
    let worn = wear.on(head);
    let roots = roots(head, rings);
    let hairs: Vec<Hanging> = roots
        .iter()
        .map(|&(root, _)| Hanging::new(root, before.at(head, root).unwrap()))
        .collect();
    natural_fall(body, &worn, &hairs)
        .into_iter()
        .zip(&roots)
        .map(|(fallen, &(root, area))| Patched {
            fallen,
            root: root.z,
            area,
        })
        .collect()
}

#[test]
fn the_scalp_has_its_area_and_every_end_is_counted() {
    let head = mean_head();
    let body = Body::of(&head);
    let area = |rings: usize| roots(&head, rings).iter().map(|r| r.1).sum::<f64>();
    println!("scalp: {:.0} cm²", area(40));
    assert!((area(40) / area(80) - 1.0).abs() < 0.01);
    let hairs = fallen(
        &body,
        &head,
        &Wear::default(),
        Before::Everywhere(Length::from_cm(15.0)),
        30,
    );
    let weight = Weight::of(&hairs, HAIRS_PER_CM2, BIN);
    let all = area(30) * HAIRS_PER_CM2;
    assert!((weight.overall.total() / all - 1.0).abs() < 1e-9);
    let sides: f64 = Quarter::ALL
        .iter()
        .map(|&side| weight.side(side).total())
        .sum();
    assert!((sides / all - 1.0).abs() < 1e-9);
    let (left, right) = (
        weight.side(Quarter::Left).total(),
        weight.side(Quarter::Right).total(),
    );
    assert!((left / right - 1.0).abs() < 1e-9);
}

#[test]
fn hair_of_one_level_falls_near_one_level() {
    let head = mean_head();
    let level = |landmark| head.landmark(landmark, Side::Centre).z;
    let bare = Body::bare(*head.skull());
    for (landmark, most) in [(Landmark::Chin, 1.5), (Landmark::Chest, 1.5)] {
        for wear in [Wear::default(), Wear::parted(0.0), Wear::parted(0.5)] {
            let hairs = fallen(&bare, &head, &wear, Before::EndsAt(landmark), 18);
            let mut off: Vec<f64> = hairs
                .iter()
                .map(|h| h.fallen.tip.z - level(landmark))
                .collect();
            off.sort_by(f64::total_cmp);
            let n = off.len();
            println!(
                "{landmark:?}, {:?}: median {:.3}, 90 % {:.2}, 99 % {:.2}, highest {:.2}, lowest {:.4}",
                wear.part,
                off[n / 2],
                off[n * 9 / 10],
                off[n * 99 / 100],
                off[n - 1],
                off[0]
            );
            // The way of a falling hair is never shorter than the shortest, so it never ends lower.
            assert!(off[0] > -0.01, "{}", off[0]);
            assert!(off[n / 2] < most);
        }
    }
}

#[test]
fn one_level_is_the_sharpest_weight_line_and_one_length_a_soft_one() {
    let head = mean_head();
    let body = Body::of(&head);
    let wear = Wear::parted(0.0);
    let line = |before| {
        let hairs = fallen(&body, &head, &wear, before, 28);
        let weight = Weight::of(&hairs, HAIRS_PER_CM2, BIN);
        for side in Quarter::ALL {
            println!("  {side:?}: {:.2?}", weight.side(side).line);
        }
        weight.overall.line.unwrap()
    };
    let level = line(Before::EndsAt(Landmark::JawCorner));
    println!("one level {level:?}");
    for cm in [8.0, 15.0, 25.0] {
        let length = line(Before::Everywhere(Length::from_cm(cm)));
        println!("one length {cm}: {length:?}");
        assert!(length.sharpness < level.sharpness / 1.5);
        assert!(length.width > level.width);
    }
    let wanted = head.landmark(Landmark::JawCorner, Side::Centre).z;
    assert!((level.z - wanted).abs() < 1.0, "{} for {wanted}", level.z);
}

#[test]
fn more_roots_and_other_bins_move_the_weight_line_little() {
    let head = mean_head();
    let body = Body::of(&head);
    let at = |rings: usize, bin: f64| {
        let hairs = fallen(
            &body,
            &head,
            &Wear::default(),
            Before::Everywhere(Length::from_cm(20.0)),
            rings,
        );
        Weight::of(&hairs, HAIRS_PER_CM2, bin).overall.line.unwrap()
    };
    let lines = [at(30, 1.0), at(30, 0.5), at(40, 1.0), at(60, 1.0)];
    println!("{lines:?}");
    assert_eq!(lines[0], lines[1]);
    assert!((lines[2].z - lines[3].z).abs() < 0.3);
    assert!((lines[2].sharpness - lines[3].sharpness).abs() < 0.02);
}

#[test]
fn the_edge_of_one_length_hair_is_alike_on_both_sides_and_lowest_at_the_back() {
    let head = mean_head();
    let body = Body::of(&head);
    let hairs = fallen(
        &body,
        &head,
        &Wear::parted(0.0),
        Before::Everywhere(Length::from_cm(12.0)),
        40,
    );
    let edge = Edge::of(hairs.iter().map(|h| h.fallen.tip), 36);
    let side = |side| edge.side(side).unwrap();
    assert!((side(Quarter::Left) - side(Quarter::Right)).abs() < 1e-6);
    assert!(side(Quarter::Back) < side(Quarter::Left));
    for azimuth in [0.3, 1.0, 2.0, 3.0] {
        let (left, right) = (edge.level(azimuth).unwrap(), edge.level(-azimuth).unwrap());
        assert!(
            (left - right).abs() < 1e-6,
            "{left} and {right} at {azimuth}"
        );
    }
}

#[test]
fn a_silhouette_of_a_sphere_is_a_circle_and_hair_hangs_beside_it() {
    let radius = 9.0;
    let body = Body::bare(Ellipsoid::sphere(radius));
    for view in [View::LeftSide, View::RightSide, View::Front, View::Back] {
        let bands = Silhouette::of_body(view, &body, (-12.0, 12.0), 0.5).bands;
        assert_eq!(bands.len(), 35);
        for band in bands {
            let half = (radius * radius - band.z * band.z).sqrt();
            assert!((band.to - half).abs() < 0.02 && (band.from + half).abs() < 0.02);
        }
    }
    let top = Vec3::Z * radius;
    let worn = Worn::between(top, top);
    let root = Vec3::new(6.0, 0.0, 45.0_f64.sqrt());
    let (path, _) = fall_path(&body, &worn, Hanging::new(root, 20.0), 0.2);
    let hair = Silhouette::of_hair(View::Front, &[path], 0.5);
    let hangs = hair.at(-5.0, 0.5).unwrap();
    assert!((hangs.from - radius).abs() < 1e-3 && (hangs.to - radius).abs() < 1e-3);
    let lies = hair.at(3.0, 0.5).unwrap();
    assert!((lies.to - 72.0_f64.sqrt()).abs() < 0.01, "{lies:?}");
    assert_eq!(hair.at(8.0, 0.5), None);
    let both = hair.with(&Silhouette::of_body(View::Front, &body, (-9.0, 9.0), 0.5));
    let band = both.at(-5.0, 0.5).unwrap();
    assert!((band.to - radius).abs() < 1e-3 && (band.from + 56.0_f64.sqrt()).abs() < 0.02);
    assert_eq!(both.outline().len(), 2 * both.bands.len());
}

#[test]
fn the_silhouette_of_a_head_holds_its_named_points() {
    let head = mean_head();
    let body = Body::of(&head);
    let side = Silhouette::of_body(View::RightSide, &body, (-60.0, 10.0), 0.25);
    let front = Silhouette::of_body(View::Front, &body, (-60.0, 10.0), 0.25);
    for landmark in [
        Landmark::Nape,
        Landmark::Chin,
        Landmark::Shoulder,
        Landmark::Waist,
        Landmark::AboveEar,
    ] {
        let p = head.landmark(landmark, Side::Left);
        let (a, b) = (side.at(p.z, 0.25).unwrap(), front.at(p.z, 0.25).unwrap());
        assert!(
            a.from < p.y + 0.5 && p.y - 0.5 < a.to,
            "{landmark:?} {p} {a:?}"
        );
        assert!(b.from < p.x && p.x < b.to + 0.5, "{landmark:?} {p} {b:?}");
    }
    // No gap from the top of the head to the waist.
    assert!(
        side.bands
            .windows(2)
            .all(|w| (w[0].z - w[1].z - 0.25).abs() < 1e-9)
    );
}
