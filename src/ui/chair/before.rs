//! Before the first cut: the usual cautions, once.

use super::at::AtChair;
use crate::head::Tape;
use crate::ui::device::Awake;
use crate::ui::kept::kept;
use crate::words::{noted, tr};
use leptos::prelude::*;
use leptos_router::components::A;

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

/// What is about to be cut, the cautions, and the button that begins.
#[component]
pub fn BeforeYouCut(at: AtChair, on_start: Callback<()>, awake: RwSignal<Awake>) -> impl IntoView {
    let kept = kept();
    let choose = at
        .cut
        .with_untracked(|cut| format!("/cut/{}/choose", cut.id));
    view! {
        <h1>{tr("Before you cut")}</h1>
        <div class="about-to-cut">
            {about_to(at)}
            <A href=choose attr:class="button">{tr("Choose another cut")}</A>
        </div>
        <ul class="cautions">
            {CAUTIONS.map(|caution| view! { <li>{kept.said(caution)}</li> }).collect_view()}
        </ul>
        <p class="soft" aria-live="polite">{move || awake.get().sentence()}</p>
        <div class="actions">
            <button class="main" on:click=move |_| on_start.run(())>{tr("Start")}</button>
        </div>
    }
}

/// Which cut it is, on what head and hair, how many sections and how long, so that nobody cuts another one.
fn about_to(at: AtChair) -> AnyView {
    let kept = kept();
    let (title, called, chosen) = at.cut.with_untracked(|cut| {
        let plan = kept.plan(cut).map_or(String::new(), |plan| plan.name);
        (cut.title.clone(), cut.plan_said(&plan), cut.is_chosen())
    });
    let title = (!kept.settings_now().seen).then_some(title);
    let sections = at.keys.with_value(Vec::len);
    let (minutes, taken, longest) = at.ready.with_value(|ready| {
        let taken = |tape: &&Tape| !ready.head.measure(**tape).estimated();
        let longest = at.outcome().ok().map(|outcome| outcome.longest_before());
        (
            ready.plan.minutes,
            Tape::ALL.iter().filter(taken).count(),
            longest,
        )
    });
    let how_many = if minutes == 0 {
        tr!("1 section" | "{n} sections" % sections)
    } else {
        tr!(
            "1 section, about {minutes} minutes"
                | "{n} sections, about {minutes} minutes" % sections,
            minutes
        )
    };
    let head = match taken {
        0 => tr("Head: estimated, no tape was taken.").to_owned(),
        taken if taken == Tape::ALL.len() => tr("Head: every tape taken.").to_owned(),
        taken => tr!("Head: 1 tape taken, the rest estimated."
            | "Head: {n} tapes taken, the rest estimated." % taken),
    };
    let hair = longest.map(|longest| tr!("Hair now: up to {}.", longest.shown(kept.unit_now())));
    view! {
        <p class="lede"><strong>{called}</strong> <br/> {how_many}</p>
        {(!chosen).then(|| view! {
            <p class="note">{tr("Nothing is chosen yet: this is the plan that every new cut begins with.")}</p>
        })}
        <p class="soft">{title.map(|title| view! { {title} <br/> })} {head} " " {hair}</p>
    }
    .into_any()
}
