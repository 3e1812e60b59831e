//! `taut`: taut lengths round an ellipsoid, as JSON lines in and out.
//!
//! Each line on standard input is `{"axes":[a,b,c],"root":[x,y,z],"hold":[x,y,z]}`: semi-axes in cm
//! along x, y and z, a root on the ellipsoid and a point outside it. Each line on standard output is
//! `{"length":…,"wrapped":true|false}`, or `{"error":"…"}` for a line that makes no sense; the rest
//! go on, and the exit code is then 1.

use serde::{Deserialize, Serialize};
use std::io::{BufRead, Write};
use std::process::ExitCode;
use tautline::geometry::{Ellipsoid, Target, Vec3, taut};

/// Semi-axes this command takes, in cm; heads are 6 to 14.
const AXES: std::ops::RangeInclusive<f64> = 0.5..=200.0;
/// The longest semi-axis may be so many times the shortest; heads stay below 2.
const STRETCH: f64 = 20.0;

#[derive(Deserialize)]
struct Question {
    axes: [f64; 3],
    root: [f64; 3],
    hold: [f64; 3],
}

#[derive(Serialize)]
#[serde(untagged)]
enum Answer {
    Length { length: f64, wrapped: bool },
    Error { error: String },
}

fn answer(line: &str) -> Answer {
    let solved = serde_json::from_str::<Question>(line)
        .map_err(|e| format!("This line is not a question: {e}."))
        .and_then(|question| solve(&question));
    match solved {
        Ok((length, wrapped)) => Answer::Length { length, wrapped },
        Err(error) => Answer::Error { error },
    }
}

fn solve(question: &Question) -> Result<(f64, bool), String> {
    let [a, b, c] = question.axes;
    let shortest = a.min(b).min(c);
    let longest = a.max(b).max(c);
    if !question.axes.iter().all(|axis| AXES.contains(axis)) || longest > STRETCH * shortest {
        return Err(format!(
            "The semi-axes must lie between {} and {} cm, the longest at most {STRETCH} times the shortest.",
            AXES.start(),
            AXES.end(),
        ));
    }
    let path = taut(
        &Ellipsoid::new(a, b, c),
        Vec3::from(question.root),
        &Target::Point(Vec3::from(question.hold)),
    )
    .map_err(|e| e.to_string())?;
    Ok((path.length, path.wrapped > 0.0))
}

fn main() -> ExitCode {
    let mut bad = false;
    let mut out = std::io::stdout().lock();
    for line in std::io::stdin().lock().split(b'\n') {
        let line = match line {
            Ok(line) => String::from_utf8_lossy(&line).into_owned(),
            Err(e) => {
                eprintln!("Standard input could not be read: {e}.");
                return ExitCode::FAILURE;
            }
        };
        if line.trim().is_empty() {
            continue;
        }
        let answer = answer(&line);
        bad |= matches!(answer, Answer::Error { .. });
        let written = serde_json::to_string(&answer).map(|text| writeln!(out, "{text}"));
        if !matches!(written, Ok(Ok(()))) {
            // Nobody reads on: a closed pipe is an end, not a fault.
            break;
        }
    }
    if bad {
        ExitCode::FAILURE
    } else {
        ExitCode::SUCCESS
    }
}
