//! The head against surveyed heads: every tape that goes in comes out, and what was left out is
//! guessed as well as the surveys allow.

mod surveyed;

use surveyed::{ENTERED, ansur, niosh};
use tautline::geometry::{Convex, Vec3};
use tautline::head::{Head, HeadError, Landmark, Side, Spot, Tape, Tapes};

/// A millimetre, in cm.
const MILLIMETRE: f64 = 0.1;

fn head(measures: &[(Tape, f64)]) -> Result<Head, HeadError> {
    let mut tapes = Tapes::default();
    for &(tape, cm) in measures {
        tapes.set(tape, cm).unwrap();
    }
    Head::from_tapes(&tapes)
}

/// ANSUR II (NATICK/TR-15/007, 2014) and NIOSH 2003 (J. Occup. Environ. Hyg. 2:567): all 240 single
/// heads, with invented hairline tapes on top.
#[test]
fn every_entered_tape_comes_back_to_a_millimetre() {
    let mut heads = 0;
    for row in ansur().into_iter().chain(niosh()) {
        let mut measures: Vec<(Tape, f64)> = ENTERED.into_iter().zip(row).collect();
        measures.push((Tape::HairlineToNape, measures[0].1 * 0.56));
        measures.push((Tape::HairlineToChin, 18.7));
        let head = head(&measures).unwrap_or_else(|e| panic!("{measures:?}: {e}"));
        for (tape, cm) in measures {
            let again = head.model_tape(tape);
            assert!(
                (again - cm).abs() < MILLIMETRE,
                "{tape:?} {cm} came back as {again}"
            );
            assert!(!head.measure(tape).estimated());
        }
        assert!(head.skull().least_curvature() > 0.0);
        heads += 1;
    }
    assert_eq!(heads, 240);
}

/// The same heads with any tapes missing: what is left is still given back, the rest is marked.
#[test]
fn any_tape_may_be_missing() {
    for row in ansur().into_iter().chain(niosh()).step_by(7) {
        for mask in 0..(1u32 << row.len()) {
            let measures: Vec<(Tape, f64)> = ENTERED
                .into_iter()
                .zip(row.iter().copied())
                .enumerate()
                .filter(|(i, _)| mask & (1 << i) != 0)
                .map(|(_, m)| m)
                .collect();
            let head = head(&measures).unwrap_or_else(|e| panic!("{measures:?}: {e}"));
            for tape in Tape::ALL {
                let entered = measures.iter().find(|(t, _)| *t == tape);
                assert_eq!(head.measure(tape).estimated(), entered.is_none());
                let cm = entered.map_or(head.measure(tape).cm, |m| m.1);
                let again = head.model_tape(tape);
                assert!(
                    (again - cm).abs() < MILLIMETRE,
                    "{tape:?} {cm} came back as {again}"
                );
            }
        }
    }
}

#[test]
fn tapes_that_contradict_each_other_are_refused_with_a_sentence() {
    let said = |measures: &[(Tape, f64)]| head(measures).unwrap_err().to_string();
    let ring = said(&[
        (Tape::Circumference, 48.0),
        (Tape::Length, 20.0),
        (Tape::Breadth, 16.0),
    ]);
    assert!(ring.contains("Measure these again"), "{ring}");
    assert!(said(&[(Tape::EarToEar, 22.5), (Tape::Breadth, 18.0)]).contains("Ear to ear"));
    let sized = |nape: f64| {
        said(&[
            (Tape::Circumference, 57.0),
            (Tape::Length, 19.5),
            (Tape::Breadth, 15.0),
            (Tape::EarToEar, 34.5),
            (Tape::HairlineToNape, nape),
        ])
    };
    assert!(sized(21.0).contains("nape") && sized(46.0).contains("nape"));
    assert!(said(&[(Tape::HairlineToChin, 10.5)]).contains("chin"));
}

/// A single tape at an edge of its range belongs to some head: what was not measured gives way, no
/// further than it must.
#[test]
fn estimates_give_way_to_what_was_measured() {
    for tape in Tape::ALL {
        let (low, high) = tape.range();
        for cm in [low, low + 1.5, high - 1.5, high] {
            match head(&[(tape, cm)]) {
                Ok(head) => assert!((head.model_tape(tape) - cm).abs() < MILLIMETRE),
                Err(e) => assert!(
                    tape == Tape::HairlineToChin && cm < 12.0,
                    "{tape:?} {cm}: {e}"
                ),
            }
        }
    }
    let usual = head(&[]).unwrap().measure(Tape::Circumference).cm;
    let of = |cm: f64| head(&[(Tape::HairlineToNape, cm)]).unwrap();
    let [at, above] = [34.0, 42.0].map(|cm| of(cm).measure(Tape::Circumference).cm);
    assert_eq!(at, usual);
    assert!((usual..usual + 6.0).contains(&above), "{above}");
}

/// Every combination of the least, usual and greatest values that can be typed makes a head or a
/// sentence, never a panic, and a head that is made is strictly convex.
#[test]
fn the_edges_of_what_can_be_typed_are_safe() {
    let mut made = 0;
    for code in 0..4_u32.pow(6) {
        let measures: Vec<(Tape, f64)> = Tape::ALL
            .into_iter()
            .enumerate()
            .filter_map(|(i, tape)| {
                let (low, high) = tape.range();
                match code / 4_u32.pow(i as u32) % 4 {
                    0 => None,
                    1 => Some((tape, low)),
                    2 => Some((tape, (low + high) / 2.0)),
                    _ => Some((tape, high)),
                }
            })
            .collect();
        if let Ok(head) = head(&measures) {
            made += 1;
            assert!(head.skull().least_curvature() > 0.0);
            assert!(head.place(Spot::at_degrees(180.0, 1.0)).is_finite());
        }
    }
    assert!(made > 200, "{made}");
}

#[test]
fn named_points_lie_where_their_names_say() {
    let head = head(&[]).unwrap();
    let left = |landmark| head.landmark(landmark, Side::Left);
    use Landmark::*;
    // From the top down.
    let order = [
        HighPoint,
        Crown,
        FrontHairline,
        Temple,
        Occipital,
        Nape,
        Chin,
        Shoulder,
        Collarbone,
        Chest,
        Waist,
    ];
    for pair in order.windows(2) {
        assert!(
            left(pair[0]).z > left(pair[1]).z,
            "{:?} above {:?}",
            pair[0],
            pair[1]
        );
    }
    for landmark in [
        Temple,
        InFrontOfEar,
        AboveEar,
        BehindEar,
        Cheekbone,
        MouthCorner,
        JawCorner,
    ] {
        let (l, r) = (left(landmark), head.landmark(landmark, Side::Right));
        let mirrored = Vec3::new(-r.x, r.y, r.z);
        assert!(l.x > 0.0 && l.distance(mirrored) < 1e-9, "{landmark:?}");
    }
    let ear = head.ear_opening(Side::Left);
    assert!(left(InFrontOfEar).y > ear.y && ear.y > left(BehindEar).y);
    for landmark in [Brow, Cheekbone, MouthCorner, JawCorner, Chin] {
        assert!(
            head.skull().height(left(landmark)) > 0.1,
            "{landmark:?} is before the skull"
        );
    }
}

#[test]
fn a_spot_finds_its_place_and_a_place_its_spot() {
    let head = head(&[]).unwrap();
    for azimuth in [-170.0, -95.0, 0.0, 33.0, 120.0] {
        for out in [0.1, 0.5, 0.97] {
            let spot = Spot::at_degrees(azimuth, out);
            let place = head.place(spot);
            assert!(head.skull().height(place).abs() < 1e-9);
            let again = head.spot(place);
            assert!((again.azimuth - spot.azimuth).abs() < 1e-3 && (again.out - out).abs() < 1e-3);
        }
    }
}

/// The mean woman and the mean man of ANSUR II (NATICK/TR-15/007, 2014) against the mean arcs of
/// NIOSH 2003 (34.10 and 35.07 cm): what the fullness of upright sections was set by.
#[test]
fn the_mean_heads_have_the_surveys_mean_arcs() {
    for (c, l, b, arc) in [(56.11, 18.98, 14.78, 34.10), (57.44, 19.95, 15.43, 35.07)] {
        let measures = [
            (Tape::Circumference, c),
            (Tape::Length, l),
            (Tape::Breadth, b),
        ];
        let model = head(&measures).unwrap().model_tape(Tape::EarToEar);
        assert!((model - arc).abs() < 0.3, "{model} against {arc}");
    }
}
