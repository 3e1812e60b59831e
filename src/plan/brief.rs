//! A step in a few words: what must be read from where the hands are.

use super::choices::Choices;
use super::holds::{Carried, Fall, Held, Rule};
use super::model::{Caution, Given, Plan, Step};
use super::short::{facing, falling, fingers, lift, over, place, stays, towards};
use super::technique::Technique;
use crate::head::{Landmark, away_from};
use crate::measure::{Length, Unit};
use crate::words::{tr, tr_in};

/// What must be read from 80 cm away: each a few words, 30 letters at most, without a full stop.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Brief {
    /// How high the hair is held.
    pub lift: String,
    /// Where it is combed to.
    pub comb: String,
    /// How the fingers lie.
    pub fingers: String,
    /// What guides it.
    pub guide: String,
    /// How it is cut.
    pub technique: String,
    /// How hard it is held.
    pub tension: String,
    /// What to take care of.
    pub caution: Vec<&'static str>,
}

/// Titles of steps longer than this don't fit, letters.
const SHORT: usize = 18;

impl Caution {
    /// It in a few words. Common practice, no source.
    pub fn brief(self) -> &'static str {
        match self {
            Self::Eyes => tr("Eyes: points away"),
            Self::Ear => tr("Ear: shield it"),
            Self::Neck => tr("Neck: points away"),
        }
    }
}

impl Plan {
    /// A step in a few words, told from its data for a section after the first; lengths in the unit. What
    /// a choice settles is “agreed”. Of no step: nothing.
    pub fn brief(&self, step: usize, unit: Unit) -> Brief {
        self.tell(
            step,
            2,
            &Telling {
                choices: None,
                unit,
            },
        )
    }

    /// The same for the section of this number, from 1, with what was chosen: the first section is where
    /// the guide is cut.
    pub fn brief_for(&self, step: usize, number: usize, choices: &Choices, unit: Unit) -> Brief {
        let choices = Some(choices);
        self.tell(step, number, &Telling { choices, unit })
    }

    fn tell(&self, step: usize, number: usize, telling: &Telling<'_>) -> Brief {
        let Some(step) = self.steps.get(step) else {
            return Brief::default();
        };
        let (lift, comb, fingers) = match &step.held {
            Held::Fall(fall) => {
                let (comb, fingers) = falling(fall.line);
                (tr("no lift").to_owned(), comb.to_owned(), fingers)
            }
            Held::Stationary(cut) => {
                let comb = over(cut.over).unwrap_or_else(|| towards(cut.station));
                (lift(cut.elevation), comb, fingers(cut.fingers))
            }
            Held::Travelling(travel) => {
                let comb = over(travel.over).unwrap_or_else(|| tr("where it grows").to_owned());
                (lift(travel.elevation), comb, fingers(travel.fingers))
            }
            Held::Plane(plane) => {
                let (lift, comb, fingers) = facing(plane.facing);
                (lift, comb.to_owned(), fingers.to_owned())
            }
            Held::Trim(_) => three(
                tr("as it was cut"),
                tr("as it was cut"),
                tr("along the old ends"),
            ),
            Held::Taper(_) => three(
                tr("with the comb"),
                tr("up from skin"),
                tr("none, the comb instead"),
            ),
            Held::Check => three(
                if self.hangs() {
                    tr("no lift")
                } else {
                    tr("straight out")
                },
                tr("at right angles"),
                tr("along what you see"),
            ),
        };
        let technique = match (step.technique, step.held.cuts()) {
            (Some(technique), _) => technique.name(),
            (None, true) => "",
            (None, false) => tr("look for a step"),
        };
        Brief {
            lift,
            comb,
            fingers,
            guide: self.guide(step, number, telling),
            technique: technique.to_owned(),
            tension: tension(step).to_owned(),
            caution: step
                .cautions
                .iter()
                .map(|caution| caution.brief())
                .collect(),
        }
    }

    /// Whether all its hair is cut in its fall, so that lifting it would show nothing.
    fn hangs(&self) -> bool {
        let mut cutting = self.steps.iter().filter(|step| step.held.cuts());
        cutting.all(|step| matches!(step.held, Held::Fall(_)))
    }

    fn guide(&self, step: &Step, number: usize, telling: &Telling<'_>) -> String {
        // The title of a step that sets the length, if it fits.
        let title = |id: &String| {
            let set = self.steps.iter().find(|s| &s.id == id)?;
            let title = set.name();
            let title = title.trim();
            let short = !title.is_empty() && title.chars().count() <= SHORT;
            short.then(|| first_down(title))
        };
        let first = |rule: &Rule| match rule {
            Rule::AsStep(id) => title(id).unwrap_or_else(|| tr("an earlier step").to_owned()),
            Rule::Beside => tr("hair beside it").to_owned(),
            Rule::AmountOff(off) => {
                telling.length(self, off, tr("{} off, first one"), tr("agreed amount off"))
            }
            Rule::Length(length) => {
                telling.length(self, length, tr("{}, first one"), tr("agreed length"))
            }
            Rule::EndsAt(landmark) => telling.landmark(self, landmark).map_or_else(
                || tr("ends where agreed").to_owned(),
                |at| tr!("ends at {}", place(at)),
            ),
        };
        match &step.held {
            Held::Fall(fall) => telling.line(self, fall),
            Held::Stationary(cut) => match &cut.length {
                Rule::AsStep(id) => title(id).map(|title| tr!("{title}, stays", title)),
                rule if number == 1 => Some(first(rule)),
                _ => None,
            }
            .unwrap_or_else(|| stays(cut.station)),
            Held::Travelling(travel) if number == 1 => first(&travel.length),
            Held::Travelling(travel) => match travel.guide {
                Carried::Neighbour => tr("section before").to_owned(),
                Carried::First => tr("first section").to_owned(),
            },
            Held::Plane(plane) if number == 1 => first(&plane.length),
            Held::Plane(_) => tr("the line stays").to_owned(),
            Held::Trim(trim) => telling.length(
                self,
                &trim.off,
                tr("{} off, no more"),
                tr("agreed amount off"),
            ),
            Held::Taper(_) => tr("hair below the comb").to_owned(),
            Held::Check => tr("left against right").to_owned(),
        }
    }
}

/// What is needed to say a value.
struct Telling<'a> {
    choices: Option<&'a Choices>,
    unit: Unit,
}

impl Telling<'_> {
    fn cm(&self, plan: &Plan, given: &Given<f64>) -> Option<f64> {
        match (given, self.choices) {
            (Given::Fixed(cm), _) => Some(*cm),
            (_, Some(choices)) => choices.cm(plan, given).ok(),
            _ => None,
        }
    }

    fn landmark(&self, plan: &Plan, given: &Given<Landmark>) -> Option<Landmark> {
        match (given, self.choices) {
            (Given::Fixed(landmark), _) => Some(*landmark),
            (_, Some(choices)) => choices.landmark(plan, given).ok(),
            _ => None,
        }
    }

    /// A length within a text, or another text where it is not known.
    fn length(&self, plan: &Plan, given: &Given<f64>, within: &str, or: &str) -> String {
        match self.cm(plan, given) {
            Some(cm) => within.replace("{}", &Length::from_cm(cm).shown(self.unit)),
            None => or.to_owned(),
        }
    }

    /// The line that hair falls to.
    fn line(&self, plan: &Plan, fall: &Fall) -> String {
        let (Some(at), Some(below)) = (self.landmark(plan, &fall.to), self.cm(plan, &fall.below))
        else {
            return tr("line as agreed").to_owned();
        };
        let away = Length::from_cm(below.abs()).shown(self.unit);
        let at = place(at);
        match below {
            _ if away.starts_with("0 ") => tr!("line at {at}", at),
            _ => away_from(at, &away, below),
        }
    }
}

fn three(lift: &str, comb: &str, fingers: &str) -> (String, String, String) {
    (lift.to_owned(), comb.to_owned(), fingers.to_owned())
}

/// How hard hair is held. That ears, and fringes over the eyes, want less is common practice, no source.
fn tension(step: &Step) -> &'static str {
    let falls = matches!(step.held, Held::Fall(_));
    if matches!(
        step.technique,
        Some(Technique::Freehand | Technique::OverComb)
    ) {
        tr_in("of tension", "none")
    } else if step.cautions.contains(&Caution::Ear) {
        tr("even, none over the ear")
    } else if falls && step.cautions.contains(&Caution::Eyes) {
        tr("hardly any")
    } else {
        tr_in("of tension", "even")
    }
}

fn first_down(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().into_iter().flat_map(char::to_lowercase);
    first.chain(letters).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{Fingers, Over, built_in, built_ins};

    const UNITS: [Unit; 2] = [Unit::Cm, Unit::Inches];

    #[test]
    fn every_step_of_every_cut_is_told_in_few_words() {
        let mut told = 0;
        for plan in built_ins() {
            for (i, step) in plan.steps.iter().enumerate() {
                for unit in UNITS {
                    let chosen = Choices::default();
                    for brief in [
                        plan.brief(i, unit),
                        plan.brief_for(i, 1, &chosen, unit),
                        plan.brief_for(i, 2, &chosen, unit),
                    ] {
                        let Brief {
                            lift,
                            comb,
                            fingers,
                            guide,
                            technique,
                            tension,
                            caution,
                        } = brief;
                        let mut all = vec![lift, comb, fingers, guide, technique, tension];
                        all.extend(caution.into_iter().map(str::to_owned));
                        for text in all {
                            told += 1;
                            assert!(
                                (1..=30).contains(&text.chars().count()) && !text.ends_with('.'),
                                "{} {}: {text:?}",
                                plan.id,
                                step.id
                            );
                        }
                    }
                }
            }
        }
        assert!(told > 1000, "{told}");
    }

    #[test]
    fn a_step_is_told_as_it_is_held() {
        let plan = built_in("soft-layers-face-frame").unwrap();
        let side = plan.brief(1, Unit::Cm);
        assert_eq!(
            (
                side.lift.as_str(),
                side.comb.as_str(),
                side.fingers.as_str()
            ),
            ("straight out", "to the parting", "parallel to head")
        );
        assert_eq!(side.guide, "front guide, stays");
        assert_eq!(side.technique, "Point");
        assert_eq!(side.tension, "even, none over the ear");
        assert_eq!(side.caution, ["Ear: shield it"]);
        let back = plan.brief_for(2, 1, &Choices::default(), Unit::Cm);
        assert_eq!(back.guide, "4 cm off, first one");
        assert_eq!(plan.brief(2, Unit::Cm).guide, "ear-to-ear parting, stays");
        assert_eq!(plan.brief(3, Unit::Cm).guide, "left against right");
        assert_eq!(plan.brief(99, Unit::Cm), Brief::default());

        let bob = built_in("one-length-bob").unwrap();
        let mut lower = Choices::default();
        lower.set(&bob, "lower", "2 cm").unwrap();
        let nape = bob.brief_for(0, 2, &lower, Unit::Inches);
        assert_eq!(nape.guide, "3/4 in below the chin");
        assert_eq!(bob.brief(0, Unit::Cm).guide, "line as agreed");
        assert_eq!(bob.brief(3, Unit::Cm).lift, "no lift");

        let mut plan = built_in("uniform-layers").unwrap();
        if let Held::Travelling(travel) = &mut plan.steps[0].held {
            travel.over = Over::Degrees(25.0);
            travel.elevation.degrees = 60.0;
            travel.fingers = Fingers::Leaning(-10.0);
        }
        let told = plan.brief(0, Unit::Cm);
        assert_eq!(
            [told.lift, told.comb, told.fingers, told.guide],
            [
                "60° from head",
                "25° over to face",
                "upper end 10° nearer",
                "section before"
            ]
        );
    }
}
