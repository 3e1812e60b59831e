//! One section on the screen: its length, where to comb it, what guides it, what it came out at.

use crate::chart::{HeldHair, InHand, Parcel, View, profile_in_hand, scalp_map};
use crate::cut::{Outcome, SectionCut, Telling, Told};
use crate::head::Head;
use crate::measure::read_length;
use crate::plan::{Caution, Step, Technique};
use crate::store::{Ready, SavedCut};
use crate::ui::kept::{kept, now};
use crate::ui::parts::{LengthField, Picture, left_on, told_line};
use crate::ui::words;
use leptos::prelude::*;
use std::sync::Arc;

/// The section at `place` of the outcome.
#[component]
pub fn SectionView(
    cut: RwSignal<SavedCut>,
    ready: StoredValue<Ready>,
    outcome: Arc<Outcome>,
    place: usize,
) -> impl IntoView {
    let section = outcome.sections[place].clone();
    let count = outcome.sections.len();
    let (step, drawing, map, told, estimated) = ready.with_value(|ready| {
        let technique = ready.plan.steps[section.step].technique;
        let (drawing, map) = pictures(&ready.head, &outcome, &section, technique, cut);
        let told = section
            .cuts()
            .then(|| Telling::new(&ready.job(), &outcome.lengths).told(&section.strands));
        let step = ready.plan.steps[section.step].clone();
        (step, drawing, map, told, ready.hair.estimated)
    });
    let where_in = format!(
        "{}, {}",
        step.title,
        words::side(section.key.side).to_ascii_lowercase()
    );
    view! {
        <p class="progress">
            <progress max=count value=place aria-hidden="true"></progress>
            {format!("Section {} of {count}", place + 1)}
        </p>
        <div class="side-by-side">
            <div>
                <div aria-live="polite">
                    <h1 class="section-name">{section.section.name.clone()}</h1>
                    <p class="where">{where_in}</p>
                    <Target section=section.clone() told estimated/>
                    <p class="comb">{step.words.comb.clone()}</p>
                </div>
                <div class="walk-pictures">
                    <Picture svg=drawing/>
                    <Picture svg=map/>
                </div>
            </div>
            <div>
                <Instructions step=step.clone() section=section.clone()/>
                {section.cuts().then(|| view! { <CameOutAt cut section=section.clone()/> })}
            </div>
        </div>
    }
}

/// The number: the longest hair of the section large, the shortest beside it.
#[component]
fn Target(section: SectionCut, told: Option<Told>, estimated: bool) -> impl IntoView {
    let kept = kept();
    let (short, long) = (section.short(), section.long());
    let check = !section.cuts();
    let off = section.off();
    let what = if check {
        "Expect, left and right alike"
    } else {
        "Cut at, longest hair"
    };
    let one = move || short.number(kept.unit()) == long.number(kept.unit());
    view! {
        <div class="target">
            <p class="target-what">{what}</p>
            <p class="target-number number">
                {move || long.number(kept.unit())}
                <span class="target-unit">{move || kept.unit().mark()}</span>
            </p>
            <p class="target-short">
                {move || {
                    (!one()).then(|| view! {
                        <span>"shortest " <strong class="number">{short.shown(kept.unit())}</strong></span>
                    })
                }}
                {(!check).then(|| view! {
                    <span>
                        "up to " <strong class="number">{move || off.shown(kept.unit())}</strong> " off"
                    </span>
                })}
            </p>
            {move || {
                left_on(&section, kept.unit())
                    .map(|said| view! { <p class="target-falls target-left">{said}</p> })
            }}
            {told.map(|told| view! {
                <p class="target-falls">
                    {move || words::falls_to(&told, kept.unit())}
                    {estimated.then(|| view! {
                        <span class="soft">" (estimated from the curl: measure one lock)"</span>
                    })}
                </p>
            })}
        </div>
    }
}

/// What to do, line by line.
#[component]
fn Instructions(step: Step, section: SectionCut) -> impl IntoView {
    let technique = step
        .technique
        .map(|technique| kept().said(technique.sentence()));
    let words = step.words;
    view! {
        <dl class="instructions">
            {told_line("Fingers", words.fingers)}
            {told_line("Guide", words.guide)}
            <div>
                <dt>"Cut"</dt>
                <dd>
                    {words.technique}
                    {technique.map(|text| view! { <span class="explained soft">{text}</span> })}
                </dd>
            </div>
            {told_line("Stand", words.stance)}
        </dl>
        {words::reach(&section).map(|reach| view! { <p class="note">{reach}</p> })}
        {step
            .cautions
            .into_iter()
            .map(|caution: Caution| view! { <p class="note warn">{caution.sentence()}</p> })
            .collect_view()}
    }
}

/// What the section really came out at.
#[component]
fn CameOutAt(cut: RwSignal<SavedCut>, section: SectionCut) -> impl IntoView {
    let kept = kept();
    let key = StoredValue::new(section.key.clone());
    let target = section.long();
    let measured = Memo::new(move |_| {
        cut.with(|cut| {
            let walk = cut.walk.as_ref()?;
            key.with_value(|key| walk.came_out_at(key))
        })
    });
    let text = Signal::derive(move || measured.get().unwrap_or(target).shown(kept.unit()));
    let fault = RwSignal::new(None::<String>);
    let put = move |length| {
        let at = now();
        kept.change(cut, |cut| {
            if let Some(walk) = &mut cut.walk {
                key.with_value(|key| walk.put_down(key, length, Some(target), &at));
            }
        });
    };
    let set = Callback::new(
        move |typed: String| match read_length(&typed, kept.unit_now()) {
            Ok(length) => {
                fault.set(None);
                put(Some(length));
            }
            Err(why) => fault.set(Some(why.to_string())),
        },
    );
    view! {
        <div class="came-out">
            <LengthField id="came-out".to_owned() label="Came out at, longest hair" text set/>
            <div aria-live="polite">
                {move || fault.get().map(|why| view! { <p class="fault">{why}</p> })}
                {move || {
                    measured.get().map(|_| view! {
                        <p class="soft">
                            "Put down. Sections guided by this one follow it. "
                            <button class="plain" on:click=move |_| put(None)>"Take it back"</button>
                        </p>
                    })
                }}
            </div>
        </div>
    }
}

/// The held hair of the section on this head, and its place on the scalp.
fn pictures(
    head: &Head,
    outcome: &Outcome,
    section: &SectionCut,
    technique: Option<Technique>,
    cut: RwSignal<SavedCut>,
) -> (String, String) {
    let name = &section.section.name;
    let how = InHand {
        hand: kept().settings_now().hand,
        technique,
    };
    let drawing = profile_in_hand(
        head,
        View::of(section.key.side),
        &[HeldHair {
            section,
            marked: true,
        }],
        how,
        &format!("{name}, as it is held"),
        "The head from the side of this section, its hair as taut lines to where it is cut.",
    );
    let parcels = outcome
        .sections
        .iter()
        .filter(|s| s.cuts() && s.key != section.key);
    let mut parcels: Vec<Parcel> = parcels
        .map(|s| {
            let done = cut
                .with_untracked(|cut| cut.walk.as_ref().is_some_and(|walk| walk.is_done(&s.key)));
            let state = if done { "done" } else { "due" };
            Parcel {
                patch: s.section.patch.clone(),
                label: String::new(),
                state,
            }
        })
        .collect();
    parcels.push(Parcel {
        patch: section.section.patch.clone(),
        label: String::new(),
        state: "now",
    });
    let map = scalp_map(
        head,
        &parcels,
        &format!("Where {name} lies"),
        "The scalp from above, forehead up: this section outlined boldly, sections that are done filled.",
    );
    (drawing, map)
}
