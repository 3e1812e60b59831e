//! The head seen from any side: what is drawn lies where the model has it.

mod common;

use common::{mean_head, run};
use kurbo::{BezPath, ParamCurveNearest, PathEl, Point, Shape};
use tautline::chart::{
    Eye, PENS, Scene, Turned, View, facing, profile, seen_best, turned_picture, turned_window,
};
use tautline::cut::{Job, SectionKey};
use tautline::geometry::{Convex, Vec3};
use tautline::hair::Hair;
use tautline::head::{Body, Head};
use tautline::plan::{Choices, built_in, built_ins};

/// A tenth of a millimetre: numbers in pictures are rounded to it.
const ROUNDED: f64 = 0.15;

fn eyes() -> Vec<Eye> {
    let mut eyes: Vec<Eye> = Eye::NAMED.map(|(_, eye)| eye).into();
    for (turn, tilt) in [(-55.0, 20.0), (130.0, 45.0), (-160.0, -20.0), (15.0, 70.0)] {
        eyes.push(Eye::at_degrees(turn, tilt));
    }
    eyes
}

/// The path that a pen draws, read out of a whole picture.
fn pen(svg: &str, class: &str) -> BezPath {
    let data = svg
        .split(&format!("class=\"{class}\" d=\""))
        .nth(1)
        .unwrap();
    BezPath::from_svg(data.split('"').next().unwrap()).unwrap()
}

fn off(path: &BezPath, at: Point) -> f64 {
    let near = path.segments().map(|s| s.nearest(at, 1e-4).distance_sq);
    near.fold(f64::INFINITY, f64::min).sqrt()
}

fn picture(head: &Turned, eye: Eye, scene: &Scene) -> String {
    turned_picture(
        &head.drawn(eye, scene),
        &turned_window((-30.0, 12.0), 20.0),
        "a <b>",
        "c & d",
    )
}

/// One unit of the picture is a millimetre of the head, and a pixel at its natural size. The places of the
/// skull that lie furthest out in a direction are found among all by looking at each.
#[test]
fn the_outline_is_the_skulls_to_a_pixel() {
    let head = mean_head();
    let turned = Turned::new(&head, -30.0);
    let body = Body::of(&head);
    let mut scalp = Vec::new();
    for row in 0..360 {
        let polar = std::f64::consts::PI * (f64::from(row) + 0.5) / 360.0;
        for column in 0..720 {
            let azimuth = std::f64::consts::TAU * f64::from(column) / 720.0;
            let (sin, cos) = azimuth.sin_cos();
            scalp.push(head.skull().along(Vec3::new(
                polar.sin() * sin,
                polar.sin() * cos,
                polar.cos(),
            )));
        }
    }
    let mut looked_at = 0;
    for eye in eyes() {
        let outline = pen(&picture(&turned, eye, &Scene::default()), "d-head");
        for i in 0..48 {
            let (sin, cos) = (std::f64::consts::TAU * f64::from(i) / 48.0).sin_cos();
            let out = |p: Vec3| {
                let at = eye.project(p);
                at.x * cos + at.y * sin
            };
            let furthest = scalp
                .iter()
                .copied()
                .max_by(|a, b| out(*a).total_cmp(&out(*b)))
                .unwrap();
            // Where face, ear or neck lie further out, the outline is theirs.
            let alone = furthest.z > 2.5
                && body
                    .parts()
                    .iter()
                    .all(|(_, part)| part.height(furthest) > 1.0)
                && furthest.y < 0.9 * head.skull().half_length;
            if alone {
                looked_at += 1;
                let off = off(&outline, eye.project(furthest));
                assert!(off < 1.0, "{eye:?}, {i}: {off} at {furthest}");
            }
        }
    }
    assert!(looked_at > 120, "{looked_at}");
}

/// Straight views show the head of the flat drawings.
#[test]
fn straight_views_agree_with_the_flat_drawings() {
    let head = mean_head();
    let turned = Turned::new(&head, -30.0);
    for (name, view) in [(2, View::Left), (3, View::Right)] {
        let eye = Eye::NAMED[name].1;
        let svg = picture(&turned, eye, &Scene::default());
        let mut outline = pen(&svg, "d-head");
        outline.extend(pen(&svg, "d-body"));
        let flat = pen(&profile(&head, view, &[], "t", "d"), "d-head");
        let chin = head.landmark(tautline::head::Landmark::Chin, tautline::head::Side::Centre);
        for segment in flat.segments() {
            use kurbo::ParamCurve;
            let at = segment.eval(0.5);
            // Down to the chin before, and to the nape behind.
            let behind = (at.x > 0.0) == (view == View::Left);
            let lowest = if behind { 80.0 } else { -chin.z * 10.0 - 2.0 };
            if at.y < lowest {
                let off = off(&outline, at);
                assert!(off < 4.0, "{view:?} {at:?}: {off}");
            }
        }
    }
}

/// Every strand of every section: its root and its tip are where the model has them, from all sides.
#[test]
fn strands_begin_and_end_where_the_model_says() {
    let head = mean_head();
    let turned = Turned::new(&head, -30.0);
    let plan = built_in("soft-layers-face-frame").unwrap();
    let outcome = run(&head, &plan);
    for (place, section) in outcome.sections.iter().enumerate() {
        let scene = Scene::held(&head, &outcome, place);
        for eye in eyes() {
            let svg = picture(&turned, eye, &scene);
            let mut all = pen(&svg, "d-strand");
            all.extend(pen(&svg, "d-strand-behind"));
            for strand in section.strands.iter().filter(|s| s.reaches()) {
                for end in [strand.root, strand.path.unwrap().meets] {
                    let off = ends(&all)
                        .map(|p| p.distance(eye.project(end)))
                        .fold(f64::INFINITY, f64::min);
                    assert!(off < ROUNDED, "{}, {eye:?}: {off}", section.section.name);
                }
            }
            // A root is marked where it is seen.
            let roots = pen(&svg, "t-root");
            let toward = |p: Vec3| head.skull().normal(p).dot(towards(eye));
            for strand in &section.strands {
                let marked = ends(&roots).any(|p| p.distance(eye.project(strand.root)) < ROUNDED);
                if toward(strand.root) < -0.05 {
                    let other = section.strands.iter().any(|s| {
                        toward(s.root) > 0.0
                            && eye.project(s.root).distance(eye.project(strand.root))
                                < 2.0 * ROUNDED
                    });
                    assert!(!marked || other, "{} {eye:?}", section.section.name);
                } else if toward(strand.root) > 0.05
                    && strand.root.z > 0.0
                    && clear(&head, strand.root, eye)
                {
                    assert!(marked, "{} {eye:?} {}", section.section.name, strand.root);
                }
            }
        }
    }
}

/// The first and the last place of every piece.
fn ends(path: &BezPath) -> impl Iterator<Item = Point> {
    path.elements().iter().filter_map(|el| match el {
        PathEl::MoveTo(p) | PathEl::LineTo(p) => Some(*p),
        _ => None,
    })
}

fn towards(eye: Eye) -> Vec3 {
    let level = eye.tilt.cos();
    Vec3::new(
        eye.turn.sin() * level,
        eye.turn.cos() * level,
        eye.tilt.sin(),
    )
}

/// Whether the way from a place on the skull to the eye stays well outside all parts of the body, the nose
/// that is drawn before them included.
fn clear(head: &Head, p: Vec3, eye: Eye) -> bool {
    let body = Body::of(head);
    let from = p + head.skull().normal(p) * 1e-6;
    (1..700).all(|i| {
        let at = from + towards(eye) * (f64::from(i) * 0.1);
        let near = f64::from(i) * 0.1 < 1.0;
        body.parts()
            .iter()
            .all(|(_, part)| part.height(at) > if near { 0.02 } else { 2.0 })
    })
}

/// No place of the hair that head or body hides for certain is drawn as seen: each way alone, against a
/// march along the ray.
#[test]
fn hidden_hair_is_not_drawn() {
    let head = mean_head();
    let turned = Turned::new(&head, -60.0);
    let body = Body::of(&head);
    let plan = built_in("soft-layers-face-frame").unwrap();
    let outcome = run(&head, &plan);
    let job = Job {
        head: &head,
        hair: &Hair::default(),
        plan: &plan,
        choices: &Choices::default(),
    };
    let down = Scene::let_down(&job, &outcome, 9).unwrap();
    let mut hidden = 0;
    for eye in eyes() {
        for way in down.hairs.iter().step_by(7) {
            let scene = Scene {
                hairs: vec![way.clone()],
                ..Scene::default()
            };
            let svg = picture(&turned, eye, &scene);
            let mut seen = pen(&svg, "t-hair");
            seen.extend(pen(&svg, "t-hair-far"));
            for pair in way.windows(2) {
                let p = pair[0].midpoint(pair[1]);
                let deep =
                    (4..700).any(|i| body.height(p + towards(eye) * (f64::from(i) * 0.1)) < -0.4);
                let itself = way.windows(2).filter(|other| other != &pair).any(|other| {
                    let middle = other[0].midpoint(other[1]);
                    eye.project(middle).distance(eye.project(p)) < 8.0
                });
                if deep && !itself && off(&seen, eye.project(p)) < 0.5 {
                    panic!("{p} is drawn from {eye:?}");
                }
                hidden += usize::from(deep);
            }
        }
    }
    assert!(hidden > 500, "{hidden}");
}

/// All built-in cuts, from everywhere, at their first, a middle and their last section.
#[test]
fn every_cut_is_drawn_from_everywhere() {
    let head = mean_head();
    let turned = Turned::new(&head, -40.0);
    for plan in built_ins() {
        let outcome = run(&head, &plan);
        let last = outcome.sections.len() - 1;
        for place in [0, last / 2, last, last + 5] {
            let scene = Scene::held(&head, &outcome, place);
            for eye in eyes() {
                let svg = picture(&turned, eye, &scene);
                assert!(!svg.contains("NaN") && !svg.contains("inf"), "{}", plan.id);
                assert!(
                    pen(&svg, "d-head").bounding_box().height() > 150.0,
                    "{} {eye:?}",
                    plan.id
                );
            }
        }
        for step in 0..plan.steps.len() {
            let window = Scene::held_window(&head, &outcome, step);
            let parts: Vec<f64> = window.split(' ').map(|n| n.parse().unwrap()).collect();
            assert!(parts[2] >= 270.0 && parts[3] >= 300.0, "{window}");
        }
    }
    let svg = picture(
        &turned,
        Eye {
            turn: f64::NAN,
            tilt: 0.0,
        },
        &Scene::default(),
    );
    assert!(
        svg.contains("a &lt;b&gt;") && svg.contains("c &amp; d") && svg.contains("role=\"img\"")
    );
}

/// The hair after a step's last section is that of the plan which ends there.
#[test]
fn hair_so_far_is_that_of_a_shorter_plan() {
    let head = mean_head();
    let plan = built_in("soft-layers-face-frame").unwrap();
    let outcome = run(&head, &plan);
    for step in 0..plan.steps.len() {
        let Some(place) = outcome.sections.iter().rposition(|s| s.step == step) else {
            continue;
        };
        let mut shorter = plan.clone();
        shorter.steps.truncate(step + 1);
        let there = run(&head, &shorter).lengths;
        let so_far = outcome.lengths_after(place);
        for sample in head.samples(60) {
            let (a, b) = (so_far.at(&head, sample.root), there.at(&head, sample.root));
            assert_eq!(a.unwrap(), b.unwrap(), "after step {step}");
        }
    }
    let all = outcome.lengths_after(usize::MAX);
    let root = head.samples(60)[7].root;
    assert_eq!(
        all.at(&head, root).unwrap(),
        outcome.lengths.at(&head, root).unwrap()
    );
}

#[test]
fn an_address_names_a_section() {
    let head = mean_head();
    for plan in built_ins() {
        for section in run(&head, &plan).sections {
            let text = section.key.address();
            assert_eq!(SectionKey::from_address(&text), Some(section.key));
        }
    }
    for text in [
        "",
        "5",
        "a.left",
        "a.up.3",
        "a.left.x",
        "..",
        "a.left.-1",
        "a.left.99999999999999999999999",
    ] {
        assert_eq!(SectionKey::from_address(text), None, "{text}");
    }
    let odd = SectionKey::from_address("v1.2.right.4").unwrap();
    assert_eq!((odd.step.as_str(), odd.number), ("v1.2", 4));
}

#[test]
fn pens_are_named_once() {
    for (i, pen) in PENS.iter().enumerate() {
        assert!(!PENS[i + 1..].contains(pen), "{pen}");
    }
}

/// What is drawn of one section from two sides, to the millimetre: a change of it is looked at by a person
/// (`INSTA_UPDATE=always cargo test --test turned` takes it over).
#[test]
fn one_section_is_drawn_as_it_was() {
    let head = mean_head();
    let turned = Turned::new(&head, -30.0);
    let outcome = run(&head, &built_in("soft-layers-face-frame").unwrap());
    let scene = Scene::held(&head, &outcome, 3);
    for (name, eye) in [
        ("left", Eye::NAMED[2].1),
        ("three_quarter", Eye::THREE_QUARTER),
    ] {
        let svg = picture(&turned, eye, &scene);
        let mut told = format!("{}\n", eye.words());
        for class in [
            "d-patch",
            "d-strand",
            "d-strand-behind",
            "t-root",
            "d-fingers",
            "t-feature",
        ] {
            let mut path = String::new();
            for el in pen(&svg, class).elements() {
                let last = match el {
                    PathEl::MoveTo(p) => {
                        path += "\n ";
                        *p
                    }
                    PathEl::LineTo(p) | PathEl::QuadTo(_, p) | PathEl::CurveTo(_, _, p) => *p,
                    PathEl::ClosePath => continue,
                };
                path += &format!(" {:.0},{:.0}", last.x, last.y);
            }
            told += &format!("{class}{path}\n");
        }
        insta::assert_snapshot!(name, told);
    }
}

#[test]
fn a_section_is_turned_to_where_it_is_seen() {
    let head = mean_head();
    for plan in built_ins() {
        for section in &run(&head, &plan).sections {
            let best = seen_best(&head, section);
            let seen = facing(&head, section, best);
            let most = Eye::NAMED.map(|(_, eye)| facing(&head, section, eye));
            let most = most.into_iter().fold(0.0, f64::max);
            assert!(
                seen >= 0.5_f64.min(most),
                "{}, {:?}: {seen} of {most} from {best:?}",
                plan.id,
                section.key
            );
        }
    }
    let layers = run(&head, &built_in("soft-layers-face-frame").unwrap());
    let last = layers.sections.iter().rfind(|s| s.cuts()).unwrap();
    assert_eq!(seen_best(&head, last), Eye::at_degrees(180.0, 0.0));
}
