//! Plans of one step or a few, invented for the tests.
#![allow(dead_code)]

pub mod holding;

pub mod built;

pub mod seat;

pub mod made;

pub mod drawn;

use tautline::cut::{CutError, Job, Measured, Outcome, cut};
use tautline::hair::Hair;
use tautline::head::{Head, Tape, Tapes};
use tautline::plan::{
    Area, Bound, Choice, Choices, Covers, Elevation, Held, Kind, Parting, Pattern, Plan, Reference,
    Sides, Step, Tilt, Wetness, Words, landmark_word,
};

/// A plan of these steps whose hair ends at `before` (a landmark's word or a length).
pub fn plan(before: &str, steps: Vec<Step>) -> Plan {
    Plan {
        schema: 1,
        id: "test".to_owned(),
        name: "Test".to_owned(),
        about: String::new(),
        us: None,
        group: None,
        suits: String::new(),
        not_for: String::new(),
        weight: String::new(),
        mistakes: Vec::new(),
        checks: Vec::new(),
        minutes: 0,
        wetness: Wetness::default(),
        covers: Covers::default(),
        choices: vec![Choice {
            id: "before".to_owned(),
            ask: String::new(),
            kind: Kind::Before {
                options: vec![
                    tautline::head::Landmark::Collarbone,
                    tautline::head::Landmark::Chest,
                    tautline::head::Landmark::Waist,
                ],
            },
            default: before.to_owned(),
            settles: None,
        }],
        steps,
    }
}

/// One step over a region in one pattern.
pub fn step(id: &str, region: Vec<Bound>, pattern: Pattern, held: Held) -> Step {
    Step {
        id: id.to_owned(),
        title: id.to_owned(),
        area: Area::Parted {
            region,
            pattern,
            name: "Section".to_owned(),
        },
        held,
        tilt: Tilt::default(),
        sides: Sides::Both,
        longer: 0.0,
        recuts: Vec::new(),
        apart: Vec::new(),
        technique: None,
        words: Words::default(),
        cautions: Vec::new(),
    }
}

pub fn from_head(degrees: f64) -> Elevation {
    Elevation {
        degrees,
        from: Reference::Head,
    }
}

pub fn from_room(degrees: f64) -> Elevation {
    Elevation {
        degrees,
        from: Reference::Room,
    }
}

pub fn mean_head() -> Head {
    Head::from_tapes(&Tapes::default()).unwrap()
}

pub fn head(tapes: &[(Tape, f64)]) -> Head {
    let mut all = Tapes::default();
    for &(tape, cm) in tapes {
        all.set(tape, cm).unwrap();
    }
    Head::from_tapes(&all).unwrap()
}

/// The 5th, 50th and 95th percentile of women and the 95th of men, ANSUR II (NATICK/TR-15/007,
/// 2014), with the arc of NIOSH 2003.
pub fn surveyed_heads() -> Vec<Head> {
    [
        (53.2, 17.8, 14.0, 31.5),
        (56.0, 19.0, 14.7, 34.0),
        (59.7, 20.2, 15.6, 36.7),
        (60.1, 21.1, 16.3, 37.5),
    ]
    .iter()
    .map(|&(c, l, b, e)| {
        head(&[
            (Tape::Circumference, c),
            (Tape::Length, l),
            (Tape::Breadth, b),
            (Tape::EarToEar, e),
        ])
    })
    .collect()
}

pub fn try_run(head: &Head, hair: &Hair, plan: &Plan) -> Result<Outcome, CutError> {
    let job = Job {
        head,
        hair,
        plan,
        choices: &Choices::default(),
    };
    cut(&job, &Measured::new())
}

pub fn run(head: &Head, plan: &Plan) -> Outcome {
    try_run(head, &Hair::default(), plan).unwrap()
}

/// A small, a mean and a large surveyed head: the 5th, 50th and 95th percentile of women.
pub fn three_heads() -> Vec<Head> {
    surveyed_heads().into_iter().take(3).collect()
}

/// What may be answered to a choice; of a length its two ends.
pub fn answers(choice: &Choice) -> Vec<String> {
    let words = |all: &[Parting]| all.iter().map(|p| p.word().to_owned()).collect();
    match &choice.kind {
        Kind::Landmark { options } | Kind::Before { options } => {
            options.iter().map(|l| landmark_word(*l)).collect()
        }
        Kind::Parting => words(&Parting::ALL),
        Kind::SideParting => words(&Parting::ASIDE),
        Kind::Length { least, most } => vec![format!("{least} cm"), format!("{most} cm")],
    }
}

/// The choices of a plan with these answers.
pub fn chosen(plan: &Plan, pairs: &[(&str, &str)]) -> Choices {
    let mut choices = Choices::default();
    for (id, answer) in pairs {
        choices.set(plan, id, answer).unwrap();
    }
    choices
}
