//! A plan's texts: in one usage, and those that a list shows.

use super::arrange::{AGAIN, OTHER_SIDE};
use super::model::{Caution, Group, Plan, Step};
use super::partings::Area;
use crate::measure::{Usage, said};
use crate::words::tr;

impl Step {
    /// Its title as a person reads it; what is kept is English, or the person's own words.
    pub fn name(&self) -> String {
        named(&self.title)
    }
}

fn named(title: &str) -> String {
    if let Some(of) = title.strip_suffix(OTHER_SIDE) {
        return tr!("{}, other side", named(of));
    }
    match title.strip_suffix(AGAIN) {
        Some(of) => tr!("{}, again", named(of)),
        None => tr(title).to_owned(),
    }
}

impl Plan {
    /// The plan with all its texts in a usage, to be shown; what is kept stays as it was written.
    pub fn said(mut self, usage: Usage) -> Self {
        if usage == Usage::Uk {
            return self;
        }
        if usage == Usage::Us
            && let Some(us) = self.us.take()
        {
            (self.name, self.about, self.group) = (us.name, us.about, Some(us.group));
        }
        self.each_text(&mut |text| *text = said(text, usage).into_owned());
        for step in &mut self.steps {
            step.title = step.name();
        }
        self
    }

    /// Calls `change` with every text that a person reads.
    pub fn each_text(&mut self, change: &mut dyn FnMut(&mut String)) {
        for text in [
            &mut self.name,
            &mut self.about,
            &mut self.suits,
            &mut self.not_for,
            &mut self.weight,
        ] {
            change(text);
        }
        for text in self.mistakes.iter_mut().chain(&mut self.checks) {
            change(text);
        }
        for choice in &mut self.choices {
            change(&mut choice.ask);
        }
        for step in &mut self.steps {
            change(&mut step.title);
            match &mut step.area {
                Area::Pivoting { names, .. } => names.iter_mut().for_each(&mut *change),
                Area::Parted { name, .. } | Area::FrontPiece { name, .. } => change(name),
                Area::Places { places } => places.iter_mut().for_each(|p| change(&mut p.name)),
            }
            for text in [
                &mut step.words.comb,
                &mut step.words.fingers,
                &mut step.words.guide,
                &mut step.words.technique,
                &mut step.words.stance,
            ] {
                change(text);
            }
        }
    }

    /// How long it takes, in a sentence; none if nobody said.
    pub fn time_said(&self) -> Option<String> {
        (self.minutes > 0).then(|| tr!("About {} minutes of cutting.", self.minutes))
    }

    /// The first sentence of what the cut is, for a list.
    pub fn in_short(&self) -> &str {
        match self.about.find(". ") {
            Some(end) => &self.about[..=end],
            None => &self.about,
        }
    }

    /// What its steps ask to take care of, each once.
    pub fn cautions(&self) -> impl Iterator<Item = Caution> {
        let named = |caution: &Caution| self.steps.iter().any(|s| s.cautions.contains(caution));
        Caution::ALL.into_iter().filter(named)
    }

    /// The kind it is found under; a plan that does not say is layered.
    pub fn group(&self) -> Group {
        self.group.unwrap_or(Group::Layered)
    }
}
