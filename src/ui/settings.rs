//! What the person set for the whole app.

use super::chair::Switches;
use super::frame::{HOME, titled};
use super::judge::MarksFields;
use super::kept::kept;
use super::parts::{LengthField, Options};
use super::words;
use crate::measure::{Hand, Length, Unit, Usage, graduation, read_length};
use crate::store::Look;
use crate::walk::Kind;
use leptos::prelude::*;
use leptos_router::components::A;

/// The settings.
#[component]
pub fn SettingsScreen() -> impl IntoView {
    titled("Settings");
    let kept = kept();
    let option = |value: &str, words: &str| (value.to_owned(), words.to_owned());
    let unit = Signal::derive(move || kept.unit().mark().to_owned());
    let set_unit = Callback::new(move |mark: String| {
        kept.set(|settings| {
            settings.unit = if mark == "in" { Unit::Inches } else { Unit::Cm };
        });
    });
    let usage = Signal::derive(move || kept.usage().word().to_owned());
    let set_usage = Callback::new(move |word: String| {
        let chosen = if word == Usage::Us.word() {
            Usage::Us
        } else {
            Usage::Uk
        };
        kept.set(|settings| settings.usage = Some(chosen));
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
    // The words are written anew when the usage changes, but not the choice of it, which keeps the
    // focus.
    let centimetres = move || match kept.usage() {
        Usage::Uk => "Centimetres",
        Usage::Us => "Centimeters",
    };
    let units = move || {
        let options = vec![
            option("cm", centimetres()),
            option("in", "Inches and eighths"),
        ];
        view! { <Options ask="Lengths in" name="unit" options chosen=unit on_choose=set_unit/> }
    };
    let months = |months: u32| match months {
        0 => option("0", "Never"),
        _ => option(
            &months.to_string(),
            &words::counted(months as usize / 12, "year", "years"),
        ),
    };
    view! {
        <h1>"Settings"</h1>
        {units}
        <Options
            ask="Words as in"
            name="usage"
            options=vec![option("uk", "UK: fringe, centre"), option("us", "US: bangs, center")]
            chosen=usage
            on_choose=set_usage
        />
        <p class="soft" aria-live="polite">{move || graduation(kept.usage())}</p>
        <Options
            ask="Scissors in"
            name="hand"
            options=vec![option("right", "The right hand"), option("left", "The left hand")]
            chosen=hand
            on_choose=set_hand
        />
        <p class="soft">"At the chair the pictures show your hands: scissors come in from the side of this hand."</p>
        <Options
            ask="Look"
            name="look"
            options=vec![
                option("", "As the device"),
                option(Look::Light.word(), "Light"),
                option(Look::Dark.word(), "Dark"),
            ]
            chosen=look
            on_choose=set_look
        />
        <h2>"At the chair"</h2>
        <Switches/>
        <h3>"How far off is fine"</h3>
        <p class="soft">"What a check calls fine. Up to twice as far off: look again. Shorter than that: too short. A ruler on combed hair is good to 2 or 3 mm."</p>
        {Kind::ALL.map(|kind| view! { <Tolerance kind/> }).collect_view()}
        <h2>"Judging a finished cut"</h2>
        <MarksFields/>
        <h2>"What is kept"</h2>
        <Options
            ask="Look through the card of a client who was not here for"
            name="keep-months"
            options=[12, 24, 36, 0].map(months).to_vec()
            chosen=Signal::derive(move || kept.settings().keep_months.to_string())
            on_choose=Callback::new(move |months: String| {
                if let Ok(months) = months.parse() {
                    kept.set(|settings| settings.keep_months = months);
                }
            })
        />
        <p class="soft">"The book then names the card, so that you keep it or delete it. Nothing is deleted by itself. How long you may keep it your local rules say."</p>
        <p>"Everything you enter stays in this browser on this device. Nothing is sent anywhere, and there is no account. Clearing the browser's data deletes it."</p>
        <div class="actions">
            <A href="/keep" attr:class="button">"Everything out and back, and the lock"</A>
            <A href=HOME exact=true attr:class="button main">"Your cuts"</A>
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
        {move || fault.get().map(|why| view! { <p class="fault">{why}</p> })}
    }
}
