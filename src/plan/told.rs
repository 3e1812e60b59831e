//! A step's hold in words, from its data: what the chair reads out where nobody wrote anything.

use super::holds::{
    Elevation, Facing, Fall, FallLine, Fingers, Held, Over, Reference, Rule, Station,
};
use super::model::{Given, Plan, Words};
use super::partings::Area;
use crate::head::away_from;
use crate::measure::{Length, Unit};
use crate::words::{first_up, tr, tr_in};

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
                tr("Down, as it falls. No lift.").to_owned(),
                tr("Along the line, hair against the skin or the comb.").to_owned(),
                self.fall(fall, unit),
            ),
            Held::Stationary(cut) => (
                tr!("To {}, {}.", station(cut.station), lift(cut.elevation)),
                fingers(cut.fingers),
                tr!(
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
                tr!(
                    "A little of the section before comes along. {}",
                    self.rule(&travel.length, unit)
                ),
            ),
            Held::Plane(plane) => (
                tr!("Straight out to {}.", facing(plane.facing)),
                tr("Flat along it.").to_owned(),
                tr!(
                    "The same flat line for every section. {}",
                    self.rule(&plane.length, unit)
                ),
            ),
            Held::Trim(trim) => (
                tr("As it was held when it was cut before.").to_owned(),
                tr("Along the ends as they are.").to_owned(),
                tr!("{} off, no more.", self.length(&trim.off, unit)),
            ),
            Held::Taper(taper) => (
                tr("Up over the comb from the hairline.").to_owned(),
                tr("The comb leans out as it climbs.").to_owned(),
                tr!(
                    "{} at the hairline, rising to {}.",
                    self.length(&taper.hairline, unit),
                    self.length(&taper.up_to, unit)
                ),
            ),
            Held::Check => (
                match step.area {
                    Area::Places { .. } => tr("Straight out, at right angles to how it was cut."),
                    _ => tr("At right angles to how it was cut."),
                }
                .to_owned(),
                tr("Along the line you see.").to_owned(),
                tr("Left against right.").to_owned(),
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
            Given::Fixed(landmark) => landmark.the(),
            Given::Choice(_) => tr("the agreed point"),
        };
        let place = match &fall.below {
            Given::Fixed(0.0) => tr!("at {at}", at),
            Given::Fixed(cm) => away_from(at, &shown(cm.abs(), unit), *cm),
            Given::Choice(_) => tr!("the agreed length below {at}", at),
        };
        let line = match fall.line {
            FallLine::Place => tr("combed to one point"),
            FallLine::Level => tr_in("of a line", "level with the floor"),
            FallLine::Sloping(degrees) if degrees < 0.0 => tr("sloping down to the back"),
            FallLine::Sloping(_) => tr("sloping down to the face"),
            FallLine::Aside(_) => tr("sloping down from the parting"),
        };
        tr!("The line {place}, {line}.", place, line)
    }

    fn rule(&self, rule: &Rule, unit: Unit) -> String {
        match rule {
            Rule::AsStep(id) => match self.steps.iter().find(|s| &s.id == id) {
                Some(step) => tr!("As long as “{}” left it.", step.name()),
                None => String::new(),
            },
            Rule::Beside => tr("As long as the hair beside it.").to_owned(),
            Rule::AmountOff(off) => tr!("{} off the first section.", self.length(off, unit)),
            Rule::Length(length) => tr!("The first is {} long.", self.length(length, unit)),
            Rule::EndsAt(Given::Fixed(landmark)) => {
                tr!("The first ends at {}, let down.", landmark.the())
            }
            Rule::EndsAt(Given::Choice(_)) => {
                tr("The first ends at the agreed point, let down.").to_owned()
            }
        }
    }

    fn length(&self, given: &Given<f64>, unit: Unit) -> String {
        match given {
            Given::Fixed(cm) => shown(*cm, unit),
            Given::Choice(_) => tr("as much as agreed").to_owned(),
        }
    }
}

fn shown(cm: f64, unit: Unit) -> String {
    Length::from_cm(cm).shown(unit)
}

/// Whole degrees, without a sign.
fn whole(degrees: f64) -> String {
    format!("{:.0}", degrees.abs())
}

fn lift(elevation: Elevation) -> String {
    let degrees = elevation.degrees;
    match (elevation.from, degrees.round() as i32) {
        (_, 0) => tr("without lift").to_owned(),
        (Reference::Head, 90) => tr("straight out from the head").to_owned(),
        (Reference::Room, 90) => tr_in("of hair", "level with the floor").to_owned(),
        (Reference::Room, 180) => tr("straight up").to_owned(),
        (Reference::Head, _) => tr!("at {}° from the head", whole(degrees)),
        (Reference::Room, _) => tr!("at {}° from the room", whole(degrees)),
    }
}

fn over(over: Over) -> String {
    match over {
        Over::None => String::new(),
        Over::Degrees(degrees) if degrees < 0.0 => {
            tr!(", {}° over towards the back", whole(degrees))
        }
        Over::Degrees(degrees) => tr!(", {}° over towards the face", whole(degrees)),
        Over::To(landmark) => tr!(", over towards {}", landmark.the()),
    }
}

fn fingers(fingers: Fingers) -> String {
    match fingers {
        Fingers::ParallelToHead => tr("Parallel to the head.").to_owned(),
        Fingers::Rounded => tr("Rounded with the head.").to_owned(),
        Fingers::Level => tr("Level with the floor.").to_owned(),
        Fingers::Plumb => tr("Upright.").to_owned(),
        Fingers::Leaning(degrees) if degrees < 0.0 => {
            tr!("Upper end {}° nearer to the head.", whole(degrees))
        }
        Fingers::Leaning(degrees) => {
            tr!("Upper end {}° further from the head.", whole(degrees))
        }
    }
}

fn station(station: Station) -> &'static str {
    match station {
        Station::Parting => tr("the parting"),
        Station::EarToEar => tr("the ear-to-ear parting"),
        Station::FirstSection => tr("the first section"),
        Station::AlongFirst => tr("the line of the first section"),
        Station::At(landmark) => landmark.the(),
    }
}

fn facing(facing: Facing) -> String {
    match facing {
        Facing::Side => tr("an upright wall beside the head").to_owned(),
        Facing::Back => tr("an upright wall behind the head").to_owned(),
        Facing::Front => tr("an upright wall before the face").to_owned(),
        Facing::Top => tr("a level line over the head").to_owned(),
        Facing::Slope(degrees) => tr!("a slope {}° up from the side", format!("{degrees:.0}")),
    }
}
