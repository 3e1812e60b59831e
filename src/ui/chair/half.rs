//! The quiet call when half the time has gone.

use super::at::AtChair;
use super::more::every;
use crate::ui::kept::now;
use crate::walk::Spent;
use crate::words::tr;
use leptos::prelude::*;
use std::time::Duration;

/// How often the clock is looked at.
const TICK: Duration = Duration::from_secs(15);

/// The quiet call when half the time has gone: once, and gone with the next section.
#[component]
pub fn HalfTime(at: AtChair) -> impl IntoView {
    let call = RwSignal::new(None::<String>);
    let look = move || {
        let walk = at.walk();
        if walk.half_told || walk.is_paused() || walk.finished_at.is_some() {
            return;
        }
        let Ok(outcome) = at.outcome() else { return };
        let half = at.ready.with_value(|ready| {
            let spent = Spent::of(&walk, &ready.plan, &outcome, &now());
            spent.half
        });
        if half {
            let done = at.keys.with_value(|keys| walk.count_done(keys));
            let all = at.keys.with_value(Vec::len);
            call.set(Some(tr!(
                "Half the time has gone. {done} of {all} sections are done.",
                done,
                all
            )));
            at.tell_half();
        }
    };
    every(TICK, look);
    view! {
        <div class="half" role="status">
            {move || {
                call.get().map(|said| view! {
                    <p>{said}</p>
                    <button class="plain" on:click=move |_| call.set(None)>{tr("All right")}</button>
                })
            }}
        </div>
    }
}
