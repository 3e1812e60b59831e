//! A check: what is expected at named places, what is measured there, and what that says.

use super::at::AtChair;
use crate::cut::{Outcome, SectionCut};
use crate::measure::{Length, read_length};
use crate::ui::kept::kept;
use crate::ui::parts::{LengthField, marked, wrong};
use crate::ui::words;
use crate::walk::{CheckPlace, Verdict, check_places, verdict};
use crate::words::tr;
use leptos::prelude::*;
use std::sync::Arc;

/// The places of a check section.
#[component]
pub fn CheckedView(at: AtChair, outcome: Arc<Outcome>, section: SectionCut) -> impl IntoView {
    let places = at
        .ready
        .with_value(|ready| check_places(&ready.job(), &outcome, &section));
    let key = StoredValue::new(section.key);
    match places {
        Ok(places) => view! {
            <div class="checks">
                <p class="soft">
                    {tr("Measure where it looks off, and put that down. How far off is fine stands in the settings.")}
                </p>
                {places
                    .into_iter()
                    .map(|place| view! { <Place at key place/> })
                    .collect_view()}
            </div>
        }
        .into_any(),
        Err(why) => wrong(why),
    }
}

/// One place: expected, measured, verdict.
#[component]
fn Place(
    at: AtChair,
    key: StoredValue<crate::cut::SectionKey>,
    place: CheckPlace,
) -> impl IntoView {
    let kept = kept();
    let (number, expected, kind) = (place.place, place.expected, place.kind);
    let measured = Memo::new(move |_| {
        at.of(|walk| key.with_value(|key| walk.checked_at(key, number)))
            .flatten()
    });
    let text = Signal::derive(move || {
        let unit = kept.unit();
        measured
            .get()
            .map_or(expected.shown(unit), |cut| cut.as_measured(unit))
    });
    let fault = RwSignal::new(None::<String>);
    let put = move |length: Option<Length>| {
        fault.set(None);
        at.change(|walk, _, _| key.with_value(|key| walk.check_down(key, number, length)));
    };
    let set = Callback::new(
        move |typed: String| match read_length(&typed, kept.unit_now()) {
            Ok(length) => put(Some(length)),
            Err(why) => fault.set(Some(why.to_string())),
        },
    );
    let said = move || {
        let unit = kept.unit();
        let settings = kept.settings();
        measured.get().map(|measured| {
            let cm = measured.cm() - expected.cm();
            let verdict = verdict(cm, settings.tolerances.of(kind));
            let mark = match verdict {
                Verdict::Fine => "✓ ",
                Verdict::LookAgain | Verdict::TooShort => "○ ",
            };
            let word = verdict.said(settings.seen);
            view! {
                <p class="verdict">
                    <strong>{mark} {word}</strong> ". " {words::against(cm, unit)}
                </p>
                <button class="plain" on:click=move |_| put(None)>{tr("Take it back")}</button>
            }
        })
    };
    let label = kept.said(&place.name);
    view! {
        <div class="check-place">
            <p class="near">
                {label.clone()} ": " {marked(tr("should be {}"), expected.shown(kept.unit_now()))}
            </p>
            <LengthField
                id=format!("checked-{number}")
                label=tr!("Measured, {label}", label)
                text
                set
                measured=true
            />
            <div aria-live="polite" class="check-said">
                {move || fault.get().map(|why| view! { <p class="fault">{why}</p> })}
                {said}
            </div>
        </div>
    }
}
