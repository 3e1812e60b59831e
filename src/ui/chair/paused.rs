//! A pause: the clock stands, and one large button goes on.

use super::at::AtChair;
use crate::ui::words;
use crate::words::tr;
use leptos::prelude::*;

/// The screen of a pause.
#[component]
pub fn Paused(at: AtChair) -> impl IntoView {
    let since = at.of(|walk| {
        let last = walk.pauses.last();
        last.map(|pause| words::time(&pause.from))
    });
    let place = at.place_now().map(|place| place + 1);
    view! {
        <div class="paused">
            <h1>{tr("Paused")}</h1>
            <p class="far">
                {since.flatten().map(|time| tr!("Since {time}. ", time))}
                {place.map(|place| tr!("Section {place} waits.", place))}
            </p>
        </div>
    }
}
