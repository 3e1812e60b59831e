//! Hair that grows between two visits: the next cut out of one that was made.

use super::learn::Learned;
use super::{Ready, Record, SavedCut};
use crate::consult::Ask;
use crate::cut::{CutError, Outcome};
use crate::hair::{Growth, LengthMap, MapError};
use crate::head::{Kind, Side};
use crate::measure::{Day, Length, Unit, read_length, storable};
use crate::plan::{Given, Held, Plan, Rule};
use crate::words::{decimal, tr};
use serde::{Deserialize, Serialize};

/// What the last visit left, and what has grown since: the hair that a cut begins with.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Left {
    /// The lengths that it left, as [`LengthMap::to_text`] writes them. Kept as text: one that does not read
    /// is not the end of the whole cut.
    pub map: String,
    /// The id of that visit; empty if it is the hair of a practice head that nobody cut yet.
    #[serde(default)]
    pub of: String,
    /// Its day, as `2026-11-25`.
    #[serde(default)]
    pub day: String,
    /// What has grown since, as it was reckoned when this cut was made.
    #[serde(default)]
    pub grown: Length,
}

impl Left {
    /// The lengths that this cut begins with, grown.
    ///
    /// # Errors
    /// [`MapError`] with a sentence if what is kept is no map.
    pub fn grown_map(&self) -> Result<LengthMap, MapError> {
        // A stored number may be anything.
        let by = Length::from_cm(self.grown.cm().clamp(0.0, MOST_GROWN));
        Ok(LengthMap::read(&self.map)?.grown(by))
    }
}

/// More than this is not taken for growth between two visits, cm: two years at the fastest rate.
const MOST_GROWN: f64 = 60.0;
/// Less than this has not grown, cm: nobody can take it off. Judgement.
pub const A_TRIM: f64 = 0.1;

/// Where a rate of growth comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Known {
    /// It stands on the client's card.
    Typed,
    /// It was learned from so many measures of this client's visits.
    Learned(usize),
    /// It is the usual one: half an inch a month ([`Growth::default`]).
    Usual,
    /// A practice head's hair does not grow.
    Never,
}

/// How fast hair grows, and how that is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rate {
    growth: Option<Growth>,
    /// How it is known.
    pub known: Known,
}

impl Rate {
    /// Of a client or a practice head, or of nobody: what stands on the card, else what was learned from
    /// enough visits, else the usual. A rate on the card that does not read is not said.
    pub fn of(record: Option<&Record>, learned: &Learned) -> Self {
        let of = |growth, known| Self {
            growth: Some(growth),
            known,
        };
        if record.is_some_and(|record| record.kind == Kind::Practice) {
            return Self {
                growth: None,
                known: Known::Never,
            };
        }
        let typed = record.map(|record| record.growth.trim());
        let typed = typed.filter(|typed| !typed.is_empty());
        let typed = typed.and_then(|typed| read_length(typed, Unit::Cm).ok());
        if let Some(length) = typed.filter(|length| length.cm() > 0.0) {
            return of(Growth::a_month(length.cm()), Known::Typed);
        }
        match &learned.growth {
            Some(found) => of(Growth::a_month(found.value), Known::Learned(found.count)),
            None => of(Growth::default(), Known::Usual),
        }
    }

    /// What grows from one day to another; nothing backwards.
    pub fn between(&self, from: Day, to: Day) -> Length {
        self.over_weeks(from.until(to) as f64 / 7.0)
    }

    /// What grows in so many weeks.
    pub fn over_weeks(&self, weeks: f64) -> Length {
        self.growth
            .map_or(Length::ZERO, |growth| growth.over_weeks(weeks))
    }

    /// Cm a month; none of hair that does not grow.
    pub fn cm_a_month(&self) -> Option<f64> {
        self.growth.map(Growth::cm_a_month)
    }

    /// It in words, after "at": `1.25 cm a month, the usual rate`.
    pub fn said(&self, unit: Unit) -> String {
        let Some(cm) = self.cm_a_month() else {
            return tr("no rate at all: hair of a practice head does not grow").to_owned();
        };
        let rate = a_month(cm, unit);
        let known = match self.known {
            Known::Typed => tr("as it stands on the card").to_owned(),
            Known::Learned(count) => tr!("learned from {count} measures of this client", count),
            Known::Usual | Known::Never => tr("the usual rate").to_owned(),
        };
        format!("{rate}, {known}")
    }
}

/// A rate as it is read: to a tenth of a millimetre, for half an inch is 1.25 cm to everybody.
pub fn a_month(cm: f64, unit: Unit) -> String {
    let number = |rate: f64| decimal(format!("{}", (rate * 100.0).round() / 100.0));
    match unit {
        Unit::Cm => tr!("{} cm a month", number(cm)),
        Unit::Inches => tr!("{} in a month", number(cm / 2.54)),
    }
}

/// The same cut again, begun with the hair that a visit left, grown until `today`: same plan, choices, aims, head
/// and consultation. `followed` is what was really cut ([`Ready::followed`]). A private note stays with its
/// visit, and what was typed and does not read is not taken along.
///
/// # Errors
/// [`CutError`] when the hair that is left cannot be worked out.
pub fn repeat(
    visit: &SavedCut,
    ready: &Ready,
    followed: &Outcome,
    (today, rate): (Day, &Rate),
    (id, now): (&str, &str),
) -> Result<SavedCut, CutError> {
    let day = visit.day();
    let from = Day::read(&day).unwrap_or(today);
    let mut next = SavedCut::new(id, &visit.title, &visit.plan, now);
    next.tapes.clone_from(&visit.tapes);
    next.shape = visit.shape;
    next.consultation.clone_from(&visit.consultation);
    next.consultation.put(Ask::Note, "");
    next.own.clone_from(&visit.own);
    next.choices.clone_from(&visit.choices);
    next.aims.clone_from(&visit.aims);
    next.visit.of.clone_from(&visit.visit.of);
    next.visit.invented = visit.visit.invented;
    next.left = Some(Left {
        map: followed.left_map(&ready.head)?.to_text(),
        of: visit.id.clone(),
        day,
        grown: Length::from_cm(storable(rate.between(from, today).cm())),
    });
    Ok(next)
}

/// The cut that takes a grown shape back to what a visit left: [`repeat`], so that what has grown comes off
/// and no more. Lines that stand by themselves (a landmark, a length, a fall) stand where they really were
/// cut; what took an amount off (a trim, a guide so much shorter than it was) takes off what has grown.
///
/// A trim over hair that an earlier step of the same plan cuts to a line takes off no more than it did: the
/// line takes the rest.
///
/// # Errors
/// As [`repeat`].
pub fn trim_back(
    visit: &SavedCut,
    ready: &Ready,
    followed: &Outcome,
    when: (Day, &Rate),
    named: (&str, &str),
) -> Result<SavedCut, CutError> {
    let mut next = repeat(visit, ready, followed, when, named)?;
    let grown = next.left.as_ref().map_or(0.0, |left| left.grown.cm());
    let Some(mut sketch) = next.sketch() else {
        return Ok(next);
    };
    let mut lined = false;
    for index in 0..sketch.plan.steps.len() {
        let Some(step) = sketch.plan.steps.get_mut(index) else {
            continue;
        };
        let amount = match &mut step.held {
            Held::Trim(trim) => Some(trim.off.clone()),
            held => match held.rule_mut() {
                Some(Rule::AmountOff(off)) => Some(off.clone()),
                _ => None,
            },
        };
        match amount {
            Some(given) => {
                let was = ready.choices.cm(&ready.plan, &given).unwrap_or(grown);
                let trims = matches!(step.held, Held::Trim(_));
                let off = if trims && lined {
                    was.min(grown)
                } else {
                    grown
                };
                let off = storable((off * 100.0).round() / 100.0);
                match given {
                    Given::Choice(choice) => {
                        answer(&mut sketch.plan, &choice, off, |plan, typed| {
                            // In range by now.
                            let _ = sketch.choices.set(plan, &choice, typed);
                        })
                    }
                    Given::Fixed(_) => put(&mut step.held, off),
                }
                lined |= !trims;
            }
            None if step.held.cuts() => {
                lined = true;
                // As it was really cut, where both sides were cut alike.
                let [left, right] =
                    [Side::Left, Side::Right].map(|s| followed.guide_longer(index, s));
                if (left - right).abs() < SAME {
                    step.longer = storable(step.longer + left);
                }
            }
            None => {}
        }
    }
    next.take(sketch);
    Ok(next)
}

/// Guides of both sides this close are one, cm: half of the finest that is typed. Judgement.
const SAME: f64 = 0.05;

/// Puts an amount into a hold that takes one off.
fn put(held: &mut Held, cm: f64) {
    match held {
        Held::Trim(trim) => trim.off = Given::Fixed(cm),
        held => {
            if let Some(Rule::AmountOff(off)) = held.rule_mut() {
                *off = Given::Fixed(cm);
            }
        }
    }
}

/// Answers a choice of a length, its range widened where the plan would not take it.
fn answer(plan: &mut Plan, id: &str, cm: f64, set: impl FnOnce(&Plan, &str)) {
    let choice = plan.choices.iter_mut().find(|choice| choice.id == id);
    if let Some(choice) = choice
        && let crate::plan::Kind::Length { least, most } = &mut choice.kind
    {
        *least = least.min(cm);
        *most = most.max(cm);
    }
    set(plan, &format!("{cm} cm"));
}
