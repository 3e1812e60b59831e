//! The list of saved cuts: the first screen. As long as there is none it says what this is; the list itself
//! lies in a part of the code that comes later.

mod begin;
mod cuts;
mod found;
mod home;
mod open;
mod saved;

use super::device::can_open_offline;
use super::frame::titled;
use super::kept::kept;
use super::screens;
use crate::words::{noted, tr};
use begin::Begin;
pub use cuts::Cuts;
use home::OnHomeScreen;
use leptos::prelude::*;
use leptos_router::components::A;

/// What is said where the code of a deed can't be fetched.
const NOT_FETCHED: &str = noted(
    "Tautline is not yet on this device as a whole, and the network does not answer. What you saved is safe. Look whether there is a network, then try again.",
);

/// The sides of the first plan held to their guide, on the mean head of the surveys: as the engine draws
/// them, which a test holds.
const WELCOME: &str = include_str!("welcome.svg");
/// What it says.
const WELCOME_SAYS: [&str; 2] = [
    noted("Hair of the side held to one guide"),
    noted(
        "A head from the left. Hair from the temple to behind the ear is held taut to one line above the parting.",
    ),
];

/// All cuts on this device.
#[component]
pub fn ListScreen() -> impl IntoView {
    titled(tr("Your cuts"));
    let kept = kept();
    let changed = RwSignal::new(0_u32);
    // What can't be told is told by the list of the cuts.
    let any = Memo::new(move |_| {
        changed.track();
        kept.follow_others();
        kept.store().any_cut().unwrap_or(true)
    });
    view! {
        <h1>{tr("Your cuts")}</h1>
        {move || if any.get() {
            screens::cuts(changed)
        } else {
            view! {
                <Welcome/>
                <Begin/>
                <p class="note">{tr("Sharp tools: mind ears, eyes and neck. Broken or infected skin, or lice: don’t cut, suggest medical advice. What to look at stands before every first cut.")}</p>
                <p><A href="/learn" attr:class="learn-link">{tr("Learn what lengths follow from: elevation, over-direction, guide, weight")}</A></p>
            }
            .into_any()
        }}
        <OnHomeScreen/>
        // Shown, and its button heard, by the script that registers the offline worker.
        <div class="newer" role="status">
            <div class="when-newer">
                {tr("A new version is ready. ")}
                <button type="button" data-switch="">{tr("Switch now")}</button>
            </div>
        </div>
        <p class="note soft">
            {tr("Everything stays on this device; nothing is sent anywhere. Lengths are computed guidance: your eye, your training and your local rules come first.")}
            {(!kept.durable()).then_some(tr(" This browser takes some seconds to write down what you do: should the device die, the last taps may be lost."))}
            {(!can_open_offline()).then_some(tr(" This browser can't keep the app itself: with no network it may not open here."))}
        </p>
    }
}

/// What the app is, for the first start.
#[component]
fn Welcome() -> impl IntoView {
    let [title, told] = WELCOME_SAYS;
    let picture = WELCOME.replacen(title, tr(title), 1);
    let picture = picture.replacen(told, tr(told), 1);
    view! {
        <p class="lede">
            {tr("Measure a head, fit a plan to it, and know how long every section must be cut before you cut it.")}
        </p>
        <figure class="figure welcome-picture"><div inner_html=picture></div></figure>
        <p class="soft">{tr("Tautline then walks you through it at the chair, section by section, with no network. There is nothing to sign up for.")}</p>
    }
}
