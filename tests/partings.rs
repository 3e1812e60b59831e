//! Partings: sections are real patches of scalp that share a region out among them.

mod common;

use common::{mean_head, plan, step, surveyed_heads};
use tautline::geometry::{Convex, Vec3};
use tautline::head::{Head, Landmark, Side};
use tautline::plan::{
    Bound, Choices, Edge, End, Held, Line, Pattern, Section, Sides, Start, sections,
};

fn parted(head: &Head, region: &[Bound], pattern: Pattern, sides: Sides) -> Vec<Section> {
    let mut step = step("test", region.to_vec(), pattern, Held::Check);
    step.sides = sides;
    let plan = plan("waist", vec![step]);
    sections(head, &plan, &plan.steps[0], &Choices::default())
}

/// The regions that cuts work in: back below the occipital bone, a side, the top, all of it.
fn regions() -> Vec<(&'static str, Vec<Bound>)> {
    vec![
        (
            "nape",
            vec![
                Bound::Behind(Line::EarToEar),
                Bound::Below(Line::Level {
                    at: Landmark::Occipital,
                    up: 0.0,
                }),
            ],
        ),
        (
            "side",
            vec![Bound::Before(Line::EarToEar), Bound::Below(Line::Horseshoe)],
        ),
        ("top", vec![Bound::Above(Line::Horseshoe)]),
        ("back", vec![Bound::Behind(Line::EarToEar)]),
        ("all", vec![]),
    ]
}

fn patterns() -> Vec<(&'static str, Pattern)> {
    let spacing = 2.0;
    let (bottom, front) = (End::Bottom, Start::Front);
    vec![
        ("whole", Pattern::Whole),
        (
            "horizontal",
            Pattern::Horizontal {
                spacing,
                from: bottom,
            },
        ),
        (
            "vertical",
            Pattern::Vertical {
                spacing,
                from: front,
            },
        ),
        (
            "diagonal forward",
            Pattern::DiagonalForward {
                degrees: 30.0,
                spacing,
                from: bottom,
            },
        ),
        (
            "diagonal back",
            Pattern::DiagonalBack {
                degrees: 30.0,
                spacing,
                from: End::Top,
            },
        ),
        (
            "pivoting about the crown",
            Pattern::Pivoting {
                about: Landmark::Crown,
                spacing,
                from: front,
            },
        ),
        (
            "radial",
            Pattern::Radial {
                spacing,
                from: Start::Back,
            },
        ),
        (
            "horseshoe",
            Pattern::Horseshoe {
                spacing,
                from: End::Top,
            },
        ),
        ("strips", Pattern::Strips { spacing }),
    ]
}

/// Whether anybody parts a region so: level and sloping partings lie flat to the top, strips from
/// front to back run along the sides.
fn usual(region: &str, pattern: Pattern) -> bool {
    match pattern {
        Pattern::Horizontal { .. }
        | Pattern::DiagonalForward { .. }
        | Pattern::DiagonalBack { .. } => ["nape", "side", "back"].contains(&region),
        Pattern::Strips { .. } => ["nape", "top"].contains(&region),
        _ => true,
    }
}

/// Places of one side spread evenly over the scalp, with their areas.
fn side(head: &Head, count: usize, side: Side) -> Vec<(Vec3, f64)> {
    head.samples(count)
        .into_iter()
        .filter(|s| s.root.x * side.sign() > 0.0)
        .map(|s| (s.root, s.area))
        .collect()
}

#[test]
fn every_place_of_a_region_lies_in_one_section() {
    let head = mean_head();
    for (name, region) in regions() {
        let whole = parted(&head, &region, Pattern::Whole, Sides::Both);
        for (kind, pattern) in patterns() {
            let all = parted(&head, &region, pattern, Sides::Both);
            for hand in [Side::Left, Side::Right] {
                let region = whole.iter().find(|s| s.side == hand).unwrap();
                for (root, _) in side(&head, 900, hand) {
                    let holding = |p: Vec3| {
                        let ours = all.iter().filter(|s| s.side == hand);
                        ours.filter(|s| s.patch.holds(p)).count()
                    };
                    let expected = usize::from(region.patch.holds(root));
                    let mut found = holding(root);
                    if found > expected {
                        // On the very edge of two sections: a hair's breadth away, to one side or the
                        // other, it is one.
                        let aside = [
                            Vec3::new(0.005, 0.007, 0.003),
                            Vec3::new(-0.007, 0.005, 0.0),
                        ];
                        let found_there = aside.map(|a| holding(head.skull().settle(root + a)));
                        found = found_there[0].min(found_there[1]);
                    }
                    assert_eq!(found, expected, "{name}, {kind}: {root}");
                }
            }
        }
    }
}

/// Each section measured on its own, by pieces between its rows; the region by even samples of the
/// scalp. A row has one run, so a wedge about a point outside the region may miss a little of it.
#[test]
fn the_areas_of_sections_add_up_to_the_regions() {
    let head = mean_head();
    for (name, region) in regions() {
        for (kind, pattern) in patterns() {
            if !usual(name, pattern) {
                continue;
            }
            let all = parted(&head, &region, pattern, Sides::Both);
            let left: Vec<&Section> = all.iter().filter(|s| s.side == Side::Left).collect();
            let sum: f64 = left.iter().map(|s| s.patch.area(&head, 16)).sum();
            let whole: f64 = side(&head, 20_000, Side::Left)
                .into_iter()
                .filter(|(root, _)| left.iter().any(|s| s.patch.holds(*root)))
                .map(|(_, area)| area)
                .sum();
            println!(
                "{name}, {kind}: {sum:.1} of {whole:.1} cm² in {} sections",
                left.len()
            );
            let off = (sum - whole).abs() / whole;
            assert!(off < 0.05, "{name}, {kind}: {sum} of {whole}");
        }
    }
}

/// The scalp of the mean head. No survey gives it; from memory, a scalp is about 600 to 700 cm².
#[test]
fn samples_share_out_the_scalp() {
    let head = mean_head();
    let area = |count| head.samples(count).iter().map(|s| s.area).sum::<f64>();
    let (coarse, fine) = (area(600), area(20_000));
    assert!((coarse - fine).abs() / fine < 0.005, "{coarse} {fine}");
    assert!((500.0..800.0).contains(&fine), "{fine}");
    for sample in head.samples(600) {
        assert!(head.grows_hair(sample.root) && sample.area > 0.0);
    }
}

#[test]
fn sections_are_no_deeper_than_the_spacing_and_near_it() {
    for head in surveyed_heads() {
        for spacing in [1.0, 1.5, 2.5] {
            let back = [
                Bound::Behind(Line::EarToEar),
                Bound::Below(Line::Level {
                    at: Landmark::Occipital,
                    up: 0.0,
                }),
            ];
            let pattern = Pattern::Horizontal {
                spacing,
                from: End::Bottom,
            };
            let all = parted(&head, &back, pattern, Sides::Both);
            let left: Vec<&Section> = all.iter().filter(|s| s.side == Side::Left).collect();
            assert!(left.len() >= 3);
            for pair in left.windows(2) {
                let deep =
                    (pair[1].patch.at(&head, 0.0, 0.0)).distance(pair[0].patch.at(&head, 0.0, 0.0));
                assert!((0.4 * spacing..1.1 * spacing).contains(&deep), "{deep}");
                // From the bottom each next one lies higher.
                assert!(pair[1].patch.at(&head, 0.5, 0.5).z > pair[0].patch.at(&head, 0.5, 0.5).z);
            }
        }
    }
}

#[test]
fn both_sides_are_parted_alike() {
    for head in surveyed_heads() {
        for (name, region) in regions() {
            for (kind, pattern) in patterns() {
                let all = parted(&head, &region, pattern, Sides::Both);
                let of = |side| all.iter().filter(move |s| s.side == side);
                assert_eq!(of(Side::Left).count(), of(Side::Right).count());
                for (l, r) in of(Side::Left).zip(of(Side::Right)) {
                    for (a, b) in l.patch.roots(&head, 3).iter().zip(r.patch.roots(&head, 3)) {
                        let twin = Vec3::new(-b.x, b.y, b.z);
                        assert!(a.distance(twin) < 1e-6, "{name}, {kind}: {a} {b}");
                    }
                }
            }
        }
    }
}

#[test]
fn roots_lie_in_their_section_within_the_hairline() {
    for head in surveyed_heads() {
        for (name, region) in regions() {
            for (kind, pattern) in patterns() {
                if !usual(name, pattern) {
                    continue;
                }
                for section in parted(&head, &region, pattern, Sides::Both) {
                    let roots = section.patch.roots(&head, 3);
                    assert_eq!(roots.len(), 9, "{name}, {kind} {}", section.number);
                    for root in &roots {
                        // A little towards the middle, for what a row bends between its points.
                        let inward = head.skull().settle(root.lerp(roots[4], 0.005));
                        let held = section.patch.holds(*root) || section.patch.holds(inward);
                        assert!(held, "{name}, {kind}: {root}");
                        assert!(head.spot(*root).out < 1.02, "{name}, {kind}: {root}");
                    }
                }
            }
        }
    }
}

#[test]
fn a_fringe_is_a_triangle_with_its_point_on_the_parting() {
    let head = mean_head();
    let region = [Bound::Before(Line::Fringe {
        depth: 4.0,
        width: 40.0,
    })];
    let across = parted(&head, &region, Pattern::Whole, Sides::Across);
    assert_eq!((across.len(), across[0].side), (1, Side::Centre));
    let middle = across[0].patch.row(&head, 0.5);
    assert!((middle.length() - 4.0).abs() < 0.5, "{}", middle.length());
    for share in [0.1, 0.9] {
        let row = across[0].patch.row(&head, share);
        assert!(row.length() < 0.5 * middle.length());
        let [near, far] = [share, 1.0 - share].map(|s| across[0].patch.at(&head, s, 1.0));
        assert!((near.x + far.x).abs() < 1e-6);
    }
}

#[test]
fn a_strip_along_the_middle_is_one_section_from_front_to_nape() {
    let head = mean_head();
    let region = [Bound::Within(Line::Beside { cm: 1.0 })];
    let strip = parted(
        &head,
        &region,
        Pattern::Strips { spacing: 9.0 },
        Sides::Across,
    );
    assert_eq!(strip.len(), 1);
    for root in strip[0].patch.roots(&head, 3) {
        assert!(root.x.abs() <= 1.0 + 1e-6);
    }
    let middle: f64 = strip[0].patch.row(&head, 0.5).length();
    let tape = head.model_tape(tautline::head::Tape::HairlineToNape);
    assert!((middle - tape).abs() < 0.5, "{middle} {tape}");
}

#[test]
fn pivoting_sections_end_where_their_edges_say() {
    let head = mean_head();
    let region = [
        Bound::Behind(Line::ToHighPoint(Edge::InFrontOfEar)),
        Bound::Before(Line::ToHighPoint(Edge::BehindEar)),
    ];
    let wedge = parted(&head, &region, Pattern::Whole, Sides::Both);
    let ear = head.landmark(Landmark::AboveEar, Side::Left);
    let nape = head.landmark(Landmark::NapeCorner, Side::Left);
    assert!(wedge[0].patch.holds(ear) && !wedge[0].patch.holds(nape));
}
