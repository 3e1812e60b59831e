//! A step in a few words: what must be read from where the hands are.

use super::choices::Choices;
use super::holds::{
    Carried, Elevation, Facing, Fall, FallLine, Fingers, Held, Over, Reference, Rule, Station,
};
use super::landmark_word;
use super::model::{Caution, Given, Plan, Step};
use super::technique::Technique;
use crate::head::Landmark;
use crate::measure::{Length, Unit};

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
    pub const fn brief(self) -> &'static str {
        match self {
            Self::Eyes => "Eyes: points away",
            Self::Ear => "Ear: shield it",
            Self::Neck => "Neck: points away",
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
                ("no lift".to_owned(), comb.to_owned(), fingers)
            }
            Held::Stationary(cut) => {
                let to = || match cut.station {
                    // The guide names the parting; here it would take a line too many on a small phone.
                    Station::EarToEar => "to ear-to-ear".to_owned(),
                    station_at => format!("to {}", station(station_at)),
                };
                let comb = over(cut.over).unwrap_or_else(to);
                (lift(cut.elevation), comb, fingers(cut.fingers))
            }
            Held::Travelling(travel) => {
                let comb = over(travel.over).unwrap_or_else(|| "at its own base".to_owned());
                (lift(travel.elevation), comb, fingers(travel.fingers))
            }
            Held::Plane(plane) => {
                let (lift, comb, fingers) = facing(plane.facing);
                (lift, comb.to_owned(), fingers.to_owned())
            }
            Held::Trim(_) => three("as it was cut", "as it was cut", "along the old ends"),
            Held::Taper(_) => three("with the comb", "up from skin", "none, the comb instead"),
            Held::Check => three(
                if self.hangs() {
                    "no lift"
                } else {
                    "straight out"
                },
                "at right angles",
                "along what you see",
            ),
        };
        let technique = match (step.technique, step.held.cuts()) {
            (Some(technique), _) => technique.name(),
            (None, true) => "",
            (None, false) => "look for a step",
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
            let title = set.title.trim();
            let short = !title.is_empty() && title.chars().count() <= SHORT;
            short.then(|| first_down(title))
        };
        let first = |rule: &Rule| match rule {
            Rule::AsStep(id) => title(id).unwrap_or_else(|| "an earlier step".to_owned()),
            Rule::Beside => "hair beside it".to_owned(),
            Rule::AmountOff(off) => {
                telling.length(self, off, "{} off, first one", "agreed amount off")
            }
            Rule::Length(length) => telling.length(self, length, "{}, first one", "agreed length"),
            Rule::EndsAt(landmark) => telling.landmark(self, landmark).map_or_else(
                || "ends where agreed".to_owned(),
                |at| format!("ends at {}", place(at)),
            ),
        };
        match &step.held {
            Held::Fall(fall) => telling.line(self, fall),
            Held::Stationary(cut) => match &cut.length {
                Rule::AsStep(id) => title(id).map(|title| format!("{title}, stays")),
                rule if number == 1 => Some(first(rule)),
                _ => None,
            }
            .unwrap_or_else(|| {
                let at = station(cut.station);
                match (cut.station, at.strip_prefix("the ")) {
                    (Station::EarToEar, _) => format!("{at}, stays"),
                    (_, Some(at)) => format!("stays at {at}"),
                    // Above or behind the ear.
                    (_, None) => format!("stays {at}"),
                }
            }),
            Held::Travelling(travel) if number == 1 => first(&travel.length),
            Held::Travelling(travel) => match travel.guide {
                Carried::Neighbour => "section before".to_owned(),
                Carried::First => "first section".to_owned(),
            },
            Held::Plane(plane) if number == 1 => first(&plane.length),
            Held::Plane(_) => "the line stays".to_owned(),
            Held::Trim(trim) => {
                telling.length(self, &trim.off, "{} off, no more", "agreed amount off")
            }
            Held::Taper(_) => "hair below the comb".to_owned(),
            Held::Check => "left against right".to_owned(),
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
            return "line as agreed".to_owned();
        };
        let away = Length::from_cm(below.abs()).shown(self.unit);
        let at = place(at);
        match below {
            _ if away.starts_with("0 ") => format!("line at {at}"),
            _ if below < 0.0 => format!("{away} above {at}"),
            _ => format!("{away} below {at}"),
        }
    }
}

fn three(lift: &str, comb: &str, fingers: &str) -> (String, String, String) {
    (lift.to_owned(), comb.to_owned(), fingers.to_owned())
}

/// Where hair falls: how it is combed, and how the fingers lie.
fn falling(line: FallLine) -> (&'static str, String) {
    match line {
        FallLine::Place => ("to one point", "level".to_owned()),
        FallLine::Level => ("in its fall", "level".to_owned()),
        FallLine::Sloping(degrees) if degrees < 0.0 => {
            ("in its fall", format!("{:.0}° down to the back", -degrees))
        }
        FallLine::Sloping(degrees) => ("in its fall", format!("{degrees:.0}° down to the face")),
        FallLine::Aside(degrees) => ("in its fall", format!("{degrees:.0}° down from parting")),
    }
}

fn lift(elevation: Elevation) -> String {
    let degrees = elevation.degrees.round();
    match (elevation.from, degrees as i32) {
        (_, 0) => "no lift".to_owned(),
        (Reference::Head, 90) => "straight out".to_owned(),
        (Reference::Head, _) => format!("{degrees:.0}° from head"),
        (Reference::Room, 90) => "level with floor".to_owned(),
        (Reference::Room, 180) => "straight up".to_owned(),
        (Reference::Room, _) => format!("{degrees:.0}° from room"),
    }
}

fn over(over: Over) -> Option<String> {
    Some(match over {
        Over::None => return None,
        Over::Degrees(degrees) if degrees < 0.0 => format!("{:.0}° over to back", -degrees),
        Over::Degrees(degrees) => format!("{degrees:.0}° over to face"),
        Over::To(landmark) => format!("over to {}", place(landmark)),
    })
}

fn fingers(fingers: Fingers) -> String {
    match fingers {
        Fingers::ParallelToHead => "parallel to head".to_owned(),
        Fingers::Rounded => "rounded with head".to_owned(),
        Fingers::Level => "level".to_owned(),
        Fingers::Plumb => "upright".to_owned(),
        Fingers::Leaning(degrees) if degrees < 0.0 => format!("upper end {:.0}° nearer", -degrees),
        Fingers::Leaning(degrees) => format!("upper end {degrees:.0}° further"),
    }
}

fn station(station: Station) -> String {
    match station {
        Station::Parting => "the parting".to_owned(),
        Station::EarToEar => "ear-to-ear parting".to_owned(),
        Station::FirstSection | Station::AlongFirst => "the first section".to_owned(),
        Station::At(landmark) => place(landmark),
    }
}

/// How hair is held to a plane: lift, comb, fingers.
fn facing(facing: Facing) -> (String, &'static str, &'static str) {
    // With the wall behind it this must fit two lines of a small phone.
    let level = || "level out".to_owned();
    match facing {
        Facing::Side => (level(), "to a side wall", "upright"),
        Facing::Back => (level(), "to a back wall", "upright"),
        Facing::Front => (level(), "to a front wall", "upright"),
        Facing::Top => ("straight up".to_owned(), "to a level line", "level"),
        Facing::Slope(degrees) => (
            format!("{:.0}° from room", 90.0 + degrees),
            "to a side slope",
            "along the slope",
        ),
    }
}

/// How hard hair is held. That ears, and fringes over the eyes, want less is common practice, no source.
fn tension(step: &Step) -> &'static str {
    let falls = matches!(step.held, Held::Fall(_));
    if matches!(
        step.technique,
        Some(Technique::Freehand | Technique::OverComb)
    ) {
        "none"
    } else if step.cautions.contains(&Caution::Ear) {
        "even, none over the ear"
    } else if falls && step.cautions.contains(&Caution::Eyes) {
        "hardly any"
    } else {
        "even"
    }
}

/// A named point after `to` or `at`.
fn place(landmark: Landmark) -> String {
    match landmark {
        Landmark::InFrontOfEar => "the front of the ear".to_owned(),
        Landmark::AboveEar => "above the ear".to_owned(),
        Landmark::BehindEar => "behind the ear".to_owned(),
        Landmark::Occipital => "the occipital bone".to_owned(),
        other => format!("the {}", landmark_word(other).replace('_', " ")),
    }
}

fn first_down(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| c.to_ascii_lowercase());
    first.into_iter().chain(letters).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{built_in, built_ins};

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
