//! A step's hold in words, from its data: what the chair reads out where nobody wrote anything.

use super::holds::{
    Elevation, Facing, Fall, FallLine, Fingers, Held, Over, Reference, Rule, Station,
};
use super::model::{Given, Plan, Words};
use super::{landmark_word, partings::Area};
use crate::head::Landmark;
use crate::measure::{Length, Unit};

impl Plan {
    /// The same with words for what nobody wrote: combing, fingers and guide of every step; lengths in
    /// the unit.
    pub fn told(mut self, unit: Unit) -> Self {
        for i in 0..self.steps.len() {
            let told = self.words(i, unit);
            let words = &mut self.steps[i].words;
            for (own, told) in [
                (&mut words.comb, told.comb),
                (&mut words.fingers, told.fingers),
                (&mut words.guide, told.guide),
            ] {
                if own.trim().is_empty() {
                    *own = told;
                }
            }
        }
        self
    }

    /// Forgets what `of` says in words of the hold of a step that is held otherwise now: it is told
    /// from the data again. What somebody wrote since stays.
    pub fn forget_words(&mut self, step: usize, of: &Self) {
        let Some(own) = self.steps.get_mut(step) else {
            return;
        };
        let Some(written) = of.steps.iter().find(|s| s.id == own.id) else {
            return;
        };
        if written.held == own.held {
            return;
        }
        let (words, written) = (&mut own.words, &written.words);
        for (own, written) in [
            (&mut words.comb, &written.comb),
            (&mut words.fingers, &written.fingers),
            (&mut words.guide, &written.guide),
        ] {
            if own == written {
                own.clear();
            }
        }
    }

    /// How to comb a step's hair, how the fingers lie and what guides them, told from its data; lengths
    /// in the unit.
    pub fn words(&self, step: usize, unit: Unit) -> Words {
        let Some(step) = self.steps.get(step) else {
            return Words::default();
        };
        let (comb, fingers, guide) = match &step.held {
            Held::Fall(fall) => (
                "Down, as it falls. No lift.".to_owned(),
                "Along the line, hair against the skin or the comb.".to_owned(),
                format!("The line {}.", self.fall(fall, unit)),
            ),
            Held::Stationary(cut) => (
                format!("To {}, {}.", station(cut.station), lift(cut.elevation)),
                fingers(cut.fingers),
                format!(
                    "It stays at {}: bring every section to it. {}",
                    station(cut.station),
                    self.rule(&cut.length, unit)
                ),
            ),
            Held::Travelling(travel) => (
                format!(
                    "{}{}.",
                    first_up(&lift(travel.elevation)),
                    over(travel.over)
                ),
                fingers(travel.fingers),
                format!(
                    "A little of the section before comes along. {}",
                    self.rule(&travel.length, unit)
                ),
            ),
            Held::Plane(plane) => (
                format!("Straight out to {}.", facing(plane.facing)),
                "Flat along it.".to_owned(),
                format!(
                    "The same flat line for every section. {}",
                    self.rule(&plane.length, unit)
                ),
            ),
            Held::Trim(trim) => (
                "As it was held when it was cut before.".to_owned(),
                "Along the ends as they are.".to_owned(),
                format!("{} off, no more.", self.length(&trim.off, unit)),
            ),
            Held::Taper(taper) => (
                "Up over the comb from the hairline.".to_owned(),
                "The comb leans out as it climbs.".to_owned(),
                format!(
                    "{} at the hairline, rising to {}.",
                    self.length(&taper.hairline, unit),
                    self.length(&taper.up_to, unit)
                ),
            ),
            Held::Check => (
                match step.area {
                    Area::Places { .. } => "Straight out, at right angles to how it was cut.",
                    _ => "At right angles to how it was cut.",
                }
                .to_owned(),
                "Along the line you see.".to_owned(),
                "Left against right.".to_owned(),
            ),
        };
        Words {
            comb,
            fingers,
            guide,
            ..Words::default()
        }
    }

    fn fall(&self, fall: &Fall, unit: Unit) -> String {
        let at = match &fall.to {
            Given::Fixed(landmark) => spoken(*landmark),
            Given::Choice(_) => "the agreed point".to_owned(),
        };
        let below = match &fall.below {
            Given::Fixed(0.0) => String::new(),
            Given::Fixed(cm) if *cm < 0.0 => format!("{} above ", shown(-cm, unit)),
            Given::Fixed(cm) => format!("{} below ", shown(*cm, unit)),
            Given::Choice(_) => "the agreed length below ".to_owned(),
        };
        let line = match fall.line {
            FallLine::Place => "combed to one point",
            FallLine::Level => "level with the floor",
            FallLine::Sloping(degrees) if degrees < 0.0 => "sloping down to the back",
            FallLine::Sloping(_) => "sloping down to the face",
            FallLine::Aside(_) => "sloping down from the parting",
        };
        format!("{below}{at}, {line}").trim_start().replacen(
            "the ",
            "at the ",
            usize::from(below.is_empty()),
        )
    }

    fn rule(&self, rule: &Rule, unit: Unit) -> String {
        match rule {
            Rule::AsStep(id) => match self.steps.iter().find(|s| &s.id == id) {
                Some(step) => format!("As long as “{}” left it.", step.title),
                None => String::new(),
            },
            Rule::Beside => "As long as the hair beside it.".to_owned(),
            Rule::AmountOff(off) => format!("{} off the first section.", self.length(off, unit)),
            Rule::Length(length) => format!("The first is {} long.", self.length(length, unit)),
            Rule::EndsAt(Given::Fixed(landmark)) => {
                format!("The first ends at {}, let down.", spoken(*landmark))
            }
            Rule::EndsAt(Given::Choice(_)) => {
                "The first ends at the agreed point, let down.".to_owned()
            }
        }
    }

    fn length(&self, given: &Given<f64>, unit: Unit) -> String {
        match given {
            Given::Fixed(cm) => shown(*cm, unit),
            Given::Choice(_) => "as much as agreed".to_owned(),
        }
    }
}

fn shown(cm: f64, unit: Unit) -> String {
    Length::from_cm(cm).shown(unit)
}

fn spoken(landmark: Landmark) -> String {
    format!("the {}", landmark_word(landmark).replace('_', " "))
}

fn first_up(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| String::from(c.to_ascii_uppercase()));
    first.unwrap_or_default() + letters.as_str()
}

fn lift(elevation: Elevation) -> String {
    let from = match elevation.from {
        Reference::Head => "from the head",
        Reference::Room => "from the room",
    };
    let degrees = elevation.degrees;
    match (elevation.from, degrees.round() as i32) {
        (_, 0) => "without lift".to_owned(),
        (Reference::Head, 90) => "straight out from the head".to_owned(),
        (Reference::Room, 90) => "level with the floor".to_owned(),
        (Reference::Room, 180) => "straight up".to_owned(),
        _ => format!("at {degrees:.0}° {from}"),
    }
}

fn over(over: Over) -> String {
    match over {
        Over::None => String::new(),
        Over::Degrees(degrees) if degrees < 0.0 => {
            format!(", {:.0}° over towards the back", -degrees)
        }
        Over::Degrees(degrees) => format!(", {degrees:.0}° over towards the face"),
        Over::To(landmark) => format!(", over towards {}", spoken(landmark)),
    }
}

fn fingers(fingers: Fingers) -> String {
    match fingers {
        Fingers::ParallelToHead => "Parallel to the head.".to_owned(),
        Fingers::Rounded => "Rounded with the head.".to_owned(),
        Fingers::Level => "Level with the floor.".to_owned(),
        Fingers::Plumb => "Upright.".to_owned(),
        Fingers::Leaning(degrees) if degrees < 0.0 => {
            format!("Upper end {:.0}° nearer to the head.", -degrees)
        }
        Fingers::Leaning(degrees) => format!("Upper end {degrees:.0}° further from the head."),
    }
}

fn station(station: Station) -> String {
    match station {
        Station::Parting => "the parting".to_owned(),
        Station::EarToEar => "the ear-to-ear parting".to_owned(),
        Station::FirstSection => "the first section".to_owned(),
        Station::AlongFirst => "the line of the first section".to_owned(),
        Station::At(landmark) => spoken(landmark),
    }
}

fn facing(facing: Facing) -> String {
    match facing {
        Facing::Side => "an upright wall beside the head".to_owned(),
        Facing::Back => "an upright wall behind the head".to_owned(),
        Facing::Front => "an upright wall before the face".to_owned(),
        Facing::Top => "a level line over the head".to_owned(),
        Facing::Slope(degrees) => format!("a slope {degrees:.0}° up from the side"),
    }
}
