//! The client: what they want, what their hair shows, what is left longer on purpose. All of it may be
//! skipped.

mod fields;
mod growth;

use super::frame::{Stage, Stages, titled, with_cut};
use super::kept::kept;
use super::words;
use crate::book::SavedCut;
use crate::consult::{Ask, Topic};
use crate::head::Region;
use crate::ui::parts::ToPlan;
use crate::words::tr;
use fields::{Considered, Pick, PickLandmark, Typed, Wishes};
use growth::GrowthMarks;
use leptos::prelude::*;

/// The client of one cut.
#[component]
pub fn ClientScreen() -> impl IntoView {
    titled(tr("The client"));
    with_cut(|cut| view! { <ClientForm cut/> })
}

#[component]
fn ClientForm(cut: RwSignal<SavedCut>) -> impl IntoView {
    let id = cut.with_untracked(|cut| cut.id.clone());
    let kept = kept();
    let seen = Memo::new(move |_| kept.settings().seen);
    view! {
        <Stages id here=Stage::Client/>
        <h1>{tr("The client")}</h1>
        <Wishes cut/>
        <Considered cut topic=Topic::Wishes/>
        <div class="side-by-side">
            <div><Typed cut ask=Ask::Shortest/></div>
            <div class="one-select">
                <label for=Ask::WeightAt.key()>{Ask::WeightAt.words()}</label>
                <PickLandmark cut ask=Ask::WeightAt/>
            </div>
        </div>
        <p class="soft">{tr("Answer what matters. An answer pressed again is taken back.")}</p>
        <HairGroup cut/>
        <Group cut name=tr("How it grows") asks=&[] marks=true>
            <GrowthMarks cut/>
        </Group>
        <LongerGroup cut/>
        <Group cut name=tr("Face and occasion") asks=&[Ask::Face, Ask::Occasion]>
            <Pick cut ask=Ask::Face/>
            <p class="soft">{tr("Worth weighing, never a rule: the client\u{2019}s wish comes first.")}</p>
            <Considered cut topic=Topic::Face/>
            <Pick cut ask=Ask::Occasion/>
            <Considered cut topic=Topic::Occasion/>
        </Group>
        {move || (!seen.get()).then(|| view! {
            <Group cut name=tr("Private note") asks=&[Ask::Note]>
                <Note cut/>
            </Group>
        })}
        <ToPlan cut/>
    }
}

/// A group of questions, folded away, with how many were answered.
#[component]
fn Group(
    cut: RwSignal<SavedCut>,
    name: &'static str,
    asks: &'static [Ask],
    /// Whether the marks on the scalp are counted.
    #[prop(optional)]
    marks: bool,
    children: Children,
) -> impl IntoView {
    let count = Memo::new(move |_| {
        cut.with(|cut| {
            let marked = if marks {
                cut.consultation.marks.len()
            } else {
                0
            };
            cut.consultation.answered(asks) + marked
        })
    });
    let said = move || match count.get() {
        0 => String::new(),
        count => tr!("{count} answered", count),
    };
    view! {
        <details class="group">
            <summary>{name}<span class="soft">{said}</span></summary>
            {children()}
        </details>
    }
}

#[component]
fn HairGroup(cut: RwSignal<SavedCut>) -> impl IntoView {
    const ASKS: [Ask; 7] = [
        Ask::Density,
        Ask::Texture,
        Ask::Curl,
        Ask::LockHangs(None),
        Ask::LockCombed(None),
        Ask::Parting,
        Ask::State,
    ];
    let hangs = move || {
        let (share, estimated) = cut.with(|cut| cut.consultation.hangs_at())?;
        let share = format!("{:.0}", share * 100.0);
        Some(if estimated {
            tr!(
                "Estimated from the curl; people differ widely, so measure one lock: it hangs at {share} % of its combed length.",
                share
            )
        } else {
            tr!("It hangs at {share} % of its combed length.", share)
        })
    };
    let lock = move |region: Region| {
        let name = words::region(region);
        view! {
            <div class="side-by-side">
                <div><Typed cut ask=Ask::LockHangs(Some(region)) label=tr!("{name}: hangs, dry", name)/></div>
                <div><Typed cut ask=Ask::LockCombed(Some(region)) label=tr!("{name}: combed straight", name)/></div>
            </div>
        }
    };
    view! {
        <Group cut name=tr("The hair") asks=&ASKS>
            <Pick cut ask=Ask::Curl/>
            <div class="side-by-side">
                <div><Typed cut ask=Ask::LockHangs(None)/></div>
                <div><Typed cut ask=Ask::LockCombed(None)/></div>
            </div>
            <p class="note" role="status">
                {move || hangs().unwrap_or_else(|| {
                    tr("One lock tells how far hair falls: measure it dry and let go, then combed straight.").to_owned()
                })}
            </p>
            <details class="group inner">
                <summary>{tr("More locks, where it curls otherwise")}</summary>
                {Region::ALL.map(lock).into_iter().collect_view()}
            </details>
            <div class="side-by-side">
                <Pick cut ask=Ask::Density/>
                <Pick cut ask=Ask::Texture/>
                <Pick cut ask=Ask::Parting/>
                <Pick cut ask=Ask::State/>
            </div>
            <Considered cut topic=Topic::Hair/>
        </Group>
    }
}

/// What is left longer on purpose, with by how much where it is.
#[component]
fn LongerGroup(cut: RwSignal<SavedCut>) -> impl IntoView {
    let pair = move |(ask, by): (Ask, Ask)| {
        let on = Memo::new(move |_| cut.with(|cut| cut.consultation.is_on(ask)));
        view! {
            <div>
                <Pick cut ask/>
                {move || on.get().then(|| view! { <Typed cut ask=by/> })}
            </div>
        }
    };
    view! {
        <Group cut name=tr("Left longer on purpose") asks=&[Ask::Ears, Ask::Curls, Ask::TwoGoes]>
            <p class="soft">{tr("Said once here; every length at the chair has it in it and says so.")}</p>
            <div class="side-by-side">{Ask::LONGER.map(pair).into_iter().collect_view()}</div>
            <Considered cut topic=Topic::Longer/>
        </Group>
    }
}

/// A note for nobody else, kept with every letter.
#[component]
fn Note(cut: RwSignal<SavedCut>) -> impl IntoView {
    let kept = kept();
    let key = Ask::Note.key();
    view! {
        <label for=key.clone()>{tr("Only on this device; not shown at the chair")}</label>
        <textarea
            id=key
            rows="4"
            prop:value=move || cut.with(|cut| cut.consultation.answer(Ask::Note).to_owned())
            on:input=move |ev| {
                let text = event_target_value(&ev);
                kept.change(cut, |cut| cut.consultation.put(Ask::Note, &text));
            }
        ></textarea>
    }
}
