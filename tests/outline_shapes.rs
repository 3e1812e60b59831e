//! The outline chart of every cut, of any head and hair, against its other side and against another head:
//! whole, sound, and as it was last agreed on.

#[path = "common/any.rs"]
mod any;
mod common;

use common::drawn::{PIXEL, VIEWS, crossed, job, lines, of};
use common::{chosen, mean_head};
use proptest::prelude::*;
use tautline::chart::{Against, Draped, OutlineChart, View};
use tautline::cut::{Measured, cut};
use tautline::hair::Hair;
use tautline::head::Tape;
use tautline::measure::Unit;
use tautline::plan::{Choices, built_in, built_ins};

/// Every built-in cut, every choice of it, from every side, against everything: numbers are numbers.
#[test]
fn every_cut_is_drawn_from_every_side() {
    let head = mean_head();
    for plan in built_ins() {
        let (_, after, was) = of(&head, &plan);
        for view in VIEWS {
            for against in [Against::Nothing, Against::Other(&was), Against::OtherSide] {
                let chart = OutlineChart {
                    view,
                    hair: &after,
                    against,
                    unit: Unit::Cm,
                };
                let svg = chart.svg("<a>", "b & c").unwrap();
                sound(&svg, &plan.id);
                let rows = chart.table();
                let sum: f64 = rows.iter().map(|row| row.percent).sum();
                assert!((sum - 100.0).abs() < 1e-6, "{}", plan.id);
                let down = rows.windows(2).all(|two| two[0].from < two[1].from);
                assert!(down, "{}: {rows:?}", plan.id);
                if let Some(other) = rows.iter().map(|row| row.other).sum::<Option<f64>>() {
                    assert!((other - 100.0).abs() < 1e-6, "{}: {other}", plan.id);
                    assert!(!matches!(against, Against::Nothing));
                }
            }
        }
    }
}

fn sound(svg: &str, id: &str) {
    assert!(!svg.contains("NaN") && !svg.contains("inf"), "{id}");
    assert!(
        svg.contains("<title>&lt;a&gt;</title><desc>b &amp; c</desc>"),
        "{id}"
    );
    assert!(svg.contains(r#"role="img""#), "{id}");
    // Inks are named, never given.
    assert!(!svg.contains('#') && !svg.contains("rgb"), "{id}");
    assert_eq!(svg.matches("<svg").count(), 1);
    assert_eq!(svg.matches("</svg>").count(), 1);
    assert_eq!(svg.matches("<g ").count(), svg.matches("</g>").count());
    assert!(svg.len() < 60_000, "{id}: {}", svg.len());
}

/// Left and right of an even cut are each other's mirror image, laid over each other nothing shows; an uneven
/// parting shows.
#[test]
fn the_other_side_lies_on_this_one_where_both_are_alike() {
    let head = mean_head();
    let widest = |svg: &str| {
        let (mut own, other) = (lines(svg, "o-edge"), lines(svg, "o-dashed"));
        own.extend(lines(svg, "o-behind"));
        let mut off = 0.0_f64;
        for y in (-80..200).step_by(7) {
            let y = f64::from(y) + 0.05;
            match (crossed(&own, y), crossed(&other, y)) {
                (Some(a), Some(b)) => off = off.max((a.0 - b.0).abs()).max((a.1 - b.1).abs()),
                (a, b) => {
                    off = off.max(if a.is_some() == b.is_some() {
                        0.0
                    } else {
                        99.0
                    })
                }
            }
        }
        off
    };
    let mut uneven = 0;
    for id in [
        "one-length-bob",
        "side-swept-fringe",
        "soft-layers-face-frame",
    ] {
        let plan = built_in(id).unwrap();
        for pairs in [&[][..], &[("parting", "left")][..]] {
            if !plan.choices.iter().any(|choice| choice.id == "parting") && !pairs.is_empty() {
                continue;
            }
            let (hair, choices) = (Hair::default(), chosen(&plan, pairs));
            let job = job(&head, &hair, &plan, &choices);
            let outcome = cut(&job, &Measured::new()).unwrap();
            let even = job.wear().is_even();
            let after = Draped::of(&job, &outcome).unwrap();
            for view in VIEWS {
                let chart = OutlineChart {
                    view,
                    hair: &after,
                    against: Against::OtherSide,
                    unit: Unit::Cm,
                };
                let off = widest(&chart.svg("a", "b").unwrap());
                assert!(!even || off <= PIXEL, "{id} {view:?} {off}");
                uneven += usize::from(!even && off > PIXEL);
                let (own, other) = chart.weights();
                let same = (own.total() - other.unwrap().total()).abs() < 1e-6;
                assert!(!even || same, "{id}");
            }
        }
    }
    assert!(uneven > 0, "no parting shows");
}

/// Another head is drawn behind, and said; the same head is not.
#[test]
fn another_head_is_laid_behind() {
    let plan = built_in("one-length-bob").unwrap();
    let small = common::head(&[(Tape::Circumference, 52.0)]);
    let (_, a, was) = of(&mean_head(), &plan);
    let (_, b, _) = of(&small, &plan);
    let chart = |other| OutlineChart {
        view: View::Left,
        hair: &a,
        against: Against::Other(other),
        unit: Unit::Cm,
    };
    assert!(chart(&b).heads_differ() && !chart(&was).heads_differ());
    let svg = chart(&b).svg("t", "d").unwrap();
    assert_eq!(svg.matches("o-other-head").count(), 1);
    assert!(!chart(&was).svg("t", "d").unwrap().contains("o-other-head"));
}

/// Stubble, and hair to far below the waist, are drawn too; what runs off below says so.
#[test]
fn stubble_and_very_long_hair_are_drawn() {
    let head = mean_head();
    let (_, stubble, _) = of(&head, &common::plan("1 cm", vec![]));
    let (_, long, _) = of(&head, &common::plan("150 cm", vec![]));
    for (hair, other) in [(&stubble, &long), (&long, &stubble)] {
        for view in VIEWS {
            let chart = OutlineChart {
                view,
                hair,
                against: Against::Other(other),
                unit: Unit::Inches,
            };
            let svg = chart.svg("<a>", "b & c").unwrap();
            sound(&svg, "bare");
            let off = svg.contains("dashed runs on");
            assert_eq!(off, std::ptr::eq(other, &long), "{view:?}");
        }
    }
}

proptest! {
    #![proptest_config(any::config(40))]

    /// Whatever head, hair and plan: what can be worked out is drawn, with numbers for numbers.
    #[test]
    fn whatever_is_worked_out_is_drawn(
        head in any::head(),
        hair in any::hair(),
        plan in any::any_plan(),
        which in 0..4_usize,
        other in any::even_head(),
    ) {
        let choices = Choices::default();
        let job = job(&head, &hair, &plan, &choices);
        let Ok(outcome) = cut(&job, &Measured::new()) else { return Ok(()) };
        let after = Draped::of(&job, &outcome).unwrap();
        let (_, elsewhere, _) = of(&other, &built_in("one-length-bob").unwrap());
        for against in [Against::OtherSide, Against::Other(&elsewhere)] {
            let chart = OutlineChart { view: VIEWS[which], hair: &after, against, unit: Unit::Cm };
            sound(&chart.svg("<a>", "b & c").unwrap(), "any");
        }
    }
}

/// The shapes as they were last agreed on.
#[test]
fn the_shapes_stay_as_they_are() {
    let head = mean_head();
    for (id, view, name) in [
        ("one-length-bob", View::Left, "bob-from-the-left"),
        (
            "soft-layers-face-frame",
            View::Front,
            "layers-from-the-front",
        ),
    ] {
        let (_, after, was) = of(&head, &built_in(id).unwrap());
        let chart = OutlineChart {
            view,
            hair: &after,
            against: Against::Other(&was),
            unit: Unit::Cm,
        };
        let svg = chart
            .svg(name, "The head, its hair and the weight.")
            .unwrap();
        insta::assert_snapshot!(
            name,
            svg.replace("/>", "/>\n").replace("</text>", "</text>\n")
        );
    }
}
