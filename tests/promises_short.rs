//! What the built-in fringes, the tapered nape and the trim promise, measured on a small, a mean and a
//! large surveyed head. Each promise is common practice, no source, unless one is named.

mod common;

use common::built::{ONE_LEVEL, done, rises, span};
use tautline::head::{Head, Landmark, Side, Spot};

/// A smooth rise from the hairline of nape and ear to the occipital bone; no shelf, no weight line (a
/// public barber bulletin of the United States marks both down).
#[test]
fn a_tapered_nape_rises_without_a_step() {
    for hairline in [0.5, 0.8, 2.0] {
        for cut in done("tapered-nape", &[("nape", &format!("{hairline} cm"))]) {
            for azimuth in [180.0_f64, 165.0, 150.0, 130.0, 115.0, 100.0, 90.0] {
                let way = cut.head.meridian(azimuth.to_radians()).hairline();
                // Every half centimetre up from the hairline, as far as the taper goes.
                let up: Vec<f64> = (0..18)
                    .map(|i| cut.at(azimuth - 0.01, 1.0 - 0.5 * f64::from(i) / way))
                    .collect();
                assert!((up[0] - hairline).abs() < 0.05, "{azimuth}: {up:.2?}");
                for pair in up.windows(2) {
                    let step = pair[1] - pair[0];
                    // Where the top takes over, at the ridge, it may differ by a blend.
                    let most = if azimuth > 110.0 { 0.3 } else { 0.5 };
                    assert!((-0.2..most).contains(&step), "{azimuth}: {up:.2?}");
                }
            }
            let occipital = cut.length(Landmark::Occipital);
            assert!((3.0..=4.01).contains(&occipital), "{occipital}");
            let back = cut.let_down().weight.sides[2].line.unwrap();
            println!("taper {hairline}: {occipital:.2} at the bone, {back:?}");
            assert!(back.sharpness < 0.3);
            let ears = [Side::Left, Side::Right].map(|side| {
                let root = cut.head.landmark(Landmark::InFrontOfEar, side);
                cut.outcome.lengths.at(&cut.head, root).unwrap()
            });
            assert!((ears[0] - ears[1]).abs() < 0.01);
        }
    }
}

#[test]
fn a_trim_takes_the_same_off_everywhere() {
    for (text, off) in [("0.5 cm", 0.5), ("1 cm", 1.0), ("3 cm", 3.0)] {
        for before in ["chin", "chest", "22"] {
            for cut in done("trim", &[("off", text), ("before", before)]) {
                for strand in cut.cut().filter(|s| s.before > off) {
                    // A place on the edge of two zones is trimmed with the first.
                    assert!(strand.before - strand.after < off + 1e-9);
                }
                let places = [
                    (10.0, 0.8),
                    (60.0, 0.7),
                    (100.0, 0.7),
                    (150.0, 0.6),
                    (175.0, 0.9),
                ];
                let then = cut.before();
                for (azimuth, out) in places {
                    let root = cut.head.place(Spot::at_degrees(azimuth, out));
                    let gone = then.at(&cut.head, root).unwrap() - cut.at(azimuth, out);
                    assert!((gone - off).abs() < 1e-9, "{azimuth} {out}: {gone}");
                }
            }
        }
    }
}

/// How far from the middle the outer eye corner lies, cm: the eyes are together about three tenths of
/// the head's breadth to each side. Working judgement.
fn outer_eye_corner(head: &Head) -> f64 {
    0.31 * 2.0 * head.skull().half_breadth
}

/// Combed down, a fringe hangs no further out than the outer eye corners, and touches nothing else.
#[test]
fn no_fringe_is_wider_than_the_eyes() {
    for id in ["curtain-fringe", "side-swept-fringe", "straight-fringe"] {
        for cut in done(id, &[]) {
            let hangs = cut.strands("fringe").map(|s| s.path.unwrap().meets.x.abs());
            let (_, widest) = span(hangs);
            let corner = outer_eye_corner(&cut.head);
            println!("{id}: {widest:.2} of {corner:.2}");
            assert!(widest <= corner + 0.05, "{id}: {widest} {corner}");
            let then = cut.before();
            for (azimuth, out) in [(45.0, 0.97), (0.0, 0.3), (90.0, 0.8), (180.0, 0.7)] {
                let root = cut.head.place(Spot::at_degrees(azimuth, out));
                assert_eq!(then.at(&cut.head, root).unwrap(), cut.at(azimuth, out));
            }
        }
    }
}

#[test]
fn a_straight_fringe_is_level() {
    for (text, lower) in [("0 cm", 0.0), ("0.5 cm", 0.5), ("3 cm", 3.0)] {
        for cut in done("straight-fringe", &[("lower", text)]) {
            let off = cut.off_level(cut.level(Landmark::Brow) - lower);
            println!("straight fringe: {off:.3} cm off");
            assert!(off < ONE_LEVEL, "{off}");
        }
    }
}

#[test]
fn a_curtain_fringe_is_shortest_in_the_middle() {
    for landmark in ["brow", "cheekbone"] {
        for cut in done("curtain-fringe", &[("landmark", landmark)]) {
            for sign in [1.0, -1.0] {
                let aside = [1.0, 6.0, 12.0, 18.0, 24.0].map(|az| az * sign);
                let lengths = aside.map(|az| cut.at(az, 0.99));
                assert!(rises(&lengths), "{lengths:?}");
                let ends = aside.map(|az| -cut.ends(az, 0.99));
                assert!(rises(&ends), "{ends:?}");
                println!("curtain: {lengths:.1?}, ends {ends:.1?}");
                assert!(ends[4] - ends[0] > 1.2);
            }
        }
    }
}

/// One slope, short at the parting and longer to the other side.
#[test]
fn a_side_swept_fringe_is_longer_to_one_side() {
    for (parting, sign) in [("left", 1.0), ("right", -1.0)] {
        for cut in done("side-swept-fringe", &[("parting", parting)]) {
            let across = [24.0, 12.0, 0.0, -12.0, -24.0].map(|az| az * sign);
            let ends = across.map(|az| -cut.ends(az, 0.99));
            assert!(rises(&ends), "{ends:?}");
            let (short, long) = (cut.at(24.0 * sign, 0.99), cut.at(-24.0 * sign, 0.99));
            println!("swept: {short:.1} to {long:.1}");
            assert!(long > short + 2.0, "{short} {long}");
        }
    }
}
