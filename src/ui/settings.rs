//! What the person set for the whole app.

use super::frame::titled;
use super::kept::kept;
use super::parts::Options;
use crate::measure::{Hand, Unit, Usage, graduation};
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
        <h2>"What is kept"</h2>
        <p>"Everything you enter stays in this browser on this device. Nothing is sent anywhere, and there is no account. Clearing the browser's data deletes it."</p>
        <div class="actions">
            <A href="/" attr:class="button main">"Your cuts"</A>
        </div>
    }
}
