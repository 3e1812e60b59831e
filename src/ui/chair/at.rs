//! What the parts of the walk share: the cut, what it comes to, and every change of the walk.

use crate::book::{Ready, SavedCut};
use crate::cut::{CutError, Measured, Outcome, SectionCut, SectionKey, cut_on};
use crate::measure::Length;
use crate::ui::device::buzz;
use crate::ui::kept::{Kept, kept, now};
use crate::walk::{Walk, follow, mend, order, since, without};
use crate::words::tr;
use leptos::prelude::*;
use std::sync::Arc;

/// What of a section is read on a small screen. A wide one shows all of it at once.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Face {
    /// How long, where it falls to, how it is lifted.
    #[default]
    Length,
    /// How it is held: the drawing, large.
    Hold,
    /// Guide, technique, tension, cautions.
    How,
    /// What it came out at, and its twin.
    Result,
}

impl Face {
    /// All of them, in the order in which they stand.
    pub const ALL: [Self; 4] = [Self::Length, Self::Hold, Self::How, Self::Result];

    /// Its name on the screen.
    pub fn name(self) -> &'static str {
        match self {
            Self::Length => tr("Length"),
            Self::Hold => tr("Hold"),
            Self::How => tr("How"),
            Self::Result => tr("Result"),
        }
    }

    /// Its name in the style sheet.
    pub const fn class(self) -> &'static str {
        match self {
            Self::Length => "face-length",
            Self::Hold => "face-hold",
            Self::How => "face-how",
            Self::Result => "face-result",
        }
    }
}

/// How long a buzz lasts that says "done", ms; and one that says "half the time".
const BUZZ: (u32, u32) = (30, 200);

/// A plan worked out, and what was measured when it was.
type Worked = (Measured, Arc<Outcome>);

/// What the parts of the walk share.
#[derive(Clone, Copy)]
pub struct AtChair {
    /// The app's own state: a key or the clock has none of its own to ask for it.
    kept: Kept,
    /// The cut.
    pub cut: RwSignal<SavedCut>,
    /// What it is worked out from.
    pub ready: StoredValue<Ready>,
    /// The sections in the order in which they are cut.
    pub keys: StoredValue<Vec<SectionKey>>,
    /// What of a section is read.
    pub face: RwSignal<Face>,
    /// What was read aloud last, to be said again.
    pub spoken: StoredValue<String>,
    /// Worked out again only when something was measured, not at every section.
    worked: StoredValue<Option<Worked>>,
    /// The same with what was cut by a plan that has changed since.
    recut: StoredValue<Option<Worked>>,
    /// The plan with nothing measured, once it was asked for.
    planned: StoredValue<Option<Arc<Outcome>>>,
}

impl AtChair {
    /// A cut at the chair.
    ///
    /// # Errors
    /// The sentence that says why it cannot be worked out.
    pub fn new(cut: RwSignal<SavedCut>) -> Result<Self, String> {
        let kept = kept();
        let ready = cut.with_untracked(|cut| kept.ready(cut).map_err(|e| e.to_string()))?;
        let at = Self {
            kept,
            cut,
            ready: StoredValue::new(ready),
            keys: StoredValue::new(Vec::new()),
            face: RwSignal::new(Face::default()),
            spoken: StoredValue::new(String::new()),
            worked: StoredValue::new(None),
            recut: StoredValue::new(None),
            planned: StoredValue::new(None),
        };
        let outcome = at.outcome().map_err(|e| e.to_string())?;
        at.keys.set_value(order(&outcome));
        Ok(at)
    }

    /// The walk as it stands, not followed; a new one where none began.
    pub fn walk(&self) -> Walk {
        self.cut
            .with_untracked(|cut| cut.walk.clone().unwrap_or_default())
    }

    /// Something of the walk, followed.
    pub fn of<T>(&self, read: impl FnOnce(&Walk) -> T) -> Option<T> {
        self.cut.with(|cut| cut.walk.as_ref().map(read))
    }

    /// The place of the section on the screen, not followed.
    pub fn place_now(&self) -> Option<usize> {
        let current = |walk: &Walk| self.keys.with_value(|keys| walk.current(keys));
        self.cut
            .with_untracked(|cut| cut.walk.as_ref().and_then(current))
    }

    /// The plan as it goes on from what was measured so far.
    ///
    /// # Errors
    /// [`CutError`] with a sentence.
    pub fn outcome(&self) -> Result<Arc<Outcome>, CutError> {
        let walk = self.walk();
        let outcome = self.worked_out(self.worked, walk.measured())?;
        // What is cut already is not changed by a plan that was.
        match walk.as_cut(&outcome) {
            Some(as_cut) => self.worked_out(self.recut, as_cut),
            None => Ok(outcome),
        }
    }

    fn worked_out(
        &self,
        kept: StoredValue<Option<Worked>>,
        measured: Measured,
    ) -> Result<Arc<Outcome>, CutError> {
        let last = kept.get_value();
        let outcome = match last {
            Some((of, outcome)) if of == measured => return Ok(outcome),
            // What comes before the newest value stays as it was.
            Some((_, last)) => self
                .ready
                .with_value(|ready| cut_on(&ready.job(), &last, &measured))?,
            None => self.ready.with_value(|ready| ready.outcome(&measured))?,
        };
        let outcome = Arc::new(outcome);
        kept.set_value(Some((measured, Arc::clone(&outcome))));
        Ok(outcome)
    }

    /// What changes after a section because of what it came out at, in a line: told of the plan as it would
    /// go on had nothing of it been measured.
    pub fn follows(&self, key: &SectionKey) -> Option<String> {
        let outcome = self.outcome().ok()?;
        let walk = self.walk();
        let without = self
            .ready
            .with_value(|ready| without(&ready.job(), &outcome, &walk, key))
            .ok()?;
        let follow = follow(&without, &outcome, &walk, key);
        Some(follow.said(self.kept.unit_now()))
    }

    /// Why a section's target is not that of the plan, in a line; none where it is.
    pub fn since(&self, key: &SectionKey) -> Option<String> {
        let walk = self.walk();
        if walk.measured().is_empty() {
            return None;
        }
        let outcome = self.outcome().ok()?;
        let planned = match self.planned.get_value() {
            Some(planned) => planned,
            None => {
                let planned = self.ready.with_value(|r| r.outcome(&Measured::new()));
                let planned = Arc::new(planned.ok()?);
                self.planned.set_value(Some(Arc::clone(&planned)));
                planned
            }
        };
        let since = self
            .ready
            .with_value(|ready| since(&ready.job(), &planned, &outcome, &walk, key));
        since.ok()??.said(self.kept.unit_now())
    }

    /// The length to which a section is to be cut: its twin's, where it is to match it; else that of
    /// the plan as it goes on.
    pub fn target(&self, section: &SectionCut) -> Length {
        self.walk().to_cut(section)
    }

    /// What can still be done where a section came out shorter than agreed, in sentences; none where it
    /// didn't.
    pub fn mend(&self, key: &SectionKey) -> Option<Vec<String>> {
        let outcome = self.outcome().ok()?;
        let walk = self.walk();
        let mended = self
            .ready
            .with_value(|ready| mend(&ready.job(), &ready.agreed, &outcome, &walk, key));
        Some(mended.ok()??.said(self.kept.unit_now()))
    }

    /// Changes the walk and keeps it at once.
    pub fn change(&self, change: impl FnOnce(&mut Walk, &[SectionKey], &str)) {
        let at = now();
        self.kept.change(self.cut, |cut| {
            if let Some(walk) = &mut cut.walk {
                self.keys.with_value(|keys| change(walk, keys, &at));
            }
        });
    }

    /// Moves from the section on the screen, for which alone a press is meant: where another window has
    /// moved on meanwhile, it is shown instead.
    fn moved(&self, step: impl FnOnce(&mut Walk, &[SectionKey], &str)) {
        let (at, shown) = (now(), self.place_now());
        self.kept.change_if(self.cut, |cut| {
            self.keys.with_value(|keys| {
                let walk = cut.walk.as_mut();
                let meant = walk.filter(|walk| walk.current(keys) == shown);
                meant.map(|walk| step(walk, keys, &at)).is_some()
            })
        });
    }

    /// The section on the screen is done; on to the next.
    pub fn done(&self) {
        let target = self.place_now().and_then(|place| {
            let outcome = self.outcome().ok()?;
            let section = outcome.sections.get(place)?;
            section.cuts().then(|| self.target(section))
        });
        self.moved(|walk, keys, at| walk.done(keys, target, at));
        self.face.set(Face::default());
        self.buzz(BUZZ.0);
    }

    /// Back to the section before, which takes a wrong press of Done back.
    pub fn back(&self) {
        self.moved(|walk, keys, _| walk.back(keys));
        self.face.set(Face::default());
    }

    /// To one section.
    pub fn go_to(&self, key: &SectionKey) {
        self.change(|walk, _, _| walk.go_to(key));
        self.face.set(Face::default());
    }

    /// Says once that half the time has gone.
    pub fn tell_half(&self) {
        self.change(|walk, _, _| walk.half_told = true);
        self.buzz(BUZZ.1);
    }

    fn buzz(&self, milliseconds: u32) {
        if self.kept.settings_now().buzz {
            buzz(milliseconds);
        }
    }
}
