//! Taut lengths against an exact reference that knows nothing of geodesic equations.
//!
//! The shortest path outside a convex body from a root to a point lies on the boundary of the convex
//! hull of body and point; `reference/hull_table.csv` holds exact polyhedral geodesics on such hulls
//! (Mitchell, Mount and Papadimitriou, *SIAM J. Comput.* 16 (1987) 647–668, through `pygeodesic`;
//! hulls by `scipy`), made by `reference/hull_table.py`.

use tautline::geometry::{Convex, Egg, Ellipsoid, Target, Taut, Vec3, bracketed, taut};

struct Row {
    body: String,
    /// a, b, k, m, α, β, γ: half-axes, fullness, and ζ's coefficients.
    shape: [f64; 7],
    root: Vec3,
    hold: Vec3,
    length: f64,
    wrapped: bool,
    error: f64,
}

fn table() -> Vec<Row> {
    include_str!("reference/hull_table.csv")
        .lines()
        .skip(1)
        .map(|line| {
            let cells: Vec<&str> = line.split(',').collect();
            let number = |i: usize| cells[i].parse::<f64>().unwrap();
            Row {
                body: cells[0].to_owned(),
                shape: std::array::from_fn(|i| number(i + 1)),
                root: Vec3::new(number(8), number(9), number(10)),
                hold: Vec3::new(number(11), number(12), number(13)),
                length: number(14),
                wrapped: cells[15] == "true",
                error: number(16),
            }
        })
        .collect()
}

/// The egg with these coefficients: its top from γ, its bottom from β.
fn egg(shape: [f64; 7]) -> Egg {
    let [a, b, k, m, _, beta, gamma] = shape;
    let top = (0.05 / gamma).powf(0.25);
    let bottom = bracketed((0.8, 2.0), 1e-13, |q| {
        (0.95 - q.powi(-2) + 0.05 * q * q) / (1.0 + q) - beta * top.powi(3)
    })
    .unwrap()
        * top;
    Egg::new(a, b, (top, bottom), 1.0 - k, m)
}

fn solve(row: &Row) -> Taut {
    let to = Target::Point(row.hold);
    if row.body == "skull" {
        let egg = egg(row.shape);
        assert!((egg.value(row.root) - 1.0).abs() < 1e-6, "the same body");
        taut(&egg, row.root, &to).unwrap()
    } else {
        let [a, b, .., alpha, _, _] = row.shape;
        taut(&Ellipsoid::new(a, b, alpha.powf(-0.5)), row.root, &to).unwrap()
    }
}

#[test]
fn taut_lengths_agree_with_the_exact_hull() {
    let rows = table();
    assert!(rows.len() >= 200);
    let mut worst = 0.0_f64;
    for (i, row) in rows.iter().enumerate() {
        let path = solve(row);
        let off = path.length - row.length;
        worst = worst.max(off.abs());
        assert!(row.error < 0.01, "row {i} of the table is itself unsure");
        assert!(
            off.abs() <= 0.05,
            "row {i}, {}: {} against {} (± {})",
            row.body,
            path.length,
            row.length,
            row.error
        );
        assert_eq!(path.wrapped > 0.0, row.wrapped, "row {i}");
    }
    println!("worst difference over {} cases: {worst:.4} cm", rows.len());
}
