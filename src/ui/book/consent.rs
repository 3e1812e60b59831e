//! What a client agreed to, in plain words.

use crate::book::{Consent, Record};
use crate::ui::kept::{kept, today};
use crate::ui::parts::Switch;
use crate::ui::words;
use crate::words::{noted, tr};
use leptos::prelude::*;

/// What is agreed, each with the field that says when.
type Agreed = (&'static str, fn(&mut Consent) -> &mut String);

const CARD: Agreed = (noted("Agreed that this card is kept"), |consent| {
    &mut consent.card
});
const HEALTH: Agreed = (
    noted("Agreed that what touches health is written down"),
    |consent| &mut consent.health,
);

/// What a client agreed to.
#[component]
pub fn Agreement(record: RwSignal<Record>) -> impl IntoView {
    let agreed = move || record.with(|record| !record.consent.card.is_empty());
    let missing = move || {
        (!agreed()).then(|| {
            view! { <p class="note warn">{tr("Nobody has said yet that this card may be kept.")}</p> }
        })
    };
    view! {
        <details class="group">
            <summary>{tr("Agreement and privacy")}<span class="soft">{move || if agreed() { tr("agreed") } else { tr("not yet") }}</span></summary>
            {missing}
            <Tick record of=CARD/>
            <Tick record of=HEALTH/>
            <p>{tr("What is kept: the name or initials, measures of head and hair, what was asked, planned and cut, the notes. Where: in this browser, on this device, and nowhere else. Tautline takes no photographs.")}</p>
            <p>{tr("They may see it, have it put right, get it as a file, and have it deleted, at any time: all four are on this page.")}</p>
            <p>{tr("Scalp, skin and reactions are health. Write such things down only where the work needs them and they said yes; delete them first. For a child a guardian says yes. That nothing leaves the device does not set the law aside: your local rules come first.")}</p>
        </details>
    }
}

/// One thing that is agreed or not, and since when.
#[component]
fn Tick(record: RwSignal<Record>, of: Agreed) -> impl IntoView {
    let kept = kept();
    let (label, field) = of;
    let day = move || record.with(|record| field(&mut record.consent.clone()).clone());
    let set = Callback::new(move |on: bool| {
        kept.change_record(record, |record| {
            *field(&mut record.consent) = if on { today() } else { String::new() };
        });
    });
    let since = move || {
        let day = day();
        (!day.is_empty()).then(|| view! { <p class="soft">{tr!("On {}.", words::day(&day))}</p> })
    };
    view! {
        <Switch label=tr(label) on=Signal::derive(move || !day().is_empty()) set/>
        {since}
    }
}
