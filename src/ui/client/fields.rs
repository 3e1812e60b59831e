//! The questions of the consultation, each kept as soon as it is answered.

use crate::book::SavedCut;
use crate::consult::{Ask, Topic, Zone, advice};
use crate::head::Landmark;
use crate::measure::Length;
use crate::plan::landmark_word;
use crate::ui::kept::kept;
use crate::ui::parts::{LengthField, Options, fault_said};
use crate::words::tr;
use leptos::prelude::*;

/// The answer as it stands.
fn answer(cut: RwSignal<SavedCut>, ask: Ask) -> Signal<String> {
    Signal::derive(move || cut.with(|cut| cut.consultation.answer(ask).to_owned()))
}

/// Puts an answer down.
fn put(cut: RwSignal<SavedCut>, ask: Ask) -> Callback<String> {
    let kept = kept();
    Callback::new(move |text: String| {
        kept.change(cut, |cut| cut.consultation.put(ask, &text));
    })
}

/// One of a few answers; chosen again, it is taken back.
#[component]
pub fn Pick(cut: RwSignal<SavedCut>, ask: Ask) -> impl IntoView {
    let options = ask
        .answers()
        .iter()
        .map(|(word, said)| ((*word).to_owned(), kept().said(said)))
        .collect();
    view! {
        <Options
            ask=kept().said(ask.words())
            name=ask.key()
            options
            chosen=answer(cut, ask)
            on_choose=put(cut, ask)
            take_back=true
        />
    }
}

/// One of the landmarks, or none.
#[component]
pub fn PickLandmark(
    cut: RwSignal<SavedCut>,
    ask: Ask,
    /// What is asked, for a list that no label stands beside.
    #[prop(into, optional)]
    label: Option<String>,
) -> impl IntoView {
    let (chosen, put) = (answer(cut, ask), put(cut, ask));
    let option = move |landmark: &Landmark| {
        let word = landmark_word(*landmark);
        let own = word.clone();
        view! {
            <option value=word prop:selected=move || chosen.get() == own>{landmark.name()}</option>
        }
    };
    view! {
        <select
            id=ask.key()
            aria-label=label
            on:change=move |ev| put.run(event_target_value(&ev))
        >
            <option value="" prop:selected=move || chosen.get().is_empty()>{tr("Not said")}</option>
            {ask.landmarks().iter().map(option).collect_view()}
        </select>
    }
}

/// The wishes and limits: a row for each place, wish beside limit.
#[component]
pub fn Wishes(cut: RwSignal<SavedCut>) -> impl IntoView {
    let row = move |zone: Zone| {
        let asks = [Ask::EndsAt(zone), Ask::NoShorter(zone)];
        let cell = move |ask: Ask| {
            let label = format!("{}: {}", zone.name(), ask.words().to_lowercase());
            view! { <td><PickLandmark cut ask label/></td> }
        };
        view! { <tr><th scope="row">{zone.name()}</th>{asks.map(cell).into_iter().collect_view()}</tr> }
    };
    view! {
        <table class="wishes">
            <thead>
                <tr>
                    <td></td>
                    <th scope="col">{Ask::EndsAt(Zone::Front).words()}</th>
                    <th scope="col">{Ask::NoShorter(Zone::Front).words()}</th>
                </tr>
            </thead>
            <tbody>{Zone::ALL.map(row).into_iter().collect_view()}</tbody>
        </table>
    }
}

/// A length. What does not read stays, with a sentence.
#[component]
pub fn Typed(
    cut: RwSignal<SavedCut>,
    ask: Ask,
    /// What is asked, if other words fit better.
    #[prop(into, optional)]
    label: Option<String>,
) -> impl IntoView {
    let kept = kept();
    let typed = answer(cut, ask);
    let text = Signal::derive(move || {
        let typed = typed.get();
        match ask.usual() {
            Some(usual) if typed.trim().is_empty() => Length::from_cm(usual).shown(kept.unit()),
            _ => typed,
        }
    });
    let set = put(cut, ask);
    let fault = Memo::new(move |_| cut.with(|cut| cut.consultation.fault(ask)));
    let label = kept.said(&label.unwrap_or_else(|| ask.words().to_owned()));
    view! {
        <LengthField id=ask.key() label text set/>
        {fault_said(move || fault.get())}
    }
}

/// What is worth considering after the answers of one group.
#[component]
pub fn Considered(cut: RwSignal<SavedCut>, topic: Topic) -> impl IntoView {
    let all = move || {
        let mut all = cut.with(|cut| advice(&cut.consultation));
        all.retain(|one| one.topic == topic);
        all
    };
    view! {
        <div aria-live="polite">
            {move || {
                all()
                    .into_iter()
                    .map(|one| view! { <p class="note" class:warn=one.warns>{kept().said(&one.text)}</p> })
                    .collect_view()
            }}
        </div>
    }
}
