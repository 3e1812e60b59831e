//! The hair that a cut begins with, where the last visit tells it.

use super::known::begins_with;
use crate::book::SavedCut;
use crate::hair::MapError;
use crate::ui::kept::kept;
use crate::words::tr;
use leptos::prelude::*;

/// What the hair before is, in place of the plan's question; nothing where the question counts.
#[component]
pub fn BeginsWith(cut: RwSignal<SavedCut>) -> impl IntoView {
    let kept = kept();
    let there = Memo::new(move |_| cut.with(|cut| cut.left.is_some()));
    let said = move || {
        let said = cut.with(|cut| begins_with(cut, kept.unit()));
        said.unwrap_or_else(|| tr!("{MapError} Answer below how long the hair is.", MapError))
    };
    let forget = move |_| kept.change(cut, |cut| cut.left = None);
    move || {
        there.get().then(|| {
            view! {
                <div class="begins">
                    <p class="begins-said"><strong>{tr("The hair before")}</strong> " " {said}</p>
                    <button class="plain" on:click=forget>{tr("Ask how long it is instead")}</button>
                </div>
            }
        })
    }
}
