//! `lengths`: what a plan comes to on a head, section by section, as JSON.
//!
//! `lengths --list` names the built-in plans and their choices.
//! `lengths --plan ID [--head FILE.json] [--hair FILE.json] [--set name=value …] [--roots]` prints an
//! array with one object a section:
//!
//! | key | meaning |
//! | --- | --- |
//! | `step`, `section`, `side` | which |
//! | `short_cm`, `long_cm` | shortest and longest hair as cut: combed taut, as held |
//! | `off_cm` | the most that comes off |
//! | `reach` | share of the hair that reaches the line, 0 to 1 |
//! | `falls_to` | the same hair dry and let go: `short_cm` and `long_cm` as it hangs; where its lowest end falls, `below_top_cm` straight below the high point, and as a `landmark` with `below_cm`, how far below that it ends (above it if below zero); `rests` on what it lies, if anything |
//! | `weight_line_cm` | where the weight line of the whole shape lies after this step, straight below the high point |
//! | `roots` | with `--roots`: for each root its `root` `[x, y, z]`, `before_cm`, `cut_at_cm`, `after_cm`, `reaches`, `wrapped_cm` and its own `falls_to` |
//!
//! A head file holds tape measures in cm, like `{"circumference":56.1,"ear_to_ear":34.1}`; any may be
//! missing. A hair file holds hanging ratios by region and how it is cut, like
//! `{"hanging":{"crown":0.8},"state":"wet"}`.

use serde::Serialize;
use std::process::ExitCode;
use tautline::cut::{Job, Measured, PLACES, SectionCut, Strand, Telling, Told, cut, let_down};
use tautline::geometry::Vec3;
use tautline::hair::Hair;
use tautline::head::{BodyPart, Head, Landmark, Side, Tapes};
use tautline::plan::{Choices, Plan, built_in, built_ins};

const USAGE: &str = "Usage: lengths --list | lengths --plan ID [--head FILE.json] [--hair FILE.json] [--set name=value …] [--roots]";

#[derive(Serialize)]
struct Row<'a> {
    step: &'a str,
    section: usize,
    side: Side,
    short_cm: f64,
    long_cm: f64,
    off_cm: f64,
    reach: f64,
    falls_to: FallsTo,
    weight_line_cm: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    roots: Option<Vec<Root>>,
}

#[derive(Serialize)]
struct FallsTo {
    short_cm: f64,
    long_cm: f64,
    below_top_cm: f64,
    landmark: Landmark,
    below_cm: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    rests: Option<String>,
}

#[derive(Serialize)]
struct Root {
    root: [f64; 3],
    before_cm: f64,
    cut_at_cm: Option<f64>,
    after_cm: f64,
    reaches: bool,
    wrapped_cm: Option<f64>,
    falls_to: FallsTo,
}

/// A thousandth of a centimetre is finer than the engine promises and easier to read.
fn tidy(cm: f64) -> f64 {
    (cm * 1000.0).round() / 1000.0 + 0.0
}

impl FallsTo {
    fn of(told: &Told) -> Self {
        Self {
            short_cm: tidy(told.short.cm()),
            long_cm: tidy(told.long.cm()),
            below_top_cm: tidy(told.below_top),
            landmark: told.level.landmark,
            below_cm: tidy(told.level.below),
            rests: told.rests.map(part_word),
        }
    }
}

fn row<'a>(
    telling: &Telling<'_>,
    cut: &'a SectionCut,
    weight_line: Option<f64>,
    roots: bool,
) -> Row<'a> {
    Row {
        step: &cut.key.step,
        section: cut.key.number,
        side: cut.key.side,
        short_cm: tidy(cut.short().cm()),
        long_cm: tidy(cut.long().cm()),
        off_cm: tidy(cut.off().cm()),
        reach: tidy(cut.reach()),
        falls_to: FallsTo::of(&telling.told(&cut.strands)),
        weight_line_cm: weight_line.map(|z| tidy(telling.below_top(z))),
        roots: roots.then(|| cut.strands.iter().map(|s| root(telling, s)).collect()),
    }
}

fn root(telling: &Telling<'_>, strand: &Strand) -> Root {
    let Vec3 { x, y, z } = strand.root;
    Root {
        root: [x, y, z].map(tidy),
        before_cm: tidy(strand.before),
        cut_at_cm: strand.cut_at.map(tidy),
        after_cm: tidy(strand.after),
        reaches: strand.reaches(),
        wrapped_cm: strand.path.map(|path| tidy(path.wrapped)),
        falls_to: FallsTo::of(&telling.told(std::slice::from_ref(strand))),
    }
}

fn part_word(part: BodyPart) -> String {
    let word = match part {
        BodyPart::Skull => "head",
        BodyPart::Face => "face",
        BodyPart::LeftEar | BodyPart::RightEar => "ear",
        BodyPart::Neck => "neck",
        BodyPart::Shoulders => "shoulders",
        BodyPart::Trunk => "trunk",
    };
    word.to_owned()
}

/// A plan, a head and what was chosen.
struct Question {
    plan: Plan,
    head: Head,
    hair: Hair,
    choices: Choices,
    roots: bool,
}

enum Asked {
    List,
    Help,
    Lengths(Box<Question>),
}

fn asked() -> Result<Asked, String> {
    use lexopt::prelude::*;
    let mut parser = lexopt::Parser::from_env();
    let (mut plan, mut head, mut hair, mut set) = (None, None, None, Vec::new());
    let mut roots = false;
    let wrong = |e: lexopt::Error| format!("{e}. {USAGE}");
    let text = |value: std::ffi::OsString| value.to_string_lossy().into_owned();
    while let Some(argument) = parser.next().map_err(wrong)? {
        match argument {
            Long("list") => return Ok(Asked::List),
            Long("help") | Short('h') => return Ok(Asked::Help),
            Long("plan") => plan = Some(text(parser.value().map_err(wrong)?)),
            Long("head") => head = Some(text(parser.value().map_err(wrong)?)),
            Long("hair") => hair = Some(text(parser.value().map_err(wrong)?)),
            Long("roots") => roots = true,
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
    let hair = match hair {
        None => Hair::default(),
        Some(file) => {
            let text = std::fs::read_to_string(&file).map_err(|e| format!("{file}: {e}."))?;
            serde_json::from_str(&text).map_err(|e| format!("{file} is not a hair file: {e}."))?
        }
    };
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
        hair,
        choices,
        roots,
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
        Asked::Lengths(question) => lengths(question),
    }
}

fn lengths(question: &Question) -> Result<String, String> {
    let Question {
        plan,
        head,
        hair,
        choices,
        roots,
    } = question;
    let said = |e: tautline::cut::CutError| e.to_string();
    let whole = Job {
        head,
        hair,
        plan,
        choices,
    };
    let outcome = cut(&whole, &Measured::new()).map_err(said)?;
    let telling = Telling::new(&whole, &outcome.lengths);
    // The shape after each step: the plan up to it.
    let weight_lines = (0..plan.steps.len())
        .map(|step| {
            let mut up_to = plan.clone();
            up_to.steps.truncate(step + 1);
            let job = Job {
                plan: &up_to,
                ..whole
            };
            let so_far = cut(&job, &Measured::new()).map_err(said)?;
            let down = let_down(head, &so_far.lengths, &job.wear(), PLACES).map_err(said)?;
            Ok(down.weight.overall.line.map(|line| line.z))
        })
        .collect::<Result<Vec<Option<f64>>, String>>()?;
    let rows: Vec<Row> = outcome
        .sections
        .iter()
        .map(|section| row(&telling, section, weight_lines[section.step], *roots))
        .collect();
    serde_json::to_string_pretty(&rows).map_err(|e| e.to_string())
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
