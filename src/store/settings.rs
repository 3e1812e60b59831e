//! What the person set for the whole app, as it is kept.

use crate::book::Marks;
use crate::json;
use crate::measure::{Hand, Unit, Usage};
use crate::walk::Tolerances;
use serde::{Deserialize, Serialize};

/// What the person set for the whole app.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Settings {
    /// Centimetres or inches.
    #[serde(default)]
    pub unit: Unit,
    /// Which usage the words follow; none while the person has not said, and the device's language
    /// tells.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub usage: Option<Usage>,
    /// Which hand holds the scissors.
    #[serde(default)]
    pub hand: Hand,
    /// Light or dark; none while the device's own look is followed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub look: Option<Look>,
    /// Whether each section is read aloud at the chair.
    #[serde(default)]
    pub aloud: bool,
    /// Whether the device buzzes when a section is done.
    #[serde(default = "yes")]
    pub buzz: bool,
    /// Whether the client looks on: no names, no notes, no blunt words at the chair.
    #[serde(default)]
    pub seen: bool,
    /// How far off a check may be.
    #[serde(default)]
    pub tolerances: Tolerances,
    /// What a finished cut is judged by.
    #[serde(default)]
    pub marks: Marks,
    /// After how many months without a visit a client's card is up for a look; 0 for never. Judgement:
    /// no law of data protection gives a number, each asks for one.
    #[serde(default = "two_years")]
    pub keep_months: u32,
}

const fn yes() -> bool {
    true
}

const fn two_years() -> u32 {
    24
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            unit: Unit::default(),
            usage: None,
            hand: Hand::default(),
            look: None,
            aloud: false,
            buzz: true,
            seen: false,
            tolerances: Tolerances::default(),
            marks: Marks::default(),
            keep_months: two_years(),
        }
    }
}

impl Settings {
    /// Reads what was kept. What does not read, because it is damaged or of another version of the app, is
    /// as in a new app, and everything else as it was set.
    pub fn from_text(text: &str) -> Self {
        let Ok(tree) = json::tree(text) else {
            return Self::default();
        };
        if let Ok(settings) = json::value(&tree) {
            return settings;
        }
        let mut reads = json::Tree::Object(Default::default());
        for (name, value) in tree.as_object().into_iter().flatten() {
            let mut more = reads.clone();
            if let Some(fields) = more.as_object_mut() {
                fields.insert(name.clone(), value.clone());
            }
            if json::value::<Self>(&more).is_ok() {
                reads = more;
            }
        }
        json::value(&reads).unwrap_or_default()
    }
}

/// A look that was chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Look {
    /// Light, for the sun.
    Light,
    /// Dark, for a dim room.
    Dark,
}

impl Look {
    /// Its word, for values of fields and for the style sheet.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Light => "light",
            Self::Dark => "dark",
        }
    }
}
