//! Other windows of the app on the same cuts.
//!
//! Local storage is one for all windows. Every save moves a cut's revision on, and every change first
//! looks for a newer one (`Kept::change_if`), so neither window writes over what the other kept. A
//! browser tells a window of another's save by an event, a few milliseconds later at most while both
//! are awake; a window that slept looks when it is shown again. Two taps in two windows within those
//! milliseconds cross, and both are kept (`crossed`).

use super::Kept;
use crate::book::{Record, SavedCut};
use crate::store::StoreError;
use leptos::prelude::*;

/// What this window knows of what others do.
#[derive(Clone, Copy)]
pub struct Others {
    /// The cut on the screen.
    open: StoredValue<Option<Open>>,
    /// The card on the screen, and what is done about it: named only where one is opened, as of a cut.
    card: StoredValue<Option<Card>>,
    /// Whether the cut on the screen was deleted in another window.
    pub(super) gone: RwSignal<bool>,
    /// Moved on whenever a screen has to be built anew from what is kept.
    turned: RwSignal<u32>,
    /// Whether that waits until the person has done typing.
    waits: StoredValue<bool>,
    /// Which revision of the settings is in force here.
    settings: StoredValue<u64>,
    /// What was in force when the list was made.
    listed: StoredValue<String>,
}

/// The cut on the screen, and what is done about it. Named only where a cut is opened: so the code that
/// reads cuts need not be there for the first screen.
#[derive(Clone, Copy)]
struct Open {
    cut: RwSignal<SavedCut>,
    catch_up: fn(Kept, RwSignal<SavedCut>),
    keep_again: fn(Kept, RwSignal<SavedCut>),
}

/// The card on the screen.
#[derive(Clone, Copy)]
struct Card {
    record: RwSignal<Record>,
    catch_up: fn(Kept, RwSignal<Record>),
}

/// Has the screens look at what is kept, as if another window had saved something.
pub fn look_again() {
    if let Ok(event) = web_sys::Event::new("storage") {
        let _ = window().dispatch_event(&event);
    }
}

impl Others {
    pub(super) fn new(settings: u64) -> Self {
        Self {
            open: StoredValue::new(None),
            card: StoredValue::new(None),
            gone: RwSignal::new(false),
            turned: RwSignal::new(0),
            waits: StoredValue::new(false),
            settings: StoredValue::new(settings),
            listed: StoredValue::new(String::new()),
        }
    }

    pub(super) fn settings_seen(self, revision: u64) {
        self.settings.set_value(revision);
    }

    /// Builds the screen anew; not under the hands of someone who types.
    pub(super) fn build_anew(self) {
        let at = document().active_element();
        let typing = at.is_some_and(|at| {
            at.matches("input[type=text], input[type=search], input:not([type]), textarea")
                .unwrap_or(false)
        });
        self.waits.set_value(typing);
        if !typing {
            self.turned.update(|n| *n += 1);
        }
    }
}

impl Kept {
    /// Looks whenever another window may have saved something.
    pub(super) fn listen(self) {
        for name in ["storage", "pageshow", "visibilitychange"] {
            window_event_listener_untyped(name, move |_| self.look());
        }
        window_event_listener_untyped("focusout", move |_| {
            // After the field has kept what was typed in it.
            if self.others.waits.get_value() {
                set_timeout(move || self.others.build_anew(), std::time::Duration::ZERO);
            }
        });
    }

    fn look(self) {
        self.look_at_settings();
        self.uncross_soon();
        if self.store.waiting() > 0 {
            self.try_again();
        }
        match self.others.open.get_value() {
            Some(open) => (open.catch_up)(self, open.cut),
            None if self
                .others
                .listed
                .with_value(|listed| *listed != self.in_force()) =>
            {
                if let Some(card) = self.others.card.get_value() {
                    (card.catch_up)(self, card.record);
                }
                self.others.build_anew();
            }
            None => {}
        }
    }

    /// Looks at everything anew: a file was taken in.
    pub fn taken_in(self) {
        self.history.set(None);
        self.look();
        self.note(Ok(()));
        super::wear(self.settings.get_untracked().look);
    }

    pub(super) fn look_at_settings(self) {
        let revision = self.store.settings_revision();
        if revision != self.others.settings.get_value() {
            self.others.settings.set_value(revision);
            self.settings.set(self.store.settings());
        } else {
            self.uncross_settings();
        }
    }

    /// Shows a cut where it is the one on the screen.
    pub(super) fn show(self, now_kept: SavedCut) {
        let Some(Open { cut, .. }) = self.others.open.get_value() else {
            return;
        };
        let Some(ours) = cut
            .try_get_untracked()
            .filter(|ours| ours.id == now_kept.id)
        else {
            return;
        };
        let same = now_kept.same_but_walk(&ours);
        cut.set(now_kept);
        if !same {
            self.history.set(None);
            self.others.build_anew();
        }
    }

    /// Takes in what another window saved of the open cut.
    fn catch_up(self, cut: RwSignal<SavedCut>) {
        let Some(ours) = cut.try_get_untracked() else {
            return self.others.open.set_value(None);
        };
        match self.store.newer(&ours) {
            Ok(Some(newer)) => {
                let same = newer.same_but_walk(&ours);
                cut.set(newer);
                if !same {
                    self.history.set(None);
                    self.others.build_anew();
                }
            }
            Err(StoreError::NotFound) => self.others.gone.set(true),
            Err(StoreError::Document(why)) => self.note(Err(why.to_string())),
            Ok(None) | Err(StoreError::Shelf(_)) => {}
        }
    }

    /// Says which cut is on the screen.
    pub fn opened(self, cut: RwSignal<SavedCut>) {
        self.open(Some(Open {
            cut,
            catch_up: Self::catch_up,
            keep_again: Self::keep_cut_again,
        }));
    }

    /// Says which card is on the screen.
    pub fn opened_card(self, record: RwSignal<Record>) {
        self.listed();
        self.others.card.set_value(Some(Card {
            record,
            catch_up: Self::catch_up_card,
        }));
    }

    /// Shows what another window kept of the card on the screen, also in the fields beside the one that is
    /// typed in.
    fn catch_up_card(self, record: RwSignal<Record>) {
        let Some(ours) = record.try_get_untracked() else {
            return self.others.card.set_value(None);
        };
        // Where it is gone, or can't be read, the screen says so when it is built anew.
        if let Ok(newer) = self.store.record(&ours.id)
            && newer.revision != ours.revision
        {
            record.set(newer);
        }
    }

    /// Says that no cut is on the screen.
    pub fn opened_none(self) {
        self.open(None);
    }

    fn open(self, open: Option<Open>) {
        self.others.open.set_value(open);
        self.others.card.set_value(None);
        self.others.waits.set_value(false);
        if self.others.gone.get_untracked() {
            self.others.gone.set(false);
        }
    }

    /// Follows what has a screen built anew.
    pub fn follow_others(self) {
        self.others.turned.track();
    }

    /// Whether the open cut was deleted in another window.
    pub fn gone(self) -> bool {
        self.others.gone.get()
    }

    /// Keeps the open cut, as the screen shows it, although another window deleted it.
    pub fn keep_again(self) {
        if let Some(open) = self.others.open.get_value() {
            (open.keep_again)(self, open.cut);
        }
    }

    fn keep_cut_again(self, cut: RwSignal<SavedCut>) {
        if let Some(mut ours) = cut.try_get_untracked() {
            // Past whatever the other window saved before it deleted it.
            ours.revision = ours.revision.saturating_add(1000);
            let saved = self.store.save(&ours);
            if let Ok(revision) = saved {
                ours.revision = revision;
                cut.set(ours);
                self.others.gone.set(false);
            }
            self.note(saved.map(|_| ()).map_err(|e| e.to_string()));
        }
    }

    /// Says that a list or a card is on the screen, which is made anew when another window changes
    /// something.
    pub(super) fn listed(self) {
        self.opened_none();
        self.shows_what_is_kept();
    }

    /// What is on the screen is what is kept now.
    pub(super) fn shows_what_is_kept(self) {
        self.others.listed.set_value(self.in_force());
    }

    fn in_force(self) -> String {
        self.store.in_force().unwrap_or_default()
    }
}
