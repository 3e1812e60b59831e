//! Work that waits until what was pressed shows.

use leptos::prelude::*;
use std::time::Duration;

/// Does something once the present frame is painted, if what `here` belongs to still stands on the screen
/// then: a hand may have left it, and nothing of it can be read any more.
pub fn soon(here: impl IsDisposed + 'static, work: impl FnOnce() + 'static) {
    let work = move || {
        if !here.is_disposed() {
            work();
        }
    };
    request_animation_frame(move || set_timeout(work, Duration::ZERO));
}
