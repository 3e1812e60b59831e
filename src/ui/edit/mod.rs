//! Change the plan: its steps in order, each with where it is cut, what guides it and how it is held,
//! and beside it what that comes to while a hand moves it.

mod area;
mod desk;
mod fields;
mod guide;
mod hold;
mod letting;
mod names;
mod notes;
mod order;
mod result;
mod step;

use super::frame::{Stage, Stages, titled, with_cut};
use super::parts::UndoBar;
use crate::book::SavedCut;
use crate::words::tr;
use desk::Desk;
use leptos::prelude::*;
use leptos_router::components::A;
pub use letting::Letting;

/// Change the plan of one cut.
#[component]
pub fn EditScreen() -> impl IntoView {
    titled(tr("Change the plan"));
    with_cut(|cut| {
        let there = cut.with_untracked(|cut| cut.plan().is_some());
        let id = cut.with_untracked(|cut| cut.id.clone());
        if there {
            view! { <EditForm cut/> }.into_any()
        } else {
            view! {
                <Stages id here=Stage::Plan/>
                <h1>{tr("Unknown plan")}</h1>
                <p>{tr("This cut uses a plan that this version of Tautline does not have. It is kept as it is.")}</p>
            }
            .into_any()
        }
    })
}

#[component]
fn EditForm(cut: RwSignal<SavedCut>) -> impl IntoView {
    let desk = Desk::of(cut);
    let id = cut.with_untracked(|cut| cut.id.clone());
    let begun = cut.with_untracked(|cut| cut.walk.is_some());
    // One of ours is told in the language in force; what is typed is kept as it is.
    let name = move || tr(&desk.plan().name).to_owned();
    // The form stays while steps change under it, and with it what of it is open.
    let there = Memo::new(move |_| desk.of_step(|_, _| ()).is_some());
    view! {
        <Stages id=id.clone() here=Stage::Plan/>
        <h1>{tr("Change the plan")}</h1>
        <label for="plan-name">{tr("Name of the plan")}</label>
        <input type="text" id="plan-name" autocomplete="off" prop:value=name
            on:change=move |ev| {
                let name = event_target_value(&ev);
                desk.change(|plan| plan.name = name);
            }
        />
        {begun.then(|| view! {
            <p class="note">{tr("This one is being cut. Sections that are done are held against the changed plan from now on; what you measured stays.")}</p>
        })}
        <div class="edit-bar">
            <UndoBar cut/>
            <A href=format!("/cut/{id}/compare") attr:class="button">{tr("Compare")}</A>
        </div>
        <div class="desk">
            <result::ResultPanel desk/>
            <div class="desk-form">
                <order::Order desk/>
                <Show when=move || there.get()><step::StepForm desk/></Show>
            </div>
        </div>
        <div class="actions">
            <A href=format!("/cut/{id}/plan") attr:class="button main">{tr("Back to the plan")}</A>
        </div>
    }
}
