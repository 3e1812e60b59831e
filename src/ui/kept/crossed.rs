//! Saves of two windows in the same moment.

use super::Kept;
use crate::book::{Record, SavedCut, saved_after};
use crate::json;
use crate::store::{Settings, Wrote, both};
use crate::ui::kept::now;
use crate::words::{noted, tr};
use leptos::prelude::*;
use std::time::Duration;

/// After so long the other window has been told of a save, ms. Judgement: it takes some 10.
const TOLD: f64 = 3000.0;

/// So long the other window's writes take to come one after the other, at the most. Judgement.
const ON_ITS_WAY: Duration = Duration::from_millis(150);

/// What is said where two windows changed the same.
const SAME: &str = noted(
    "Another window changed the same at the same moment. What this window wrote is kept; look whether it is right.",
);

/// What this window saved last, and when.
#[derive(Clone, Default)]
pub(super) struct Last {
    wrote: Option<Wrote>,
    /// What looks whether another window saved the same: named only where something is saved, since its
    /// code reads documents, and need not be there for the first screen.
    uncross_soon: Option<fn(Kept)>,
    at: f64,
    /// The settings before and after they were last changed here.
    settings: Option<(Settings, Settings)>,
}

impl Kept {
    /// Remembers what was saved.
    pub(super) fn wrote(self, wrote: Wrote) {
        self.last.update_value(|last| {
            last.wrote = Some(wrote);
            last.uncross_soon = Some(Self::uncross_now_and_soon);
            last.at = js_sys::Date::now();
        });
    }

    /// The same of the settings.
    pub(super) fn wrote_settings(self, before: Settings, after: Settings) {
        self.last
            .update_value(|last| last.settings = Some((before, after)));
    }

    /// The text of a cut as it was saved last, if that is known without writing it again.
    pub(super) fn text_before(self, cut: &SavedCut) -> String {
        let known = self.last.with_value(|last| {
            let wrote = last.wrote.as_ref()?;
            Some(wrote.text_of_cut(&cut.id, cut.revision)?.to_owned())
        });
        known.unwrap_or_else(|| cut.to_json())
    }

    fn wrote_lately(self) -> Option<Wrote> {
        self.last.with_value(|last| {
            let ago = js_sys::Date::now() - last.at;
            let wrote = last.wrote.clone();
            wrote.filter(|_| (-TOLD..TOLD).contains(&ago))
        })
    }

    /// Looks whether another window saved the same in the same moment, and keeps both.
    pub(super) fn uncross(self) {
        if let Some(wrote) = self.wrote_lately() {
            self.keep_both(&wrote, false);
        }
    }

    /// The same, and once more when everything that is on its way has come.
    pub(super) fn uncross_soon(self) {
        if let Some(uncross) = self.last.with_value(|last| last.uncross_soon) {
            uncross(self);
        }
    }

    fn uncross_now_and_soon(self) {
        if let Some(wrote) = self.wrote_lately() {
            self.keep_both(&wrote, false);
            set_timeout(move || self.keep_both(&wrote, true), ON_ITS_WAY);
        }
    }

    fn keep_both(self, wrote: &Wrote, waited: bool) {
        let Ok(Some(crossed)) = self.store.crossed(wrote, waited) else {
            return;
        };
        let done = if wrote.cut_id().is_some() {
            self.keep_both_cuts(wrote, &crossed.text)
        } else {
            self.keep_both_records(wrote, &crossed.text)
        };
        if let Some(done) = done {
            self.wrote(done);
            if crossed.same {
                self.note(Err(tr(SAME).to_owned()));
            }
        }
    }

    fn keep_both_cuts(self, wrote: &Wrote, text: &str) -> Option<Wrote> {
        let theirs = self.store.load(wrote.id()).ok()?;
        let mut merged = SavedCut {
            id: theirs.id.clone(),
            revision: theirs.revision,
            ..SavedCut::from_json(text).ok()?
        };
        merged.saved_at = saved_after(&merged.saved_at, now());
        let saved = self.store.save(&merged);
        if let Ok(revision) = saved {
            merged.revision = revision;
        }
        self.note(saved.map(|_| ()).map_err(|e| e.to_string()));
        let (before, text) = (theirs.to_json(), merged.to_json());
        let done = Wrote::cut(&merged.id, merged.revision, before, text);
        self.show(merged);
        Some(done)
    }

    fn keep_both_records(self, wrote: &Wrote, text: &str) -> Option<Wrote> {
        let theirs = self.store.record(wrote.id()).ok()?;
        let mut merged = Record {
            id: theirs.id.clone(),
            revision: theirs.revision,
            ..Record::from_json(text).ok()?
        };
        merged.saved_at = saved_after(&merged.saved_at, now());
        self.save_record(&mut merged);
        let (before, text) = (theirs.to_json(), merged.to_json());
        Some(Wrote::record(&merged.id, merged.revision, before, text))
    }

    /// The same for the settings, which have one key: whoever was last stands there.
    pub(super) fn uncross_settings(self) {
        let Some((before, ours)) = self.last.with_value(|last| last.settings) else {
            return;
        };
        let theirs = self.store.settings();
        if theirs == ours || ours != self.settings.get_untracked() {
            return;
        }
        let text = |settings: &Settings| serde_json::to_string(settings).unwrap_or_default();
        let merged = both(&text(&before), &text(&ours), &text(&theirs));
        let Some(merged) = merged.and_then(|both| json::read::<Settings>(&both.text).ok()) else {
            return;
        };
        self.settings.set(merged);
        self.note(self.store.set_settings(merged).map_err(|e| e.to_string()));
        self.wrote_settings(theirs, merged);
    }
}
