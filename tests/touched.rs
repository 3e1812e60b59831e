//! Touched sections of the scalp map, and its left against its right, against the model.

mod common;

use common::made::Made;
use common::{mean_head, run};
use kurbo::Point;
use tautline::chart::{
    ContourMap, Lines, marked, place_on_picture, scalp_map, scalp_spot, section_parcels,
    sections_at, touched,
};
use tautline::cut::{Outcome, SectionKey};
use tautline::hair::Wear;
use tautline::measure::Unit;
use tautline::plan::{built_in, built_ins};

/// The middle of every section of every built-in cut touches it: at once, or after those that lie on it.
#[test]
fn touching_a_section_finds_it() {
    let head = mean_head();
    for plan in built_ins() {
        let outcome = run(&head, &plan);
        for section in outcome.sections.iter().filter(|s| s.cuts()) {
            let middle = section.section.patch.at(&head, 0.5, 0.5);
            let spot = head.spot(middle);
            let far = head.hairline().distance(spot.azimuth) * spot.out * 10.0;
            let at = Point::new(-far * spot.azimuth.sin(), -far * spot.azimuth.cos());
            let under = sections_at(&head, &outcome, at);
            let keys: Vec<_> = under.iter().map(|i| &outcome.sections[*i].key).collect();
            assert!(
                keys.contains(&&section.key),
                "{} {:?}",
                plan.id,
                section.key
            );
            assert!(under.windows(2).all(|pair| pair[0] > pair[1]));
            // One after the other, and round again.
            let mut last: Option<SectionKey> = None;
            for key in &keys {
                last = touched(&head, &outcome, at, last.as_ref());
                assert_eq!(last.as_ref(), Some(*key));
            }
            last = touched(&head, &outcome, at, last.as_ref());
            assert_eq!(last.as_ref(), Some(keys[0]));
        }
        for (x, y) in [(0.0, -400.0), (400.0, 0.0), (0.0, 400.0), (-260.0, 260.0)] {
            assert!(sections_at(&head, &outcome, Point::new(x, y)).is_empty());
        }
        // A little past the hairline still means what lies inside it.
        let edge = |degrees: f64, past: f64| {
            let far = head.hairline().distance(degrees.to_radians()) * 10.0 + past;
            let (sin, cos) = degrees.to_radians().sin_cos();
            sections_at(&head, &outcome, Point::new(-far * sin, -far * cos))
        };
        assert_eq!(edge(170.0, 6.0).first(), edge(170.0, -1.0).first());
        assert!(edge(170.0, 25.0).is_empty());
    }
}

/// A place of the box that shows the picture is the place of the picture that is drawn there.
#[test]
fn a_touch_is_where_the_picture_is() {
    let head = mean_head();
    let outcome = run(&head, &built_in("soft-layers-face-frame").unwrap());
    let svg = scalp_map(&head, &section_parcels(&outcome), "t", "d");
    let frame: Vec<f64> = svg
        .split("viewBox=\"")
        .nth(1)
        .unwrap()
        .split('"')
        .next()
        .unwrap()
        .split(' ')
        .map(|n| n.parse().unwrap())
        .collect();
    let (width, height) = (frame[2], frame[3]);
    // As it is, twice as large, and in boxes wider and higher than it.
    for (size, scale) in [
        ((width, height), 1.0),
        ((2.0 * width, 2.0 * height), 2.0),
        ((3.0 * width, height), 1.0),
        ((width, 2.0 * height), 1.0),
    ] {
        for (x, y) in [(0.0, 0.0), (30.0, -80.0), (-120.5, 44.0)] {
            let at = (
                size.0 / 2.0 + (x - frame[0] - width / 2.0) * scale,
                size.1 / 2.0 + (y - frame[1] - height / 2.0) * scale,
            );
            let found = place_on_picture(&svg, at, size).unwrap();
            assert!((found.x - x).abs() < 1e-9 && (found.y - y).abs() < 1e-9);
        }
    }
    assert_eq!(place_on_picture(&svg, (0.0, 0.0), (0.0, 0.0)), None);
    assert_eq!(
        place_on_picture("<svg></svg>", (0.0, 0.0), (9.0, 9.0)),
        None
    );
    // The marked one has its edge and its hatching on top, all within its own outline's box.
    let patch = &outcome.sections[3].section.patch;
    let with_mark = marked(&svg, &head, patch);
    assert!(with_mark.starts_with(svg.strip_suffix("</svg>").unwrap()));
    assert_eq!(with_mark.matches("m-marked").count(), 1);
    assert!(with_mark.matches("m-hatch").count() > 3);
    for tag in with_mark.split("class=\"m-hatch\" d=\"M").skip(1) {
        let d = tag.split('"').next().unwrap();
        let numbers: Vec<f64> = d
            .split(['L', ',', ' '])
            .filter(|n| !n.is_empty())
            .map(|n| n.parse().unwrap())
            .collect();
        let middle = Point::new(
            f64::midpoint(numbers[0], numbers[2]),
            f64::midpoint(numbers[1], numbers[3]),
        );
        let spot = scalp_spot(&head, middle);
        assert!(spot.out <= 1.01);
    }
}

/// Hair of the left against its twin: nothing where both are alike, and what they differ by where not.
#[test]
fn left_against_right_is_their_difference() {
    let head = mean_head();
    let sides = |outcome: &Outcome| {
        ContourMap::new(
            &head,
            Lines::Sides(outcome),
            &Wear::parted(0.0),
            Unit::Cm,
            ("t", "d"),
        )
        .unwrap()
    };
    let mut looked = 0;
    for (id, cm) in [
        ("soft-layers-face-frame", -2.0),
        ("square-layers", -1.5),
        ("round-layers", -2.0),
    ] {
        let made = Made::of(&head, built_in(id).unwrap());
        let even = sides(&made.planned);
        assert!(even.nothing && even.contours.is_empty() && even.steps.is_empty());
        let (_, real) = made.walked(0, cm);
        if real.is_even() {
            continue;
        }
        let map = sides(&real);
        assert!(!map.nothing && !map.svg.contains("NaN"));
        for contour in &map.contours {
            for &p in &contour.line {
                let mut spot = scalp_spot(&head, p);
                spot.out = spot.out.min(1.0);
                spot.azimuth = spot.azimuth.abs();
                let (left, right) = (head.place(spot), head.place(spot.mirrored()));
                if left.x < 0.2 {
                    continue;
                }
                let by =
                    real.lengths.at(&head, left).unwrap() - real.lengths.at(&head, right).unwrap();
                assert!(
                    (by - contour.value.cm()).abs() < 0.13,
                    "{id}: {by} for {:?} at {p:?}",
                    contour.value
                );
                looked += 1;
            }
        }
    }
    assert!(looked > 40, "{looked}");
}
