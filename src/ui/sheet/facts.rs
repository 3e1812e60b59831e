//! Whose head it is, what was agreed, what was chosen: each in a line.

use super::step::Sheet;
use crate::book::{Ready, SavedCut};
use crate::consult::{Ask, Zone};
use crate::head::{Back, Kind, Tape, Top};
use crate::measure::Unit;
use crate::plan::Value;
use crate::ui::grow::begins_with;
use crate::ui::kept::kept;
use crate::ui::parts::Html;
use crate::ui::words;
use crate::words::{lower_first, tr, tr_in};

/// The lines above the pictures.
pub fn write(html: &mut Html, cut: &SavedCut, sheet: &Sheet<'_>) {
    let kept = kept();
    let (ready, unit) = (sheet.ready, sheet.unit);
    html.raw("<dl class=\"sheet-facts\">");
    html.line(tr("Head"), &head(cut, ready, unit));
    html.line(tr("Agreed"), &kept.said(&agreed(cut, unit)));
    html.line(tr("Chosen"), &kept.said(&chosen(cut, ready, unit)));
    if let Some(time) = ready.plan.time_said() {
        html.line(tr("Time"), &time);
    }
    html.raw("</dl>");
}

/// What is asked or measured, and the answer.
fn answered(ask: &str, answer: &str) -> String {
    tr!("{ask} {answer}", ask, answer)
}

fn head(cut: &SavedCut, ready: &Ready, unit: Unit) -> String {
    let mut all: Vec<String> = Tape::ALL
        .into_iter()
        .map(|tape| (tape.name(), ready.head.measure(tape)))
        .filter(|(_, measure)| !measure.estimated())
        .map(|(name, measure)| answered(name, &measure.shown(unit)))
        .collect();
    if all.len() < Tape::ALL.len() {
        all.push(
            if all.is_empty() {
                tr("Nothing measured: a mean head")
            } else {
                tr("the rest estimated")
            }
            .to_owned(),
        );
    }
    let shape = cut.shape;
    if shape.kind == Kind::Practice {
        all.insert(0, words::kind(shape.kind).to_owned());
    }
    if shape.back != Back::Even {
        all.push(answered(
            tr_in("of a head’s shape", "back"),
            &words::back(shape.back).to_lowercase(),
        ));
    }
    if shape.top != Top::Even {
        all.push(answered(
            tr_in("of a head’s shape", "top"),
            &words::top(shape.top).to_lowercase(),
        ));
    }
    all.join("; ")
}

/// What the client was promised, and what is left longer on purpose.
fn agreed(cut: &SavedCut, unit: Unit) -> String {
    let said = &cut.consultation;
    let mut all = Vec::new();
    for zone in Zone::ALL {
        let mut both = [Ask::EndsAt(zone), Ask::NoShorter(zone)]
            .into_iter()
            .filter_map(|ask| {
                let at = said.landmark(ask)?.the();
                Some(format!("{} {at}", ask.words().to_lowercase()))
            });
        if let Some(first) = both.next() {
            let second = both.next().map(|second| ", ".to_owned() + &second);
            let wishes = first + &second.unwrap_or_default();
            all.push(tr!("{zone} {wishes}", wishes, zone = zone.name()));
        }
    }
    if let Some(landmark) = said.landmark(Ask::WeightAt) {
        all.push(answered(Ask::WeightAt.words(), landmark.the()));
    }
    if let Some(shortest) = said.length(Ask::Shortest) {
        all.push(answered(Ask::Shortest.words(), &shortest.as_measured(unit)));
    }
    for (ask, by) in Ask::LONGER {
        if said.is_on(ask)
            && let Some(by) = said.length(by)
        {
            all.push(format!("{}: {}", ask.words(), by.as_measured(unit)));
        }
    }
    all.join("; ")
}

/// The answers to the plan's own questions.
fn chosen(cut: &SavedCut, ready: &Ready, unit: Unit) -> String {
    let plan = &ready.plan;
    let left = begins_with(cut, unit);
    let one = |choice: &crate::plan::Choice| {
        let value = ready.choices.value(plan, &choice.id).ok()?;
        // What the last visit left is told instead.
        if left.is_some() && matches!(value, Value::Before(_)) {
            return None;
        }
        Some([&choice.ask, " ", &words::answer(value, unit)].concat())
    };
    let mut all: Vec<String> = plan.choices.iter().filter_map(one).collect();
    if let Some(left) = &left {
        let left = left.trim_end_matches('.');
        all.push(tr!("The hair before: {}", lower_first(left)));
    }
    all.join("; ")
}
