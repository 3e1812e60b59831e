//! What contradicts what in a plan, each said of the step where it is.

use super::holds::{Elevation, Held, Over, Rule};
use super::model::{Given, Plan, Step};
use super::partings::{Area, Pattern};
use crate::words::{decimal, tr};

/// The part of a step that a fault lies in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Field {
    /// Its region or partings.
    Area,
    /// What guides it.
    Guide,
    /// How it is held.
    Hold,
    /// How it stands to other steps.
    Order,
}

/// Something that contradicts itself.
#[derive(Clone, Debug, PartialEq)]
pub struct Fault {
    /// The place of the step; none if it is the plan's own.
    pub step: Option<usize>,
    /// The part of the step.
    pub field: Field,
    /// What is wrong, in a sentence.
    pub words: String,
}

/// What partings may be apart, cm.
pub const SPACING: (f64, f64) = (0.5, 8.0);
/// The most that a step's hair may be left longer or shorter than its guide says, cm.
pub const LONGER: f64 = 60.0;
/// The most steps, and sections named one by one or places in a step: each takes its time to work
/// out. Judgement; no cut has half as many.
const MOST_STEPS: usize = 80;
const MOST_NAMED: usize = 80;
/// The most that tapered hair gets longer with each cm up, cm. Judgement.
const STEEPEST: f64 = 20.0;

impl Plan {
    /// Everything that contradicts itself.
    pub fn faults(&self) -> Vec<Fault> {
        let mut all = self.own_faults();
        for (i, step) in self.steps.iter().enumerate() {
            let mut say = |field, words: String| {
                all.push(Fault {
                    step: Some(i),
                    field,
                    words,
                });
            };
            self.order(i, step, &mut say);
            area(&step.area, &mut say);
            self.hold(&step.held, &mut say);
            if step.longer.is_nan() || step.longer.abs() > LONGER {
                say(
                    Field::Guide,
                    tr!(
                        "Left longer by {} cm: no more than {LONGER}.",
                        decimal(step.longer.to_string()),
                        LONGER
                    ),
                );
            }
            let tilt = step.tilt;
            if !(tilt.forward.abs() <= 60.0 && tilt.left.abs() <= 45.0) {
                say(
                    Field::Hold,
                    tr("The head can't be tilted that far: 60° forward, 45° to a side.").to_owned(),
                );
            }
        }
        all
    }

    fn own_faults(&self) -> Vec<Fault> {
        let mut all = Vec::new();
        let mut say = |words: String| {
            all.push(Fault {
                step: None,
                field: Field::Order,
                words,
            });
        };
        if self.schema != 1 {
            say(tr!(
                "Its format is version {}, this app reads 1.",
                self.schema
            ));
        }
        if self.steps.is_empty() {
            say(tr("It has no step.").to_owned());
        }
        if self.steps.len() > MOST_STEPS {
            say(tr!(
                "It has {} steps; {MOST_STEPS} are the most that can be worked out.",
                self.steps.len(),
                MOST_STEPS
            ));
        }
        for (i, choice) in self.choices.iter().enumerate() {
            if self.choices[..i].iter().any(|c| c.id == choice.id) {
                say(tr!("Two choices are called {}.", choice.id));
            }
            if let Err(e) = choice.read(&choice.default) {
                say(tr!("A default is no answer: {e}", e));
            }
        }
        all
    }

    fn order(&self, i: usize, step: &Step, say: &mut impl FnMut(Field, String)) {
        let before = &self.steps[..i];
        if before.iter().any(|s| s.id == step.id) {
            say(Field::Order, tr!("Two steps are called {}.", step.id));
        }
        let late = |earlier: &&String| !before.iter().any(|s| &s.id == *earlier);
        let title = |id: &String| match self.steps.iter().find(|s| &s.id == id) {
            Some(step) => tr!("“{}”", step.name()),
            None => tr!("“{id}”, which is gone", id),
        };
        if let Some(Rule::AsStep(earlier)) = step.held.rule()
            && late(&earlier)
        {
            say(
                Field::Guide,
                tr!(
                    "It is guided by {}: that must come before it.",
                    title(earlier)
                ),
            );
        }
        for earlier in step.recuts.iter().chain(&step.apart).filter(late) {
            say(
                Field::Order,
                tr!("It speaks of {}: that must come before it.", title(earlier)),
            );
        }
    }

    fn hold(&self, held: &Held, say: &mut impl FnMut(Field, String)) {
        let mut lift = |elevation: &Elevation, over: &Over| {
            if !(0.0..=180.0).contains(&elevation.degrees) {
                say(
                    Field::Hold,
                    tr("Hair is held between 0° and 180°.").to_owned(),
                );
            }
            if let Over::Degrees(degrees) = over
                && !(-180.0..=180.0).contains(degrees)
            {
                say(
                    Field::Hold,
                    tr("Hair is over-directed by no more than 180°.").to_owned(),
                );
            }
        };
        match held {
            Held::Stationary(cut) => lift(&cut.elevation, &cut.over),
            Held::Travelling(travel) => lift(&travel.elevation, &travel.over),
            Held::Taper(taper) if !(0.0..=STEEPEST).contains(&taper.rise) => say(
                Field::Guide,
                tr!(
                    "Tapered hair gets 0 to {STEEPEST} cm longer with each cm up.",
                    STEEPEST
                ),
            ),
            _ => {}
        }
        let lengths: Vec<&Given<f64>> = match held {
            Held::Fall(fall) => vec![&fall.below],
            Held::Trim(trim) => vec![&trim.off],
            Held::Taper(taper) => vec![&taper.hairline, &taper.up_to],
            _ => match held.rule() {
                Some(Rule::AmountOff(given) | Rule::Length(given)) => vec![given],
                _ => Vec::new(),
            },
        };
        for given in lengths {
            match given {
                Given::Fixed(cm) if *cm < 0.0 && matches!(held, Held::Taper(_)) => {
                    say(
                        Field::Guide,
                        tr("No hair is shorter than nothing.").to_owned(),
                    );
                }
                Given::Fixed(cm) if !cm.is_finite() || cm.abs() > 150.0 => {
                    say(Field::Guide, tr("No hair is that long.").to_owned());
                }
                Given::Choice(id) if !self.choices.iter().any(|c| &c.id == id) => say(
                    Field::Guide,
                    tr!(
                        "It takes its length from the choice {id}, which the plan has not.",
                        id
                    ),
                ),
                _ => {}
            }
        }
    }
}

fn area(area: &Area, say: &mut impl FnMut(Field, String)) {
    let mut wrong = |words: String| say(Field::Area, words);
    let named = match area {
        Area::Pivoting { names, .. } => names.len(),
        Area::Places { places } => places.len(),
        _ => 0,
    };
    if named > MOST_NAMED {
        wrong(tr!(
            "It has {named} sections; {MOST_NAMED} are the most that can be worked out.",
            named,
            MOST_NAMED
        ));
    }
    match area {
        Area::Pivoting { edges, names } if edges.len() != names.len() + 1 => {
            wrong(tr("It needs one edge more than names.").to_owned());
        }
        Area::FrontPiece { width, depth, .. }
            if !((1.0..=90.0).contains(width) && (0.5..=15.0).contains(depth)) =>
        {
            wrong(tr("A front piece is 1° to 90° wide and 0.5 to 15 cm deep.").to_owned());
        }
        Area::Parted { pattern, .. } => {
            if let Some(spacing) = pattern.spacing()
                && !(SPACING.0..=SPACING.1).contains(&spacing)
            {
                wrong(tr!(
                    "Partings lie {} to {} cm apart.",
                    decimal(SPACING.0.to_string()),
                    SPACING.1
                ));
            }
            if let Pattern::DiagonalForward { degrees, .. } | Pattern::DiagonalBack { degrees, .. } =
                pattern
                && !(1.0..=89.0).contains(degrees)
            {
                wrong(tr("A diagonal slopes by 1° to 89°.").to_owned());
            }
        }
        _ => {}
    }
}
