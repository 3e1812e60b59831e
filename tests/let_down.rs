//! Plans let down: what is seen of them from outside. Common practice, no source, where no source is
//! named.

mod common;

use common::{from_head, mean_head, plan, run, step, surveyed_heads};
use tautline::cut::{Job, LetDown, Measured, cut, let_down};
use tautline::fall::{Quarter, View};
use tautline::hair::{Hair, Wear};
use tautline::head::{Head, Landmark, Side};
use tautline::plan::{
    Carried, Choices, Cut, End, Fall, FallLine, Fingers, Given, Held, Over, Pattern, Rule, Start,
    Station, Travel, built_in,
};

fn bob(landmark: Landmark) -> Held {
    Held::Fall(Fall {
        to: Given::Fixed(landmark),
        line: FallLine::Level,
        below: Given::Fixed(0.0),
    })
}

fn down(head: &Head, held: Held) -> LetDown {
    let pattern = match held {
        Held::Travelling(_) => Pattern::Horizontal {
            spacing: 2.0,
            from: End::Bottom,
        },
        _ => Pattern::Radial {
            spacing: 3.0,
            from: Start::Front,
        },
    };
    let outcome = run(head, &plan("waist", vec![step("a", vec![], pattern, held)]));
    let_down(head, &outcome.lengths, &Wear::parted(0.0), 800).unwrap()
}

fn graduation(degrees: f64) -> Held {
    Held::Travelling(Travel {
        elevation: from_head(degrees),
        over: Over::None,
        fingers: Fingers::ParallelToHead,
        guide: Carried::Neighbour,
        length: Rule::Length(Given::Fixed(7.0)),
    })
}

#[test]
fn one_length_ends_on_one_level_all_round() {
    for head in surveyed_heads() {
        let level = head.landmark(Landmark::Chin, Side::Centre).z;
        let bob = down(&head, bob(Landmark::Chin));
        let line = bob.weight.overall.line.unwrap();
        println!(
            "weight {:.2} cm off the level, sharpness {:.3}",
            line.z - level,
            line.sharpness
        );
        assert!((line.z - level).abs() < 0.3 && line.sharpness > 0.8);
        for side in Quarter::ALL {
            assert!(
                (bob.edge.side(side).unwrap() - level).abs() < 0.3,
                "{side:?}"
            );
        }
        assert_eq!(bob.edge.steps(0.5), []);
    }
}

/// The trade's rule that 0° is the heaviest line, and weight falls as elevation rises.
#[test]
fn nothing_is_heavier_than_no_elevation() {
    let head = mean_head();
    let sharpness = |held| down(&head, held).weight.overall.line.unwrap().sharpness;
    let one_length = sharpness(bob(Landmark::Chin));
    let mut last = one_length;
    for degrees in [30.0, 60.0, 90.0] {
        let now = sharpness(graduation(degrees));
        println!("{degrees}°: {now:.3}");
        assert!(now < last, "{degrees}°: {now} after {last}");
        last = now;
    }
}

#[test]
fn layers_end_higher_inside_and_thin_out_below() {
    let head = mean_head();
    let layers = down(
        &head,
        Held::Stationary(Cut {
            station: Station::At(Landmark::HighPoint),
            elevation: from_head(90.0),
            over: Over::None,
            fingers: Fingers::ParallelToHead,
            length: Rule::Length(Given::Fixed(12.0)),
        }),
    );
    let profile = &layers.weight.overall;
    // Fewer hairs pass each lower level: nothing ends below, everything above.
    let top = profile.bulk.iter().copied().fold(0.0, f64::max);
    assert!(profile.bulk[0] < 0.1 * top);
    assert!(profile.line.unwrap().sharpness < 0.4);
}

#[test]
fn silhouettes_hold_head_and_hair() {
    let head = mean_head();
    let bob = down(&head, bob(Landmark::Chin));
    let level = head.landmark(Landmark::Chin, Side::Centre).z;
    for view in [View::LeftSide, View::Front, View::Back] {
        let seen = bob.silhouette(view, 0.5);
        let highest = seen.bands.first().unwrap().z;
        assert!(
            (highest - head.skull().top).abs() < 0.6,
            "{view:?}: {highest}"
        );
        let lowest = seen.bands.last().unwrap().z;
        assert!(lowest <= level + 0.5, "{view:?}: {lowest}");
        // At the widest level it is at least as broad as the head.
        let ring = seen.at(0.0, 0.5).unwrap();
        let half = match view {
            View::LeftSide => head.skull().half_length,
            _ => head.skull().half_breadth,
        };
        assert!(
            ring.from <= -half + 0.1 && ring.to >= half - 0.1,
            "{ring:?}"
        );
        assert!(seen.outline().len() > 60);
    }
    // Front and back are each other's mirror image.
    let (front, back) = (
        bob.silhouette(View::Front, 0.5),
        bob.silhouette(View::Back, 0.5),
    );
    for (f, b) in front.bands.iter().zip(&back.bands) {
        assert!((f.from + b.to).abs() < 1e-6);
    }
}

/// A straight fringe ends half a centimetre below the brow; the rest of the hair is not let down.
#[test]
fn of_a_plan_for_a_part_only_its_own_hair_is_let_down() {
    let head = mean_head();
    for (id, part) in [("straight-fringe", true), ("one-length-bob", false)] {
        let plan = built_in(id).unwrap();
        let job = Job {
            head: &head,
            hair: &Hair::default(),
            plan: &plan,
            choices: &Choices::default(),
        };
        let outcome = cut(&job, &Measured::new()).unwrap();
        let down = outcome.let_down_part(&job, 300).unwrap();
        let [high, most, low] = down.ends().unwrap();
        assert!(high >= most && most >= low);
        let landmark = if part { Landmark::Brow } else { Landmark::Chin };
        let level = head.landmark(landmark, Side::Centre).z - if part { 0.5 } else { 0.0 };
        assert!(
            (low - level).abs() < 0.4 && (most - level).abs() < 0.4,
            "{id} {low} {level}"
        );
        let count = down.fallen.len();
        let expected = if part { 20..200 } else { 250..350 };
        assert!(expected.contains(&count), "{id}: {count}");
    }
}
