//! What the plan comes to: hair let down, weight, lengths; it follows a dragging hand.

use super::desk::{Desk, Seen, StepSeen};
use crate::chart::View;
use crate::fall::sharpness;
use crate::measure::{Length, Unit};
use crate::ui::kept::kept;
use crate::ui::words;
use crate::words::tr;
use leptos::prelude::*;

/// The picture and the numbers.
#[component]
pub fn ResultPanel(desk: Desk) -> impl IntoView {
    let kept = kept();
    let seen = desk.seen;
    let weight = move || {
        seen.with(|seen| {
            let (level, share) = seen.as_ref().ok()?.weight?;
            Some((level.said(kept.unit()), sharpness(share)))
        })
    };
    let step = move || {
        let id = desk.of_step(|_, step| step.id.clone())?;
        let spread = seen.with(|seen| Some(of_step(seen.as_ref().ok()?, &id)?.spread));
        Some(spread_said(spread?, kept.unit()))
    };
    // What it was before it was changed here.
    let was = move || {
        let was = spread_said(desk.was()?.spread, kept.unit());
        (Some(&was) != step().as_ref()).then(|| tr!("was {was}", was))
    };
    let fault = move || seen.with(|seen| seen.as_ref().err().map(|why| why.words.clone()));
    let turn = move |_| {
        desk.view.update(|view| {
            *view = if *view == View::Back {
                View::Left
            } else {
                View::Back
            };
        });
    };
    let other = move || match desk.view.get() {
        View::Back => tr("See it from the side"),
        _ => tr("See it from the back"),
    };
    view! {
        <section class="desk-seen" aria-label=tr("What the plan comes to")>
            <FallenPicture desk seen/>
            <div class="desk-numbers">
                <div aria-live="polite">
                    {move || fault().map(|why| view! { <p class="note warn">{why}</p> })}
                </div>
                <dl>
                    <div>
                        <dt>{tr("Weight")}</dt>
                        <dd>{move || weight().map(|(level, sharp)| view! { {level} <span class="soft">", " {sharp}</span> })}</dd>
                    </div>
                    <div>
                        <dt>{tr("This step, cut at")}</dt>
                        <dd class="number">{move || step()} " " <span class="soft was">{was}</span></dd>
                    </div>
                </dl>
                <button type="button" on:click=turn>{other}</button>
            </div>
        </section>
    }
}

fn spread_said(spread: Option<(Length, Length)>, unit: Unit) -> String {
    match spread {
        Some((short, long)) => format!("{} {}", words::span(short, long, unit), unit.mark()),
        None => tr("nothing is cut").to_owned(),
    }
}

fn of_step<'a>(seen: &'a Seen, id: &str) -> Option<&'a StepSeen> {
    seen.steps.iter().find(|step| step.id == id)
}

/// Each section of the open step.
#[component]
pub fn Sections(desk: Desk) -> impl IntoView {
    let kept = kept();
    // Each section: its name, what it is cut at, and what that was before it was changed here.
    let sections = Memo::new(move |_| {
        let id = desk.of_step(|_, step| step.id.clone())?;
        let was = desk.was();
        desk.seen.with(|seen| {
            let step = of_step(seen.as_ref().ok()?, &id)?;
            let row = |(name, short, long): &(String, Length, Length)| {
                let span = words::span(*short, *long, kept.unit());
                let same = |(other, ..): &&(String, Length, Length)| other == name;
                let was = was.as_ref().and_then(|was| was.sections.iter().find(same));
                let was = was.map(|(_, short, long)| words::span(*short, *long, kept.unit()));
                (name.clone(), span, was)
            };
            Some(step.sections.iter().map(row).collect::<Vec<_>>())
        })
    });
    let changed = Memo::new(move |_| {
        sections.with(|all| {
            all.iter()
                .flatten()
                .any(|(_, span, was)| was.as_ref().is_some_and(|was| was != span))
        })
    });
    let rows = move || {
        let changed = changed.get();
        let row = |(name, span, was): (String, String, Option<String>)| {
            view! {
                <tr>
                    <th scope="row">{name}</th>
                    <td class="number">{span}</td>
                    {changed.then(|| view! { <td class="number soft">{was}</td> })}
                </tr>
            }
        };
        Some(sections.get()?.into_iter().map(row).collect_view())
    };
    view! {
        <table>
            <caption>{move || tr!("Each section of this step: cut at, shortest to longest, in {}", kept.unit().word())}</caption>
            <thead><tr><th scope="col">{tr("Section")}</th><th scope="col" class="number">{tr("Cut at")}</th>{move || changed.get().then(|| view! { <th scope="col" class="number">{tr("Was")}</th> })}</tr></thead>
            <tbody>{rows}</tbody>
        </table>
    }
}

/// The hair let down. Head and body stay; only the paths of hair, ends and weight are written anew.
#[component]
fn FallenPicture(desk: Desk, seen: Memo<Result<Seen, super::desk::Stopped>>) -> impl IntoView {
    let moving = move |part: fn(&crate::chart::Fallen) -> &String| {
        let place = usize::from(desk.view.get() == View::Back);
        seen.with(|seen| match seen {
            Ok(seen) => part(&seen.pictures[place]).clone(),
            Err(_) => String::new(),
        })
    };
    let before = move || {
        let picture = desk.kept_picture(desk.view.get());
        picture.map_or_else(String::new, |fallen| fallen.weight)
    };
    // It changes only with the view and what is kept, not while a hand drags.
    let stage = Memo::new(move |_| desk.stage(desk.view.get()));
    // What the picture says in words; the lengths stand in the table below.
    let told = move || {
        let view = match desk.view.get() {
            View::Back => tr("The hair let down, from the back"),
            _ => tr("The hair let down, from the client's left"),
        };
        let weight = seen.with(|seen| seen.as_ref().ok().and_then(|seen| seen.weight));
        weight.map_or(view.to_owned(), |(level, share)| {
            let level = level.said(kept().unit());
            tr!(
                "{view}; most ends lie {level}, {}",
                sharpness(share),
                view,
                level
            )
        })
    };
    move || {
        stage.get().map(|stage| {
            view! {
                <svg class="drawing fallen" role="img" aria-label=told viewBox=stage.view_box>
                    <g inner_html=stage.body></g>
                    <path class="d-hairs" d=move || moving(|f| &f.hair)></path>
                    <path class="d-ends" d=move || moving(|f| &f.ends)></path>
                    <path class="d-weight-before" d=before></path>
                    <path class="d-weight" d=move || moving(|f| &f.weight)></path>
                </svg>
            }
        })
    }
}
