//! The way on from what comes before the plan.

use crate::book::SavedCut;
use crate::words::tr;
use leptos::prelude::*;
use leptos_router::components::A;

/// On to the plan; to the library where nobody has chosen a cut yet.
#[component]
pub fn ToPlan(cut: RwSignal<SavedCut>) -> impl IntoView {
    let chosen = Memo::new(move |_| cut.with(SavedCut::is_chosen));
    let id = cut.with_untracked(|cut| cut.id.clone());
    let link = move || {
        let (path, name) = if chosen.get() {
            ("plan", tr("On to the plan"))
        } else {
            ("choose", tr("Choose a cut"))
        };
        view! { <A href=format!("/cut/{id}/{path}") attr:class="button main">{name}</A> }
    };
    view! { <div class="actions onward">{link}</div> }
}
