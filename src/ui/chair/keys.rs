//! The keys of the walk: a keyboard, a presenter or a foot switch moves on and back.

use super::at::AtChair;
use leptos::ev::KeyboardEvent;
use leptos::prelude::*;
use wasm_bindgen::JsCast;

/// What a key means.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Move {
    On,
    Back,
}

/// Which way a key moves. Presenters send Page Up and Page Down, foot switches those or arrows.
fn meaning(key: &str) -> Option<Move> {
    match key {
        "PageDown" | "ArrowRight" | "ArrowDown" | "Enter" | " " => Some(Move::On),
        "PageUp" | "ArrowLeft" | "ArrowUp" => Some(Move::Back),
        _ => None,
    }
}

/// Whether a key belongs to what has the focus: text is moved about in, buttons are pressed.
fn taken(event: &KeyboardEvent) -> bool {
    let Some(target) = event
        .target()
        .and_then(|target| target.dyn_into::<web_sys::Element>().ok())
    else {
        return false;
    };
    let page = matches!(event.key().as_str(), "PageUp" | "PageDown");
    match target.tag_name().as_str() {
        "INPUT" | "SELECT" | "TEXTAREA" => !page,
        "BUTTON" | "A" | "SUMMARY" => matches!(event.key().as_str(), "Enter" | " "),
        _ => false,
    }
}

/// Moves the walk by keys as long as the screen that calls this is there and `on` says so.
pub fn moved_by_keys(at: AtChair, on: Signal<bool>, to_end: Callback<()>) {
    let handle = window_event_listener(leptos::ev::keydown, move |event| {
        let chord = event.ctrl_key() || event.alt_key() || event.meta_key() || event.shift_key();
        if chord || event.repeat() || event.default_prevented() || !on.get_untracked() {
            return;
        }
        let Some(way) = meaning(&event.key()).filter(|_| !taken(&event)) else {
            return;
        };
        event.prevent_default();
        match way {
            Move::Back => at.back(),
            Move::On => {
                at.done();
                if at.place_now().is_none() {
                    to_end.run(());
                }
            }
        }
    });
    on_cleanup(move || handle.remove());
}
