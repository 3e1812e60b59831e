//! What one taut length costs, and a whole plan.

use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use tautline::cut::{Job, Measured, cut};
use tautline::geometry::{Convex, Egg, Ellipsoid, Target, Vec3, taut};
use tautline::hair::Hair;
use tautline::head::{Head, Tapes};
use tautline::plan::{Choices, built_in};

fn one_length(c: &mut Criterion) {
    let hold = Target::Point(Vec3::new(3.0, 22.0, 9.0));
    let egg = Egg::new(7.4, 9.5, (8.5, 12.5), 0.3, 0.9);
    let behind_the_ear = egg.along(Vec3::new(7.0, -3.0, 0.5));
    c.bench_function("one taut length, round the head to a point", |b| {
        b.iter(|| taut(black_box(&egg), black_box(behind_the_ear), black_box(&hold)))
    });
    let line = Target::Segment(Vec3::new(0.0, 5.0, 22.0), Vec3::new(0.0, 12.0, 20.0));
    c.bench_function("one taut length, round the head to a line", |b| {
        b.iter(|| taut(black_box(&egg), black_box(behind_the_ear), black_box(&line)))
    });
    let ellipsoid = Ellipsoid::new(7.4, 9.5, 8.5);
    let root = ellipsoid.along(Vec3::new(7.0, -3.0, 0.5));
    c.bench_function("one taut length, round an ellipsoid to a point", |b| {
        b.iter(|| taut(black_box(&ellipsoid), black_box(root), black_box(&hold)))
    });
    let opposite = Target::Point(Vec3::new(0.0, 22.0, -2.0));
    let nape = egg.along(Vec3::new(0.4, -8.0, -3.0));
    c.bench_function("one taut length, from the nape to before the face", |b| {
        b.iter(|| taut(black_box(&egg), black_box(nape), black_box(&opposite)))
    });
}

fn whole_plan(c: &mut Criterion) {
    let head = Head::from_tapes(&Tapes::default()).expect("the mean head");
    let plan = built_in("soft-layers-face-frame").expect("a built-in plan");
    let (hair, choices) = (Hair::default(), Choices::default());
    let job = Job {
        head: &head,
        hair: &hair,
        plan: &plan,
        choices: &choices,
    };
    c.bench_function("the whole built-in plan", |b| {
        b.iter(|| cut(black_box(&job), &Measured::new()))
    });
    c.bench_function("a head from its tapes", |b| {
        b.iter(|| Head::from_tapes(black_box(&Tapes::default())))
    });
}

criterion_group!(benches, one_length, whole_plan);
criterion_main!(benches);
