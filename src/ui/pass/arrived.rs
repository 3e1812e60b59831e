//! What arrives, shown before it is kept.

use crate::book::{Passed, SavedCut};
use crate::cut::{Measured, Outcome};
use crate::head::Tape;
use crate::ui::frame::HOME;
use crate::ui::kept::{Kept, kept, new_id, now};
use crate::ui::parts::{fallen_shape, told_line, told_list, wrong};
use crate::ui::words;
use crate::words::tr;
use leptos::prelude::*;
use leptos_router::NavigateOptions;
use leptos_router::hooks::use_navigate;

/// A plan that arrived, and whether it is to be kept.
#[component]
pub fn Arrived(passed: Passed) -> impl IntoView {
    let kept = kept();
    let cut = passed.to_cut("", "");
    let worked = kept
        .ready(&cut)
        .map_err(|e| e.to_string())
        .and_then(|ready| {
            let outcome = ready.outcome(&Measured::new()).map_err(|e| e.to_string())?;
            Ok((ready, outcome))
        });
    match worked {
        Err(why) => view! {
            {wrong(tr!("This plan can't be worked out. {why}", why))}
            <Leave/>
        }
        .into_any(),
        Ok((ready, outcome)) => {
            let shape = fallen_shape(kept, &ready, &outcome);
            let picture = shape.map_or(String::new(), |(picture, _)| picture);
            view! {
                <p role="status">{tr("This arrived. Nothing is kept yet.")}</p>
                <article class="arrived">
                    <h2>{passed.name.clone()}</h2>
                    <div class="side-by-side">
                        <div>
                            <div class="offer-shape" inner_html=picture></div>
                            <Keep passed=passed.clone()/>
                        </div>
                        <div>{what_it_is(kept, &passed, &cut, &ready.plan, &outcome)}</div>
                    </div>
                </article>
            }
            .into_any()
        }
    }
}

/// The plan in words.
fn what_it_is(
    kept: Kept,
    passed: &Passed,
    cut: &SavedCut,
    plan: &crate::plan::Plan,
    outcome: &Outcome,
) -> AnyView {
    let unit = kept.unit_now();
    let kind = if cut.own.is_some() {
        tr!("{}, changed", plan.name)
    } else {
        plan.name.clone()
    };
    let parts = tr!(
        "{} steps, {} sections",
        plan.steps.len(),
        outcome.sections.len()
    );
    let lengths = outcome.spread(None).map_or(String::new(), |(short, long)| {
        format!("{} {}", words::span(short, long, unit), unit.word())
    });
    let chosen = plan.choices.iter().filter_map(|choice| {
        let answer = cut.choices.value(plan, &choice.id).ok()?;
        Some(kept.said(&[&choice.ask, " ", &words::answer(answer, unit)].concat()))
    });
    let chosen: Vec<String> = chosen.collect();
    let tapes = Tape::ALL.iter().filter_map(|tape| {
        let typed = cut.tapes.get(tape)?;
        Some(format!("{}: {typed}", tape.name()))
    });
    let mut head: Vec<String> = tapes.collect();
    let with_head = passed.head.is_some();
    if with_head && head.is_empty() {
        head.push(tr("A head of which nothing was measured").to_owned());
    }
    if !with_head {
        head.push(tr("None came along; the lengths are those on the mean head.").to_owned());
    }
    view! {
        <dl class="instructions">
            {told_line(tr("Plan"), kind)}
            {told_line(tr("What it is"), plan.about.clone())}
            {told_line(tr("In it"), parts)}
            {told_line(tr("Lengths"), lengths)}
            {told_list(tr("Chosen"), chosen)}
            {told_list(tr("Head"), head)}
        </dl>
    }
    .into_any()
}

/// Keeps it, or leaves it.
#[component]
fn Keep(passed: Passed) -> impl IntoView {
    let kept = kept();
    let navigate = use_navigate();
    let keep = move |_| {
        // Always a cut of its own: nothing that is kept is written over.
        let cut = passed.to_cut(&new_id(), &now());
        if kept.keep_new(&cut) {
            // The plan goes from the address, and from the way back.
            navigate(&format!("/cut/{}/plan", cut.id), instead());
        }
    };
    view! {
        <div class="actions">
            <button class="main" on:click=keep>{tr("Keep it")}</button>
            <Leave/>
        </div>
        <p class="soft">{tr("It becomes a cut of its own. Nothing of yours is written over.")}</p>
    }
}

/// Leaves it.
#[component]
fn Leave() -> impl IntoView {
    let navigate = use_navigate();
    view! { <button on:click=move |_| navigate(HOME, instead())>{tr("Leave it")}</button> }
}

fn instead() -> NavigateOptions {
    NavigateOptions {
        replace: true,
        scroll: true,
        ..NavigateOptions::default()
    }
}
