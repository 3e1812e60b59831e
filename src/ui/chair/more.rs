//! A button where there is more to read, so that nothing has to be swiped.

use leptos::prelude::*;
use std::time::Duration;

/// How often it is looked whether there is more to read.
const LOOK: Duration = Duration::from_millis(300);
/// Less than this below the edge is air, pixels.
const HARDLY: i32 = 12;

/// Whether more of a part lies below what is seen of it: looked at now and then, so that nobody has to
/// swipe to find out. The button that says so takes room itself, which is given back where all would fit.
/// When what `other` follows has changed, something else is shown: it begins at its top, and is looked at
/// soon.
pub fn more_below(
    part: NodeRef<leptos::html::Div>,
    button: NodeRef<leptos::html::Button>,
    other: impl Fn() + 'static,
) -> RwSignal<bool> {
    let more = RwSignal::new(false);
    let look = move || {
        // The screen may be gone by then.
        if let Some(part) = part.try_get_untracked().flatten() {
            let taken = button.try_get_untracked().flatten();
            let taken = taken.map_or(0, |button| button.offset_height());
            let below = part.scroll_height() - part.client_height() - part.scroll_top() - taken;
            let there = below > HARDLY && part.client_height() > 0;
            if there != more.get_untracked() {
                more.set(there);
            }
        }
    };
    every(LOOK, look);
    Effect::new(move |_| {
        other();
        if let Some(part) = part.get() {
            part.set_scroll_top(0);
        }
        request_animation_frame(look);
    });
    more
}

/// Does something again and again as long as the screen that calls this is there.
pub fn every(time: Duration, work: impl Fn() + 'static) {
    let ticking = set_interval_with_handle(work, time).ok();
    on_cleanup(move || {
        if let Some(ticking) = ticking {
            ticking.clear();
        }
    });
}
