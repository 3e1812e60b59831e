//! What one taut length costs, over a mix of roots and cutting lines, and a whole plan.

use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use std::time::Instant;
use tautline::cut::{Job, Measured, Outcome, SectionCut, cut, cut_on, guided_by};
use tautline::geometry::{Convex, Egg, Ellipsoid, Target, Vec3, taut};
use tautline::hair::Hair;
use tautline::head::{Head, Landmark, Side, Spot, Tapes};
use tautline::measure::Length;
use tautline::plan::{Choices, Plan, built_in};

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

/// Roots spread over the scalp, the same every time: 24 sections a side of 9 roots are 432.
fn roots(head: &Head, count: u32) -> Vec<Vec3> {
    (0..count)
        .map(|i| {
            // The golden ratio and its square spread pairs of numbers evenly.
            let i = f64::from(i) + 0.5;
            let (round, out) = ((i * 0.618_034).fract(), (i * 0.381_966 * 1.7).fract());
            head.place(Spot {
                azimuth: (round - 0.5) * std::f64::consts::TAU,
                out: out.sqrt(),
            })
        })
        .collect()
}

/// Cutting lines as plans have them.
fn targets(head: &Head) -> Vec<(&'static str, Target)> {
    let skull = head.skull();
    let level = |landmark| Target::level(head.landmark(landmark, Side::Centre).z);
    let top = skull.along(Vec3::new(0.0, 0.3, 1.0));
    let ear = head.landmark(Landmark::AboveEar, Side::Left);
    let off = skull.along(ear) + skull.normal(skull.along(ear)) * 12.0;
    let face = skull.half_length + 8.0;
    let line = |middle: Vec3, half: Vec3| Target::Segment(middle - half, middle + half);
    vec![
        (
            "over the parting",
            line(top + Vec3::Z * 10.0, Vec3::Y * 4.0),
        ),
        ("out from the ear", line(off, Vec3::Z * 4.0)),
        (
            "before the face, a line",
            line(Vec3::new(0.0, face, 3.0), Vec3::X * 4.0),
        ),
        (
            "before the face, a point",
            Target::Point(Vec3::new(2.5, face, -8.0)),
        ),
        ("the level of the chin", level(Landmark::Chin)),
        ("the level of the shoulder", level(Landmark::Shoulder)),
    ]
}

/// The least of some runs of `f`, in µs.
fn least(runs: usize, mut f: impl FnMut()) -> f64 {
    let time = |_| {
        let began = Instant::now();
        f();
        began.elapsed().as_secs_f64() * 1e6
    };
    (0..runs).map(time).fold(f64::INFINITY, f64::min)
}

/// Says the median, mean and longest time of single lengths, which criterion cannot.
fn mix(c: &mut Criterion) {
    let head = Head::from_tapes(&Tapes::default()).expect("the mean head");
    let skull = *head.skull();
    let roots = roots(&head, 432);
    let targets = targets(&head);
    let mut all = Vec::new();
    let say = |name: &str, times: &mut Vec<f64>| {
        times.sort_by(f64::total_cmp);
        let (n, sum) = (times.len(), times.iter().sum::<f64>());
        println!(
            "{name}: median {:.2} µs, mean {:.2}, longest {:.2} ({n} lengths)",
            times[n / 2],
            sum / n as f64,
            times[n - 1]
        );
    };
    for (name, target) in &targets {
        let mut times: Vec<f64> = roots[..200]
            .iter()
            .map(|&root| {
                least(20, || {
                    let _ = black_box(taut(&skull, black_box(root), target));
                })
            })
            .collect();
        say(name, &mut times);
        all.append(&mut times);
    }
    say("all of them", &mut all);
    // The lengths of a whole plan: 24 sections a side, 9 roots each, the hair before and one line.
    let lines: Vec<Target> = targets.iter().take(4).map(|t| t.1).collect();
    let before = targets[5].1;
    c.bench_function("the 864 lengths of 24 sections a side", |b| {
        b.iter(|| {
            for (i, &root) in roots.iter().enumerate() {
                let _ = black_box(taut(&skull, root, &before));
                let _ = black_box(taut(&skull, root, &lines[i / 9 % lines.len()]));
            }
        });
    });
}

/// A plan that takes the whole scalp once in 24 sections a side: graduation up to the occipital bone,
/// a stationary guide at the crown above it, sides brought up over the parting.
fn whole_head() -> Plan {
    Plan::from_json(include_str!("../data/large_plan.json")).expect("a plan that reads")
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
    at_the_chair(c, &job);
    let large = whole_head();
    let job = Job {
        plan: &large,
        ..job
    };
    let left = |o: &Outcome| {
        let cuts = o.sections.iter().filter(|s| s.key.side == Side::Left);
        (
            cuts.clone().count(),
            cuts.map(|s| s.strands.len()).sum::<usize>(),
        )
    };
    let outcome = cut(&job, &Measured::new()).expect("a plan that can be held");
    println!(
        "a side of the large plan: {:?} sections and roots",
        left(&outcome)
    );
    c.bench_function("a plan of 24 sections a side", |b| {
        b.iter(|| cut(black_box(&job), &Measured::new()))
    });
    c.bench_function("a head from its tapes", |b| {
        b.iter(|| Head::from_tapes(black_box(&Tapes::default())))
    });
}

/// The plan as it goes on from what was cut: four sections of the left, the first of them a guide, came out
/// a centimetre short.
fn at_the_chair(c: &mut Criterion, job: &Job<'_>) {
    let planned = cut(job, &Measured::new()).expect("a built-in plan");
    let left = planned.sections.iter().filter(|s| s.key.side == Side::Left);
    let short = |s: &SectionCut| (s.key.clone(), Length::from_cm(s.long().cm() - 1.0));
    let mut measured: Measured = left.take(4).map(short).collect();
    c.bench_function("the same, four lengths measured", |b| {
        b.iter(|| cut(black_box(job), &measured))
    });
    let last = cut(job, &measured).expect("a built-in plan");
    let back = |s: &&SectionCut| s.key.step == "back" && s.key.side == Side::Left;
    let next = last.sections.iter().find(back).expect("a back");
    measured.extend([short(next)]);
    c.bench_function("the same, one more measured", |b| {
        b.iter(|| cut_on(black_box(job), &last, &measured))
    });
    let guide = &planned.sections[0].key;
    c.bench_function("what the front guide guides", |b| {
        b.iter(|| guided_by(black_box(job), &planned, guide))
    });
}

criterion_group!(benches, mix, one_length, whole_plan);
criterion_main!(benches);
