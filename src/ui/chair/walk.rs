//! The walk: one section, one screen, one number.

use super::at::AtChair;
use super::before::BeforeYouCut;
use super::half::HalfTime;
use super::keys::moved_by_keys;
use super::more::more_below;
use super::overview::Overview;
use super::paused::Paused;
use super::section::{Faces, SectionView};
use crate::book::SavedCut;
use crate::measure::Hand;
use crate::ui::device::{Awake, hush, keep_awake, say};
use crate::ui::frame::{Stage, Stages, focus_if_lost, titled, with_cut};
use crate::ui::kept::{kept, now};
use crate::ui::parts::wrong;
use crate::walk::Walk;
use crate::words::{tr, tr_in};
use leptos::prelude::*;
use leptos_router::NavigateOptions;
use leptos_router::components::A;
use leptos_router::hooks::use_navigate;

/// The walk of one cut.
#[component]
pub fn WalkScreen() -> impl IntoView {
    titled(tr("At the chair"));
    with_cut(|cut| {
        let id = cut.with_untracked(|cut| cut.id.clone());
        match AtChair::new(cut) {
            Ok(at) => view! { <Chair at/> }.into_any(),
            Err(why) => view! {
                <Stages id=id.clone() here=Stage::Chair/>
                <h1>{tr("Not ready for the chair")}</h1>
                <p>{why}</p>
                <A href=format!("/cut/{id}/plan") attr:class="button main">{tr("To the plan")}</A>
            }
            .into_any(),
        }
    })
}

#[component]
fn Chair(at: AtChair) -> impl IntoView {
    let id = StoredValue::new(at.cut.with_untracked(|cut| cut.id.clone()));
    let started = Memo::new(move |_| at.cut.with(|cut: &SavedCut| cut.walk.is_some()));
    let awake = keep_awake();
    let start = Callback::new(move |()| {
        kept().change_if(at.cut, |cut| {
            // Another window may have begun it.
            let begins = cut.walk.is_none();
            cut.walk.get_or_insert_with(|| Walk::start(&now()));
            begins
        });
        window().scroll_to_with_x_and_y(0.0, 0.0);
        // Not on Done, which a key that is held down would press.
        focus_if_lost(".chair-seen");
    });
    move || {
        if started.get() {
            view! { <Due at awake/> }.into_any()
        } else {
            view! {
                <Stages id=id.get_value() here=Stage::Chair/>
                <BeforeYouCut at on_start=start awake/>
            }
            .into_any()
        }
    }
}

/// The section that is due, with the bar that moves on and back.
#[component]
fn Due(at: AtChair, awake: RwSignal<Awake>) -> impl IntoView {
    let kept = kept();
    let navigate = use_navigate();
    let id = StoredValue::new(at.cut.with_untracked(|cut| cut.id.clone()));
    // A new section is put on the screen only when the place moves, not at every value put down.
    let place = Memo::new(move |_| {
        at.of(|walk| at.keys.with_value(|keys| walk.current(keys)))
            .flatten()
    });
    let paused = Memo::new(move |_| at.of(Walk::is_paused).unwrap_or_default());
    let over = RwSignal::new(false);
    let to_end = Callback::new(move |()| {
        id.with_value(|id| navigate(&format!("/cut/{id}/end"), NavigateOptions::default()));
    });
    let on = Signal::derive(move || !over.get() && !paused.get() && place.get().is_some());
    moved_by_keys(at, on, to_end);
    on_cleanup(hush);
    let done = move |event: leptos::ev::MouseEvent| {
        // The second half of a double tap is not meant.
        if event.detail() > 1 {
            return;
        }
        at.done();
        if at.place_now().is_none() {
            to_end.run(());
        }
    };
    let back = move |event: leptos::ev::MouseEvent| {
        if event.detail() <= 1 {
            at.back();
        }
    };
    let count = at.keys.with_value(Vec::len);
    let first = Memo::new(move |_| {
        let behind = at.of(|walk| at.keys.with_value(|keys| walk.behind(keys)));
        behind.flatten().is_none()
    });
    let last = move || place.get().is_some_and(|place| place + 1 == count);
    let section = move |place: usize| match at.outcome() {
        Ok(outcome) => view! { <SectionView at outcome place/> }.into_any(),
        Err(why) => wrong(why),
    };
    let seen = move || {
        match place.get() {
        _ if over.get() => {
            let close = Callback::new(move |()| over.set(false));
            view! { <Overview at awake close/> }.into_any()
        }
        Some(_) if paused.get() => view! { <Paused at/> }.into_any(),
        Some(place) => section(place),
        None => view! {
            <h1>{tr("All sections are done")}</h1>
            <p>{tr("Look at what was cut against what was planned, or go back to a section.")}</p>
            <div class="actions">
                <button class="main" on:click=move |_| to_end.run(())>{tr("Planned and cut")}</button>
            </div>
        }
        .into_any(),
    }
    };
    let pause = move |_| {
        hush();
        at.change(|walk, _, now| {
            if walk.is_paused() {
                walk.go_on(now);
            } else {
                walk.pause(now);
            }
        });
    };
    let hand = move || match kept.settings().hand {
        Hand::Right => "right",
        Hand::Left => "left",
    };
    let seen_part = NodeRef::<leptos::html::Div>::new();
    let more_button = NodeRef::<leptos::html::Button>::new();
    // A new section, a face or the overview.
    let more = more_below(seen_part, more_button, move || {
        place.track();
        at.face.track();
        over.track();
    });
    let class = move || format!("chair-seen {}", at.face.get().class());
    let at_section = move || !over.get() && !paused.get();
    view! {
        <div class="chair" data-hand=hand>
            <div class="chair-top">
                <button class="plain" aria-expanded=move || over.get().to_string() on:click=move |_| over.update(|over| *over = !*over)>
                    {move || if over.get() { tr("Close") } else { tr("Overview") }}
                </button>
                <p class="progress">
                    {move || place.get().map(|place| view! {
                        <progress max=count value=place aria-hidden="true"></progress>
                        {tr!("Section {} of {count}", place + 1, count)}
                    })}
                </p>
                {move || (!over.get() && place.get().is_some()).then(|| view! {
                    <button class="plain" on:click=pause>
                        {if paused.get() { tr("Go on") } else { tr("Pause") }}
                    </button>
                })}
            </div>
            <HalfTime at/>
            <div node_ref=seen_part class=class tabindex="0" role="region" aria-label=tr("The section")>{seen}</div>
            <button
                node_ref=more_button
                class="more"
                hidden=move || !more.get()
                on:click=move |_| {
                    if let Some(part) = seen_part.get() {
                        part.set_scroll_top(part.scroll_top() + part.client_height() * 4 / 5);
                    }
                }
            >
                <span aria-hidden="true">"▼ "</span> {tr("More")}
            </button>
            <div class="chair-bar">
                {move || at_section().then(|| view! { <Faces at/> })}
                {move || {
                    (at_section() && kept.settings().aloud).then(|| view! {
                        <button class="again" on:click=move |_| {
                            at.spoken.with_value(|text| say(text, kept.usage_now().language()));
                        }>{tr("Say it again")}</button>
                    })
                }}
                {move || {
                    if over.get() {
                        view! {
                            <button class="main" data-escape="" on:click=move |_| over.set(false)>
                                {if place.get().is_some() { tr("Back to the section") } else { tr("Close") }}
                            </button>
                        }
                        .into_any()
                    } else if paused.get() {
                        view! { <button class="main" on:click=pause>{tr("Go on")}</button> }.into_any()
                    } else {
                        view! {
                            <div class="walk-bar">
                                <button class="back" on:click=back disabled=move || first.get()>
                                    {tr_in("to the section before", "Back")}
                                </button>
                                <button class="main done" on:click=done disabled=move || place.get().is_none()>
                                    {move || if last() { tr("Done, finish") } else { tr("Done") }}
                                </button>
                            </div>
                        }
                        .into_any()
                    }
                }}
            </div>
        </div>
    }
}
