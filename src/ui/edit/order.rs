//! The steps in their order.

use super::desk::Desk;
use super::names;
use crate::plan::{Sides, Step};
use crate::ui::kept::kept;
use crate::ui::words;
use crate::words::tr;
use leptos::prelude::*;

/// The steps, of which one is open; what can be done with that one.
#[component]
pub fn Order(desk: Desk) -> impl IntoView {
    let kept = kept();
    // Told anew only where a line changes, not while a hand drags.
    let lines = Memo::new(move |_| {
        let stopped = desk.stopped.get();
        let faults = desk.faults.get();
        let line = |(i, step): (usize, Step)| {
            let stuck = stopped
                .as_ref()
                .is_some_and(|s| s.step.as_ref() == Some(&step.id));
            let mut held = names::hold(&step.held).to_owned();
            if !step.sides.is_both() {
                held = format!("{held}, {}", names::sides(step.sides).to_lowercase());
            }
            let faulty = stuck || faults.iter().any(|f| f.step == Some(i));
            (
                format!("{}. {}", i + 1, kept.said(&step.name())),
                held,
                faulty,
            )
        };
        let steps = desk.plan().steps;
        steps.into_iter().enumerate().map(line).collect::<Vec<_>>()
    });
    let row = move |(i, (title, held, faulty)): (usize, (String, String, bool))| {
        let open = move || (desk.at.get() == i).then_some("step");
        view! {
            <li>
                <button type="button" class="plain open" aria-current=open on:click=move |_| desk.at.set(i)>
                    <span class="title">{title}</span>
                    <span class="soft">
                        {faulty.then(|| view! { <strong class="fault">{tr("Look here. ")}</strong> })}
                        {held}
                    </span>
                </button>
            </li>
        }
    };
    let rows = move || lines.get().into_iter().enumerate().map(row).collect_view();
    let whole = move || {
        let own = desk.faults.get().into_iter().filter(|f| f.step.is_none());
        own.map(|fault| view! { <p class="fault">{fault.words}</p> })
            .collect_view()
    };
    view! {
        <h2 id="steps-in-order">{tr("Steps in order")}</h2>
        <ol class="cuts steps" aria-labelledby="steps-in-order">{rows}</ol>
        {whole}
        <Doings desk/>
    }
}

/// What can be done with the open step as a whole.
#[component]
fn Doings(desk: Desk) -> impl IntoView {
    let count = move || desk.plan().steps.len();
    let at = move || desk.at.get();
    let now = move || desk.at.get_untracked();
    let first = move || at() == 0;
    let last = move || at() + 1 == count();
    let only_one = move || count() < 2;
    let one_sided = move || {
        desk.of_step(|_, step| matches!(step.sides, Sides::Left | Sides::Right))
            .unwrap_or(false)
    };
    let go = move |change: fn(&mut crate::plan::Plan, usize) -> usize| {
        let mut there = now();
        desk.change(|plan| there = change(plan, there));
        desk.at.set(there);
    };
    let remove = move |_| {
        let gone = now();
        desk.change(|plan| plan.remove(gone));
        let there = untrack(count).saturating_sub(1);
        desk.at.set(gone.min(there));
    };
    let name = move || {
        desk.of_step(|_, step| kept().said(&step.name()))
            .map_or_else(String::new, |name| words::quoted(&name))
    };
    view! {
        <div class="doings" role="group" aria-label=move || tr!("With {}", name())>
            <button type="button" disabled=first
                on:click=move |_| go(|plan, i| plan.move_step(i, i.saturating_sub(1)))>{tr("Earlier")}</button>
            <button type="button" disabled=last
                on:click=move |_| go(|plan, i| plan.move_step(i, i.saturating_add(1)))>{tr("Later")}</button>
            <button type="button" on:click=move |_| go(crate::plan::Plan::duplicate)>{tr("Duplicate")}</button>
            <button type="button" on:click=remove disabled=only_one>{tr("Remove")}</button>
            <button type="button" on:click=move |_| go(|plan, _| plan.add_step())>{tr("New step")}</button>
            <Show when=one_sided>
                <button type="button" on:click=move |_| go(crate::plan::Plan::mirror)>{tr("Mirror to the other side")}</button>
                <button type="button" on:click=move |_| go(|plan, i| { plan.change_over(i); i })>{tr("Change over")}</button>
            </Show>
        </div>
    }
}
