//! What a section came out at: what follows from it, its twin, and what can be done if it is short.

use super::at::AtChair;
use crate::cut::SectionCut;
use crate::measure::{Length, read_length};
use crate::ui::device::say;
use crate::ui::kept::kept;
use crate::ui::parts::LengthField;
use crate::ui::words;
use crate::walk::{Pair, follow};
use leptos::prelude::*;

/// The value, and what comes of it.
#[component]
pub fn ResultView(at: AtChair, section: SectionCut) -> impl IntoView {
    let section = StoredValue::new(section);
    view! {
        <CameOutAt at section/>
        <Twin at section/>
    }
}

/// What the section really came out at.
#[component]
fn CameOutAt(at: AtChair, section: StoredValue<SectionCut>) -> impl IntoView {
    let kept = kept();
    let key = StoredValue::new(section.with_value(|section| section.key.clone()));
    let target = section.with_value(|section| at.target(section));
    let measured = Memo::new(move |_| {
        at.of(|walk| key.with_value(|key| walk.came_out_at(key)))
            .flatten()
    });
    let plan_kept = Memo::new(move |_| {
        at.of(|walk| key.with_value(|key| walk.keeps_plan(key)))
            .unwrap_or_default()
    });
    let text = Signal::derive(move || {
        let unit = kept.unit();
        measured
            .get()
            .map_or(target.shown(unit), |cut| cut.as_measured(unit))
    });
    let fault = RwSignal::new(None::<String>);
    let put = move |length: Option<Length>| {
        at.change(|walk, _, now| {
            key.with_value(|key| walk.put_down(key, length, Some(target), now));
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
    let keep = move |keep: bool| {
        at.change(|walk, _, _| key.with_value(|key| walk.keep_plan(key, keep)));
    };
    // What changes, told of the plan as it would go on without this value.
    let follows = Memo::new(move |_| {
        measured.get()?;
        let keeps = plan_kept.get();
        let unit = kept.unit();
        let said = key.with_value(|key| {
            let before = at.without(key).ok()?;
            let after = at.outcome().ok()?;
            Some(follow(&before, &after, &at.walk(), key).said(unit))
        })?;
        Some((said, keeps))
    });
    Effect::new(move |_| {
        if let (Some((said, false)), true) = (follows.get(), kept.settings_now().aloud) {
            say(&kept.said(&said), kept.usage_now().language());
        }
    });
    let mended = move || {
        measured.get()?;
        if kept.settings().seen {
            return None;
        }
        key.with_value(|key| at.mend(key))
    };
    view! {
        <div class="came-out">
            <LengthField id="came-out".to_owned() label="Came out at, longest hair" text set/>
            <div aria-live="polite">
                {move || fault.get().map(|why| view! { <p class="fault">{why}</p> })}
                {move || {
                    measured.get().is_none().then(|| view! {
                        <p class="soft">"As planned, if you put nothing down."</p>
                    })
                }}
                {move || {
                    follows.get().map(|(said, keeps)| view! {
                        <p class="follows">
                            {if keeps { "Put down. The plan stays as it was.".to_owned() } else { said }}
                        </p>
                        <div class="two">
                            <button on:click=move |_| keep(!keeps)>
                                {if keeps { "Follow it" } else { "Keep the plan" }}
                            </button>
                            <button on:click=move |_| put(None)>"Take it back"</button>
                        </div>
                    })
                }}
                {move || {
                    mended().map(|lines| view! {
                        <div class="note mend">
                            {lines.into_iter().map(|line| view! { <p>{line}</p> }).collect_view()}
                        </div>
                    })
                }}
            </div>
        </div>
    }
}

/// The section on the other side: what it was cut at, the difference, where to bring both.
#[component]
fn Twin(at: AtChair, section: StoredValue<SectionCut>) -> impl IntoView {
    let kept = kept();
    let key = StoredValue::new(section.with_value(|section| section.key.clone()));
    let pair = move || {
        let walk = at.of(Clone::clone)?;
        let outcome = at.outcome().ok()?;
        let pair = key.with_value(|key| Pair::of(&outcome, &walk, key))?;
        let offer = pair.offer_match(&walk, &kept.settings().tolerances);
        let matched = key.with_value(|key| walk.matched(key));
        Some((pair, offer, matched))
    };
    let match_to = move |length: Option<Length>| {
        at.change(|walk, _, _| key.with_value(|key| walk.match_to(key, length)));
    };
    move || {
        let (pair, offer, matched) = pair()?;
        let unit = kept.unit();
        let side = words::side(pair.twin.side);
        let there = match (pair.there, pair.there_measured) {
            (Some(there), true) => format!("{side}: came out at {}.", there.as_measured(unit)),
            (Some(there), false) => format!("{side}: cut, to {}.", there.shown(unit)),
            (None, _) => format!(
                "{side}: not cut yet, plan {}.",
                pair.target_there.shown(unit)
            ),
        };
        let difference = pair.difference.map(|cm| {
            let by = if pair.here.is_some() {
                words::against(cm, unit)
            } else {
                words::against_plan(cm, unit)
            };
            format!("This side: {by}")
        });
        Some(view! {
            <div class="twin">
                <h2 class="near">"The other side"</h2>
                <p>
                    {there} " "
                    {difference.map(|said| view! { <strong>{said}</strong> " " })}
                    "Bring both to " {kept.said(pair.point.word())} "."
                </p>
                {offer.map(|length| view! {
                    <button on:click=move |_| match_to(Some(length))>
                        {format!("Match it: cut at {}", length.as_measured(unit))}
                    </button>
                })}
                {matched.map(|_| view! {
                    <button on:click=move |_| match_to(None)>"Back to the plan's length"</button>
                })}
            </div>
        })
    }
}
