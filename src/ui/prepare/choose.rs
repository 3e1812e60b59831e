//! Which of the built-in cuts it is to be.

use crate::plan::{Plan, built_ins};
use crate::store::SavedCut;
use crate::ui::frame::{Stage, Stages, titled, with_cut};
use crate::ui::kept::kept;
use leptos::prelude::*;
use leptos_router::components::A;
use leptos_router::hooks::use_navigate;

/// The built-in cuts, one of which this cut takes.
#[component]
pub fn ChooseScreen() -> impl IntoView {
    titled("Choose a cut");
    with_cut(|cut| {
        let id = cut.with_untracked(|cut| cut.id.clone());
        let begun = cut.with_untracked(|cut| cut.walk.is_some());
        let back = format!("/cut/{id}/plan");
        view! {
            <Stages id here=Stage::Plan/>
            <h1>"Choose a cut"</h1>
            {if begun {
                view! {
                    <p class="note">
                        "This one is being cut, so its plan stays. Make a new cut for another plan."
                    </p>
                    <A href=back attr:class="button main">"Back to the plan"</A>
                }
                .into_any()
            } else {
                let row = |plan| view! { <Offer cut plan/> };
                view! { <ul class="cuts">{built_ins().into_iter().map(row).collect_view()}</ul> }
                    .into_any()
            }}
        }
    })
}

/// One cut on offer.
#[component]
fn Offer(cut: RwSignal<SavedCut>, plan: Plan) -> impl IntoView {
    let kept = kept();
    let navigate = use_navigate();
    let (id, taken) = cut.with_untracked(|cut| (cut.id.clone(), cut.plan == plan.id));
    let own = plan.id.clone();
    let take = move |_| {
        kept.change(cut, |cut| cut.plan = own.clone());
        navigate(&format!("/cut/{id}/plan"), Default::default());
    };
    view! {
        <li>
            <button class="plain open" on:click=take aria-current=taken.then_some("true")>
                <span class="title">{taken.then_some("✓ ")} {plan.name}</span>
                <span class="soft">{plan.about}</span>
            </button>
        </li>
    }
}
