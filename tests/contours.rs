//! Contour lines of the scalp map against the lengths themselves.

mod common;

use common::{mean_head, run, three_heads};
use kurbo::Point;
use tautline::chart::{ContourMap, Lines, place_letter, scalp_spot};
use tautline::cut::{CutError, Job, Lengths, Measured, Outcome, SectionKey, TOLD, cut};
use tautline::geometry::Vec3;
use tautline::hair::{Hair, Wear};
use tautline::head::{Head, Landmark, Side};
use tautline::measure::{Length, Unit};
use tautline::plan::{Choices, built_in, built_ins};

/// Units of the map to a centimetre, and what a pixel of it at its natural size is, cm.
const SCALE: f64 = 10.0;
const PIXEL: f64 = 0.1;

fn map(head: &Head, outcome: &Outcome, unit: Unit) -> ContourMap {
    let lines = Lines::Lengths(outcome);
    ContourMap::new(head, lines, &Wear::parted(0.0), unit, ("t", "d")).unwrap()
}

fn root(head: &Head, p: Point) -> Vec3 {
    let mut spot = scalp_spot(head, p);
    spot.out = spot.out.min(1.0);
    head.place(spot)
}

fn at(lengths: &Lengths, head: &Head, p: Point) -> f64 {
    lengths.at(head, root(head, p)).unwrap()
}

/// How far a drawn place is off its line: 0 if the length there, or anywhere within a pixel, is the value to
/// 0.02 cm; else how far the nearest length within a pixel is from it, cm.
fn strays(lengths: &Lengths, head: &Head, p: Point, value: f64) -> f64 {
    let here = at(lengths, head, p) - value;
    if here.abs() <= 0.02 {
        return 0.0;
    }
    let around = (0..16).map(|i| {
        let turn = f64::from(i) / 16.0 * std::f64::consts::TAU;
        let by = PIXEL * SCALE;
        let q = Point::new(p.x + by * turn.cos(), p.y + by * turn.sin());
        at(lengths, head, q) - value
    });
    let all: Vec<f64> = around.chain([here]).collect();
    if all.iter().any(|d| *d <= 0.02) && all.iter().any(|d| *d >= -0.02) {
        return 0.0;
    }
    all.iter()
        .fold(f64::INFINITY, |least, d| least.min(d.abs()))
}

/// Every corner of every line, and the middle between any two, has the line's length there or within a
/// pixel: on every built-in cut, and on a small and a large head too.
#[test]
fn lines_run_where_the_hair_has_their_length() {
    let mean = mean_head();
    let mut looked = 0;
    let mut far: Vec<(f64, String)> = Vec::new();
    let mut check = |head: &Head, id: &str| {
        let outcome = run(head, &built_in(id).unwrap());
        for contour in map(head, &outcome, Unit::Cm).contours {
            let value = contour.value.cm();
            for pair in contour.line.windows(2) {
                for p in [pair[0], pair[0].midpoint(pair[1])] {
                    looked += 1;
                    let off = strays(&outcome.lengths, head, p, value);
                    if off > 0.0 {
                        far.push((off, format!("{id}: {value} cm at {p:?} {pair:?}")));
                    }
                }
            }
        }
    };
    for plan in built_ins() {
        check(&mean, &plan.id);
    }
    for head in three_heads() {
        for id in ["soft-layers-face-frame", "graduated-bob", "square-layers"] {
            check(&head, id);
        }
    }
    far.sort_by(|a, b| b.0.total_cmp(&a.0));
    assert!(looked > 5000, "{looked}");
    assert!(
        far.is_empty(),
        "{} of {looked}: {:#?}",
        far.len(),
        &far[..far.len().min(8)]
    );
}

/// From four to ten lines where lengths differ by enough, and no more of them than are read; the interval is
/// one that a ruler has.
#[test]
fn intervals_are_those_of_a_ruler() {
    let head = mean_head();
    for plan in built_ins() {
        let outcome = run(&head, &plan);
        for (unit, ruler) in [
            (Unit::Cm, vec![0.5, 1.0, 2.0, 5.0]),
            (Unit::Inches, vec![0.25, 0.5, 1.0, 2.0]),
        ] {
            let map = map(&head, &outcome, unit);
            let interval = match unit {
                Unit::Cm => map.interval.cm(),
                Unit::Inches => map.interval.inches(),
            };
            let on_it = |r: &f64| (r - interval).abs() < 1e-9;
            assert!(ruler.iter().any(on_it), "{} {interval}", plan.id);
            let mut values: Vec<i64> = Vec::new();
            for contour in &map.contours {
                let count = contour.value.cm() / map.interval.cm();
                assert!((count - count.round()).abs() < 1e-9, "{}", plan.id);
                values.push(count.round() as i64);
                assert_eq!(contour.heavy, (count.round() as i64) % 5 == 0);
            }
            values.sort_unstable();
            values.dedup();
            assert!(values.len() <= 11, "{} {unit:?} {values:?}", plan.id);
            if let (Some(first), Some(last)) = (values.first(), values.last()) {
                // Nothing between is left out, but for what lies wholly within a step.
                if map.steps.is_empty() {
                    assert_eq!(last - first + 1, values.len() as i64, "{}", plan.id);
                }
                if interval > ruler[0] && map.steps.is_empty() {
                    assert!(values.len() >= 4, "{} {unit:?} {values:?}", plan.id);
                }
            }
        }
    }
}

fn texts(svg: &str, class: &str) -> Vec<String> {
    let from = format!("<text class=\"{class}");
    let words = svg.split(&from).skip(1).map(|rest| {
        let text = &rest[rest.find('>').unwrap() + 1..];
        text[..text.find('<').unwrap()].to_owned()
    });
    words.collect()
}

/// Each line's value stands on the map in the unit, no other does, and nothing is not a number.
#[test]
fn values_are_those_of_the_lines() {
    let head = mean_head();
    for plan in built_ins() {
        let outcome = run(&head, &plan);
        for unit in [Unit::Cm, Unit::Inches] {
            let map = map(&head, &outcome, unit);
            let mut said = texts(&map.svg, "c-label");
            said.sort();
            said.dedup();
            let mut values: Vec<String> =
                map.contours.iter().map(|c| c.value.number(unit)).collect();
            values.sort();
            values.dedup();
            assert_eq!(said, values, "{}", plan.id);
            assert!(!map.svg.contains("NaN") && !map.svg.contains("inf"));
            assert!(map.svg.contains("<title>t</title><desc>d</desc>"));
            assert!(map.svg.len() < 60_000, "{} {}", plan.id, map.svg.len());
            let drawn = map.svg.matches("class=\"c-line").count();
            assert_eq!(drawn, map.contours.len());
        }
    }
    let letters: Vec<&str> = TOLD.into_iter().map(place_letter).collect();
    for (i, letter) in letters.iter().enumerate() {
        assert!(letter.len() == 1 && !letters[..i].contains(letter));
    }
    assert_eq!(place_letter(Landmark::Chin), "");
}

/// Hair of one length all over has no line: layers of one length, on any head.
#[test]
fn one_length_has_no_line() {
    for head in three_heads() {
        let outcome = run(&head, &built_in("uniform-layers").unwrap());
        for unit in [Unit::Cm, Unit::Inches] {
            let all = map(&head, &outcome, unit);
            assert!(all.contours.is_empty() && all.steps.is_empty() && all.nothing);
            assert!(texts(&all.svg, "c-label").is_empty());
        }
        // Not because nothing ever has one.
        let bob = run(&head, &built_in("one-length-bob").unwrap());
        assert!(!map(&head, &bob, Unit::Cm).contours.is_empty());
    }
}

fn both(head: &Head, id: &str, cm: f64, side: Side) -> (Outcome, Outcome) {
    let (hair, choices) = (Hair::default(), Choices::default());
    let plan = built_in(id).unwrap();
    let job = Job {
        head,
        hair: &hair,
        plan: &plan,
        choices: &choices,
    };
    let planned = cut(&job, &Measured::new()).unwrap();
    let first = planned.sections.iter().find(|s| s.cuts()).unwrap();
    let key = SectionKey {
        side,
        ..first.key.clone()
    };
    let section = planned.section(&key).unwrap_or(first);
    let came_out = Length::from_cm(section.long().cm() + cm);
    let measured = Measured::from([(section.key.clone(), came_out)]);
    let real = cut(&job, &measured).unwrap();
    (planned, real)
}

fn change(head: &Head, planned: &Outcome, cut: &Outcome) -> Result<ContourMap, CutError> {
    let lines = Lines::Change { planned, cut };
    ContourMap::new(head, lines, &Wear::parted(0.0), Unit::Cm, ("t", "d"))
}

#[test]
fn what_came_out_as_planned_has_no_line() {
    let head = mean_head();
    for plan in built_ins() {
        let outcome = run(&head, &plan);
        let none = change(&head, &outcome, &outcome).unwrap();
        assert!(
            none.contours.is_empty() && none.steps.is_empty(),
            "{}",
            plan.id
        );
        assert!(texts(&none.svg, "c-spot").is_empty());
    }
}

/// The difference's lines lie where the two lengths differ by their value, signed.
#[test]
fn differences_are_drawn_where_they_are() {
    let head = mean_head();
    let mut looked = 0;
    for (id, cm, side) in [
        ("soft-layers-face-frame", -1.0, Side::Left),
        ("graduated-bob", -1.0, Side::Centre),
        ("square-layers", -1.5, Side::Left),
        ("round-layers", -2.0, Side::Left),
    ] {
        let Some(_) = built_in(id) else { continue };
        let (planned, real) = both(&head, id, cm, side);
        let map = change(&head, &planned, &real).unwrap();
        assert!(!map.svg.contains("NaN"));
        let by = |p: Point| at(&real.lengths, &head, p) - at(&planned.lengths, &head, p);
        for contour in &map.contours {
            for &p in &contour.line {
                looked += 1;
                let off = (by(p) - contour.value.cm()).abs();
                assert!(off < 0.13, "{id}: {off} at {p:?} of {}", contour.value.cm());
            }
        }
        for text in texts(&map.svg, "c-label")
            .iter()
            .chain(&texts(&map.svg, "c-spot"))
        {
            assert!(
                text == "0" || text.starts_with('+') || text.starts_with('\u{2212}'),
                "{text}"
            );
        }
    }
    assert!(looked > 50, "{looked}");
}

/// What stands in a section of the map of differences is what the two lengths differ by as a table shows
/// them, each to the half centimetre: 20.3 and 20.8 read as 20.5 and 21, so half a centimetre more.
#[test]
fn a_difference_on_the_map_adds_up_with_the_lengths_that_are_shown() {
    let head = mean_head();
    let (mut looked, mut otherwise) = (0, 0);
    let halves = |cm: f64| (cm * 2.0).round() / 2.0;
    for (id, cm) in [
        ("soft-layers-face-frame", -1.2),
        ("square-layers", -0.7),
        ("round-layers", -1.7),
    ] {
        let (planned, real) = both(&head, id, cm, Side::Left);
        let said = texts(&change(&head, &planned, &real).unwrap().svg, "c-spot");
        let mut wanted = Vec::new();
        for section in real.sections.iter().filter(|s| s.cuts()) {
            let root = section.section.patch.at(&head, 0.5, 0.62);
            let [from, to] = [&planned, &real].map(|of| of.lengths.at(&head, root).unwrap());
            let by = halves(to) - halves(from);
            if by != 0.0 {
                let sign = if by < 0.0 { '\u{2212}' } else { '+' };
                wanted.push(format!("{sign}{}", by.abs()));
                otherwise += usize::from(by != halves(to - from));
            }
        }
        // Where two would stand on each other, one is left out.
        let mut rest = wanted.iter();
        for text in &said {
            looked += 1;
            assert!(
                rest.any(|other| other == text),
                "{id}: {said:?} of {wanted:?}"
            );
        }
    }
    assert!(looked > 5, "{looked}");
    assert!(
        otherwise > 0,
        "no difference was rounded otherwise: the test tells nothing"
    );
}

/// A line that meets a step ends there: no drawn piece runs over one.
#[test]
fn lines_break_at_a_step() {
    let head = mean_head();
    let mut met = 0;
    for plan in built_ins() {
        let outcome = run(&head, &plan);
        let map = map(&head, &outcome, Unit::Cm);
        met += map.steps.len();
        for step in &map.steps {
            for &p in step {
                // Within 6 mm of a step hair differs by more than any slope of that length makes it.
                let around: Vec<f64> = (0..24)
                    .map(|i| {
                        let turn = f64::from(i) / 24.0 * std::f64::consts::TAU;
                        let q = Point::new(p.x + 3.0 * turn.cos(), p.y + 3.0 * turn.sin());
                        at(&outcome.lengths, &head, q)
                    })
                    .collect();
                let low = around.iter().copied().fold(f64::INFINITY, f64::min);
                let high = around.iter().copied().fold(0.0, f64::max);
                assert!(high - low > 0.1, "{}: {} at {p:?}", plan.id, high - low);
            }
        }
    }
    assert!(met > 0, "no built-in cut has a step");
}
