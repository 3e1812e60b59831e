//! Going through the finished cuts without holding up a hand: a slice at a time.

use crate::book::{MOST, Past, Plans, Trends, Which};
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
    /// The ids of what may be read, the last finished at the end.
    found: Vec<String>,
    past: Vec<Past>,
    plans: Plans,
}

/// What comes back in the cuts of `which`, once they are read; none until then. A reading that nobody waits
/// for any more ends.
pub fn read(which: Which) -> RwSignal<Option<Trends>> {
    let out = RwSignal::new(None);
    let kept = kept();
    let lines = kept.lines().unwrap_or_default();
    let mut found: Vec<_> = lines.iter().filter(|line| which.may_be(line)).collect();
    found.sort_by(|a, b| (&a.day, &a.id).cmp(&(&b.day, &b.id)));
    let reading = Reading {
        kept,
        found: found.into_iter().map(|line| line.id.clone()).collect(),
        which,
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
        let next = self.found.pop().filter(|_| self.past.len() < MOST);
        let Some(id) = next else {
            return false;
        };
        if let Ok(cut) = self.kept.store().load(&id) {
            let past = Past::of(&cut, &self.which, &mut self.plans);
            self.past.extend(past);
        }
        true
    }
}
