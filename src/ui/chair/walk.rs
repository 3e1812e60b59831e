//! The walk: one section, one screen, one number.

use super::before::BeforeYouCut;
use super::section::SectionView;
use crate::cut::{CutError, Measured, Outcome, SectionKey};
use crate::store::{Ready, SavedCut};
use crate::ui::frame::{Stage, Stages, titled, with_cut};
use crate::ui::kept::{kept, now};
use crate::walk::{Walk, order};
use leptos::prelude::*;
use leptos_router::NavigateOptions;
use leptos_router::components::A;
use leptos_router::hooks::use_navigate;
use std::sync::Arc;

/// The walk of one cut.
#[component]
pub fn WalkScreen() -> impl IntoView {
    titled("At the chair");
    with_cut(|cut| {
        let ready = cut.with_untracked(|cut| {
            let ready = kept().ready(cut).map_err(|e| e.to_string())?;
            let outcome = followed(cut, &ready).map_err(|e| e.to_string())?;
            Ok::<_, String>((ready, order(&outcome)))
        });
        let id = cut.with_untracked(|cut| cut.id.clone());
        match ready {
            Ok((ready, keys)) => view! { <Chair cut ready keys/> }.into_any(),
            Err(why) => view! {
                <Stages id=id.clone() here=Stage::Chair/>
                <h1>"Not ready for the chair"</h1>
                <p>{why}</p>
                <A href=format!("/cut/{id}/plan") attr:class="button main">"To the plan"</A>
            }
            .into_any(),
        }
    })
}

/// The plan as it goes on from what was measured so far.
pub fn followed(cut: &SavedCut, ready: &Ready) -> Result<Outcome, CutError> {
    ready.outcome(&measured(cut))
}

/// What was measured so far.
fn measured(cut: &SavedCut) -> Measured {
    cut.walk.as_ref().map(Walk::measured).unwrap_or_default()
}

#[component]
fn Chair(cut: RwSignal<SavedCut>, ready: Ready, keys: Vec<SectionKey>) -> impl IntoView {
    let kept = kept();
    let id = StoredValue::new(cut.with_untracked(|cut| cut.id.clone()));
    let started = Memo::new(move |_| cut.with(|cut| cut.walk.is_some()));
    let start = Callback::new(move |()| {
        kept.change_if(cut, |cut| {
            // Another window may have begun it.
            let begins = cut.walk.is_none();
            cut.walk.get_or_insert_with(|| Walk::start(&now()));
            begins
        });
        window().scroll_to_with_x_and_y(0.0, 0.0);
    });
    let (ready, keys) = (StoredValue::new(ready), StoredValue::new(keys));
    move || {
        if started.get() {
            view! { <Due cut ready keys/> }.into_any()
        } else {
            view! {
                <Stages id=id.get_value() here=Stage::Chair/>
                <BeforeYouCut on_start=start/>
            }
            .into_any()
        }
    }
}

/// The section that is due, with the bar that moves on and back.
#[component]
fn Due(
    cut: RwSignal<SavedCut>,
    ready: StoredValue<Ready>,
    keys: StoredValue<Vec<SectionKey>>,
) -> impl IntoView {
    let kept = kept();
    let navigate = use_navigate();
    let id = StoredValue::new(cut.with_untracked(|cut| cut.id.clone()));
    let current = move |cut: &SavedCut| {
        cut.walk
            .as_ref()
            .and_then(|walk| keys.with_value(|keys| walk.current(keys)))
    };
    // A new section is put on the screen only when the place moves, not at every value put down.
    let place = Memo::new(move |_| cut.with(current));
    let to_end = Callback::new(move |()| {
        id.with_value(|id| navigate(&format!("/cut/{id}/end"), NavigateOptions::default()));
    });
    let change = move |step: fn(&mut Walk, &[SectionKey], &str)| {
        let at = now();
        let shown = place.get_untracked();
        kept.change_if(cut, |cut| {
            // A tap is meant for the section it was made on.
            let meant = current(cut) == shown;
            if let Some(walk) = cut.walk.as_mut().filter(|_| meant) {
                keys.with_value(|keys| step(walk, keys, &at));
            }
            meant
        });
        window().scroll_to_with_x_and_y(0.0, 0.0);
    };
    let back = move |_| change(|walk, keys, _| walk.back(keys));
    let done = move |_| {
        change(|walk, keys, at| walk.done(keys, at));
        if cut.with_untracked(current).is_none() {
            to_end.run(());
        }
    };
    let last = move || {
        place
            .get()
            .is_some_and(|place| place + 1 == keys.with_value(Vec::len))
    };
    // Worked out again only when something was measured, not at every section.
    let last_worked = StoredValue::new(None::<(Measured, Arc<Outcome>)>);
    let worked_out = move || {
        let measured = cut.with_untracked(measured);
        let kept = last_worked.with_value(|last| match last {
            Some((of, outcome)) if *of == measured => Some(Arc::clone(outcome)),
            _ => None,
        });
        if let Some(outcome) = kept {
            return Ok(outcome);
        }
        let outcome = Arc::new(ready.with_value(|ready| ready.outcome(&measured))?);
        last_worked.set_value(Some((measured, Arc::clone(&outcome))));
        Ok::<_, CutError>(outcome)
    };
    let section = move |place: usize| match worked_out() {
        Ok(outcome) => view! { <SectionView cut ready outcome place/> }.into_any(),
        Err(why) => view! { <p class="note warn" role="alert">{why.to_string()}</p> }.into_any(),
    };
    view! {
        <nav class="walk-top" aria-label="Leave the chair">
            <A href="/" attr:class="button plain">"Your cuts"</A>
            <A href=format!("/cut/{}/plan", id.get_value()) attr:class="button plain">"Plan"</A>
        </nav>
        {move || match place.get() {
            Some(place) => section(place),
            None => view! {
                <h1>"All sections are done"</h1>
                <p>"Look at what was cut against what was planned, or go back to a section."</p>
                <div class="actions">
                    <button class="main" on:click=move |_| to_end.run(())>"Planned and cut"</button>
                </div>
            }
            .into_any(),
        }}
        <div class="walk-bar">
            <button class="back" on:click=back disabled=move || place.get() == Some(0)>"Back"</button>
            <button class="main done" on:click=done disabled=move || place.get().is_none()>
                {move || if last() { "Done, finish" } else { "Done" }}
            </button>
        </div>
    }
}
