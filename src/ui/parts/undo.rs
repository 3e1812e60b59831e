//! Taking changes of a plan back, and doing them again.

use crate::book::SavedCut;
use crate::ui::kept::kept;
use crate::words::tr;
use leptos::ev::keydown;
use leptos::prelude::*;

/// Undo and redo, as buttons and as keys (Ctrl or Command with Z; with Shift, or Y, forward).
#[component]
pub fn UndoBar(
    cut: RwSignal<SavedCut>,
    /// Whether it stands only where there is something to take back or do again.
    #[prop(optional)]
    quiet: bool,
) -> impl IntoView {
    let kept = kept();
    let can = Memo::new(move |_| kept.can_step(cut));
    let cannot_undo = move || !can.get().0 && cut.with(|cut| cut.unread.is_empty());
    let cannot_redo = move || !can.get().1;
    let keys = window_event_listener(keydown, move |ev| {
        let typing = event_target::<web_sys::Element>(&ev)
            .closest("input[type=text], textarea")
            .is_ok_and(|at| at.is_some());
        if typing || !(ev.ctrl_key() || ev.meta_key()) {
            return;
        }
        match (ev.key().to_ascii_lowercase().as_str(), ev.shift_key()) {
            ("z", false) => kept.undo(cut),
            ("z", true) | ("y", _) => kept.redo(cut),
            _ => return,
        }
        ev.prevent_default();
    });
    on_cleanup(move || keys.remove());
    let nothing = move || quiet && cannot_undo() && cannot_redo();
    view! {
        <div class="undo" role="group" aria-label=tr("Changes") hidden=nothing>
            <button type="button" disabled=cannot_undo on:click=move |_| kept.undo(cut)>
                <span aria-hidden="true">"↶ "</span>{tr("Undo")}
            </button>
            <button type="button" disabled=cannot_redo on:click=move |_| kept.redo(cut)>
                <span aria-hidden="true">"↷ "</span>{tr("Redo")}
            </button>
        </div>
    }
}
