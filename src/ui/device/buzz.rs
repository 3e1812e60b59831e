//! A short buzz, for a hand that doesn't look. Nothing happens where a device can't.

use super::of;
use leptos::prelude::window;

/// Whether the device can buzz, as far as the browser says.
pub fn can_buzz() -> bool {
    of(&window().navigator(), "vibrate").is_some()
}

/// Buzzes for so many milliseconds.
pub fn buzz(milliseconds: u32) {
    if can_buzz() {
        window().navigator().vibrate_with_duration(milliseconds);
    }
}
