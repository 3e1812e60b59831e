//! A screen that takes long to make, made in turns: each is painted before the next begins, so that a
//! press in between is heard.

use super::soon;
use crate::words::tr;
use leptos::prelude::*;

/// The turns of one screen. All of them come by themselves, once; what changes later is made at once.
#[derive(Clone, Copy)]
pub struct Turns {
    come: RwSignal<usize>,
}

impl Turns {
    /// The first of so many turns comes once the present frame is painted.
    pub fn new(count: usize) -> Self {
        let turns = Self {
            come: RwSignal::new(0),
        };
        turns.go_on(count);
        turns
    }

    fn go_on(self, left: usize) {
        if let Some(left) = left.checked_sub(1) {
            soon(self.come, move || {
                self.come.update(|come| *come += 1);
                self.go_on(left);
            });
        }
    }

    /// Whether a turn, counted from 1, has come.
    pub fn has_come(self, turn: usize) -> Memo<bool> {
        Memo::new(move |_| self.come.get() >= turn)
    }

    /// What is made when its turn comes, counted from 1. The first says that it is on its way.
    pub fn at(self, turn: usize, make: impl Fn() -> AnyView + Send + 'static) -> AnyView {
        let come = self.has_come(turn);
        (move || {
            if come.get() {
                return make();
            }
            let said = (turn == 1).then_some(tr("Working it out…"));
            view! { <p class="working soft" role="status">{said}</p> }.into_any()
        })
        .into_any()
    }
}
