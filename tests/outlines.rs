//! The outline chart against the model: what is drawn lies where hair falls, and head and weight stand on
//! one scale of heights.

mod common;

use common::drawn::{PIXEL, VIEWS, job, lines, of};
use common::{mean_head, three_heads};
use tautline::chart::{Against, OutlineChart, View, heaps};
use tautline::cut::{EndAt, Job, Outcome, What};
use tautline::fall::{Hanging, fall_path};
use tautline::geometry::Vec3;
use tautline::hair::Hair;
use tautline::head::{Body, Head, Landmark, Side};
use tautline::measure::Unit;
use tautline::plan::{Choices, built_in};

/// Hairs of the scalp that the outline is held against, and what they leave open themselves: they grow 1.4
/// millimetres apart, and nothing is drawn between them.
const HAIRS: usize = 30_000;
const BETWEEN: f64 = 0.3;

/// Where the head's own origin is set in: its height is that of the middle of the head.
fn origin(svg: &str) -> (f64, f64) {
    let at = svg.split("translate(").nth(1).unwrap();
    let mut parts = at.split(')').next().unwrap().split(' ');
    let mut next = || parts.next().unwrap().parse().unwrap();
    (next(), next())
}

/// The numbers of an attribute of every element of a class.
fn attributes(svg: &str, class: &str, name: &str) -> Vec<f64> {
    let of_class = svg
        .split('<')
        .filter(|el| el.contains(&format!(r#"class="{class}""#)));
    of_class
        .map(|el| {
            let value = el.split(&format!(r#" {name}=""#)).nth(1).unwrap();
            value.split('"').next().unwrap().parse().unwrap()
        })
        .collect()
}

/// How far a place lies from the nearest line.
fn off(lines: &[Vec<(f64, f64)>], x: f64, y: f64) -> f64 {
    let pairs = lines.iter().flat_map(|line| line.windows(2));
    let away = pairs.map(|pair| {
        let (a, b) = (pair[0], pair[1]);
        let (dx, dy) = (b.0 - a.0, b.1 - a.1);
        let along = ((x - a.0) * dx + (y - a.1) * dy) / (dx * dx + dy * dy).max(1e-12);
        let share = along.clamp(0.0, 1.0);
        (a.0 + dx * share - x).hypot(a.1 + dy * share - y)
    });
    away.fold(f64::INFINITY, f64::min)
}

/// The ways of hair of many more roots than the chart takes, each sewn to nothing.
fn ways(head: &Head, outcome: &Outcome, job: &Job<'_>, count: usize) -> Vec<Vec<Vec3>> {
    let (body, worn) = (Body::of(head), job.wear().on(head));
    let samples = head.samples(count);
    let way = |root| {
        let length = outcome.lengths.falls_to(head, root).unwrap();
        fall_path(&body, &worn, Hanging { root, length }, 0.3).0
    };
    samples.into_iter().map(|sample| way(sample.root)).collect()
}

/// How far hair reaches across at a height in one view, cm in the picture's own direction.
fn reach(ways: &[Vec<Vec3>], view: View, z: f64) -> Option<(f64, f64)> {
    let mut reach: Option<(f64, f64)> = None;
    for pair in ways.iter().flat_map(|way| way.windows(2)) {
        let (a, b) = (pair[0], pair[1]);
        let share = (z - a.z) / (b.z - a.z);
        let side = matches!(view, View::Left | View::Right);
        if !(0.0..=1.0).contains(&share) || side && view.depth((a + b) / 2.0) < -0.5 {
            continue;
        }
        let x = view.project(a.lerp(b, share)).x;
        let (from, to) = reach.unwrap_or((x, x));
        reach = Some((from.min(x), to.max(x)));
    }
    reach
}

/// At heights all the way down the drawn edge is as wide as hair of sixty times as many roots falls, and the
/// lowest point drawn is its lowest end.
#[test]
fn the_outline_is_drawn_where_hair_falls() {
    let head = mean_head();
    let mut worst = 0.0_f64;
    let mut seen = 0;
    for id in [
        "one-length-bob",
        "graduated-bob",
        "soft-layers-face-frame",
        "tapered-nape",
    ] {
        let plan = built_in(id).unwrap();
        let (hair, choices) = (Hair::default(), Choices::default());
        let job = job(&head, &hair, &plan, &choices);
        let (outcome, after, _) = of(&head, &plan);
        let ways = ways(&head, &outcome, &job, HAIRS);
        for view in [View::Left, View::Right, View::Back] {
            // Seen from the back of long hair a few hairs balance on the shoulder's ridge, out to its end.
            if view == View::Back && id == "soft-layers-face-frame" {
                continue;
            }
            let chart = OutlineChart {
                view,
                hair: &after,
                against: Against::Nothing,
                unit: Unit::Cm,
            };
            let svg = chart.svg("t", "d").unwrap();
            let mut edge = lines(&svg, "o-edge");
            edge.extend(lines(&svg, "o-behind"));
            let top = head.skull().top;
            let low = ways
                .iter()
                .flatten()
                .filter(|p| view == View::Back || view.depth(**p) > -0.5);
            let low = low.map(|p| p.z).fold(0.0, f64::min);
            let drawn = edge.iter().flatten().map(|p| p.1).fold(0.0, f64::max);
            assert!(
                (drawn + low * 10.0).abs() <= 2.0 * PIXEL,
                "{id} {view:?}: {drawn} {low}"
            );
            let mut z = top - 0.5;
            while z > low + 0.5 {
                let (from, to) = reach(&ways, view, z).unwrap();
                let y = -z * 10.0;
                let off = off(&edge, from, y).max(off(&edge, to, y));
                seen += 1;
                if off > PIXEL + BETWEEN {
                    println!("{id} {view:?} at {z:.2}: {off:.2} from {from:.1} and {to:.1}");
                }
                worst = worst.max(off);
                z -= 0.37;
            }
        }
    }
    println!("{seen} heights, {worst:.2} units off at most");
    assert!(seen > 700 && worst <= PIXEL + BETWEEN, "{worst}");
}

/// A height lies on one line in both parts: the middle of the head where the head is set in, the
/// bars where their heaps lie, the weight line and the levels at theirs.
#[test]
fn head_and_weight_share_their_heights() {
    let head = mean_head();
    for id in ["one-length-bob", "square-layers"] {
        let (_, after, was) = of(&head, &built_in(id).unwrap());
        for view in VIEWS {
            for unit in [Unit::Cm, Unit::Inches] {
                let chart = OutlineChart {
                    view,
                    hair: &after,
                    against: Against::Other(&was),
                    unit,
                };
                let svg = chart.svg("t", "d").unwrap();
                let (_, middle) = origin(&svg);
                let y = |z: f64| middle - z * 10.0;
                let bars = [
                    attributes(&svg, "o-bar", "y"),
                    attributes(&svg, "o-bar", "height"),
                    attributes(&svg, "o-bar", "width"),
                    attributes(&svg, "o-bar", "x"),
                ];
                let heaps = heaps(chart.weights().0);
                assert_eq!(bars[0].len(), heaps.len(), "{id}");
                let longest = heaps.iter().map(|heap| heap.percent).fold(0.0, f64::max);
                let widest = bars[2].iter().copied().fold(0.0, f64::max);
                for (i, heap) in heaps.iter().enumerate() {
                    let (top, tall, wide) = (bars[0][i], bars[1][i], bars[2][i]);
                    assert!((top - y(heap.high)).abs() <= PIXEL, "{id} {heap:?} {top}");
                    assert!((top + tall - y(heap.low)).abs() <= PIXEL, "{id} {heap:?}");
                    let share = heap.percent / longest * widest;
                    assert!(
                        (wide - share).abs() <= PIXEL,
                        "{id} {heap:?} {wide} {share}"
                    );
                    assert_eq!(bars[3][i], bars[3][0]);
                }
                let total: f64 = heaps.iter().map(|heap| heap.percent).sum();
                assert!((total - 100.0).abs() < 1e-6);
                let line = after.down.weight.overall.line.unwrap();
                let drawn = lines(&svg, "o-weight");
                let (from, to) = (drawn[0][0], drawn[0][1]);
                assert!((from.1 + line.z * 10.0).abs() <= 0.1 && from.1 == to.1);
                // It runs through the weight's part to its right edge.
                let width: f64 = svg
                    .split("viewBox=\"0 0 ")
                    .nth(1)
                    .unwrap()
                    .split(' ')
                    .next()
                    .unwrap()
                    .parse()
                    .unwrap();
                assert!((to.0 + origin(&svg).0 - width).abs() <= PIXEL);
                assert!(bars[3][0] > from.0 + origin(&svg).0 && bars[3][0] < width);
            }
        }
    }
}

/// The scale counts down from the high point: each number on it stands as far below as it says.
#[test]
fn the_scale_says_how_far_below_the_top_it_is() {
    let head = mean_head();
    let (_, after, _) = of(&head, &built_in("one-length-bob").unwrap());
    for (unit, long) in [(Unit::Cm, 1.0), (Unit::Inches, 2.54)] {
        let chart = OutlineChart {
            view: View::Left,
            hair: &after,
            against: Against::Nothing,
            unit,
        };
        let svg = chart.svg("t", "d").unwrap();
        let top = origin(&svg).1 - head.skull().top * 10.0;
        let ticks = svg
            .split("<text ")
            .skip(1)
            .filter(|el| el.contains("text-anchor=\"end\" ") && el.contains("o-number"));
        let mut count = 0;
        for tick in ticks {
            let y: f64 = tick
                .split(" y=\"")
                .nth(1)
                .or(tick.split("y=\"").nth(1))
                .unwrap()
                .split('"')
                .next()
                .unwrap()
                .parse()
                .unwrap();
            let words = tick
                .split('>')
                .nth(1)
                .unwrap()
                .split('<')
                .next()
                .unwrap()
                .trim();
            if words.is_empty() {
                continue;
            }
            let down: f64 = words.parse().unwrap();
            assert!(
                (y - top - down * long * 10.0).abs() <= 2.0 * PIXEL,
                "{words} at {y}, top {top}"
            );
            count += 1;
        }
        assert!(count >= 4, "{count}");
    }
}

/// Levels run at the heights of their landmarks and are named by them; the ends' marks lie on the ends.
#[test]
fn levels_and_ends_lie_at_their_heights() {
    for head in three_heads() {
        let (_, after, _) = of(&head, &built_in("soft-layers-face-frame").unwrap());
        for view in VIEWS {
            let chart = OutlineChart {
                view,
                hair: &after,
                against: Against::Nothing,
                unit: Unit::Cm,
            };
            let svg = chart.svg("t", "d").unwrap();
            let levels = lines(&svg, "o-level");
            assert!(levels.len() >= 3);
            let z = |landmark| head.landmark(landmark, Side::Centre).z;
            for landmark in [Landmark::Chin, Landmark::Shoulder] {
                let drawn = levels
                    .iter()
                    .any(|line| (line[0].1 + z(landmark) * 10.0).abs() <= 0.1);
                assert!(drawn, "{landmark:?}");
            }
            assert!(svg.contains(">chin</text>") && svg.contains(">shoulder</text>"));
            let (xs, ys) = (
                attributes(&svg, "o-mark", "cx"),
                attributes(&svg, "o-mark", "cy"),
            );
            let shown = |end: &&EndAt| match (view, end.what) {
                (View::Front, what) => what != What::Back,
                (View::Back, what) => what != What::Front,
                (_, What::Back) => true,
                _ => end.side == view.side(),
            };
            let ends: Vec<&EndAt> = after.ends.iter().filter(shown).collect();
            assert_eq!(xs.len(), ends.len(), "{view:?}");
            for (i, end) in ends.iter().enumerate() {
                let at = view.project(end.tip);
                assert!((xs[i] - at.x).abs() <= PIXEL && (ys[i] - at.y).abs() <= PIXEL);
                assert!((end.level.z - end.tip.z).abs() < 1e-9);
            }
        }
    }
}
