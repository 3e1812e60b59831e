//! `head`: heads from their tapes, as JSON lines in and out.
//!
//! Each line on standard input is a head file as `tautline::head::Tapes` reads it, in cm, like
//! `{"circumference":56.1,"ear_to_ear":34.1,"back":"flat"}`. Each line on standard output is an
//! object of three: `tapes`, every tape measured again on the model, in cm; `estimated`, those of
//! them that were not measured, each with its standard error; and `shape`, what the tapes cannot
//! say. It is `{"error":"…"}` for a line that makes no head; the rest go on, and the exit code is
//! then 1.

use serde::Serialize;
use std::collections::BTreeMap;
use std::io::{BufRead, Write};
use std::process::ExitCode;
use tautline::head::{Back, Head, Kind, Tape, Tapes, Top};
use tautline::measure::Unit;

#[derive(Serialize)]
#[serde(untagged)]
enum Answer {
    Head {
        tapes: BTreeMap<&'static str, f64>,
        estimated: BTreeMap<&'static str, Guess>,
        shape: Shape,
    },
    Error {
        error: String,
    },
}

#[derive(Serialize)]
struct Guess {
    cm: f64,
    error_cm: f64,
    shown: String,
}

#[derive(Serialize)]
struct Shape {
    back: Back,
    top: Top,
    kind: Kind,
    left_ear_up: f64,
}

fn answer(line: &str) -> Answer {
    match model(line) {
        Ok(answer) => answer,
        Err(error) => Answer::Error { error },
    }
}

fn model(line: &str) -> Result<Answer, String> {
    let tapes = Tapes::from_json(line).map_err(|e| e.to_string())?;
    let head = Head::from_tapes(&tapes).map_err(|e| e.to_string())?;
    let guess = |tape: Tape| {
        let measure = head.measure(tape);
        let guess = Guess {
            cm: rounded(measure.cm),
            error_cm: rounded(measure.error),
            shown: measure.shown(Unit::Cm),
        };
        measure.estimated().then_some((tape.key(), guess))
    };
    Ok(Answer::Head {
        tapes: Tape::ALL
            .map(|tape| (tape.key(), rounded(head.model_tape(tape))))
            .into(),
        estimated: Tape::ALL.into_iter().filter_map(guess).collect(),
        shape: Shape {
            back: tapes.back(),
            top: tapes.top(),
            kind: tapes.kind(),
            left_ear_up: tapes.left_ear_up(),
        },
    })
}

/// To a hundredth of a millimetre: finer than any tape, and readable.
fn rounded(cm: f64) -> f64 {
    (cm * 1000.0).round() / 1000.0
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
