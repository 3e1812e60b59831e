//! The documents that are kept.

use super::grow::Left;
use super::pack::plain;
use super::ready::{NotReady, Ready};
use super::visit::Visit;
use crate::consult::Consultation;
use crate::cut::Aims;
use crate::hair::LengthMap;
use crate::head::{Back, Head, HeadError, Kind, Tape, TapeError, Tapes, Top};
use crate::json;
use crate::measure::{Day, Unit, read_length};
use crate::plan::{Choices, Plan, Sketch, built_in};
use crate::walk::Walk;
use crate::words::tr;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The version of [`SavedCut`] that this app writes.
pub const SCHEMA: u32 = 3;

/// Why a document cannot be used as it is.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum DocumentError {
    /// It is damaged.
    #[error(
        "{}",
        tr("This is damaged and can't be opened. It is kept; you can save it as a file.")
    )]
    Damaged,
    /// A newer version of the app wrote it.
    #[error(
        "{}",
        tr(
            "This was saved by a newer Tautline. It is kept; load the page again to get the new version."
        )
    )]
    Newer,
}

/// The tree of a stored text of this version or an older one.
pub(super) fn known(text: &str, newest: u32) -> Result<json::Tree, DocumentError> {
    let tree = json::tree(text).map_err(|_| DocumentError::Damaged)?;
    // Looked at first: a newer document may have other fields.
    let schema = tree.get("schema").and_then(json::Tree::as_u64);
    if schema.is_some_and(|schema| schema > u64::from(newest)) {
        return Err(DocumentError::Newer);
    }
    Ok(tree)
}

/// What no tape can say about a head.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Shape {
    /// A person's, or a practice head.
    pub kind: Kind,
    /// The back.
    pub back: Back,
    /// The top.
    pub top: Top,
}

impl Shape {
    /// Whether nothing unusual was said.
    pub fn is_usual(&self) -> bool {
        *self == Self::default()
    }
}

/// A cut as it is kept: the head it is for, the plan with its choices, and the run at the chair.
///
/// Tapes and choices are kept as they were typed, so that nothing typed is lost even if it does not
/// read.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SavedCut {
    /// The version of this format.
    pub schema: u32,
    /// Its own short name on this device.
    pub id: String,
    /// When it was saved last, as an ISO 8601 time.
    pub saved_at: String,
    /// What the person calls it.
    pub title: String,
    /// Tapes as typed; a bare number was given its unit when it was typed.
    #[serde(default)]
    pub tapes: BTreeMap<Tape, String>,
    /// Whose head it is, and what no tape can say of its shape.
    #[serde(default, skip_serializing_if = "Shape::is_usual")]
    pub shape: Shape,
    /// What was talked over with the client.
    #[serde(default, skip_serializing_if = "Consultation::is_empty")]
    pub consultation: Consultation,
    /// The id of the built-in plan that it takes or began with.
    pub plan: String,
    /// Whether that is only the plan which every new cut has at first: [`SavedCut::is_chosen`].
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub unchosen: bool,
    /// The plan as it was changed for this cut; none while it is the built-in one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub own: Option<Box<Plan>>,
    /// What was typed into fields and does not read, by the field's name: kept until it is put right.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub unread: BTreeMap<String, String>,
    /// What was chosen in it.
    #[serde(default)]
    pub choices: Choices,
    /// What was aimed at in it.
    #[serde(default, skip_serializing_if = "Aims::is_empty")]
    pub aims: Aims,
    /// The hair that it begins with, as the last visit left it; none where the plan asks how long the hair is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub left: Option<Left>,
    /// Whose it is, and what was put down of it beside the plan and the walk.
    #[serde(default, skip_serializing_if = "Visit::is_empty")]
    pub visit: Visit,
    /// The run at the chair, once it has begun.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub walk: Option<Walk>,
    /// Which revision it was read from, so that another window's save is noticed; 0 if it was never
    /// saved. It stands in the key and not in the text.
    #[serde(skip)]
    pub revision: u64,
}

/// When something is saved that was saved before: now, but never earlier than before, also where a device's
/// clock was set back. Of two copies the later saved counts as the newer one.
pub fn saved_after(before: &str, now: String) -> String {
    // Only what is a time as the app writes it: 2026-11-26T17:00:00.000Z.
    let time = |text: &str| {
        let mut signs = text.chars();
        text.len() == 24 && signs.next().is_some_and(|c| c.is_ascii_digit()) && text.ends_with('Z')
    };
    if time(before) && before > now.as_str() {
        return before.to_owned();
    }
    now
}

impl SavedCut {
    /// A new cut of one plan.
    pub fn new(id: &str, title: &str, plan: &str, now: &str) -> Self {
        Self {
            schema: SCHEMA,
            id: id.to_owned(),
            saved_at: now.to_owned(),
            title: title.to_owned(),
            tapes: BTreeMap::new(),
            shape: Shape::default(),
            consultation: Consultation::default(),
            plan: plan.to_owned(),
            unchosen: false,
            own: None,
            unread: BTreeMap::new(),
            choices: Choices::default(),
            aims: Aims::default(),
            left: None,
            visit: Visit::default(),
            walk: None,
            revision: 0,
        }
    }

    /// Whether the other differs in the run at the chair alone, if at all: then a screen that shows
    /// the plan stands as it is.
    pub fn same_but_walk(&self, other: &Self) -> bool {
        // As texts: writing them is in the app anyway, comparing all that is in them is not.
        let bare = |cut: &Self| {
            let cut = Self {
                walk: None,
                saved_at: String::new(),
                ..cut.clone()
            };
            cut.to_json()
        };
        bare(self) == bare(other)
    }

    /// The day of the visit, as `2026-11-25`: as put down, or that on which the walk began, or else on which
    /// it was saved last.
    pub fn day(&self) -> String {
        let began = self.walk.as_ref().map(|walk| walk.started_at.as_str());
        let all = [Some(self.visit.day.as_str()), began, Some(&self.saved_at)];
        let mut days = all.into_iter().flatten().filter_map(Day::read);
        days.next().map_or(String::new(), |day| day.to_string())
    }

    /// Whether it is at the chair: begun, and not finished.
    pub fn at_the_chair(&self) -> bool {
        let walk = self.walk.as_ref();
        walk.is_some_and(|walk| walk.finished_at.is_none())
    }

    /// Whether it was cut to the end.
    pub fn finished(&self) -> bool {
        let walk = self.walk.as_ref();
        walk.is_some_and(|walk| walk.finished_at.is_some())
    }

    /// Reads a stored document, packed or not.
    ///
    /// # Errors
    /// [`DocumentError`] with a sentence.
    pub fn from_json(text: &str) -> Result<Self, DocumentError> {
        let text = plain(text).map_err(|_| DocumentError::Damaged)?;
        json::value(&known(&text, SCHEMA)?).map_err(|_| DocumentError::Damaged)
    }

    /// The document as text.
    pub fn to_json(&self) -> String {
        // Texts, numbers and maps with text keys: writing them cannot fail.
        serde_json::to_string(self).unwrap_or_default()
    }

    /// The plan as it was changed, or the built-in one, if this app has it.
    pub fn plan(&self) -> Option<Plan> {
        match &self.own {
            Some(own) => Some((**own).clone()),
            None => built_in(&self.plan),
        }
    }

    /// Whether somebody has chosen its plan, or taken up the one that every new cut has at first: changed it,
    /// answered what it asks, begun to cut.
    pub fn is_chosen(&self) -> bool {
        !self.unchosen
            || self.own.is_some()
            || self.walk.is_some()
            || self.choices != Choices::default()
    }

    /// What its plan, which is called so, is called here: a changed one is not the one that others know.
    pub fn plan_said(&self, name: &str) -> String {
        let built_in = || built_in(&self.plan);
        match &self.own {
            Some(own) if built_in().is_some_and(|plan| plan.name == own.name) => {
                tr!("{}, changed", name)
            }
            _ => name.to_owned(),
        }
    }

    /// The plan and what was chosen in it, as they may be changed.
    pub fn sketch(&self) -> Option<Sketch> {
        Some(Sketch {
            plan: self.plan()?,
            choices: self.choices.clone(),
        })
    }

    /// Takes a changed plan and its answers. One that is the built-in plan again is not kept as its own.
    pub fn take(&mut self, sketch: Sketch) {
        self.plan.clone_from(&sketch.plan.id);
        let built_in = built_in(&self.plan).is_some_and(|plan| plan == sketch.plan);
        self.own = (!built_in).then(|| Box::new(sketch.plan));
        self.choices = sketch.choices;
    }

    /// Everything that working it out takes, read; its words in centimetres.
    ///
    /// # Errors
    /// [`NotReady`] with a sentence.
    pub fn ready(&self) -> Result<Ready, NotReady> {
        self.ready_in(Unit::Cm)
    }

    /// The same, its words in the unit.
    ///
    /// # Errors
    /// As [`SavedCut::ready`].
    pub fn ready_in(&self, unit: Unit) -> Result<Ready, NotReady> {
        let plan = self.plan().ok_or(NotReady::UnknownPlan)?;
        let head = self.head()?;
        Ok(Ready {
            hair: self.consultation.hair(&head).beginning(self.left_map()),
            agreed: self.consultation.agreed(&head),
            choices: self.consultation.choices(&plan, &self.choices),
            plan: self.consultation.plan(plan)?.told(unit),
            head,
        })
    }

    /// The lengths that it begins with, grown; none where the plan's own question counts, also because what
    /// is kept of them does not read.
    pub fn left_map(&self) -> Option<LengthMap> {
        self.left.as_ref()?.grown_map().ok()
    }

    /// What is wrong with a tape as it was typed, in a sentence; none if it reads or is empty.
    pub fn tape_fault(&self, tape: Tape) -> Option<String> {
        self.read_tape(tape)?.err()
    }

    /// The tapes that read, and the head they make. A tape that does not read counts as not
    /// measured.
    ///
    /// # Errors
    /// [`HeadError`] when they contradict each other.
    pub fn head(&self) -> Result<Head, HeadError> {
        let mut tapes = Tapes::default();
        tapes.set_kind(self.shape.kind);
        tapes.set_back(self.shape.back);
        tapes.set_top(self.shape.top);
        for tape in Tape::ALL {
            if let Some(Ok(cm)) = self.read_tape(tape) {
                // `read_tape` has seen that it is in range.
                let _ = tapes.set(tape, cm);
            }
        }
        Head::from_tapes(&tapes)
    }

    fn read_tape(&self, tape: Tape) -> Option<Result<f64, String>> {
        let typed = self
            .tapes
            .get(&tape)
            .map(|t| t.trim())
            .filter(|t| !t.is_empty())?;
        let read = read_length(typed, Unit::Cm).map_err(|e| e.to_string());
        Some(read.and_then(|length| {
            let check = Tapes::default().with(tape, length.cm());
            check
                .map(|_| length.cm())
                .map_err(|e: TapeError| e.to_string())
        }))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cut_without_a_shape_reads_and_a_shape_changes_the_head() {
        let mut cut = SavedCut::new("a", "Practice", "soft-layers-face-frame", "t0");
        assert!(!cut.to_json().contains("shape"));
        let even = cut.head().unwrap();
        cut.shape.back = Back::Flat;
        let read = SavedCut::from_json(&cut.to_json()).unwrap();
        assert_eq!(read, cut);
        assert_ne!(read.head().unwrap().skull(), even.skull());
        cut.shape.kind = Kind::Practice;
        let practice = cut.head().unwrap();
        let ring = |head: &Head| head.measure(Tape::Circumference).cm;
        assert!(ring(&practice) < ring(&even));
    }

    #[test]
    fn a_plan_that_nobody_chose_is_known_until_it_is_taken_up() {
        let mut cut = SavedCut::new("a", "Practice", "soft-layers-face-frame", "t0");
        assert!(cut.is_chosen() && !cut.to_json().contains("unchosen"));
        cut.unchosen = true;
        let mut read = SavedCut::from_json(&cut.to_json()).unwrap();
        assert_eq!(read, cut);
        assert!(!read.is_chosen());
        let plan = read.plan().unwrap();
        read.choices.set(&plan, "before", "40 cm").unwrap();
        assert!(read.is_chosen());
        cut.walk = Some(Walk::start("t1"));
        assert!(cut.is_chosen());
    }

    #[test]
    fn what_is_typed_is_kept_and_read_as_far_as_it_reads() {
        let mut cut = SavedCut::new("a", "Practice", "soft-layers-face-frame", "t0");
        cut.tapes
            .insert(Tape::Circumference, "22 1/4 in".to_owned());
        cut.tapes.insert(Tape::Breadth, "wide".to_owned());
        cut.tapes.insert(Tape::Length, "90 cm".to_owned());
        assert_eq!(cut.tape_fault(Tape::Circumference), None);
        assert!(
            cut.tape_fault(Tape::Breadth)
                .unwrap()
                .contains("not a length")
        );
        assert!(
            cut.tape_fault(Tape::Length)
                .unwrap()
                .contains("Measure again")
        );
        let head = cut.head().unwrap();
        assert!((head.measure(Tape::Circumference).cm - 56.515).abs() < 1e-9);
        assert!(head.measure(Tape::Breadth).estimated());
        let again = SavedCut::from_json(&cut.to_json()).unwrap();
        assert_eq!(again, cut);
    }

    #[test]
    fn damaged_and_newer_documents_say_so() {
        assert_eq!(
            SavedCut::from_json("{\"schema\":1,"),
            Err(DocumentError::Damaged)
        );
        assert_eq!(
            SavedCut::from_json("{\"schema\":1}"),
            Err(DocumentError::Damaged)
        );
        assert_eq!(
            SavedCut::from_json("{\"schema\":7,\"id\":4}"),
            Err(DocumentError::Newer)
        );
    }
}
