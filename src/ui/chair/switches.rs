//! What the phone does at the chair: speak, buzz, keep quiet before the client.

use crate::ui::device::{can_buzz, hush, voice};
use crate::ui::kept::kept;
use crate::ui::parts::Switch;
use crate::words::tr;
use leptos::prelude::*;

/// What the phone does at the chair.
#[component]
pub fn Switches() -> impl IntoView {
    let kept = kept();
    let no_voice = move || {
        (kept.settings().aloud && voice(kept.usage().language()).is_none()).then_some(
            tr("This device has no voice of its own for this language. It may stay silent with no network."),
        )
    };
    view! {
        <Switch
            label=tr("Read each section aloud")
            on=Signal::derive(move || kept.settings().aloud)
            set=Callback::new(move |on| {
                kept.set(|settings| settings.aloud = on);
                if !on {
                    hush();
                }
            })
        />
        <p class="soft" aria-live="polite">{no_voice}</p>
        {can_buzz().then(|| view! {
            <Switch
                label=tr("Buzz when a section is done")
                on=Signal::derive(move || kept.settings().buzz)
                set=Callback::new(move |on| kept.set(|settings| settings.buzz = on))
            />
        })}
        {(!can_buzz()).then(|| view! { <p class="soft">{tr("This device can't buzz.")}</p> })}
        <Switch
            label=tr("The client looks on: no names, no notes, no blunt words")
            on=Signal::derive(move || kept.settings().seen)
            set=Callback::new(move |on| kept.set(|settings| settings.seen = on))
        />
    }
}
