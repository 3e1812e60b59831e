//! The pictures of one cut, one at a time: the head and its held hair, the outline with the weight, the
//! lengths along the head, the scalp from above.
//!
//! What they are drawn from is worked out once ([`Made`]); each part draws only while it is on the screen.

mod ahead;
mod head;
mod lengths;
mod made;
mod outline;
mod scalp;

pub use made::Made;

use super::frame::{Stage, Stages, titled, with_cut};
use super::kept::kept;
use crate::ui::parts::wrong;
use crate::words::{noted, tr};
use leptos::prelude::*;
use leptos_router::components::A;
use leptos_router::hooks::use_params_map;

/// The parts: what stands in the address, and the name.
const PARTS: [(&str, &str); 4] = [
    ("head", noted("Head")),
    ("outline", noted("Outline")),
    ("lengths", noted("Lengths")),
    ("scalp", noted("Scalp")),
];

/// The pictures of one cut.
#[component]
pub fn SeeScreen() -> impl IntoView {
    titled(tr("Pictures"));
    with_cut(|cut| {
        let id = cut.with_untracked(|cut| cut.id.clone());
        let kept = kept();
        // Another window may go on with the walk.
        let walk = Memo::new(move |_| cut.with(|cut| cut.walk.clone()));
        let made = move || {
            walk.track();
            cut.with_untracked(|cut| Made::of(kept, cut))
                .map(StoredValue::new)
        };
        let params = use_params_map();
        // The head, where the address names no part.
        let which = Memo::new(move |_| {
            let named = params.read().get("part").unwrap_or_default();
            let found = PARTS.into_iter().find(|(path, _)| *path == named);
            found.unwrap_or(PARTS[0]).0
        });
        let last = StoredValue::new(None);
        let part = {
            let id = id.clone();
            move |(path, name): (&'static str, &'static str)| {
                let here = move || (which.get() == path).then_some("page");
                view! { <li><A href=format!("/cut/{id}/see/{path}") attr:aria-current=here>{tr(name)}</A></li> }
            }
        };
        view! {
            <Stages id=id.clone() here=Stage::Plan/>
            <h1>{tr("Pictures")}</h1>
            <nav aria-label=tr("Which picture")>
                <ul class="parts">{PARTS.map(part).collect_view()}</ul>
            </nav>
            {move || match made() {
                Ok(made) => (move || match which.get() {
                    "outline" => view! { <outline::Outline made/> }.into_any(),
                    "lengths" => view! { <lengths::Lengths made/> }.into_any(),
                    "scalp" => view! { <scalp::Scalp made cut/> }.into_any(),
                    _ => view! { <head::HeadTurned made last/> }.into_any(),
                })
                .into_any(),
                Err(why) => wrong(why),
            }}
            <div class="actions">
                <A href=format!("/cut/{id}/plan") attr:class="button main">{tr("Back to the plan")}</A>
                <A href=format!("/cut/{id}/compare") attr:class="button">{tr("Compare")}</A>
            </div>
        }
    })
}
