//! `lengths`: what a plan comes to on a head, section by section, as JSON.
//!
//! `lengths --list` names the built-in plans and their choices.
//! `lengths --plan ID [--head FILE.json] [--set name=value …]` prints an array with one object a
//! section: `step`, `section`, `side`, `short_cm`, `long_cm`, `off_cm`, `reach` (0 to 1). A head file
//! holds tape measures in cm, like `{"circumference":56.1,"ear_to_ear":34.1}`; any may be missing.

use serde::Serialize;
use std::process::ExitCode;
use tautline::cut::{Job, Measured, SectionCut, cut};
use tautline::hair::Hair;
use tautline::head::{Head, Side, Tapes};
use tautline::plan::{Choices, Plan, built_in, built_ins};

const USAGE: &str =
    "Usage: lengths --list | lengths --plan ID [--head FILE.json] [--set name=value …]";

#[derive(Serialize)]
struct Row<'a> {
    step: &'a str,
    section: usize,
    side: Side,
    short_cm: f64,
    long_cm: f64,
    off_cm: f64,
    reach: f64,
}

impl<'a> Row<'a> {
    fn of(cut: &'a SectionCut) -> Self {
        // A thousandth of a centimetre is finer than the engine promises and easier to read.
        let tidy = |cm: f64| (cm * 1000.0).round() / 1000.0;
        Self {
            step: &cut.key.step,
            section: cut.key.number,
            side: cut.key.side,
            short_cm: tidy(cut.short().cm()),
            long_cm: tidy(cut.long().cm()),
            off_cm: tidy(cut.off().cm()),
            reach: tidy(cut.reach()),
        }
    }
}

/// A plan, a head and what was chosen.
struct Question {
    plan: Plan,
    head: Head,
    choices: Choices,
}

enum Asked {
    List,
    Help,
    Lengths(Box<Question>),
}

fn asked() -> Result<Asked, String> {
    use lexopt::prelude::*;
    let mut parser = lexopt::Parser::from_env();
    let (mut plan, mut head, mut set) = (None, None, Vec::new());
    let wrong = |e: lexopt::Error| format!("{e}. {USAGE}");
    let text = |value: std::ffi::OsString| value.to_string_lossy().into_owned();
    while let Some(argument) = parser.next().map_err(wrong)? {
        match argument {
            Long("list") => return Ok(Asked::List),
            Long("help") | Short('h') => return Ok(Asked::Help),
            Long("plan") => plan = Some(text(parser.value().map_err(wrong)?)),
            Long("head") => head = Some(text(parser.value().map_err(wrong)?)),
            Long("set") => set.push(text(parser.value().map_err(wrong)?)),
            other => return Err(wrong(other.unexpected())),
        }
    }
    let id = plan.ok_or(USAGE)?;
    let plan = built_in(&id)
        .ok_or_else(|| format!("There is no plan called “{id}”. `lengths --list` names them."))?;
    let tapes = match head {
        None => Tapes::default(),
        Some(file) => {
            let text = std::fs::read_to_string(&file).map_err(|e| format!("{file}: {e}."))?;
            Tapes::from_json(&text).map_err(|e| e.to_string())?
        }
    };
    let head = Head::from_tapes(&tapes).map_err(|e| e.to_string())?;
    let mut choices = Choices::default();
    for pair in set {
        let (name, value) = pair
            .split_once('=')
            .ok_or_else(|| format!("--set takes name=value, not “{pair}”."))?;
        choices
            .set(&plan, name.trim(), value.trim())
            .map_err(|e| e.to_string())?;
    }
    Ok(Asked::Lengths(Box::new(Question {
        plan,
        head,
        choices,
    })))
}

fn answer(asked: &Asked) -> Result<String, String> {
    match asked {
        Asked::Help => Ok(USAGE.to_owned()),
        Asked::List => Ok(built_ins()
            .iter()
            .map(described)
            .collect::<Vec<_>>()
            .join("\n")),
        Asked::Lengths(question) => {
            let Question {
                plan,
                head,
                choices,
            } = &**question;
            let job = Job {
                head,
                hair: &Hair::default(),
                plan,
                choices,
            };
            let outcome = cut(&job, &Measured::new()).map_err(|e| e.to_string())?;
            let rows: Vec<Row> = outcome.sections.iter().map(Row::of).collect();
            serde_json::to_string_pretty(&rows).map_err(|e| e.to_string())
        }
    }
}

/// A plan's id and name, and its choices with their defaults on lines below.
fn described(plan: &Plan) -> String {
    let choices: Vec<String> = plan
        .choices
        .iter()
        .map(|choice| format!("  --set {}={}  ({})", choice.id, choice.default, choice.ask))
        .collect();
    format!("{}  {}\n{}", plan.id, plan.name, choices.join("\n"))
}

fn main() -> ExitCode {
    match asked().and_then(|asked| answer(&asked)) {
        Ok(text) => {
            use std::io::Write;
            // Nobody reads on: a closed pipe is an end, not a fault.
            let _ = writeln!(std::io::stdout(), "{text}");
            ExitCode::SUCCESS
        }
        Err(sentence) => {
            eprintln!("{sentence}");
            ExitCode::FAILURE
        }
    }
}
