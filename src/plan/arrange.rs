//! Steps duplicated, moved, taken out, changed over to the other side.

use super::holds::{Carried, Elevation, Fingers, Held, Over, Reference, Rule, Travel};
use super::model::{Given, Plan, Sides, Step, Tilt, Words};
use super::partings::{Area, End, Pattern};
use super::technique::Technique;
use crate::words::noted;

/// What the title of a copy ends in, as it is kept.
pub(super) const AGAIN: &str = ", again";
/// The same of a copy for the other side.
pub(super) const OTHER_SIDE: &str = ", other side";

impl Plan {
    /// A step's id that no step of this plan has, like `name`.
    pub fn free_id(&self, name: &str) -> String {
        let taken = |id: &String| self.steps.iter().any(|s| &s.id == id);
        let numbered = |n: usize| match n {
            1 => name.to_owned(),
            n => format!("{name}-{n}"),
        };
        // One of these is free: there are more of them than steps.
        let mut all = (1..=self.steps.len() + 1).map(numbered);
        all.find(|id| !taken(id)).unwrap_or_default()
    }

    /// Puts a copy of a step behind it, and says where it stands.
    pub fn duplicate(&mut self, step: usize) -> usize {
        let Some(own) = self.steps.get(step) else {
            return step;
        };
        // A copy of a copy is named like the first.
        let title = own.title.trim_end_matches(AGAIN);
        let copy = Step {
            id: self.free_id(&own.id),
            title: [title, AGAIN].concat(),
            ..own.clone()
        };
        self.steps.insert(step + 1, copy);
        step + 1
    }

    /// Moves a step to another place, and says where it stands.
    pub fn move_step(&mut self, step: usize, to: usize) -> usize {
        if step >= self.steps.len() {
            return step;
        }
        let to = to.min(self.steps.len() - 1);
        let moved = self.steps.remove(step);
        self.steps.insert(to, moved);
        to
    }

    /// Takes a step out. What spoke of it keeps its words, and is a fault until it is changed.
    pub fn remove(&mut self, step: usize) {
        if step < self.steps.len() {
            self.steps.remove(step);
        }
    }

    /// Changes a one-sided step over to the other side; one of both sides, across the middle or none
    /// stays as it is.
    pub fn change_over(&mut self, step: usize) {
        if let Some(own) = self.steps.get_mut(step) {
            own.sides = match own.sides {
                Sides::Left => Sides::Right,
                Sides::Right => Sides::Left,
                other => other,
            };
            // So that no tilt stays no tilt, and not −0.
            own.tilt.left = 0.0 - own.tilt.left;
        }
    }

    /// Puts the mirror of a one-sided step behind it, and says where it stands.
    pub fn mirror(&mut self, step: usize) -> usize {
        let there = self.duplicate(step);
        self.change_over(there);
        if there != step {
            let title = self.steps[step].title.clone();
            self.steps[there].title = [title.as_str(), OTHER_SIDE].concat();
        }
        there
    }

    /// Puts a new step before the checks at the end, and says where it stands: the whole head in
    /// level partings, held straight out.
    pub fn add_step(&mut self) -> usize {
        let checks = self.steps.iter().rev();
        let at = self.steps.len() - checks.take_while(|s| !s.held.cuts()).count();
        let step = Step {
            id: self.free_id("step"),
            title: noted("New step").to_owned(),
            area: Area::Parted {
                region: Vec::new(),
                pattern: Pattern::Horizontal {
                    spacing: 3.0,
                    from: End::Bottom,
                },
                name: noted("Section").to_owned(),
            },
            held: Held::Travelling(Travel {
                elevation: Elevation {
                    degrees: 90.0,
                    from: Reference::Head,
                },
                over: Over::None,
                fingers: Fingers::ParallelToHead,
                guide: Carried::Neighbour,
                length: Rule::Length(Given::Fixed(12.0)),
            }),
            tilt: Tilt::default(),
            sides: Sides::Both,
            longer: 0.0,
            recuts: Vec::new(),
            apart: Vec::new(),
            technique: Some(Technique::Blunt),
            words: Words::default(),
            cautions: Vec::new(),
        };
        self.steps.insert(at, step);
        at
    }
}
