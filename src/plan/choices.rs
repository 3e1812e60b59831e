//! What a person chooses in a plan, and the reading of it.

use super::model::{Given, Plan};
use crate::hair::Before;
use crate::head::Landmark;
use crate::measure::{Length, Unit, read_length};
use crate::words::{decimal, is_foreign, tr};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// One thing to choose.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Choice {
    /// Short stable name, used in commands.
    pub id: String,
    /// The question as the person reads it.
    pub ask: String,
    /// What kind of answer it takes.
    pub kind: Kind,
    /// The answer until the person gives one, as it would be typed.
    pub default: String,
    /// What of the shape it settles, if a client's wish may answer it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub settles: Option<Settles>,
}

/// What of the shape a choice settles.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Settles {
    /// Where the front ends.
    Front,
    /// Where the back, or all of the outline, ends.
    Outline,
}

/// What kind of answer a choice takes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Kind {
    /// One of these landmarks.
    Landmark {
        /// Which.
        options: Vec<Landmark>,
    },
    /// Where the parting is worn.
    Parting,
    /// On which side a parting beside the middle is worn.
    SideParting,
    /// A length in cm between two ends.
    Length {
        /// The least, cm.
        least: f64,
        /// The most, cm.
        most: f64,
    },
    /// How long the hair is now: one of these landmarks, or the same length everywhere.
    Before {
        /// Landmarks offered.
        options: Vec<Landmark>,
    },
}

/// Where the parting is worn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Parting {
    /// In the middle.
    #[default]
    Centre,
    /// On the client's left.
    Left,
    /// On the client's right.
    Right,
}

impl Parting {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Left, Self::Centre, Self::Right];
    /// Those beside the middle.
    pub const ASIDE: [Self; 2] = [Self::Left, Self::Right];

    /// Radians about the high point; a side parting starts above the inner half of the brow.
    /// Judgement: partings differ.
    pub fn azimuth(self) -> f64 {
        match self {
            Self::Centre => 0.0,
            Self::Left => 22.0_f64.to_radians(),
            Self::Right => -22.0_f64.to_radians(),
        }
    }

    /// Its word in commands and on the screen.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Centre => "centre",
            Self::Left => "left",
            Self::Right => "right",
        }
    }
}

/// An answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Value {
    /// A landmark.
    Landmark(Landmark),
    /// A parting.
    Parting(Parting),
    /// A length.
    Length(Length),
    /// The hair before.
    Before(Before),
}

/// Why an answer was refused.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ChoiceError {
    /// The plan has no such choice.
    #[error("{}", tr!("This plan has no choice called “{name}”. It has {known}.", name = .name, known = .known))]
    NoSuchChoice {
        /// What was asked for.
        name: String,
        /// What there is.
        known: String,
    },
    /// The answer is none of the options.
    #[error("{}", tr!("“{value}” is no answer to {id}. Choose {options}.", value = .value, id = .id, options = .options))]
    NotAnOption {
        /// The choice.
        id: String,
        /// What was answered.
        value: String,
        /// What may be answered.
        options: String,
    },
    /// The length cannot be read or is out of range.
    #[error("{id}: {why}")]
    Length {
        /// The choice.
        id: String,
        /// What is wrong with it.
        why: String,
    },
    /// The plan uses a choice in a way its kind does not allow; a fault of the plan.
    #[error("{}", tr!("The plan uses the choice “{}” for something it is not.", .0))]
    WrongKind(String),
}

impl Choice {
    /// Reads an answer as it is typed in a command or stored. Bare lengths are centimetres.
    ///
    /// # Errors
    /// [`ChoiceError`] with a sentence.
    pub fn read(&self, text: &str) -> Result<Value, ChoiceError> {
        let refused = |options: Vec<String>| ChoiceError::NotAnOption {
            id: self.id.clone(),
            value: text.chars().take(40).collect(),
            options: options.join(", "),
        };
        let words = |options: &[Landmark]| options.iter().map(|l| offered(*l)).collect();
        match &self.kind {
            Kind::Landmark { options } => find(options, text)
                .map(Value::Landmark)
                .ok_or_else(|| refused(words(options))),
            Kind::Parting => parting(&Parting::ALL, text).map_err(refused),
            Kind::SideParting => parting(&Parting::ASIDE, text).map_err(refused),
            Kind::Length { least, most } => self.length(text, *least, *most).map(Value::Length),
            Kind::Before { options } => match find(options, text) {
                Some(landmark) => Ok(Value::Before(Before::EndsAt(landmark))),
                None if read_length(text, Unit::Cm).is_ok() => self
                    .length(text, 1.0, 150.0)
                    .map(|length| Value::Before(Before::Everywhere(length))),
                None => {
                    let mut all: Vec<String> = words(options);
                    all.push(tr("or one length, like 45 cm").to_owned());
                    Err(refused(all))
                }
            },
        }
    }

    fn length(&self, text: &str, least: f64, most: f64) -> Result<Length, ChoiceError> {
        let wrong = |why: String| ChoiceError::Length {
            id: self.id.clone(),
            why,
        };
        let length = read_length(text, Unit::Cm).map_err(|e| wrong(e.to_string()))?;
        if (least..=most).contains(&length.cm()) {
            Ok(length)
        } else {
            Err(wrong(tr!(
                "It must lie between {least} and {most} cm.",
                least = decimal(least.to_string()),
                most = decimal(most.to_string())
            )))
        }
    }
}

fn parting(options: &[Parting], text: &str) -> Result<Value, Vec<String>> {
    let found = options.iter().find(|parting| parting.word() == text);
    found
        .map(|parting| Value::Parting(*parting))
        .ok_or_else(|| options.iter().map(|p| p.word().to_owned()).collect())
}

fn find(options: &[Landmark], text: &str) -> Option<Landmark> {
    options.iter().copied().find(|l| means(text, *l))
}

/// A landmark as a refusal offers it.
fn offered(landmark: Landmark) -> String {
    if is_foreign() {
        landmark.the().to_owned()
    } else {
        landmark_word(landmark)
    }
}

/// Whether a text is a landmark's word or, in another language than English, what was offered for it,
/// with its article or without.
fn means(text: &str, landmark: Landmark) -> bool {
    let called = |said: &str| said == text || said.split_once(' ').is_some_and(|s| s.1 == text);
    landmark_word(landmark) == text || is_foreign() && called(landmark.the())
}

/// A landmark's word in files and commands.
pub fn landmark_word(landmark: Landmark) -> String {
    match serde_json::to_value(landmark) {
        Ok(serde_json::Value::String(word)) => word,
        // A landmark is written as a word.
        _ => String::new(),
    }
}

/// The answers a person gave to a plan's choices, as typed. What was not answered has its default.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Choices {
    answers: BTreeMap<String, String>,
}

impl Choices {
    /// Answers one choice of `plan`.
    ///
    /// # Errors
    /// [`ChoiceError`] when there is no such choice or the answer is not one it takes; the old
    /// answer then stays.
    pub fn set(&mut self, plan: &Plan, id: &str, text: &str) -> Result<(), ChoiceError> {
        // What another language calls a landmark is kept as its word.
        let kept = match choice(plan, id)?.read(text)? {
            Value::Landmark(landmark) | Value::Before(Before::EndsAt(landmark)) => {
                landmark_word(landmark)
            }
            _ => text.to_owned(),
        };
        self.answers.insert(id.to_owned(), kept);
        Ok(())
    }

    /// The answer as typed, or the default.
    pub fn text<'a>(&'a self, choice: &'a Choice) -> &'a str {
        self.answers.get(&choice.id).unwrap_or(&choice.default)
    }

    /// Whether the person answered it.
    pub fn is_answered(&self, choice: &Choice) -> bool {
        self.answers.contains_key(&choice.id)
    }

    /// The answer to one choice of `plan`. A stored answer that no longer reads gives way to the
    /// default.
    ///
    /// # Errors
    /// [`ChoiceError`] when there is no such choice, or its default is faulty.
    pub fn value(&self, plan: &Plan, id: &str) -> Result<Value, ChoiceError> {
        let choice = choice(plan, id)?;
        choice
            .read(self.text(choice))
            .or_else(|_| choice.read(&choice.default))
    }

    /// The landmark that stands in the plan or was chosen.
    ///
    /// # Errors
    /// As [`Choices::value`].
    pub fn landmark(&self, plan: &Plan, given: &Given<Landmark>) -> Result<Landmark, ChoiceError> {
        match given {
            Given::Fixed(landmark) => Ok(*landmark),
            Given::Choice(choice) => match self.value(plan, choice)? {
                Value::Landmark(landmark) => Ok(landmark),
                _ => Err(ChoiceError::WrongKind(choice.clone())),
            },
        }
    }

    /// The length in cm that stands in the plan or was chosen.
    ///
    /// # Errors
    /// As [`Choices::value`].
    pub fn cm(&self, plan: &Plan, given: &Given<f64>) -> Result<f64, ChoiceError> {
        match given {
            Given::Fixed(cm) => Ok(*cm),
            Given::Choice(choice) => match self.value(plan, choice)? {
                Value::Length(length) => Ok(length.cm()),
                _ => Err(ChoiceError::WrongKind(choice.clone())),
            },
        }
    }

    /// The parting the client wears; the middle if the plan does not ask.
    pub fn parting(&self, plan: &Plan) -> Parting {
        self.first(plan, |value| match value {
            Value::Parting(parting) => Some(parting),
            _ => None,
        })
        .unwrap_or_default()
    }

    /// The hair before the cut; to the waist if the plan does not ask.
    pub fn before(&self, plan: &Plan) -> Before {
        self.first(plan, |value| match value {
            Value::Before(before) => Some(before),
            _ => None,
        })
        .unwrap_or(Before::EndsAt(Landmark::Waist))
    }

    fn first<T>(&self, plan: &Plan, pick: impl Fn(Value) -> Option<T>) -> Option<T> {
        plan.choices
            .iter()
            .filter_map(|choice| self.value(plan, &choice.id).ok())
            .find_map(pick)
    }
}

fn choice<'a>(plan: &'a Plan, id: &str) -> Result<&'a Choice, ChoiceError> {
    plan.choices.iter().find(|c| c.id == id).ok_or_else(|| {
        let known: Vec<&str> = plan.choices.iter().map(|c| c.id.as_str()).collect();
        ChoiceError::NoSuchChoice {
            name: id.chars().take(40).collect(),
            known: known.join(", "),
        }
    })
}
