//! The answer: what to hold otherwise, what is met and what gives way, and where things then end.

use super::search::Answer;
use super::{Aimer, height, levels};
use crate::book::SavedCut;
use crate::chart::aim_picture;
use crate::cut::What;
use crate::measure::Length;
use crate::plan::{Plan, Sketch};
use crate::ui::kept::{Kept, kept};
use crate::ui::parts::Picture;
use crate::words::tr;
use leptos::html;
use leptos::prelude::*;
use leptos_router::hooks::use_navigate;
use std::sync::Arc;

/// Puts a changed plan into a cut, so that it can be taken back: the only place where an aim writes one.
fn take(kept: Kept, cut: RwSignal<SavedCut>, plan: Plan) {
    kept.edit(cut, |cut| {
        let choices = cut.choices.clone();
        cut.take(Sketch { plan, choices });
    });
}

/// One answer.
#[component]
pub(super) fn AnswerView(aimer: Aimer, answer: Arc<Answer>) -> impl IntoView {
    let kept = kept();
    let navigate = use_navigate();
    let standing = aimer.standing();
    let unit = kept.unit();
    let plan = &standing.ready.plan;
    let changes = answer.aimed.changes();
    let said: Vec<String> = changes
        .iter()
        .map(|change| change.said(plan, unit))
        .collect();
    let nothing = changes.is_empty();
    let goals = answer.aimed.goals.iter().enumerate();
    let goals = goals
        .map(|(i, met)| {
            let missed = met.gives_way();
            let sign = if missed { "✗ " } else { "✓ " };
            let word = if missed {
                tr("Gives way: ")
            } else {
                tr("Met: ")
            };
            let turns = answer.aimed.turns(i, plan, unit).into_iter();
            let turns = turns.map(|line| view! { <li>{line}</li> }).collect_view();
            view! {
                <li class:missed=missed>
                    <p>
                        <span aria-hidden="true">{sign}</span> <strong>{word}</strong>
                        {met.goal.said(met.miss, unit)}
                    </p>
                    {answer.aimed.why(i, plan, unit).map(|why| view! { <p>{why}</p> })}
                    <ul class="said soft">{turns}</ul>
                </li>
            }
        })
        .collect_view();
    let (picture, _) = aim_picture(
        &standing.ready.head,
        &answer.silhouette,
        Some(&standing.silhouette),
        &levels(),
        tr("The hair from the left after these changes"),
        tr(
            "The outline of the hair after these changes, and dashed as the plan stands. The heights stand in the table.",
        ),
    );
    let own = standing.plan.clone();
    let cut = aimer.cut;
    let into_plan = move |_| {
        let mut plan = own.clone();
        for change in &changes {
            change.make(&mut plan);
        }
        take(kept, cut, plan);
        let id = cut.with_untracked(|cut| cut.id.clone());
        navigate(&format!("/cut/{id}/plan"), Default::default());
    };
    let heading = NodeRef::<html::H2>::new();
    heading.on_load(|heading| {
        let _ = heading.focus();
    });
    view! {
        <section class="aim" aria-label=tr("Answer")>
            <h2 node_ref=heading tabindex="-1">{tr("How to hold it")}</h2>
            {if nothing {
                view! { <p>{tr("Nothing needs to change, or nothing that may be changed helps.")}</p> }.into_any()
            } else {
                let lines = said.into_iter().map(|line| view! { <li>{line}</li> });
                view! { <ul>{lines.collect_view()}</ul> }.into_any()
            }}
            <div class="side-by-side">
                <div>
                    <h3>{tr("What comes of it")}</h3>
                    <ol class="goals">{goals}</ol>
                </div>
                <Picture svg=picture caption=tr("After these changes; dashed, as the plan stands")/>
            </div>
            <AnswerTable aimer answer=Arc::clone(&answer)/>
            {(!nothing).then(|| view! {
                <div class="actions">
                    <button type="button" class="main" on:click=into_plan.clone()>{tr("Take it into the plan")}</button>
                </div>
            })}
        </section>
    }
}

#[component]
fn AnswerTable(aimer: Aimer, answer: Arc<Answer>) -> impl IntoView {
    let standing = aimer.standing();
    let unit = kept().unit();
    let asked = |what: What| {
        let place = answer.whats.iter().position(|w| *w == what)?;
        Some(answer.aimed.goals.get(place)?.goal.wanted(unit))
    };
    let row = |what: What| {
        let both = [
            asked(what),
            asked(What::Shortest).filter(|_| what == What::Back),
        ];
        let wanted: Vec<String> = both.into_iter().flatten().collect();
        view! {
            <tr>
                <th scope="row">{what.name()}</th>
                <td>{height(aimer, what, standing.falls.z(what), unit)}</td>
                <td>{wanted.join("; ")}</td>
                <td>{height(aimer, what, answer.falls.z(what), unit)}</td>
            </tr>
        }
    };
    let off = |cm: f64| Length::from_cm(cm).shown(unit);
    view! {
        <table class="aim-table">
            <caption>{tr("Where things end, hanging dry, and the most that comes off")}</caption>
            <thead>
                <tr>
                    <th scope="col">{tr("What")}</th>
                    <th scope="col">{tr("Before")}</th>
                    <th scope="col">{tr("Asked")}</th>
                    <th scope="col">{tr("After")}</th>
                </tr>
            </thead>
            <tbody>
                {What::LEVELS.map(row).collect_view()}
                <tr>
                    <th scope="row">{tr("Most off")}</th>
                    <td>{off(standing.falls.off)}</td>
                    <td>{asked(What::Off)}</td>
                    <td>{off(answer.falls.off)}</td>
                </tr>
            </tbody>
        </table>
    }
}
