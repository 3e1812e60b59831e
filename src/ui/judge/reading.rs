//! Going through the finished cuts without holding up a hand: a slice at a time.

use crate::book::{MOST, Past, Plans, SavedCut, Trends, Which, first_look};
use crate::ui::kept::{Kept, kept};
use leptos::prelude::*;
use std::time::Duration;

/// How long one slice may take, milliseconds: less than a frame even where a phone is slow. Judgement.
const SLICE: f64 = 12.0;

/// Where the reading is.
struct Reading {
    /// Held, for nothing that runs later finds it again.
    kept: Kept,
    which: Which,
    /// What is still to be looked at: id and revision.
    unseen: Vec<(String, u64)>,
    /// What may be read, the last finished at the end: when, id and revision.
    found: Vec<(String, String, u64)>,
    past: Vec<Past>,
    plans: Plans,
}

/// What comes back in the cuts of `which`, once they are read; none until then. A reading that nobody waits
/// for any more ends.
pub fn read(which: Which) -> RwSignal<Option<Trends>> {
    let out = RwSignal::new(None);
    let kept = kept();
    let revisions = kept.store().revisions_in_force().unwrap_or_default();
    let reading = Reading {
        kept,
        which,
        unseen: revisions.into_iter().collect(),
        found: Vec::new(),
        past: Vec::new(),
        plans: Plans::default(),
    };
    later(reading, out);
    out
}

fn later(reading: Reading, out: RwSignal<Option<Trends>>) {
    set_timeout(move || slice(reading, out), Duration::ZERO);
}

fn slice(mut reading: Reading, out: RwSignal<Option<Trends>>) {
    if out.try_get_untracked().is_none() {
        return;
    }
    let end = js_sys::Date::now() + SLICE;
    while reading.on() {
        if js_sys::Date::now() >= end {
            return later(reading, out);
        }
    }
    let marks = reading.kept.settings_now().marks;
    out.try_set(Some(Trends::of(reading.past, &marks)));
}

impl Reading {
    /// Reads on by one cut; says whether there is more.
    fn on(&mut self) -> bool {
        let store = self.kept.store();
        if let Some((id, revision)) = self.unseen.pop() {
            let text = store.text(&id, revision).unwrap_or_default();
            if let Some(when) = first_look(&text, &self.which) {
                let at = self
                    .found
                    .partition_point(|(other, ..)| other.as_str() <= when);
                self.found.insert(at, (when.to_owned(), id, revision));
            }
            return true;
        }
        let Some((_, id, revision)) = self.found.pop().filter(|_| self.past.len() < MOST) else {
            return false;
        };
        let cut = store
            .text(&id, revision)
            .map(|text| SavedCut::from_json(&text));
        if let Some(Ok(cut)) = cut {
            let cut = SavedCut { id, ..cut };
            self.past
                .extend(Past::of(&cut, &self.which, &mut self.plans));
        }
        true
    }
}
