//! What was changed in a plan and its answers, to be taken back and done again.
//!
//! A change keeps only what it changed: the run of steps that differ, the answers if they do, and
//! the rest of the plan if that does. So there is no end to what can be taken back but the device's.

use super::{Choices, Plan, Step};
use crate::json;
use serde::{Deserialize, Serialize};

/// A plan and what was chosen in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Sketch {
    /// The plan; it may contradict itself while it is being changed.
    pub plan: Plan,
    /// The answers.
    pub choices: Choices,
}

/// One change.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Change {
    /// The place of the first step that differs.
    at: usize,
    before: Part,
    after: Part,
}

/// What differs, on one side of a change.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
struct Part {
    /// The plan's id and how many steps it has on this side: what the change belongs to.
    plan: String,
    count: usize,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    steps: Vec<Step>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    choices: Option<Choices>,
    /// The plan without its steps.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    rest: Option<Box<Plan>>,
}

impl Change {
    /// What changed between two sketches; none if nothing did.
    pub fn between(before: &Sketch, after: &Sketch) -> Option<Self> {
        let (old, new) = (&before.plan.steps, &after.plan.steps);
        let alike = |pair: &(&Step, &Step)| pair.0 == pair.1;
        let at = old.iter().zip(new).take_while(alike).count();
        let ends = old[at..].iter().rev().zip(new[at..].iter().rev());
        let end = ends.take_while(alike).count();
        let rest = |sketch: &Sketch| Plan {
            steps: Vec::new(),
            ..sketch.plan.clone()
        };
        let (old_rest, new_rest) = (rest(before), rest(after));
        let rests_differ = old_rest != new_rest;
        let choices_differ = before.choices != after.choices;
        let part = |sketch: &Sketch, rest: Plan| Part {
            plan: sketch.plan.id.clone(),
            count: sketch.plan.steps.len(),
            steps: sketch.plan.steps[at..sketch.plan.steps.len() - end].to_vec(),
            choices: choices_differ.then(|| sketch.choices.clone()),
            rest: rests_differ.then(|| Box::new(rest)),
        };
        let change = Self {
            at,
            before: part(before, old_rest),
            after: part(after, new_rest),
        };
        (change.before != change.after).then_some(change)
    }

    /// Puts one side of the change in the place of the other; false, and nothing done, if the sketch
    /// is not the one that was changed.
    fn put(&self, sketch: &mut Sketch, gone: &Part, here: &Part) -> bool {
        // A stored place may be anything.
        let end = self.at.saturating_add(gone.steps.len());
        if (&sketch.plan.id, sketch.plan.steps.len()) != (&gone.plan, gone.count) {
            return false;
        }
        if sketch.plan.steps.get(self.at..end) != Some(&gone.steps[..]) {
            return false;
        }
        let steps = &mut sketch.plan.steps;
        steps.splice(self.at..end, here.steps.iter().cloned());
        if let Some(rest) = &here.rest {
            let steps = std::mem::take(steps);
            sketch.plan = Plan {
                steps,
                ..(**rest).clone()
            };
        }
        if let Some(choices) = &here.choices {
            sketch.choices.clone_from(choices);
        }
        true
    }
}

/// Everything that was changed, in order.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct History {
    past: Vec<Change>,
    future: Vec<Change>,
}

impl History {
    /// Puts down what changed between two sketches. What had been taken back before is gone then.
    pub fn record(&mut self, before: &Sketch, after: &Sketch) {
        if let Some(change) = Change::between(before, after) {
            self.past.push(change);
            self.future.clear();
        }
    }

    /// Whether there is something to take back.
    pub fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    /// Whether there is something to do again.
    pub fn can_redo(&self) -> bool {
        !self.future.is_empty()
    }

    /// Takes the last change back. A history that does not fit the sketch is dropped.
    pub fn undo(&mut self, sketch: &mut Sketch) {
        if let Some(change) = self.past.pop() {
            if change.put(sketch, &change.after, &change.before) {
                self.future.push(change);
            } else {
                *self = Self::default();
            }
        }
    }

    /// Does the last change that was taken back again.
    pub fn redo(&mut self, sketch: &mut Sketch) {
        if let Some(change) = self.future.pop() {
            if change.put(sketch, &change.before, &change.after) {
                self.past.push(change);
            } else {
                *self = Self::default();
            }
        }
    }

    /// The same without its oldest changes, as text of no more than `most` bytes.
    pub fn to_json(&self, most: usize) -> String {
        let mut kept = self.clone();
        loop {
            // Texts and numbers: writing them cannot fail.
            let text = serde_json::to_string(&kept).unwrap_or_default();
            if text.len() <= most || (kept.past.is_empty() && kept.future.is_empty()) {
                return text;
            }
            kept.past.drain(..kept.past.len().div_ceil(2));
            if kept.past.is_empty() {
                kept.future.clear();
            }
        }
    }

    /// A history from its text; an empty one if it does not read.
    pub fn from_json(text: &str) -> Self {
        json::read(text).unwrap_or_default()
    }
}
