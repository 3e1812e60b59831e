//! The maps of the printed sheet: every section once, under its number at the chair, none hidden by
//! another.

mod common;

use common::mean_head;
use tautline::chart::{NumberedMap, numbered_map, numbered_maps};
use tautline::cut::{Job, Measured, Outcome, cut};
use tautline::hair::Hair;
use tautline::head::Head;
use tautline::plan::{Choices, Plan, built_in, built_ins};

/// As many as the sheet has.
const MOST: usize = 5;

fn worked_out(head: &Head, plan: &Plan) -> Outcome {
    let job = Job {
        head,
        hair: &Hair::default(),
        plan,
        choices: &Choices::default(),
    };
    cut(&job, &Measured::new()).unwrap()
}

fn labels(maps: &[NumberedMap]) -> Vec<usize> {
    let all = maps.iter().flat_map(|map| &map.parcels);
    let mut labels: Vec<usize> = all.map(|parcel| parcel.label.parse().unwrap()).collect();
    labels.sort_unstable();
    labels
}

#[test]
fn every_section_that_is_cut_stands_on_one_map_under_its_place_in_the_cut() {
    let head = mean_head();
    for plan in built_ins() {
        let outcome = worked_out(&head, &plan);
        let maps = numbered_maps(&head, &outcome, MOST);
        let expected: Vec<usize> = (1..)
            .zip(&outcome.sections)
            .filter(|(_, section)| section.cuts())
            .map(|(number, _)| number)
            .collect();
        assert_eq!(labels(&maps), expected, "{}", plan.id);
        for map in &maps {
            for parcel in &map.parcels {
                let number: usize = parcel.label.parse().unwrap();
                let section = &outcome.sections[number - 1];
                assert_eq!(parcel.patch, section.section.patch);
                assert!(map.steps.contains(&section.step));
            }
        }
    }
}

#[test]
fn no_section_lies_over_one_of_another_step() {
    let head = mean_head();
    let mut several = 0;
    for plan in built_ins() {
        let outcome = worked_out(&head, &plan);
        let maps = numbered_maps(&head, &outcome, MOST);
        several += usize::from(maps.len() > 1);
        for section in outcome.sections.iter().filter(|s| s.cuts()) {
            let map = maps.iter().find(|map| map.steps.contains(&section.step));
            let middle = section.section.patch.at(&head, 0.5, 0.5);
            let over = map.unwrap().parcels.iter().filter(|parcel| {
                let number: usize = parcel.label.parse().unwrap();
                let other = &outcome.sections[number - 1];
                other.step != section.step && parcel.patch.holds(middle)
            });
            assert_eq!(over.count(), 0, "{} {}", plan.id, section.section.name);
        }
    }
    // Outlines with layers over them: one map would hide the half of them.
    assert!(several >= 3, "{several}");
}

#[test]
fn past_the_last_map_nothing_is_drawn_over_another() {
    let head = mean_head();
    let plan = built_in("long-layers").unwrap();
    let outcome = worked_out(&head, &plan);
    assert_eq!(numbered_maps(&head, &outcome, 3).len(), 2);
    let one = numbered_maps(&head, &outcome, 1);
    assert_eq!((one.len(), one[0].steps.as_slice()), (1, [0].as_slice()));
    assert!(numbered_maps(&head, &outcome, 0).is_empty());
}

/// Where the labels of a map stand: x, y of the foot, and how many letters.
fn stand(svg: &str) -> Vec<(f64, f64, f64)> {
    let of = |rest: &str, name: &str| -> f64 {
        let from = rest.find(name).unwrap() + name.len();
        rest[from..].split('"').next().unwrap().parse().unwrap()
    };
    let labels = svg.split("<text class=\"m-label\"").skip(1);
    labels
        .map(|rest| {
            let text = &rest[rest.find('>').unwrap() + 1..rest.find('<').unwrap()];
            (of(rest, " x=\""), of(rest, " y=\""), text.len() as f64)
        })
        .collect()
}

#[test]
fn no_number_stands_over_another() {
    let head = mean_head();
    let (mut looked, mut from_near) = (0, 0);
    for plan in built_ins() {
        let outcome = worked_out(&head, &plan);
        let maps = numbered_maps(&head, &outcome, MOST);
        let usual = if maps.len() == 1 { 14.0 } else { 20.0 };
        for map in &maps {
            let svg = numbered_map(&head, map, usual, "a", "b");
            let labels = stand(&svg);
            // What is drawn from near has small letters in its own units, and shows all of its sections.
            let near = svg.contains("class=\"map near\"");
            let letters = if near { 6.0 } else { usual };
            if near {
                from_near += 1;
                let frame = svg.split("viewBox=\"").nth(1).unwrap();
                let frame = frame.split('"').next().unwrap().split(' ');
                let frame: Vec<f64> = frame.map(|n| n.parse().unwrap()).collect();
                for (x, y, _) in &labels {
                    assert!(*x > frame[0] && *x < frame[0] + frame[2], "{}", plan.id);
                    assert!(*y > frame[1] && *y < frame[1] + frame[3], "{}", plan.id);
                }
            }
            assert_eq!(labels.len(), map.parcels.len());
            looked += labels.len();
            for (i, a) in labels.iter().enumerate() {
                for b in &labels[i + 1..] {
                    // Digits are at most 0.72 of a letter wide and 0.75 high.
                    let apart = (a.0 - b.0).abs() >= 0.36 * letters * (a.2 + b.2) - 0.02
                        || (a.1 - b.1).abs() >= 0.75 * letters;
                    assert!(apart, "{}: {a:?} over {b:?}", plan.id);
                }
            }
        }
    }
    assert!(looked > 200, "{looked}");
    assert_eq!(from_near, 3, "the fringes");
}
