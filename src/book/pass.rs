//! A plan as it is passed on: the plan, what was chosen in it, and if so wished the head and hair it was
//! planned on; nothing that says whose they are.
//!
//! It travels whole in a file, or in a link and the code that carries one, where of a built-in plan only
//! what was changed stands, as patches of JSON (RFC 7396): so a code on a screen stays coarse enough to be
//! read. Whatever comes in may be hostile: it is read with bounds, and a plan that contradicts itself is
//! refused.

use super::grow::Left;
use super::pack::{PackError, pack, unpack};
use super::saved::{SavedCut, Shape};
use crate::consult::Consultation;
use crate::cut::Aims;
use crate::head::Tape;
use crate::json::{self, Tree};
use crate::plan::{Choices, Plan, Sketch, built_in};
use crate::words::tr;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// What a passed plan says that it is.
const KIND: &str = "tautline-plan";
/// The version of the format that this app writes.
const SCHEMA: u32 = 1;
/// What stands before the packed plan in a link.
pub const MARK: &str = "#p=";
/// The most characters that are read, packed or not. A plan has some 16,000.
pub const MOST: usize = 400_000;
/// The most characters of a name, and of any other text in it: the lengths that a visit left have some
/// 4,500. Judgement.
const MOST_NAME: usize = 120;
const MOST_WORDS: usize = 8_000;

/// A plan as it is passed on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Passed {
    kind: String,
    schema: u32,
    /// What it is called.
    pub name: String,
    /// The id of the built-in plan that it is or began with.
    pub plan: String,
    /// The whole plan; none where it is the built-in one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    own: Option<Box<Plan>>,
    /// What was chosen in it.
    #[serde(default)]
    choices: Choices,
    /// What was aimed at in it.
    #[serde(default, skip_serializing_if = "Aims::is_empty")]
    aims: Aims,
    /// The head and hair it was planned on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub head: Option<PassedHead>,
}

/// The head and hair that a plan was made on. It has no name and no note.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct PassedHead {
    /// Tapes as typed.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    tapes: BTreeMap<Tape, String>,
    /// What no tape can say of its shape.
    #[serde(skip_serializing_if = "Shape::is_usual")]
    shape: Shape,
    /// What was said and seen of the hair.
    #[serde(skip_serializing_if = "Consultation::is_empty")]
    consultation: Consultation,
    /// The hair that it begins with, where an earlier visit left it; not which visit that was.
    #[serde(skip_serializing_if = "Option::is_none")]
    left: Option<Left>,
}

/// How a link says which plan it is: the built-in one, and what was changed in it.
#[derive(Debug, Serialize, Deserialize)]
struct Changed {
    /// A fingerprint of the built-in plan, so that another version of it is not taken for the same.
    of: u32,
    /// The ids of the steps in their order; none while no step was changed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    order: Option<Vec<String>>,
    /// What differs in each changed step; a new step stands whole.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    steps: BTreeMap<String, Tree>,
    /// What differs in the rest of the plan.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    rest: Option<Tree>,
}

/// Why a plan that was passed on can't be taken in.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PassError {
    /// It is something else.
    #[error("{}", tr("This is not a plan passed on by Tautline."))]
    NotOne,
    /// It is broken or cut short.
    #[error(
        "{}",
        tr(
            "This plan came through damaged or cut short. Nothing was changed; have it passed on again."
        )
    )]
    Damaged,
    /// A newer version of the app made it.
    #[error(
        "{}",
        tr(
            "A newer Tautline passed this plan on. Load the page again to get the new version, then take it in."
        )
    )]
    Newer,
    /// It is far larger than any plan.
    #[error("{}", tr("This is far larger than any plan, so it was not read."))]
    TooLarge,
    /// It changes a built-in plan that this version does not have, or has otherwise.
    #[error(
        "{}",
        tr(
            "This began with a built-in cut of another version of Tautline. Have it passed on as a file, which carries the whole plan."
        )
    )]
    OtherVersion,
    /// A text in it is too long to be one.
    #[error(
        "{}",
        tr("A name or a text in this plan is far too long, so it was not taken in.")
    )]
    TooLong,
    /// The plan contradicts itself or its head.
    #[error("{}", tr!("This plan can't be worked out. {}", .0))]
    Faulty(String),
}

impl Passed {
    /// The plan of a cut, to be called `name`; with its head and hair or without. None if this app does not
    /// have its plan.
    pub fn of(cut: &SavedCut, name: &str, with_head: bool) -> Option<Self> {
        let plan = cut.plan()?;
        let name = match name.trim() {
            "" => plan.name.trim(),
            name => name,
        };
        Some(Self {
            kind: KIND.to_owned(),
            schema: SCHEMA,
            name: name.chars().take(MOST_NAME).collect(),
            plan: plan.id.clone(),
            own: cut.own.clone(),
            choices: cut.choices.clone(),
            aims: cut.aims.clone(),
            head: with_head.then(|| PassedHead {
                tapes: cut.tapes.clone(),
                shape: cut.shape,
                consultation: cut.consultation.for_others(),
                left: cut.left.as_ref().map(nobodys),
            }),
        })
    }

    /// A new cut of it.
    pub fn to_cut(&self, id: &str, now: &str) -> SavedCut {
        let mut cut = SavedCut::new(id, &self.name, &self.plan, now);
        if let Some(own) = &self.own {
            cut.take(Sketch {
                plan: (**own).clone(),
                choices: Choices::default(),
            });
        }
        cut.choices.clone_from(&self.choices);
        cut.aims.clone_from(&self.aims);
        if let Some(head) = &self.head {
            cut.tapes.clone_from(&head.tapes);
            cut.shape = head.shape;
            cut.consultation = head.consultation.for_others();
            cut.left = head.left.as_ref().map(nobodys);
        }
        cut
    }

    /// It whole, as the text of a file.
    pub fn to_file(&self) -> String {
        let plan = self.own.clone();
        let own = plan.or_else(|| built_in(&self.plan).map(Box::new));
        let whole = Self {
            own,
            ..self.clone()
        };
        // Texts, numbers and maps with text keys: writing them cannot fail.
        serde_json::to_string(&whole).unwrap_or_default()
    }

    /// It as the part of a link after [`MARK`], which goes to no server.
    pub fn to_link_part(&self) -> String {
        pack(
            &self
                .slim()
                .map_or_else(|| self.to_file(), |tree| tree.to_string()),
        )
    }

    /// It with what was changed in the built-in plan instead of the whole; none where that does not say it
    /// all.
    fn slim(&self) -> Option<Tree> {
        let base = built_in(&self.plan)?;
        let changed = Changed::between(&base, self.own.as_deref().unwrap_or(&base))?;
        let slim = Self {
            own: None,
            ..self.clone()
        };
        let mut tree = serde_json::to_value(&slim).ok()?;
        let changed = serde_json::to_value(&changed).ok()?;
        tree.as_object_mut()?.insert("changed".to_owned(), changed);
        (read_tree(tree.clone()).as_ref() == Ok(self)).then_some(tree)
    }

    /// Reads what was passed on: a link, the part after its mark, or the text of a file.
    ///
    /// # Errors
    /// [`PassError`] with a sentence; whatever the text is.
    pub fn read(text: &str) -> Result<Self, PassError> {
        let text = text.trim().trim_start_matches('\u{feff}');
        if text.len() > MOST {
            return Err(PassError::TooLarge);
        }
        let unpacked;
        let text = if text.starts_with('{') {
            text
        } else {
            let part = match text.split_once(MARK) {
                Some((_, part)) => part,
                None if text.contains(|c: char| !is_packed(c)) => return Err(PassError::NotOne),
                None => text,
            };
            // What stands behind it in a message is none of it.
            let end = part.find(|c| !is_packed(c)).unwrap_or(part.len());
            let packed = part.get(..end).unwrap_or_default();
            unpacked = unpack(packed, MOST).map_err(|why| match why {
                PackError::TooLarge => PassError::TooLarge,
                PackError::Damaged => PassError::Damaged,
            })?;
            &unpacked
        };
        let passed = read_tree(json::tree(text).map_err(|_| PassError::Damaged)?)?;
        passed.check()?;
        Ok(passed)
    }

    fn check(&self) -> Result<(), PassError> {
        let cut = self.to_cut("", "");
        let plan = cut.plan().ok_or(PassError::OtherVersion)?;
        let titles = plan.steps.iter().flat_map(|step| [&step.title, &step.id]);
        let mut names = [&self.name, &self.plan, &plan.name]
            .into_iter()
            .chain(titles);
        if names.any(|name| name.chars().count() > MOST_NAME) {
            return Err(PassError::TooLong);
        }
        let faulty = |why: String| PassError::Faulty(why);
        plan.check().map_err(|e| faulty(e.to_string()))?;
        cut.ready().map_err(|e| faulty(e.to_string()))?;
        Ok(())
    }
}

/// The hair that a visit left, without which visit it was.
fn nobodys(left: &Left) -> Left {
    Left {
        of: String::new(),
        day: String::new(),
        ..left.clone()
    }
}

/// Whether a packed text has this character (RFC 4648, section 5).
fn is_packed(c: char) -> bool {
    c.is_ascii_alphanumeric() || c == '-' || c == '_'
}

fn read_tree(mut tree: Tree) -> Result<Passed, PassError> {
    if tree.get("kind").and_then(Tree::as_str) != Some(KIND) {
        return Err(PassError::NotOne);
    }
    // Looked at first: a newer one may have other fields.
    match tree.get("schema").and_then(Tree::as_u64) {
        Some(schema) if schema > u64::from(SCHEMA) => return Err(PassError::Newer),
        Some(_) => {}
        None => return Err(PassError::Damaged),
    }
    if !short(&tree) {
        return Err(PassError::TooLong);
    }
    let fields = tree.as_object_mut().ok_or(PassError::Damaged)?;
    if let Some(changed) = fields.remove("changed") {
        let changed: Changed = json::value(&changed).map_err(|_| PassError::Damaged)?;
        let id = fields
            .get("plan")
            .and_then(Tree::as_str)
            .unwrap_or_default();
        let base = built_in(id).ok_or(PassError::OtherVersion)?;
        if fingerprint(&base) != changed.of {
            return Err(PassError::OtherVersion);
        }
        if let Some(own) = changed.laid_over(&base)? {
            fields.insert("own".to_owned(), own);
        }
    }
    json::value(&tree).map_err(|_| PassError::Damaged)
}

/// Whether no text in it is longer than any that a person writes.
fn short(tree: &Tree) -> bool {
    let fits = |text: &str| text.len() <= 4 * MOST_WORDS && text.chars().count() <= MOST_WORDS;
    match tree {
        Tree::String(text) => fits(text),
        Tree::Array(all) => all.iter().all(short),
        Tree::Object(fields) => fields
            .iter()
            .all(|(name, value)| fits(name) && short(value)),
        _ => true,
    }
}

impl Changed {
    /// What differs between a built-in plan and what became of it.
    fn between(base: &Plan, own: &Plan) -> Option<Self> {
        let (old, old_rest) = parts(base)?;
        let (new, new_rest) = parts(own)?;
        let mut steps = BTreeMap::new();
        for (id, step) in &new {
            match old.iter().find(|(of, _)| of == id) {
                Some((_, before)) if before == step => {}
                Some((_, before)) => {
                    steps.insert(id.clone(), json::differs(before, step));
                }
                None => {
                    steps.insert(id.clone(), step.clone());
                }
            }
        }
        let order =
            |all: &[(String, Tree)]| all.iter().map(|(id, _)| id.clone()).collect::<Vec<_>>();
        let new_order = order(&new);
        Some(Self {
            of: fingerprint(base),
            order: (order(&old) != new_order).then_some(new_order),
            steps,
            rest: (old_rest != new_rest).then(|| json::differs(&old_rest, &new_rest)),
        })
    }

    /// The plan that it makes of the built-in one, as a tree; none if it is that one.
    fn laid_over(self, base: &Plan) -> Result<Option<Tree>, PassError> {
        if self.order.is_none() && self.steps.is_empty() && self.rest.is_none() {
            return Ok(None);
        }
        let (mut old, mut rest) = parts(base).ok_or(PassError::Damaged)?;
        for (id, patch) in self.steps {
            match old.iter_mut().find(|(of, _)| *of == id) {
                Some((_, step)) => json::lay_over(step, patch),
                None => old.push((id, patch)),
            }
        }
        let steps = match self.order {
            None => old.into_iter().map(|(_, step)| step).collect(),
            Some(order) => {
                let step = |id: &String| {
                    let found = old.iter().find(|(of, _)| of == id);
                    found.map(|(_, step)| step.clone())
                };
                let steps: Option<Vec<Tree>> = order.iter().map(step).collect();
                steps.ok_or(PassError::Damaged)?
            }
        };
        if let Some(patch) = self.rest {
            json::lay_over(&mut rest, patch);
        }
        let fields = rest.as_object_mut().ok_or(PassError::Damaged)?;
        fields.insert("steps".to_owned(), Tree::Array(steps));
        Ok(Some(rest))
    }
}

/// A plan's steps by their ids, and the rest of it.
fn parts(plan: &Plan) -> Option<(Vec<(String, Tree)>, Tree)> {
    let mut steps = Vec::new();
    for step in &plan.steps {
        steps.push((step.id.clone(), serde_json::to_value(step).ok()?));
    }
    let bare = Plan {
        steps: Vec::new(),
        ..plan.clone()
    };
    Some((steps, serde_json::to_value(&bare).ok()?))
}

/// A fingerprint of a plan: FNV-1a of its text, 32 bits (Fowler, Noll and Vo).
fn fingerprint(plan: &Plan) -> u32 {
    fnv(serde_json::to_string(plan).unwrap_or_default().as_bytes())
}

fn fnv(bytes: &[u8]) -> u32 {
    let next = |hash: u32, byte: &u8| (hash ^ u32::from(*byte)).wrapping_mul(0x0100_0193);
    bytes.iter().fold(0x811c_9dc5, next)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_fingerprint_is_the_published_one() {
        // Test vectors published by its authors (`test_fnv.c`).
        for (text, hash) in [
            ("", 0x811c_9dc5),
            ("a", 0xe40c_292c),
            ("foobar", 0xbf9c_f968),
        ] {
            assert_eq!(fnv(text.as_bytes()), hash, "{text}");
        }
    }
}
