//! The sheet: a cut on one or two printed pages, for where no phone is wanted.
//!
//! `facts` is whose cut it is and what was agreed, `maps` the pictures of the whole, `step` one step
//! with its sections, `check` what is measured at the end. It is read once and follows nothing: paper
//! does not change either. How it is printed stands in `style/sheet.css`.

mod check;
mod facts;
mod maps;
mod step;

use super::frame::{Stage, Stages, titled, with_cut};
use super::kept::{kept, now};
use super::prepare::worked_out;
use super::words;
use crate::cut::Outcome;
use crate::store::{Ready, SavedCut};
use check::check;
use facts::facts;
use leptos::prelude::*;
use leptos_router::components::A;
use maps::maps;
use step::{Sheet, step};

/// The sheet of one cut.
#[component]
pub fn SheetScreen() -> impl IntoView {
    titled("Sheet to print");
    with_cut(|cut| {
        let id = cut.with_untracked(|cut| cut.id.clone());
        let back = format!("/cut/{id}/plan");
        let sheet = cut.with_untracked(|cut| match worked_out(kept(), cut) {
            Ok((ready, outcome, said)) => sheet(cut, &ready, &outcome, said),
            Err(why) => view! {
                <h1>"Sheet to print"</h1>
                <p class="note warn" role="alert">{why}</p>
            }
            .into_any(),
        });
        view! {
            <div class="no-print"><Stages id here=Stage::Plan/></div>
            {sheet}
            <div class="actions no-print">
                <A href=back attr:class="button">"Back to the plan"</A>
            </div>
        }
    })
}

/// Opens the browser's own way to print.
fn print(_: leptos::ev::MouseEvent) {
    // A browser that can't print from a page has it in its menu, as the page says.
    let _ = window().print();
}

fn sheet(cut: &SavedCut, ready: &Ready, outcome: &Outcome, said: Vec<String>) -> AnyView {
    let kept = kept();
    let unit = kept.unit_now();
    // No names before the client.
    let own = (!kept.settings_now().seen).then(|| cut.title.trim().to_owned());
    let own = own.filter(|title| !title.is_empty());
    let named = own.is_some();
    let plan = ready.plan.name.clone();
    let (title, under) = match own {
        Some(own) => (own, format!("{plan} · ")),
        None => (plan, String::new()),
    };
    let all = Sheet::new(ready, outcome, unit);
    let steps = (0..ready.plan.steps.len())
        .map(|place| step(&all, place))
        .collect_view();
    let cautions: Vec<&str> = ready.plan.cautions().map(|c| c.sentence()).collect();
    view! {
        <div class="no-print sheet-doings">
            <button class="main" on:click=print>"Print"</button>
            <p class="soft">"A4 or Letter, upright, no colours needed. If nothing opens, print from the browser\u{2019}s own menu."</p>
        </div>
        <article class="on-paper">
            <header class="sheet-head">
                <h1>{title}</h1>
                <p>{under} {words::day(&now())}</p>
            </header>
            {facts(cut, ready)}
            {lines("Look at this first", said)}
            {maps(&all)}
            <p class="sheet-how">
                {format!("Cut at and off in {}: cut at is the shortest to the longest hair, combed taut, as held; off is the most that comes off; falls to is the longest, dry and let go. Left and right are the client\u{2019}s.", unit.mark())}
            </p>
            {steps}
            {check(&all)}
            {lines("Take care", cautions.into_iter().map(|c| kept.said(c)).collect())}
            <footer>
                <p>
                    "Lengths are computed guidance: your eye, your training and your local rules come first. "
                    {named.then_some("The name is only what was typed as this cut\u{2019}s title. ")}
                    "Tautline."
                </p>
            </footer>
        </article>
    }
    .into_any()
}

/// Sentences under a heading, where there are any.
fn lines(name: &'static str, all: Vec<String>) -> AnyView {
    (!all.is_empty())
        .then(|| {
            let items = all.into_iter().map(|text| view! { <li>{text}</li> });
            view! {
                <section class="sheet-lines">
                    <h2>{name}</h2>
                    <ul>{items.collect_view()}</ul>
                </section>
            }
        })
        .into_any()
}
