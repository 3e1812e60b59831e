//! Lengths along lines of the head against the model.

mod common;

use common::made::Made;
use common::{mean_head, three_heads};
use tautline::chart::{Along, AlongChart, AlongHalf, AlongLine, along_chart, along_said};
use tautline::cut::{Outcome, cut};
use tautline::geometry::Vec3;
use tautline::head::{Head, Landmark, Side};
use tautline::measure::{Length, Unit};
use tautline::plan::{built_in, built_ins};
use tautline::walk::{Kind, Tolerances, Walk, kind_at, order};

fn chart(along: &Along, unit: Unit) -> AlongChart {
    along_chart(along, None, unit, "a <t>", "d & d").unwrap()
}

/// The chart of one half.
fn alone(along: &Along, half: &AlongHalf, unit: Unit) -> AlongChart {
    along_chart(along, Some(half.side), unit, "a <t>", "d & d").unwrap()
}

/// The points of all lines of this ink, line by line.
fn lines(svg: &str, element: &str, ink: &str) -> Vec<Vec<(f64, f64)>> {
    let with_ink = |tag: &&str| tag.contains(ink);
    svg.split(&format!("<{element} "))
        .skip(1)
        .map(|rest| rest.split("/>").next().unwrap())
        .filter(with_ink)
        .map(|tag| {
            let points = tag.split("points=\"").nth(1).unwrap();
            let points = points.split('"').next().unwrap().split_whitespace();
            points
                .map(|pair| {
                    let (x, y) = pair.split_once(',').unwrap();
                    (x.parse().unwrap(), y.parse().unwrap())
                })
                .collect()
        })
        .collect()
}

/// What a drawn point says: cm along, cm long.
fn said_by(chart: &AlongChart, p: (f64, f64)) -> (f64, f64) {
    let (a, b) = (chart.place(0.0, 0.0), chart.place(1.0, 1.0));
    ((p.0 - a.0) / (b.0 - a.0), (p.1 - a.1) / (b.1 - a.1))
}

/// One CSS pixel, in cm of length: also along the line a pixel is somewhere else.
fn pixel(chart: &AlongChart) -> (f64, f64) {
    let (a, b) = (chart.place(0.0, 0.0), chart.place(1.0, 1.0));
    (
        AlongChart::FINE / (b.0 - a.0).abs(),
        AlongChart::FINE / (b.1 - a.1).abs(),
    )
}

/// The length at a place of a half, the whole way from a pixel before to a pixel after it.
fn around(head: &Head, half: &AlongHalf, outcome: &Outcome, at: f64, by: f64) -> (f64, f64) {
    let all = (-4..=4).map(|i| {
        let root = half.root(head, at + by * f64::from(i) / 4.0);
        outcome.lengths.at(head, root).unwrap()
    });
    all.fold((f64::INFINITY, 0.0), |(low, high), cm| {
        (cm.min(low), cm.max(high))
    })
}

/// Every drawn corner of target and hair before, of every built-in cut, line and unit, lies within a pixel
/// of the length that the fold has at that root.
#[test]
fn lines_are_drawn_where_the_lengths_are() {
    let head = mean_head();
    let mut looked = 0;
    for plan in built_ins() {
        let made = Made::of(&head, plan);
        for line in AlongLine::ALL {
            let along = made.along(line, None);
            assert_eq!(along.halves.len() == 1, made.planned.is_even());
            let both = along.halves.iter();
            for (half, unit) in both.flat_map(|h| [(h, Unit::Cm), (h, Unit::Inches)]) {
                let chart = alone(&along, half, unit);
                let target = if half.side == Side::Right {
                    "var(--right)\" stroke-dasharray=\"26 12\""
                } else {
                    "stroke=\"var(--left)\""
                };
                assert!(!chart.svg.contains("NaN") && chart.svg.len() < 60_000);
                let (px_along, px) = pixel(&chart);
                for (outcome, ink) in [
                    (&made.planned, target),
                    (&made.before, "stroke=\"var(--soft)\""),
                ] {
                    for &p in lines(&chart.svg, "polyline", ink).iter().flatten() {
                        let (at, cm) = said_by(&chart, p);
                        let (low, high) = around(&head, half, outcome, at, px_along);
                        assert!(
                            cm > low - px && cm < high + px,
                            "{} {line:?}: {cm} at {at}, is {low} to {high}",
                            made.plan.id
                        );
                        looked += 1;
                    }
                }
            }
        }
    }
    assert!(looked > 8000, "{looked}");
}

/// The axis says what the lines are read by: each figure stands beside the height of its length.
#[test]
fn figures_stand_at_their_heights() {
    let made = Made::of(&mean_head(), built_in("soft-layers-face-frame").unwrap());
    for unit in [Unit::Cm, Unit::Inches] {
        let chart = chart(&made.along(AlongLine::Centre, None), unit);
        let mut read = 0;
        for tag in chart.svg.split("<text ").skip(1) {
            let (attributes, rest) = tag.split_once('>').unwrap();
            let Ok(value) = rest.split('<').next().unwrap().trim().parse::<f64>() else {
                continue;
            };
            let y = attributes.split(" y=\"").nth(1).unwrap();
            let y: f64 = y.split('"').next().unwrap().parse().unwrap();
            let cm = match unit {
                Unit::Cm => value,
                Unit::Inches => Length::from_inches(value).cm(),
            };
            let (_, wanted) = chart.place(0.0, cm);
            assert!(
                (y - wanted).abs() < 2.0 * AlongChart::FINE,
                "{value}: {y} for {wanted}"
            );
            read += 1;
        }
        assert!(read >= 4, "{read}");
        assert!(chart.svg.contains("a &lt;t&gt;") && chart.svg.contains("d &amp; d"));
        assert!(chart.svg.contains("role=\"img\""));
    }
}

/// The band is the plan with just what its kind of hair may be off, above and below.
#[test]
fn the_band_is_what_may_be_off() {
    let head = mean_head();
    let mut own = Tolerances::default();
    for (kind, cm) in Kind::ALL.into_iter().zip([0.4, 0.7, 1.1, 1.6]) {
        own.set(kind, cm);
    }
    let mut seen = Vec::new();
    for plan in built_ins() {
        let made = Made::of(&head, plan);
        for line in AlongLine::ALL {
            let along = made.along_within(line, None, &own);
            for half in &along.halves {
                let chart = alone(&along, half, Unit::Cm);
                let bands = lines(&chart.svg, "polygon", "fill=\"var(--left-wash)\"");
                assert_eq!(bands.len(), half.planned.len());
                for ((run, tolerance), band) in half.planned.iter().zip(&half.tolerance).zip(bands)
                {
                    for (&(at, cm), &off) in run.iter().zip(tolerance) {
                        let root = half.root(&head, at);
                        let kind = kind_at(&made.job(), &made.planned, root, cm).unwrap();
                        assert_eq!(off, own.of(kind));
                        seen.push(kind);
                        for edge in [cm + off, (cm - off).max(0.0)] {
                            let wanted = chart.place(at, edge);
                            let near = band.iter().any(|p| {
                                (p.0 - wanted.0).abs() < AlongChart::FINE
                                    && (p.1 - wanted.1).abs() < AlongChart::FINE
                            });
                            assert!(near, "{} {line:?}: {edge} at {at}", made.plan.id);
                        }
                    }
                }
            }
        }
    }
    for kind in Kind::ALL {
        assert!(seen.contains(&kind), "{kind:?} is on no line");
    }
}

/// Named places stand where they are on the head: measured along the scalp by other means.
#[test]
fn named_places_stand_where_they_are() {
    for head in three_heads() {
        let made = Made::of(&head, built_in("uniform-layers").unwrap());
        let front = head.meridian(0.0).hairline();
        let back = head.meridian(std::f64::consts::PI).hairline();
        let down = |place| head.spot(head.landmark(place, Side::Centre)).out * back;
        let centre = made.along(AlongLine::Centre, None);
        let half = &centre.halves[0];
        let wanted = [
            0.0,
            front,
            front + down(Landmark::Crown),
            front + down(Landmark::Occipital),
            front + back,
        ];
        for (mark, wanted) in half.marks.iter().zip(wanted) {
            assert!((mark.at - wanted).abs() < 0.1, "{mark:?} for {wanted}");
            // The root that stands for it grows beside the line's own: uniform layers are alike there.
            let on_line = half.root(&head, mark.at);
            let planned = made.planned.lengths.at(&head, on_line).unwrap();
            assert!((mark.planned - planned).abs() < 0.2, "{mark:?}: {planned}");
        }
        // Round the hairline and over the ears every place is near the root that stands for it, in order.
        for line in [AlongLine::Hairline, AlongLine::EarToEar] {
            let along = made.along(line, None);
            let half = &along.halves[0];
            for pair in half.marks.windows(2) {
                assert!(pair[0].at < pair[1].at);
            }
            for mark in &half.marks {
                let far = half
                    .root(&head, mark.at)
                    .distance(head.landmark(mark.place, Side::Left));
                assert!(far < 2.5, "{line:?} {mark:?}: {far}");
                if line == AlongLine::Hairline {
                    assert!(far < 0.25, "{line:?} {mark:?}: {far}");
                }
            }
            let tags = chart(&along, Unit::Cm).svg;
            for mark in half.marks.iter().filter(|m| !m.short.is_empty()) {
                assert!(
                    tags.contains(&format!("\n{}\n", mark.short)),
                    "{}",
                    mark.short
                );
            }
        }
    }
}

/// A line is broken only where hair next to each other differs by a step, and everywhere it does.
#[test]
fn lines_break_at_steps_only() {
    let head = mean_head();
    let mut steps = 0;
    for plan in built_ins() {
        let made = Made::of(&head, plan);
        for line in AlongLine::ALL {
            let along = made.along(line, None);
            let half = &along.halves[0];
            let at = |s: f64| made.planned.lengths.at(&head, half.root(&head, s)).unwrap();
            for pair in half.planned.windows(2) {
                let (end, start) = (pair[0][pair[0].len() - 1], pair[1][0]);
                assert!(start.0 - end.0 < 0.011, "{line:?} {end:?} {start:?}");
                assert!((start.1 - end.1).abs() > 0.12);
                steps += 1;
            }
            for pair in half.planned.iter().flat_map(|run| run.windows(2)) {
                let ((a, va), (b, vb)) = (pair[0], pair[1]);
                assert!((at(a) - va).abs() < 1e-6 && (at(b) - vb).abs() < 1e-6);
                assert!(
                    (va - vb).abs() <= 0.12 + 1e-9,
                    "{} {line:?} at {a}",
                    made.plan.id
                );
            }
            let (first, last) = (
                half.planned[0][0].0,
                half.planned.last().unwrap().last().unwrap().0,
            );
            assert!(first == 0.0 && (last - half.long).abs() < 1e-9);
        }
    }
    assert!(steps > 0, "no built-in cut has a step on any line");
}

/// Cut hair is drawn where a section is cut and nowhere else, as long as it is now.
#[test]
fn cut_hair_is_told_where_it_is_cut() {
    let head = mean_head();
    let made = Made::of(&head, built_in("soft-layers-face-frame").unwrap());
    let all = made.planned.sections.len();
    let mut some = 0;
    for done in [1, all / 2, all] {
        let (walk, real) = made.walked(done, -1.0);
        for line in AlongLine::ALL {
            let along = made.along(line, Some((&walk, &real)));
            for half in &along.halves {
                let is_cut = |p: Vec3| {
                    let here = real
                        .sections
                        .iter()
                        .filter(|s| s.cuts() && s.section.patch.holds(p));
                    here.clone().next().is_some() && here.clone().all(|s| walk.is_done(&s.key))
                };
                for &(at, cm) in half.cut.iter().flatten() {
                    let root = half.root(&head, at);
                    assert!(is_cut(root));
                    assert!((cm - real.lengths.at(&head, root).unwrap()).abs() < 1e-9);
                    some += 1;
                }
                let told = |s: f64| {
                    half.cut
                        .iter()
                        .any(|run| run[0].0 <= s && run[run.len() - 1].0 >= s)
                };
                let steps = (half.long / 0.3) as usize;
                for s in (0..steps).map(|i| i as f64 * 0.3 + 0.1) {
                    let beside = [s - 0.02, s, s + 0.02].map(|s| is_cut(half.root(&head, s)));
                    if beside[0] == beside[1] && beside[1] == beside[2] {
                        assert_eq!(told(s), beside[1], "{line:?} {:?} {s}", half.side);
                    }
                }
                if !half.cut.is_empty() {
                    let svg = chart(&along, Unit::Cm).svg;
                    assert!(svg.contains("var(--accent)"));
                }
            }
        }
    }
    assert!(some > 200, "{some}");
}

/// Left and right are told apart once they differ, each on its own side and drawn in its own way.
#[test]
fn left_and_right_are_laid_over_each_other() {
    let head = mean_head();
    let made = Made::of(&head, built_in("soft-layers-face-frame").unwrap());
    let all = made.planned.sections.len();
    let (walk, real) = made.walked(all, -1.5);
    assert!(!real.is_even());
    let along = made.along(AlongLine::Hairline, Some((&walk, &real)));
    let sides: Vec<Side> = along.halves.iter().map(|h| h.side).collect();
    assert_eq!(sides, [Side::Left, Side::Right]);
    for half in &along.halves {
        for i in 0..20 {
            let root = half.root(&head, half.long * f64::from(i) / 19.0);
            assert!(root.x * half.side.sign() > 0.0, "{root:?}");
        }
    }
    let svg = |shown| along_chart(&along, shown, Unit::Cm, "t", "d").unwrap().svg;
    let (both, left, right) = (svg(None), svg(Some(Side::Left)), svg(Some(Side::Right)));
    let dashed = "stroke-dasharray=\"26 12\"";
    assert!(both.contains(dashed) && right.contains(dashed) && !left.contains(dashed));
    assert_eq!(
        both.matches("<polygon").count(),
        left.matches("<polygon").count() + right.matches("<polygon").count()
    );
    let said = along_said(&along, Unit::Cm);
    assert!(
        said.contains("Cut on the left: up to 1.5 cm shorter than planned"),
        "{said}"
    );
    assert!(said.contains("Planned on both sides: from "), "{said}");
}

/// The words name the shortest and the longest that are drawn.
#[test]
fn words_say_what_is_drawn() {
    let head = mean_head();
    for plan in built_ins() {
        let made = Made::of(&head, plan);
        for line in AlongLine::ALL {
            let along = made.along(line, None);
            let all = along.halves[0].planned.iter().flatten().map(|p| p.1);
            let low = Length::from_cm(all.clone().fold(f64::INFINITY, f64::min));
            let high = Length::from_cm(all.fold(0.0, f64::max));
            for unit in [Unit::Cm, Unit::Inches] {
                let said = along_said(&along, unit);
                assert!(
                    said.contains(&low.shown(unit)) && said.contains(&high.shown(unit)),
                    "{said}"
                );
                assert!(said.ends_with('.'), "{said}");
            }
        }
    }
}

/// Where hair was far longer, the chart ends below it and says so.
#[test]
fn far_longer_hair_does_not_press_the_plan_down() {
    let head = mean_head();
    let mut ended = 0;
    for plan in built_ins() {
        let made = Made::of(&head, plan);
        let along = made.along(AlongLine::Centre, None);
        let chart = chart(&along, Unit::Cm);
        let half = &along.halves[0];
        let most =
            |runs: &[Vec<(f64, f64)>]| runs.iter().flatten().fold(0.0, |m: f64, p| m.max(p.1));
        let top = chart.place(0.0, most(&half.planned)).1;
        let bottom = chart.place(0.0, 0.0).1;
        assert!(bottom - top > 230.0, "{}: {}", made.plan.id, bottom - top);
        match chart.above {
            Some(above) => {
                assert!((above.cm() - most(&half.before)).abs() < 1e-9);
                ended += 1;
            }
            None => assert!(chart.place(0.0, most(&half.before)).1 > 0.0),
        }
    }
    assert!(ended > 0);
}

/// A place has one length, whichever table tells it; where a step runs through it, the words say so.
#[test]
fn a_place_reads_alike_in_every_table() {
    let (mut looked, mut stepped) = (0, 0);
    for plan in built_ins() {
        let made = Made::of(&mean_head(), plan);
        let told = made.planned.at_places(&made.head).unwrap();
        for line in AlongLine::ALL {
            let along = made.along(line, None);
            let said = along_said(&along, Unit::Cm);
            for mark in &along.halves[0].marks {
                let same = told.iter().find(|t| t.place == mark.place);
                if let Some(told) = same.filter(|t| t.side != Side::Right) {
                    assert!((told.cut.0.cm() - mark.planned).abs() < 1e-9, "{mark:?}");
                    looked += 1;
                }
                if let Some((short, long)) = mark.step {
                    assert!(short <= mark.planned + 1e-9 && mark.planned <= long + 1e-9);
                    assert!(
                        said.contains(&format!("At the {} a step", mark.name)),
                        "{said}"
                    );
                    stepped += 1;
                }
            }
        }
    }
    assert!(looked > 150 && stepped > 3, "{looked}, {stepped}");
}

/// A place of the middle is looked at on either side of it.
#[test]
fn either_side_of_the_middle_has_its_own_length() {
    let made = Made::of(&mean_head(), built_in("soft-layers-face-frame").unwrap());
    let mut walk = Walk::start("2026-11-26T09:00:00Z");
    let keys = order(&made.planned);
    let longer = Length::from_cm(made.planned.sections[0].long().cm() + 1.0);
    walk.put_down(&keys[0], Some(longer), None, "2026-11-26T09:05:00Z");
    // Both front pieces, and the section beside the left one.
    for section in &made.planned.sections[..3] {
        walk.done(&keys, Some(section.long()), "2026-11-26T09:06:00Z");
    }
    let real = cut(&made.job(), &walk.measured()).unwrap();
    let along = made.along(AlongLine::Centre, Some((&walk, &real)));
    let [left, right] = [0, 1].map(|half| &along.halves[half].marks[0]);
    assert_eq!(
        (left.place, right.place),
        (Landmark::FrontHairline, Landmark::FrontHairline)
    );
    assert!((left.planned - right.planned).abs() < 0.05);
    assert!(left.cut.unwrap() > left.planned + 0.5 && right.cut.is_none());
}

/// What the plan never cuts is not waited for.
#[test]
fn hair_outside_of_the_plan_is_told_apart() {
    let made = Made::of(&mean_head(), built_in("straight-fringe").unwrap());
    let along = made.along(AlongLine::Centre, None);
    let cuts: Vec<bool> = along.halves[0].marks.iter().map(|m| m.cuts).collect();
    assert_eq!(cuts, [true, false, false, false, false]);
}
