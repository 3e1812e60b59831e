//! The cross-check at the chair: at right angles to the cut, at named places, left against right.

mod common;

use common::seat::Chair;
use common::three_heads;
use tautline::cut::{Job, Measured, SectionCut, SectionKey, cut};
use tautline::geometry::{Convex, Vec3};
use tautline::hair::Hair;
use tautline::head::{Head, Side};
use tautline::plan::{Choices, built_ins};
use tautline::walk::check_places;

/// The way along which the last section that took a root was parted there, as its rows say.
fn parted_along(head: &Head, section: &SectionCut, root: Vec3) -> Option<Vec3> {
    let rows = (0..=64).map(|i| section.section.patch.row(head, f64::from(i) / 64.0));
    let mut best = (f64::INFINITY, None);
    for row in rows {
        for pair in row.points().windows(2) {
            let far = pair[0].midpoint(pair[1]).distance(root);
            if far < best.0 {
                best = (far, (pair[1] - pair[0]).try_normalize());
            }
        }
    }
    best.1
}

/// Every cross-check of every built-in cut runs at right angles to the partings of a section that cut the
/// same hair, on three heads and both sides.
#[test]
fn cross_checks_run_at_right_angles_to_the_cut() {
    let (mut looked, mut least) = (0, 90.0_f64);
    for head in three_heads() {
        for plan in built_ins() {
            let (hair, choices) = (Hair::default(), Choices::default());
            let job = Job {
                head: &head,
                hair: &hair,
                plan: &plan,
                choices: &choices,
            };
            let outcome = cut(&job, &Measured::new()).unwrap();
            for section in outcome.sections.iter().filter(|s| !s.cuts()) {
                let places = check_places(&job, &outcome, section).unwrap();
                assert!((1..=3).contains(&places.len()));
                for place in &places {
                    assert!(place.place < 3 && !place.name.is_empty());
                    assert!(head.spot(place.root).out < 1.01);
                    let cm = outcome.lengths.at(&head, place.root).unwrap();
                    assert_eq!(place.expected.cm(), cm);
                }
                let names: std::collections::BTreeSet<_> = places.iter().map(|p| &p.name).collect();
                assert_eq!(names.len(), places.len(), "{names:?}");
                let (Some(middle), true) = (places.iter().find(|p| p.place == 1), places.len() > 1)
                else {
                    continue;
                };
                let way = (places.last().unwrap().root - places[0].root).normalize();
                let normal = head.skull().normal(middle.root);
                let way = (way - normal * way.dot(normal)).normalize();
                let cutting = outcome.sections.iter().filter(|s| s.cuts());
                let angles = cutting
                    .filter(|s| s.section.patch.holds(middle.root))
                    .filter_map(|s| parted_along(&head, s, middle.root))
                    .map(|along| along.dot(way).abs().min(1.0).acos().to_degrees());
                let best = angles.fold(0.0, f64::max);
                assert!(best > 75.0, "{} {}: {best}", plan.id, middle.name);
                looked += 1;
                least = least.min(best);
            }
        }
    }
    println!("{looked} checks, the least angle {least:.1}°");
    assert!(looked > 300, "{looked}");
}

#[test]
fn a_check_compares_left_with_right_alike() {
    for plan in built_ins() {
        let chair = Chair::of(&plan.id, &[]);
        let outcome = chair.planned();
        for section in outcome.sections.iter().filter(|s| !s.cuts()) {
            if section.key.side != Side::Left {
                continue;
            }
            let twin = SectionKey {
                side: Side::Right,
                ..section.key.clone()
            };
            let left = check_places(&chair.job(), &outcome, section).unwrap();
            let twin = outcome.section(&twin).unwrap();
            let right = check_places(&chair.job(), &outcome, twin).unwrap();
            assert_eq!(left.len(), right.len(), "{}", plan.id);
            for (left, right) in left.iter().zip(&right) {
                assert_eq!((left.place, &left.name), (right.place, &right.name));
                assert_eq!(left.kind, right.kind);
                assert!((left.root.x + right.root.x).abs() < 0.01);
            }
        }
    }
}
