//! Before the first cut: the usual cautions, once.

use crate::ui::device::Awake;
use crate::ui::kept::kept;
use crate::words::{noted, tr};
use leptos::prelude::*;

/// Common practice, with what public health guidance says about skin, lice and tools (Perth District
/// Health Unit; Michigan Administrative Code R 339.6039). How to stand is occupational health's advice, from
/// memory.
const CAUTIONS: [&str; 6] = [
    noted(
        "Look at scalp and neck first. Open sores, a rash or an infection: don't cut; suggest medical advice. Lice: no service until treated.",
    ),
    noted(
        "Clean, disinfected tools for every client. If anyone is cut, stop, see to the wound, disinfect the tool.",
    ),
    noted(
        "Points away from eyes, ears and neck. Stop when the client moves; children move without warning.",
    ),
    noted(
        "Client upright, head level, feet down. Work between your chest and waist, wrists straight; move round the chair.",
    ),
    noted(
        "Show the client the first guide before you go on: too long can be put right, too short can't.",
    ),
    noted(
        "Lengths here are computed guidance, not a licence. Local rules and your training come first.",
    ),
];

/// The cautions and the button that begins.
#[component]
pub fn BeforeYouCut(on_start: Callback<()>, awake: RwSignal<Awake>) -> impl IntoView {
    let kept = kept();
    view! {
        <h1>{tr("Before you cut")}</h1>
        <ul class="cautions">
            {CAUTIONS.map(|caution| view! { <li>{kept.said(caution)}</li> }).collect_view()}
        </ul>
        <p class="soft" aria-live="polite">{move || awake.get().sentence()}</p>
        <div class="actions">
            <button class="main" on:click=move |_| on_start.run(())>{tr("Start")}</button>
        </div>
    }
}
