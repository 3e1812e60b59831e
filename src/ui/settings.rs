//! What the person set for the whole app.

use super::chair::Switches;
use super::frame::{HOME, titled};
use super::judge::MarksFields;
use super::kept::kept;
use super::parts::{LengthField, Options, Units, fault_said};
use crate::measure::{Hand, Length, Usage, graduation, read_length};
use crate::store::Look;
use crate::walk::Kind;
use crate::words::tr;
use leptos::prelude::*;
use leptos_router::components::A;

/// The settings.
#[component]
pub fn SettingsScreen() -> impl IntoView {
    titled(tr("Settings"));
    let kept = kept();
    let option = |value: &str, words: &str| (value.to_owned(), words.to_owned());
    let usage = Signal::derive(move || kept.usage().word().to_owned());
    let set_usage = Callback::new(move |word: String| {
        let chosen = Usage::of_word(&word).unwrap_or_default();
        let before = kept.usage_now();
        kept.set(|settings| settings.usage = Some(chosen));
        // Another language is there from the start of a page on.
        if before != chosen && [before, chosen].contains(&Usage::Es) {
            let _ = window().location().reload();
        }
    });
    let hand = Signal::derive(move || kept.settings().hand.word().to_owned());
    let set_hand = Callback::new(move |word: String| {
        let chosen = if word == Hand::Left.word() {
            Hand::Left
        } else {
            Hand::Right
        };
        kept.set(|settings| settings.hand = chosen);
    });
    let look = Signal::derive(move || {
        let look = kept.settings().look;
        look.map_or(String::new(), |look| look.word().to_owned())
    });
    let set_look = Callback::new(move |word: String| {
        let chosen = [Look::Light, Look::Dark];
        let chosen = chosen.into_iter().find(|look| look.word() == word);
        kept.set(|settings| settings.look = chosen);
    });
    let months = |months: u32| match months {
        0 => option("0", tr("Never")),
        _ => option(
            &months.to_string(),
            &tr!("{n} year" | "{n} years" % months / 12),
        ),
    };
    view! {
        <h1>{tr("Settings")}</h1>
        <Units/>
        <Options
            ask=tr("Language")
            name="usage"
            options=vec![
                option(Usage::Uk.word(), tr("English, UK: fringe, centre")),
                option(Usage::Us.word(), tr("English, US: bangs, center")),
                // Found by who reads no English.
                option(Usage::Es.word(), "Español: flequillo, centro"),
            ]
            chosen=usage
            on_choose=set_usage
        />
        <p class="soft" aria-live="polite">{move || graduation(kept.usage())}</p>
        <Options
            ask=tr("Scissors in")
            name="hand"
            options=vec![option("right", tr("The right hand")), option("left", tr("The left hand"))]
            chosen=hand
            on_choose=set_hand
        />
        <p class="soft">{tr("At the chair the pictures show your hands: scissors come in from the side of this hand.")}</p>
        <Options
            ask=tr("Look")
            name="look"
            options=vec![
                option("", tr("As the device")),
                option(Look::Light.word(), tr("Light")),
                option(Look::Dark.word(), tr("Dark")),
            ]
            chosen=look
            on_choose=set_look
        />
        <h2>{tr("At the chair")}</h2>
        <Switches/>
        <h3>{tr("How far off is fine")}</h3>
        <p class="soft">{tr("What a check calls fine. Up to twice as far off: look again. Shorter than that: too short. A ruler on combed hair is good to 2 or 3 mm.")}</p>
        {Kind::ALL.map(|kind| view! { <Tolerance kind/> }).collect_view()}
        <h2>{tr("Judging a finished cut")}</h2>
        <MarksFields/>
        <h2>{tr("What is kept")}</h2>
        <Options
            ask=tr("Remind me of cards with no visit for")
            name="keep-months"
            options=[12, 24, 36, 0].map(months).to_vec()
            chosen=Signal::derive(move || kept.settings().keep_months.to_string())
            on_choose=Callback::new(move |months: String| {
                if let Ok(months) = months.parse() {
                    kept.set(|settings| settings.keep_months = months);
                }
            })
        />
        <p class="soft">{tr("The book then names the card, so that you keep it or delete it. Nothing is deleted by itself. How long you may keep it your local rules say.")}</p>
        <p>{tr("Everything you enter stays in this browser on this device. Nothing is sent anywhere, and there is no account. Clearing the browser's data deletes it.")}</p>
        <div class="actions">
            <A href="/keep" attr:class="button">{tr("Everything out and back, and the lock")}</A>
            <A href=HOME exact=true attr:class="button main">{tr("Your cuts")}</A>
        </div>
    }
}

/// How far off a check of one kind may be.
#[component]
fn Tolerance(kind: Kind) -> impl IntoView {
    let kept = kept();
    let text = Signal::derive(move || {
        let cm = kept.settings().tolerances.of(kind);
        Length::from_cm(cm).as_measured(kept.unit())
    });
    let fault = RwSignal::new(None::<String>);
    let set = Callback::new(
        move |typed: String| match read_length(&typed, kept.unit_now()) {
            Ok(length) => {
                fault.set(None);
                kept.set(|settings| settings.tolerances.set(kind, length.cm()));
            }
            Err(why) => fault.set(Some(why.to_string())),
        },
    );
    let label = kept.said(kind.word());
    view! {
        <LengthField id=format!("tolerance-{}", kind as u8) label text set measured=true small=true/>
        {fault_said(move || fault.get())}
    }
}
