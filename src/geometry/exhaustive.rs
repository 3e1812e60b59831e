//! [`taut`] against a search that is slow and free of every shortcut: all headings 3° apart, each
//! walked carefully and narrowed. And against itself with finer steps.

use super::search::{MET, Search};
use super::shot::{CAREFUL, Care};
use super::{Convex, Egg, Ellipsoid, Target, Vec3, taut};
use std::f64::consts::TAU;

/// The length of the shortest of all paths that meet the target, and its heading.
fn exhaustive<S: Convex>(body: &S, root: Vec3, target: &Target) -> (f64, f64) {
    const HEADINGS: usize = 120;
    let search = Search::new(body, root, target);
    // A little off the plane of symmetry, where a miss may be nothing but rounding.
    let angle = |i: usize| 0.0137 + TAU * i as f64 / HEADINGS as f64;
    let asides: Vec<f64> = (0..=HEADINGS)
        .map(|i| search.shoot(angle(i), CAREFUL).aside)
        .collect();
    (0..HEADINGS)
        .filter(|&i| asides[i] > 0.0 && asides[i + 1] <= 0.0)
        .map(|i| search.turn(angle(i) + 0.01, (angle(i), angle(i + 1)), CAREFUL))
        .filter(|(_, shot)| shot.excess() <= MET)
        .map(|(heading, shot)| (shot.length(), heading))
        .fold((f64::INFINITY, 0.0), |a, b| if b.0 < a.0 { b } else { a })
}

/// Directions spread evenly over the sphere (the golden-angle spiral).
fn direction(i: u32, count: u32) -> Vec3 {
    let z = 1.0 - (2.0 * f64::from(i) + 1.0) / f64::from(count);
    let turn = f64::from(i) * 2.399_963_229_728_653;
    let level = (1.0 - z * z).sqrt();
    Vec3::new(level * turn.cos(), level * turn.sin(), z)
}

/// How many paths lie on the body, and the most that one is longer than the shortest, in cm.
#[derive(Debug, Default)]
struct Checked {
    wrapped: usize,
    worst: f64,
}

impl Checked {
    fn add<S: Convex>(&mut self, body: &S, root: Vec3, target: &Target) {
        let path = taut(body, root, target).expect("a path");
        if path.wrapped > 0.0 {
            self.wrapped += 1;
            let (known, _) = exhaustive(body, root, target);
            self.worst = self.worst.max(path.length - known);
        }
    }
}

/// 24 roots × 48 places 0.5 to 40 cm off the body.
fn each_hold<S: Convex>(body: &S, mut f: impl FnMut(usize, Vec3, Vec3, Vec3)) {
    const OUT: [f64; 5] = [0.5, 3.0, 8.0, 20.0, 40.0];
    for i in 0..24 {
        let root = body.along(direction(i, 24));
        for j in 0..48 {
            let base = body.along(direction(j, 48) + Vec3::new(0.01, 0.02, 0.03));
            let normal = body.normal(base);
            let hold = base + normal * OUT[(i + j) as usize % 5];
            f((i * 7 + j * 3) as usize, root, hold, normal);
        }
    }
}

fn to_points<S: Convex>(body: &S) -> Checked {
    let mut checked = Checked::default();
    each_hold(body, |_, root, hold, _| {
        checked.add(body, root, &Target::Point(hold));
    });
    checked
}

/// Lines of 8 cm, turned every way, that keep off the body.
fn to_lines<S: Convex>(body: &S) -> Checked {
    let mut checked = Checked::default();
    each_hold(body, |n, root, hold, normal| {
        let u = normal.any_orthonormal_vector();
        let turn = n as f64;
        let along = u * turn.cos() + normal.cross(u) * turn.sin();
        let half = (along + normal * (0.3 * (2.0 * turn).sin())).normalize() * 4.0;
        let (from, to) = (hold - half, hold + half);
        if (0..=16).all(|k| body.value(from.lerp(to, f64::from(k) / 16.0)) > 1.05) {
            checked.add(body, root, &Target::Segment(from, to));
        }
    });
    checked
}

/// Levels at, below and above the widest ring, from roots all over and from a strip along the middle.
fn to_levels<S: Convex>(body: &S) -> Checked {
    let mut checked = Checked::default();
    let even = (0..700).map(|i| direction(i, 700));
    let middle = (0..100).map(|i| {
        let along = f64::from(i) / 50.0 - 1.0;
        Vec3::new(
            0.04 * (f64::from(i) * 1.7).sin().powi(3),
            along,
            1.0 - along * along,
        )
    });
    for (i, towards) in even.chain(middle).enumerate() {
        let root = body.along(towards);
        let level = [0.0_f64, -3.0, -30.0, 1.5][i % 4];
        if root.z > level.max(0.0) {
            checked.add(body, root, &Target::level(level));
        }
    }
    checked
}

const HEAD: [f64; 6] = [7.4, 9.5, 8.5, 12.5, 0.3, 0.9];
const MEAN: [f64; 6] = [7.6, 9.7, 8.5, 12.5, 0.6, 0.85];
const BOXY: [f64; 6] = [6.5, 10.4, 7.5, 11.0, 0.9, 0.7];
const LONG: [f64; 6] = [6.0, 11.5, 8.0, 12.0, 0.5, 0.8];
const LOW: [f64; 6] = [8.5, 9.5, 5.5, 8.5, 0.4, 0.75];

fn egg([a, b, top, bottom, fullness, upright]: [f64; 6]) -> Egg {
    Egg::new(a, b, (top, bottom), fullness, upright)
}

#[test]
fn no_path_to_a_point_is_missed() {
    let results = [
        to_points(&egg(HEAD)),
        to_points(&egg(BOXY)),
        to_points(&egg(LONG)),
        to_points(&egg(HEAD).shaped(-0.3, 0.25)),
        to_points(&egg(BOXY).shaped(0.3, -0.25)),
        to_points(&Ellipsoid::new(6.5, 10.5, 7.5)),
        to_points(&Ellipsoid::new(5.0, 10.0, 7.0)),
        to_points(&Ellipsoid::new(9.0, 9.0, 5.0)),
    ];
    for (i, result) in results.iter().enumerate() {
        assert!(
            result.wrapped > 500 && result.worst < 1e-3,
            "{i}: {result:?}"
        );
    }
}

#[test]
fn no_path_to_a_line_is_missed() {
    let results = [
        to_lines(&egg(HEAD)),
        to_lines(&egg(MEAN)),
        to_lines(&egg(BOXY)),
        to_lines(&egg(LOW)),
        to_lines(&egg(MEAN).shaped(-0.3, -0.25)),
        to_lines(&Ellipsoid::new(5.0, 10.0, 7.0)),
    ];
    for (i, result) in results.iter().enumerate() {
        assert!(
            result.wrapped > 500 && result.worst < 1e-3,
            "{i}: {result:?}"
        );
    }
}

#[test]
fn no_path_to_a_level_is_missed() {
    let results = [
        to_levels(&egg(HEAD)),
        to_levels(&egg(MEAN)),
        to_levels(&egg(BOXY)),
        to_levels(&egg(LONG)),
        to_levels(&egg(LOW)),
        to_levels(&egg(HEAD).shaped(-0.3, 0.25)),
        to_levels(&egg(HEAD).shaped(0.3, -0.25)),
        to_levels(&egg(MEAN).shaped(0.3, 0.25)),
        to_levels(&egg(BOXY).shaped(-0.3, -0.25)),
        to_levels(&egg(BOXY).shaped(0.3, 0.25)),
        to_levels(&egg(LONG).shaped(0.3, 0.25)),
        to_levels(&Ellipsoid::new(6.5, 10.5, 7.5)),
        to_levels(&Ellipsoid::new(5.0, 10.0, 7.0)),
        to_levels(&Ellipsoid::new(9.0, 9.0, 5.0)),
    ];
    for (i, result) in results.iter().enumerate() {
        assert!(
            result.wrapped > 350 && result.worst < 1e-4,
            "{i}: {result:?}"
        );
    }
}

/// A root that moves changes its length by no more than it moves; so the length does not jump where
/// the way changes from one side to the other.
#[test]
fn the_length_to_a_level_does_not_jump_over_the_middle() {
    for shape in [HEAD, MEAN, BOXY, LONG, LOW] {
        let body = egg(shape);
        for row in -9..=9 {
            let y = f64::from(row) / 10.0 * shape[1];
            let mut last: Option<(Vec3, f64)> = None;
            for column in -40..=40 {
                let x = (f64::from(column) / 40.0).powi(3) * 0.5 * shape[0];
                let root = body.along_from(Vec3::new(x, y, 0.0), Vec3::Z);
                let length = taut(&body, root, &Target::level(-20.0)).unwrap().length;
                if let Some((before, other)) = last {
                    // The way along the surface is a little longer than the chord.
                    let moved = 1.02 * root.distance(before) + 2e-4;
                    assert!(
                        (length - other).abs() < moved,
                        "{shape:?} {root}: {other} {length}"
                    );
                }
                last = Some((root, length));
                let mirrored = Vec3::new(-root.x, root.y, root.z);
                let twin = taut(&body, mirrored, &Target::level(-20.0)).unwrap().length;
                assert!(
                    (length - twin).abs() < 1e-4,
                    "{shape:?} {root}: {length} {twin}"
                );
            }
        }
    }
}

/// Steps whose error is 32 times smaller, half as long, change no length by more than 0.05 mm, nor by
/// anything near it.
#[test]
fn finer_steps_change_nothing() {
    let finer = Care {
        step: CAREFUL.step / 32.0,
        ..CAREFUL
    };
    let mut worst = 0.0_f64;
    for body in [egg(HEAD), egg(BOXY), egg(LOW)] {
        each_hold(&body, |n, root, hold, _| {
            let target = if n % 4 == 0 && root.z > 0.0 {
                Target::level(-25.0)
            } else {
                Target::Point(hold)
            };
            let path = taut(&body, root, &target).expect("a path");
            if path.wrapped <= 0.0 {
                return;
            }
            let search = Search::new(&body, root, &target);
            let heading = search.angle(path.heading);
            let around = (heading - 0.1, heading + 0.1);
            let (_, fine) = search.turn(heading, around, finer);
            if fine.excess() <= MET {
                worst = worst.max((fine.length() - path.length).abs());
            }
        });
    }
    assert!(worst < 5e-5, "{worst}");
}
