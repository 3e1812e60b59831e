//! The steps in their order.

use super::desk::Desk;
use super::names;
use crate::plan::Sides;
use crate::ui::words;
use leptos::prelude::*;

/// The steps, of which one is open; what can be done with that one.
#[component]
pub fn Order(desk: Desk) -> impl IntoView {
    let rows = move || {
        let plan = desk.plan();
        let faults = plan.faults();
        let stopped = desk.seen().err();
        let row = |(i, step): (usize, crate::plan::Step)| {
            let stuck = stopped
                .as_ref()
                .is_some_and(|s| s.step.as_ref() == Some(&step.id));
            let faulty = stuck || faults.iter().any(|f| f.step == Some(i));
            let open = move || (desk.at.get() == i).then_some("step");
            view! {
                <li>
                    <button type="button" class="plain open" aria-current=open on:click=move |_| desk.at.set(i)>
                        <span class="title">{format!("{}. {}", i + 1, step.title)}</span>
                        <span class="soft">
                            {faulty.then(|| view! { <strong class="fault">"Look here. "</strong> })}
                            {names::hold(&step.held)}
                            {(!step.sides.is_both()).then(|| format!(", {}", names::sides(step.sides).to_lowercase()))}
                        </span>
                    </button>
                </li>
            }
        };
        plan.steps.into_iter().enumerate().map(row).collect_view()
    };
    let whole = move || {
        let own = desk
            .plan()
            .faults()
            .into_iter()
            .filter(|f| f.step.is_none());
        own.map(|fault| view! { <p class="fault">{fault.words}</p> })
            .collect_view()
    };
    view! {
        <h2 id="steps-in-order">"Steps in order"</h2>
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
        let last = untrack(count).saturating_sub(1);
        desk.at.set(gone.min(last));
    };
    let name = move || {
        desk.of_step(|_, step| step.title.clone())
            .map_or_else(String::new, |title| words::quoted(&title))
    };
    view! {
        <div class="doings" role="group" aria-label=move || format!("With {}", name())>
            <button type="button" disabled=move || at() == 0
                on:click=move |_| go(|plan, i| plan.move_step(i, i.saturating_sub(1)))>"Earlier"</button>
            <button type="button" disabled=move || at() + 1 >= count()
                on:click=move |_| go(|plan, i| plan.move_step(i, i.saturating_add(1)))>"Later"</button>
            <button type="button" on:click=move |_| go(crate::plan::Plan::duplicate)>"Duplicate"</button>
            <button type="button" on:click=remove disabled=move || count() <= 1>"Take out"</button>
            <button type="button" on:click=move |_| go(|plan, _| plan.add_step())>"New step"</button>
            <Show when=one_sided>
                <button type="button" on:click=move |_| go(crate::plan::Plan::mirror)>"Mirror to the other side"</button>
                <button type="button" on:click=move |_| go(|plan, i| { plan.change_over(i); i })>"Change over"</button>
            </Show>
        </div>
    }
}
