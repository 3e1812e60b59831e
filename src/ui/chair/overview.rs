//! The walk as a whole: what is cut and what is left, the time, every section, what the phone does.

use super::at::AtChair;
use super::switches::Switches;
use crate::chart::{Parcel, scalp_map, touched};
use crate::cut::{Outcome, SectionCut};
use crate::measure::area;
use crate::ui::device::Awake;
use crate::ui::frame::HOME;
use crate::ui::kept::{kept, now};
use crate::ui::parts::{TouchMap, wrong};
use crate::ui::words;
use crate::walk::{Coverage, Spent, State, clock};
use crate::words::{tr, tr_in};
use kurbo::Point;
use leptos::prelude::*;
use leptos_router::components::A;
use std::sync::Arc;

/// The overview; `close` goes back to the section.
#[component]
pub fn Overview(at: AtChair, awake: RwSignal<Awake>, close: Callback<()>) -> impl IntoView {
    let outcome = at.outcome();
    let id = at.cut.with_untracked(|cut| cut.id.clone());
    let title = at.cut.with_untracked(|cut| cut.title.clone());
    let kept = kept();
    let seen = move || kept.settings().seen;
    view! {
        <div class="overview">
            <h1>{tr("The whole cut")}</h1>
            {move || (!seen()).then(|| view! { <p class="soft">{title.clone()}</p> })}
            {match outcome {
                Ok(outcome) => view! {
                    <div class="side-by-side">
                        <Covered at outcome=Arc::clone(&outcome) close/>
                        <div>
                            <Time at outcome=Arc::clone(&outcome)/>
                            <Sections at outcome close/>
                        </div>
                    </div>
                }
                .into_any(),
                Err(why) => wrong(why),
            }}
            <h2>{tr("At the chair")}</h2>
            <Switches/>
            <p class="soft">{move || awake.get().sentence()}</p>
            <h2>{tr("Keys")}</h2>
            <p>
                {tr("Done: Page Down, →, ↓, Space or Enter. Back: Page Up, ← or ↑. Presenters and foot switches send these.")}
            </p>
            <nav class="actions" aria-label=tr("Leave the chair")>
                <A href=format!("/cut/{id}/end") attr:class="button">{tr("Planned and cut")}</A>
                <A href=format!("/cut/{id}/plan") attr:class="button">{tr("The plan")}</A>
                {move || (!seen()).then(|| view! { <A href=HOME exact=true attr:class="button">{tr("Your cuts")}</A> })}
            </nav>
        </div>
    }
}

/// What is cut, what is left, what does not reach: on the scalp map and in numbers.
#[component]
fn Covered(at: AtChair, outcome: Arc<Outcome>, close: Callback<()>) -> impl IntoView {
    let kept = kept();
    let walk = at.walk();
    let coverage = at
        .ready
        .with_value(|ready| Coverage::of(&ready.job(), &outcome, &walk));
    let here = at
        .place_now()
        .and_then(|place| at.keys.with_value(|keys| keys.get(place).cloned()));
    let mut parcels: Vec<Parcel> = coverage
        .parcels
        .iter()
        .filter_map(|(key, state)| {
            let section = outcome.section(key)?;
            let (state, label) = match state {
                _ if here.as_ref() == Some(key) => ("now", key.number.to_string()),
                State::Cut => ("done", "✓".to_owned()),
                State::Left => ("due", key.number.to_string()),
                State::Short => ("short", "–".to_owned()),
            };
            Some(Parcel {
                patch: section.section.patch.clone(),
                label,
                state,
            })
        })
        .collect();
    // Its edge lies over those of its neighbours.
    parcels.sort_by_key(|parcel| parcel.state == "now");
    let map = at.ready.with_value(|ready| {
        scalp_map(
            &ready.head,
            &parcels,
            tr("The scalp from above, forehead up"),
            tr("Sections that are cut carry a tick, those that are left their number, those that won't reach a dash. The one on the screen has a thick edge."),
        )
    });
    let row = |name: &'static str, cm2: f64| {
        let area = area(cm2, kept.unit_now());
        view! { <tr><th scope="row">{name}</th><td class="number">{area}</td></tr> }
    };
    // Touched again it goes on to what lies below the section on the screen.
    let touch = Callback::new(move |place: Point| {
        let key = at
            .ready
            .with_value(|ready| touched(&ready.head, &outcome, place, here.as_ref()));
        if let Some(key) = key {
            at.go_to(&key);
            close.run(());
        }
    });
    view! {
        <div>
            <TouchMap svg=map caption=tr("Touch a section to go to it, or take it from the list.") on_touch=touch/>
            <table>
                <caption>{tr("How much of the scalp")}</caption>
                <tbody>
                    {row(tr("✓ Cut"), coverage.cut)}
                    {row(tr("Left to cut"), coverage.left)}
                    {row(tr("– Too short to reach"), coverage.short)}
                    {row(tr("In no section"), coverage.none)}
                </tbody>
            </table>
        </div>
    }
}

/// The time of each stage.
#[component]
fn Time(at: AtChair, outcome: Arc<Outcome>) -> impl IntoView {
    let walk = at.walk();
    let (spent, titles) = at.ready.with_value(|ready| {
        let titles: Vec<String> = ready
            .plan
            .steps
            .iter()
            .map(|step| step.title.clone())
            .collect();
        (Spent::of(&walk, &ready.plan, &outcome, &now()), titles)
    });
    let all = match spent.planned {
        Some(planned) => tr!(
            "{} so far; usually about {} in all.",
            clock(spent.total),
            clock(planned)
        ),
        None => tr!("{} so far.", clock(spent.total)),
    };
    let row = move |stage: crate::walk::Stage| {
        let usual = stage.usual.map(clock);
        view! {
            <tr>
                <th scope="row">{titles.get(stage.step).cloned()}</th>
                <td class="number">{format!("{}/{}", stage.done, stage.sections)}</td>
                <td class="number">{clock(stage.seconds)}</td>
                <td class="number">{usual}</td>
            </tr>
        }
    };
    view! {
        <h2>{tr("Time")}</h2>
        <p>{all}</p>
        <table>
            <thead>
                <tr>
                    <th scope="col">{tr("Step")}</th>
                    <th scope="col" class="number">{tr_in("of sections, feminine", "Done")}</th>
                    <th scope="col" class="number">{tr("Took")}</th>
                    <th scope="col" class="number">{tr("Usual")}</th>
                </tr>
            </thead>
            <tbody>{spent.stages.into_iter().map(row).collect_view()}</tbody>
        </table>
    }
}

/// Every section, to go to it.
#[component]
fn Sections(at: AtChair, outcome: Arc<Outcome>, close: Callback<()>) -> impl IntoView {
    let kept = kept();
    let walk = at.walk();
    let here = at.place_now();
    let line = |place: usize, section: &SectionCut| {
        let key = section.key.clone();
        let state = match (
            here == Some(place),
            walk.is_done(&key),
            walk.came_out_at(&key),
        ) {
            (_, _, Some(cut)) => tr!("came out at {}", cut.as_measured(kept.unit_now())),
            (_, true, None) => tr("✓ done").to_owned(),
            (true, ..) => tr("on the screen").to_owned(),
            _ => tr_in("still to cut", "left").to_owned(),
        };
        let text = format!(
            "{}. {}, {}: {state}",
            place + 1,
            section.section.name,
            kept.said(words::side(key.side)).to_lowercase()
        );
        let current = (here == Some(place)).then_some("step");
        let go = move |_| {
            at.go_to(&key);
            close.run(());
        };
        view! { <li><button class="open" aria-current=current on:click=go>{text}</button></li> }
    };
    let lines = outcome
        .sections
        .iter()
        .enumerate()
        .map(|(place, section)| line(place, section))
        .collect_view();
    view! {
        <details class="group">
            <summary>{tr("Go to a section")}</summary>
            <ol class="cuts steps">{lines}</ol>
        </details>
    }
}
