//! The screen that stays on (W3C Screen Wake Lock).
//!
//! A browser drops the lock whenever the page is hidden, and may drop it when the battery is low; it is
//! asked for again when the page is seen again. The browser's own bindings for it are still unstable,
//! so the two calls are made by name.

use super::{call, of};
use crate::words::tr;
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen::{JsCast, JsValue};

/// Whether the screen stays on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Awake {
    /// Not known yet.
    Asked,
    /// It does.
    On,
    /// The browser can, and refused: a low battery, or a page that is not seen.
    Refused,
    /// This browser can't.
    Missing,
}

impl Awake {
    /// It in a sentence.
    pub fn sentence(self) -> &'static str {
        match self {
            Self::Asked | Self::On => tr("The screen stays on while you cut."),
            Self::Refused => tr(
                "The phone refuses to keep its screen on, perhaps to save the battery. Tap it now and then, or set a longer screen time in the phone's settings.",
            ),
            Self::Missing => tr(
                "This browser can't keep the screen on. Set a longer screen time in the phone's settings before you begin.",
            ),
        }
    }
}

/// Keeps the screen on as long as the screen that calls this is there.
pub fn keep_awake() -> RwSignal<Awake> {
    let state = RwSignal::new(Awake::Asked);
    let lock = StoredValue::new_local(None::<JsValue>);
    let ask = move || {
        let held = lock.try_with_value(|lock| {
            let released = lock.as_ref().map(|lock| of(lock, "released"));
            matches!(released, Some(Some(released)) if released.is_falsy())
        });
        // Gone with its screen, or held already.
        if held != Some(false) || document().hidden() {
            return;
        }
        let Some(asked) = of(&window().navigator(), "wakeLock")
            .and_then(|locks| call(&locks, "request", &JsValue::from_str("screen")))
            .and_then(|promise| promise.dyn_into::<js_sys::Promise>().ok())
        else {
            state.set(Awake::Missing);
            return;
        };
        spawn_local(async move {
            let granted = wasm_bindgen_futures::JsFuture::from(asked).await;
            let now = if granted.is_ok() {
                Awake::On
            } else {
                Awake::Refused
            };
            let granted = granted.ok();
            if lock.try_set_value(granted.clone()).is_some() {
                // The screen was left meanwhile.
                release(granted);
            } else if state.get_untracked() != now {
                state.set(now);
            }
        });
    };
    ask();
    let seen = window_event_listener_untyped("visibilitychange", move |_| ask());
    on_cleanup(move || {
        seen.remove();
        release(lock.try_update_value(Option::take).flatten());
    });
    state
}

fn release(lock: Option<JsValue>) {
    if let Some(lock) = lock {
        call(&lock, "release", &JsValue::UNDEFINED);
    }
}
