//! What an answer says, in sentences.

use super::aim::{Aimed, Met};
use super::height::fine;
use super::means::{Means, Turns};
use crate::measure::Unit;
use crate::plan::{Plan, Step};
use crate::words::tr;

/// Less change for a whole centimetre, or ten degrees, than this is not worth a word, cm.
const WORTH: f64 = 0.05;

impl Aimed {
    /// What a goal that gives way gives way to, or that nothing here can meet it; none if it is met.
    pub fn why(&self, goal: usize, plan: &Plan, unit: Unit) -> Option<String> {
        let met = self.goals.get(goal).filter(|met| met.gives_way())?;
        if met.too_short {
            return Some(tr("The hair is not that long: no cut brings it there.").to_owned());
        }
        if !met.against.is_empty() {
            let all = met.against.iter().filter_map(|&g| self.goals.get(g));
            let all: Vec<String> = all.map(|met| lower(&met.goal.asked(unit))).collect();
            let joined = if met.together {
                all.join(tr(", together with: "))
            } else {
                all.join(tr("; or: "))
            };
            return Some(tr!("It gives way to: {joined}.", joined));
        }
        if (0..self.means.len()).all(|i| self.tells(met, i).is_none()) {
            return Some(tr("Nothing that may be changed in this plan moves it.").to_owned());
        }
        let mut said = tr("It cannot be met by what may be changed in this plan").to_owned();
        let ends: Vec<String> = (0..self.means.len())
            .filter(|&i| self.tells(met, i).is_some() && self.at_its_end(i))
            .map(|i| self.stands(i, plan, unit))
            .collect();
        if !ends.is_empty() {
            said = tr!("{said}: not even with {}", ends.join(tr(" and ")), said);
        }
        Some(said + ".")
    }

    /// What one more cm or ten degrees of each of the means does to a goal, as far as it is worth a
    /// word: `Each cm more of “Front guide” brings it down by 0.8 cm.`
    pub fn turns(&self, goal: usize, plan: &Plan, unit: Unit) -> Vec<String> {
        let Some(met) = self.goals.get(goal) else {
            return Vec::new();
        };
        let said = |i: usize| {
            let (by, means) = (self.tells(met, i)?, &self.means[i]);
            let title = title(plan, means);
            let each = match (means.turns, unit) {
                (Turns::Length, Unit::Inches) => crate::measure::CM_PER_INCH,
                _ => 1.0,
            };
            let by_much = fine(by.abs() * each, unit);
            let does = match (met.goal.limits_off(), by > 0.0) {
                (false, true) => tr!("raises it by {by_much}", by_much),
                (false, false) => tr!("lowers it by {by_much}", by_much),
                (true, true) => tr!("takes off more, by {by_much}", by_much),
                (true, false) => tr!("takes off less, by {by_much}", by_much),
            };
            Some(match (means.turns, unit) {
                (Turns::Elevation, _) => {
                    tr!("Each 10° more lift in “{title}” {does}.", title, does)
                }
                (Turns::Length, Unit::Cm) => {
                    tr!("Each cm more length in “{title}” {does}.", title, does)
                }
                (Turns::Length, Unit::Inches) => {
                    tr!("Each inch more length in “{title}” {does}.", title, does)
                }
            })
        };
        (0..self.means.len()).filter_map(said).collect()
    }

    /// How much a cm or ten degrees of one of the means changes a goal, cm, if that is worth a word.
    fn tells(&self, met: &Met, means: usize) -> Option<f64> {
        let each = met.sensitivity.get(means)?;
        let by = match self.means[means].turns {
            Turns::Length => *each,
            Turns::Elevation => each * super::seek::DEGREES,
        };
        (by.abs() > WORTH).then_some(by)
    }

    /// Whether one of the means is turned as far as it may be.
    fn at_its_end(&self, means: usize) -> bool {
        let (low, high) = self.means[means].bounds();
        let by = self.by[means];
        (by - low).abs() < 0.5 || (high - by).abs() < 0.5
    }

    fn stands(&self, means: usize, plan: &Plan, unit: Unit) -> String {
        let by = self.by[means];
        let title = title(plan, &self.means[means]);
        let much = match self.means[means].turns {
            Turns::Length => fine(by.abs(), unit),
            Turns::Elevation => format!("{:.0}°", by.abs()),
        };
        match (self.means[means].turns, by > 0.0) {
            (Turns::Length, true) => tr!("“{title}” {much} longer", title, much),
            (Turns::Length, false) => tr!("“{title}” {much} shorter", title, much),
            (Turns::Elevation, true) => tr!("“{title}” {much} higher", title, much),
            (Turns::Elevation, false) => tr!("“{title}” {much} lower", title, much),
        }
    }
}

fn title(plan: &Plan, means: &Means) -> String {
    let step = plan.steps.iter().find(|step| step.id == means.step);
    step.map_or_else(|| means.step.clone(), Step::name)
}

/// A sentence's beginning within another.
fn lower(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| {
        let mut text = String::from(first.to_ascii_lowercase());
        text.push_str(letters.as_str());
        text
    })
}
