//! What a section came out at: what follows from it, its twin, and what can be done if it is short.

use super::at::AtChair;
use crate::cut::{SectionCut, SectionKey};
use crate::measure::{Length, read_length};
use crate::ui::device::say;
use crate::ui::kept::kept;
use crate::ui::parts::{LengthField, soon};
use crate::ui::words;
use crate::walk::Pair;
use crate::words::tr;
use leptos::prelude::*;

/// What comes of a value: told once it is painted, for it may take a slow phone half a second.
#[derive(Clone, PartialEq)]
struct Comes {
    /// What changes after it; none where nothing was put down.
    follows: Option<String>,
    /// What can still be done where it came out shorter than agreed.
    mend: Vec<String>,
    /// Its twin, and the length at which it would match.
    pair: Option<(Pair, Option<Length>)>,
}

/// The value, and what comes of it.
#[component]
pub fn ResultView(at: AtChair, section: SectionCut) -> impl IntoView {
    let kept = kept();
    let key = StoredValue::new(section.key.clone());
    let comes_of = move || {
        let walk = at.walk();
        let settings = kept.settings_now();
        key.with_value(|key| {
            let measured = walk.came_out_at(key).is_some();
            let pair = at.outcome().ok().and_then(|outcome| {
                let pair = Pair::of(&outcome, &walk, key)?;
                let offer = pair.offer_match(&walk, &settings.tolerances);
                Some((pair, offer))
            });
            let mend = (measured && !settings.seen).then(|| at.mend(key));
            Comes {
                follows: measured.then(|| at.follows(key)).flatten(),
                mend: mend.flatten().unwrap_or_default(),
                pair,
            }
        })
    };
    let comes = RwSignal::new(comes_of());
    let first = StoredValue::new(true);
    Effect::new(move |_| {
        at.cut.track();
        kept.settings();
        if first.get_value() {
            first.set_value(false);
            return;
        }
        soon(comes, move || {
            let was = comes.get_untracked();
            let now = comes_of();
            if now == was {
                return;
            }
            let news = now.follows.clone().filter(|_| now.follows != was.follows);
            if let (Some(said), true) = (news, kept.settings_now().aloud) {
                say(&kept.said(&said), kept.usage_now().language());
            }
            comes.set(now);
        });
    });
    view! {
        <CameOutAt at section comes/>
        <Twin at key comes/>
    }
}

/// What the section really came out at.
#[component]
fn CameOutAt(at: AtChair, section: SectionCut, comes: RwSignal<Comes>) -> impl IntoView {
    let kept = kept();
    let most = Length::from_cm(section.most());
    let key = StoredValue::new(section.key.clone());
    let section = StoredValue::new(section);
    let measured = Memo::new(move |_| {
        at.of(|walk| key.with_value(|key| walk.came_out_at(key)))
            .flatten()
    });
    let target = Memo::new(move |_| {
        section.with_value(|section| {
            let to_cut = at.of(|walk| walk.to_cut(section));
            to_cut.unwrap_or_else(|| section.long())
        })
    });
    let plan_kept = Memo::new(move |_| {
        at.of(|walk| key.with_value(|key| walk.keeps_plan(key)))
            .unwrap_or_default()
    });
    let text = Signal::derive(move || {
        let unit = kept.unit();
        measured
            .get()
            .map_or_else(|| target.get().shown(unit), |cut| cut.as_measured(unit))
    });
    let fault = RwSignal::new(None::<String>);
    let put = move |length: Option<Length>| {
        let target = Some(target.get_untracked());
        at.change(|walk, _, now| {
            key.with_value(|key| walk.put_down(key, length, target, now));
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
    let put_down = move || {
        measured.get().map(|cut| {
            let too_long = (!section.with_value(|section| section.can_be(cut))).then(|| {
                let most = most.shown(kept.unit_now());
                let ask = tr!("The hair here was at most {most}. Measure once more?", most);
                view! { <p class="soft">{ask}</p> }
            });
            let keeps = plan_kept.get();
            let said = move || match comes.get().follows {
                _ if keeps => tr("Put down. The plan stays as it was.").to_owned(),
                Some(said) => said,
                None => tr("Put down.").to_owned(),
            };
            view! {
                {too_long}
                <p class="follows">{said}</p>
                <div class="two">
                    <button on:click=move |_| keep(!keeps)>
                        {if keeps { tr("Follow it") } else { tr("Keep the plan") }}
                    </button>
                    <button on:click=move |_| put(None)>{tr("Take it back")}</button>
                </div>
            }
        })
    };
    let mended = move || {
        let lines = comes.get().mend;
        (!lines.is_empty()).then(|| {
            view! {
                <div class="note mend">
                    {lines.into_iter().map(|line| view! { <p>{line}</p> }).collect_view()}
                </div>
            }
        })
    };
    view! {
        <div class="came-out">
            <LengthField id="came-out".to_owned() label=tr("Came out at, longest hair") text set measured=true/>
            <div aria-live="polite">
                {move || fault.get().map(|why| view! { <p class="fault">{why}</p> })}
                {move || {
                    measured.get().is_none().then(|| view! {
                        <p class="soft">{tr("As shown, if you put nothing down.")}</p>
                    })
                }}
                {put_down}
                {mended}
            </div>
        </div>
    }
}

/// The section on the other side: what it was cut at, the difference, where to bring both.
#[component]
fn Twin(at: AtChair, key: StoredValue<SectionKey>, comes: RwSignal<Comes>) -> impl IntoView {
    let kept = kept();
    let match_to = move |length: Option<Length>| {
        at.change(|walk, _, _| key.with_value(|key| walk.match_to(key, length)));
    };
    let matched = Memo::new(move |_| {
        at.of(|walk| key.with_value(|key| walk.matched(key)))
            .flatten()
    });
    move || {
        let (pair, offer) = comes.get().pair?;
        let unit = kept.unit();
        let side = words::side(pair.twin.side);
        let there = match (pair.there, pair.there_measured) {
            (Some(there), true) => tr!("{side}: came out at {}.", there.as_measured(unit), side),
            (Some(there), false) => tr!("{side}: cut, to {}.", there.shown(unit), side),
            (None, _) => tr!(
                "{side}: not cut yet, plan {}.",
                pair.target_there.shown(unit),
                side
            ),
        };
        let difference = pair.difference.map(|cm| {
            let by = if pair.here.is_some() {
                words::against(cm, unit)
            } else {
                words::against_plan(cm, unit)
            };
            tr!("This side: {by}", by)
        });
        Some(view! {
            <div class="twin">
                <h2 class="near">{tr("The other side")}</h2>
                <p>
                    {there} " "
                    {difference.map(|said| view! { <strong>{said}</strong> " " })}
                    {tr!("To compare, comb both to {}.", kept.said(pair.point.word()))}
                </p>
                {offer.map(|length| view! {
                    <button on:click=move |_| match_to(Some(length))>
                        {tr!("Match it: cut at {}", length.as_measured(unit))}
                    </button>
                })}
                {matched.get().map(|length| view! {
                    <p>{tr!("To be cut at {}, to match.", length.as_measured(unit))}</p>
                    <button on:click=move |_| match_to(None)>{tr("Back to the plan's length")}</button>
                })}
            </div>
        })
    }
}
