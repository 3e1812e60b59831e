//! What the screens share: the store, the settings, and the sentence that says what went wrong.

mod crossed;
mod listing;
mod others;
mod records;
mod waiting;

use crate::book::{NotReady, Query, Ready, SavedCut, saved_after};
use crate::measure::{Unit, Usage, said};
use crate::plan::{History, Plan, Sketch};
use crate::store::{Anew, LocalShelf, Look, Settings, Store, StoreError, Wrote, durable};
use crate::words::tr;
use crossed::Last;
use leptos::prelude::*;
pub use listing::All;
use listing::Listing;
use others::Others;
pub use others::look_again;

/// The app's own state, one for all screens.
#[derive(Clone, Copy)]
pub struct Kept {
    store: Store<LocalShelf>,
    settings: RwSignal<Settings>,
    /// The usage of the device's language, while none is chosen.
    language: Usage,
    /// Why the last save failed, until one succeeds.
    trouble: RwSignal<Option<String>>,
    /// What this window saved last.
    last: StoredValue<Last>,
    /// How many documents wait to be kept.
    waits: RwSignal<usize>,
    /// What was changed in the cut of this id.
    history: RwSignal<Option<(String, History)>>,
    /// What other windows do to the same cuts.
    others: Others,
    /// What lists read last.
    listing: StoredValue<Listing>,
    /// What makes the line of a cut anew, once its code is here.
    anew: StoredValue<Option<Anew>>,
    /// What the list looks for, so that it is as it was when one comes back.
    asked: RwSignal<Query>,
}

/// The usage of the device's language.
fn of_device() -> Usage {
    Usage::of_language(&window().navigator().language().unwrap_or_default())
}

/// The usage in force when a page starts, before there is a state.
pub fn usage_at_start() -> Usage {
    Store::new(LocalShelf)
        .settings()
        .usage
        .unwrap_or_else(of_device)
}

/// Makes the state and gives it to all screens.
pub fn provide() {
    let store = Store::new(LocalShelf);
    wear(store.settings().look);
    provide_context(Kept {
        store,
        language: of_device(),
        settings: RwSignal::new(store.settings()),
        trouble: RwSignal::new(None),
        last: StoredValue::new(Last::default()),
        waits: RwSignal::new(0),
        history: RwSignal::new(None),
        others: Others::new(store.settings_revision()),
        listing: StoredValue::new(Listing::default()),
        anew: StoredValue::new(None),
        asked: RwSignal::new(Query::default()),
    });
    kept().listen();
    kept().watch_over();
}

/// Puts on the look that was chosen; that of the device, if none was.
fn wear(look: Option<Look>) {
    let Some(page) = document().document_element() else {
        return;
    };
    // An attribute that can't be set leaves the device's look.
    let _ = match look {
        Some(look) => page.set_attribute("data-look", look.word()),
        None => page.remove_attribute("data-look"),
    };
}

/// The state.
pub fn kept() -> Kept {
    expect_context::<Kept>()
}

impl Kept {
    /// The store.
    pub const fn store(self) -> Store<LocalShelf> {
        self.store
    }

    /// The unit lengths are shown in.
    pub fn unit(self) -> Unit {
        self.settings.get().unit
    }

    /// The same without following it.
    pub fn unit_now(self) -> Unit {
        self.settings.get_untracked().unit
    }

    /// Which usage the words follow: the chosen one, else that of the device's language.
    pub fn usage(self) -> Usage {
        self.settings.get().usage.unwrap_or(self.language)
    }

    /// The same without following it.
    pub fn usage_now(self) -> Usage {
        self.settings.get_untracked().usage.unwrap_or(self.language)
    }

    /// A text of ours in the usage in force.
    pub fn said(self, text: &str) -> String {
        said(text, self.usage_now()).into_owned()
    }

    /// The plan of a cut with its texts in the usage in force: for showing, never for keeping.
    pub fn plan(self, cut: &SavedCut) -> Option<Plan> {
        let mut plan = cut.plan()?.said(self.usage_now());
        if plan.name.trim().is_empty() {
            // No screen is without a heading.
            tr("A plan without a name").clone_into(&mut plan.name);
        }
        Some(plan)
    }

    /// A cut made ready, the texts of its plan in the usage in force: for showing, never for keeping.
    ///
    /// # Errors
    /// [`NotReady`] with a sentence.
    pub fn ready(self, cut: &SavedCut) -> Result<Ready, NotReady> {
        let mut ready = cut.ready_in(self.unit_now())?;
        ready.plan = ready.plan.said(self.usage_now());
        Ok(ready)
    }

    /// All settings.
    pub fn settings(self) -> Settings {
        self.settings.get()
    }

    /// The same without following them.
    pub fn settings_now(self) -> Settings {
        self.settings.get_untracked()
    }

    /// Changes the settings and keeps them.
    pub fn set(self, change: impl FnOnce(&mut Settings)) {
        self.look_at_settings();
        let before = self.settings.get_untracked();
        self.settings.update(change);
        self.wrote_settings(before, self.settings.get_untracked());
        wear(self.settings.get_untracked().look);
        self.note(
            self.store
                .set_settings(self.settings.get_untracked())
                .map_err(|e| e.to_string()),
        );
        self.others.settings_seen(self.store.settings_revision());
    }

    /// Whether what is saved is on the disk at once, so that even a dying device does not lose it.
    pub fn durable(self) -> bool {
        durable()
    }

    /// Why the last save failed.
    pub fn trouble(self) -> Option<String> {
        self.trouble.get()
    }

    /// Changes a cut and keeps it at once. Should it not be kept, the change stays on the screen and
    /// the page says why.
    pub fn change(self, cut: RwSignal<SavedCut>, change: impl FnOnce(&mut SavedCut)) {
        self.change_if(cut, |cut| {
            change(cut);
            true
        });
    }

    /// The same for a change that looks first: it is given the cut as it is kept now, which another
    /// window may have changed since this one drew it, and says whether it changed anything. If not,
    /// nothing is saved, and the screen shows what is kept.
    pub fn change_if(
        self,
        cut: RwSignal<SavedCut>,
        change: impl FnOnce(&mut SavedCut) -> bool,
    ) -> bool {
        let mut change = Some(change);
        self.change_kept(cut, &mut |cut| {
            change.take().is_some_and(|change| change(cut))
        })
    }

    /// Not generic, so that it is built once.
    fn change_kept(
        self,
        cut: RwSignal<SavedCut>,
        change: &mut dyn FnMut(&mut SavedCut) -> bool,
    ) -> bool {
        self.uncross();
        let ours = cut.get_untracked();
        let newer = match self.store.newer(&ours) {
            // What ails the shelf the save will say.
            Err(StoreError::Shelf(_)) => Ok(None),
            newer => newer,
        };
        let may_save = newer.is_ok();
        match &newer {
            Err(StoreError::NotFound) => self.others.gone.set(true),
            Err(why) => self.note(Err(why.to_string())),
            Ok(_) => {}
        }
        let newer = newer.ok().flatten();
        let other_plan = newer
            .as_ref()
            .is_some_and(|newer| !newer.same_but_walk(&ours));
        if other_plan {
            // What can be taken back was changed there too.
            self.history.set(None);
        }
        let moved = newer.is_some();
        let mut now_kept = newer.unwrap_or(ours);
        let of_card = |cut: &SavedCut| {
            let shape = (cut.tapes.clone(), cut.shape, cut.consultation.clone());
            (!cut.visit.of.is_empty()).then_some(shape)
        };
        let before = of_card(&now_kept);
        let text_before = self.text_before(&now_kept);
        let changed = change(&mut now_kept);
        if changed {
            now_kept.saved_at = saved_after(&now_kept.saved_at, now());
        }
        if changed && may_save {
            let saved = self.store.save(&now_kept);
            if let Ok(revision) = saved {
                now_kept.revision = revision;
                let text = now_kept.to_json();
                self.wrote(Wrote::cut(&now_kept.id, revision, text_before, text));
                self.ask_to_last_once();
            }
            self.note(saved.map(|_| ()).map_err(|e| e.to_string()));
            if before != of_card(&now_kept) {
                self.take_into_card(&now_kept);
            }
        }
        if changed || moved {
            cut.set(now_kept);
        }
        if other_plan {
            self.others.build_anew();
        }
        changed
    }

    /// Changes the plan of a cut, or an answer in it, so that it can be taken back.
    pub fn edit(self, cut: RwSignal<SavedCut>, change: impl FnOnce(&mut SavedCut)) {
        let mut sketches = None;
        self.change(cut, |cut| {
            let before = cut.sketch();
            change(cut);
            sketches = before.zip(cut.sketch());
        });
        if let Some((before, after)) = sketches {
            self.with_history(cut, |history| history.record(&before, &after));
        }
    }

    /// Whether something of a cut can be taken back, and whether something can be done again.
    pub fn can_step(self, cut: RwSignal<SavedCut>) -> (bool, bool) {
        let id = cut.with_untracked(|cut| cut.id.clone());
        let can = |history: &History| (history.can_undo(), history.can_redo());
        self.history.with(|kept| match kept {
            Some((of, history)) if *of == id => can(history),
            _ => can(&self.store.history(&id)),
        })
    }

    /// Takes the last change back; what was typed last and does not read goes first.
    pub fn undo(self, cut: RwSignal<SavedCut>) {
        if cut.with_untracked(|cut| cut.unread.is_empty()) {
            self.step_back_or_on(cut, History::undo);
        } else {
            self.change(cut, |cut| cut.unread.clear());
        }
    }

    /// Does what was taken back again. What was typed since and does not read stays.
    pub fn redo(self, cut: RwSignal<SavedCut>) {
        self.step_back_or_on(cut, History::redo);
    }

    fn step_back_or_on(self, cut: RwSignal<SavedCut>, step: fn(&mut History, &mut Sketch)) {
        // Plan and answers alone: a walk that went on since goes on.
        self.change(cut, |kept| {
            if let Some(mut sketch) = kept.sketch() {
                self.with_history(cut, |history| step(history, &mut sketch));
                kept.take(sketch);
            }
        });
    }

    fn with_history(self, cut: RwSignal<SavedCut>, change: impl FnOnce(&mut History)) {
        let id = cut.with_untracked(|cut| cut.id.clone());
        self.history.update(|kept| {
            let mut history = match kept.take() {
                Some((of, history)) if of == id => history,
                _ => self.store.history(&id),
            };
            change(&mut history);
            self.store.set_history(&id, &history);
            *kept = Some((id, history));
        });
    }

    /// Says what a save came to.
    pub fn note(self, result: Result<(), String>) {
        let trouble = result.err().or_else(|| self.still_waits());
        self.waits.try_set(self.store.waiting());
        if trouble != self.trouble.get_untracked() {
            self.trouble.set(trouble);
        }
    }
}

/// Now, as an ISO 8601 time.
pub fn now() -> String {
    js_sys::Date::new_0().to_iso_string().into()
}

/// Today on the device's clock, as `2026-11-25`.
pub fn today() -> String {
    let now = js_sys::Date::new_0();
    let (year, month, day) = (now.get_full_year(), now.get_month() + 1, now.get_date());
    format!("{year:04}-{month:02}-{day:02}")
}

/// A short name that no other document on this device has.
pub fn new_id() -> String {
    let chance = (js_sys::Math::random() * f64::from(1_u32 << 24)) as u64;
    format!("{:x}-{chance:x}", js_sys::Date::now() as u64)
}
