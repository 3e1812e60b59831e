//! What letting a head of hair go costs, and drawing its lengths on the scalp.

use criterion::{Criterion, criterion_group, criterion_main};
use std::f64::consts::PI;
use std::hint::black_box;
use tautline::chart::{ContourMap, Lines};
use tautline::cut::{Job, Measured, cut};
use tautline::fall::{Hanging, fall_path, length_to_level, natural_fall};
use tautline::geometry::Vec3;
use tautline::hair::{Hair, Wear};
use tautline::head::{Body, Head, Spot, Tapes};
use tautline::measure::Unit;
use tautline::plan::{Choices, built_in};

/// `count` roots evenly over the scalp: a sunflower about the high point, for which the share of
/// the way out grows as the root of the area.
fn roots(head: &Head, count: u32) -> Vec<Vec3> {
    let golden = PI * (3.0 - 5.0_f64.sqrt());
    (0..count)
        .map(|i| {
            let out = ((f64::from(i) + 0.5) / f64::from(count)).sqrt();
            let azimuth = (f64::from(i) * golden).rem_euclid(2.0 * PI) - PI;
            head.place(Spot { azimuth, out })
        })
        .collect()
}

fn letting_go(c: &mut Criterion) {
    let head = Head::from_tapes(&Tapes::default()).expect("the mean head");
    let body = Body::of(&head);
    let roots = roots(&head, 2000);
    for (name, wear) in [
        ("no part", Wear::default()),
        ("a centre part", Wear::parted(0.0)),
    ] {
        let worn = wear.on(&head);
        for cm in [12.0, 45.0] {
            let hairs: Vec<Hanging> = roots.iter().map(|&root| Hanging::new(root, cm)).collect();
            c.bench_function(
                &format!("natural fall of 2,000 roots, {name}, {cm} cm"),
                |b| b.iter(|| natural_fall(black_box(&body), &worn, black_box(&hairs))),
            );
        }
    }
    let worn = Wear::parted(0.0).on(&head);
    c.bench_function("200 paths to draw, half a centimetre apart", |b| {
        b.iter(|| {
            let hairs = roots
                .iter()
                .step_by(10)
                .map(|&root| Hanging::new(root, 45.0));
            hairs
                .map(|hair| fall_path(&body, &worn, hair, 0.5).0.len())
                .sum::<usize>()
        })
    });
    c.bench_function("2,000 lengths to a level", |b| {
        b.iter(|| {
            let reach = roots
                .iter()
                .filter_map(|&r| length_to_level(&body, &worn, r, -13.5));
            reach.map(|length| length.cm()).sum::<f64>()
        })
    });
    c.bench_function("a body from its head", |b| {
        b.iter(|| Body::of(black_box(&head)))
    });
}

fn mapping(c: &mut Criterion) {
    let head = Head::from_tapes(&Tapes::default()).expect("the mean head");
    let (hair, choices) = (Hair::default(), Choices::default());
    for id in ["soft-layers-face-frame", "square-layers"] {
        let plan = built_in(id).expect("a built-in cut");
        let job = Job {
            head: &head,
            hair: &hair,
            plan: &plan,
            choices: &choices,
        };
        let outcome = cut(&job, &Measured::new()).expect("a plan that works out");
        let wear = job.wear();
        c.bench_function(&format!("the scalp map with its contours, {id}"), |b| {
            b.iter(|| {
                let lines = Lines::Lengths(black_box(&outcome));
                ContourMap::new(&head, lines, &wear, Unit::Cm, ("", "")).map(|map| map.asked)
            })
        });
    }
}

criterion_group!(benches, letting_go, mapping);
criterion_main!(benches);
