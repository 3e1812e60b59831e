//! A client or a practice head: whose visits saved cuts are.

use super::saved::{DocumentError, SavedCut, Shape, known};
use super::visit::is_false;
use crate::consult::Consultation;
use crate::head::{Kind, Tape};
use crate::json;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The version of [`Record`] that this app writes.
pub const SCHEMA: u32 = 1;

/// A client or a practice head. There is no field for an address or a date of birth: nothing here needs
/// them.
///
/// What was measured last of head and hair is kept as it was typed; a visit takes a copy, so that it stays
/// what it was.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Record {
    /// The version of this format.
    pub schema: u32,
    /// Its own short name on this device.
    pub id: String,
    /// When it was saved last, as an ISO 8601 time.
    pub saved_at: String,
    /// A person, or a practice head.
    #[serde(default)]
    pub kind: Kind,
    /// Name or initials, as the person calls it.
    #[serde(default)]
    pub name: String,
    /// Tapes as typed.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub tapes: BTreeMap<Tape, String>,
    /// What no tape can say of its shape.
    #[serde(default, skip_serializing_if = "Shape::is_usual")]
    pub shape: Shape,
    /// What was said and measured last: hair, growth, wishes.
    #[serde(default, skip_serializing_if = "Consultation::is_empty")]
    pub consultation: Consultation,
    /// The day of the visit that head and hair were taken from, as `2026-11-25`; empty if none.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub taken_on: String,
    /// How fast this hair grows, cm a month, as typed; empty for what was learned, or the usual.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub growth: String,
    /// How much lower ends may hang before a cut counts as outgrown, by [`super::WornAs`], as typed; what is
    /// not here is as usual.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub outgrown: BTreeMap<String, String>,
    /// How long the hair of a practice head was when it was new, as typed.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub new_length: String,
    /// Notes that the client may see.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
    /// A note that is hidden while the client looks on.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub private: String,
    /// Words to find it by.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub tags: Vec<String>,
    /// What the client agreed to.
    #[serde(default, skip_serializing_if = "Consent::is_none")]
    pub consent: Consent,
    /// Whether it belongs to the invented salon.
    #[serde(default, skip_serializing_if = "is_false")]
    pub invented: bool,
    /// Which revision it was read from; 0 if it was never saved. It stands in the key and not in the text.
    #[serde(skip)]
    pub revision: u64,
}

/// What a client agreed to, and when: days, as `2026-11-25`; empty where nothing was agreed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Consent {
    /// That this card is kept on the device.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub card: String,
    /// That what touches health (scalp, reactions) is written down.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub health: String,
}

impl Consent {
    /// Whether nothing was agreed.
    pub fn is_none(&self) -> bool {
        *self == Self::default()
    }
}

impl Record {
    /// A new one.
    pub fn new(id: &str, kind: Kind, name: &str, now: &str) -> Self {
        Self {
            schema: SCHEMA,
            id: id.to_owned(),
            saved_at: now.to_owned(),
            kind,
            name: name.to_owned(),
            tapes: BTreeMap::new(),
            shape: Shape {
                kind,
                ..Shape::default()
            },
            consultation: Consultation::default(),
            taken_on: String::new(),
            growth: String::new(),
            outgrown: BTreeMap::new(),
            new_length: String::new(),
            notes: String::new(),
            private: String::new(),
            tags: Vec::new(),
            consent: Consent::default(),
            invented: false,
            revision: 0,
        }
    }

    /// Reads a stored document.
    ///
    /// # Errors
    /// [`DocumentError`] with a sentence.
    pub fn from_json(text: &str) -> Result<Self, DocumentError> {
        json::value(&known(text, SCHEMA)?).map_err(|_| DocumentError::Damaged)
    }

    /// The document as text.
    pub fn to_json(&self) -> String {
        // Texts, numbers and maps with text keys: writing them cannot fail.
        serde_json::to_string(self).unwrap_or_default()
    }

    /// A new cut for them: their head and hair as they were taken last.
    pub fn new_cut(&self, id: &str, title: &str, plan: &str, now: &str) -> SavedCut {
        let mut cut = SavedCut::new(id, title, plan, now);
        cut.tapes.clone_from(&self.tapes);
        cut.shape = self.shape;
        cut.consultation.clone_from(&self.consultation);
        cut.visit.of.clone_from(&self.id);
        cut.visit.invented = self.invented;
        cut
    }

    /// Takes head and hair from a visit, unless what is here is of a later one; says whether it changed.
    /// A private note stays with its visit.
    pub fn take_from(&mut self, cut: &SavedCut) -> bool {
        let day = cut.day();
        if day.as_str() < self.taken_on.as_str() {
            return false;
        }
        let mut consultation = cut.consultation.clone();
        consultation.put(crate::consult::Ask::Note, "");
        let before = self.clone();
        self.tapes.clone_from(&cut.tapes);
        self.shape = Shape {
            kind: self.kind,
            ..cut.shape
        };
        self.consultation = consultation;
        self.taken_on = day;
        *self != before
    }
}
