//! What the plan comes to: hair let down, weight, lengths; it follows a dragging hand.

use super::desk::{Desk, Seen, StepSeen};
use crate::chart::View;
use crate::fall::sharpness;
use crate::measure::Length;
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
            Some((words::lies(&level, kept.unit()), sharpness(share)))
        })
    };
    let step = move || {
        let id = desk.of_step(|_, step| step.id.clone())?;
        seen.with(|seen| {
            let span = of_step(seen.as_ref().ok()?, &id)?.spread;
            Some(match span {
                Some((short, long)) => {
                    format!(
                        "{} {}",
                        words::span(short, long, kept.unit()),
                        kept.unit().mark()
                    )
                }
                None => tr("nothing is cut").to_owned(),
            })
        })
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
                        <dd class="number">{move || step()}</dd>
                    </div>
                </dl>
                <button type="button" on:click=turn>{other}</button>
            </div>
        </section>
    }
}

fn of_step<'a>(seen: &'a Seen, id: &str) -> Option<&'a StepSeen> {
    seen.steps.iter().find(|step| step.id == id)
}

/// Each section of the open step.
#[component]
pub fn Sections(desk: Desk) -> impl IntoView {
    let kept = kept();
    let rows = move || {
        let id = desk.of_step(|_, step| step.id.clone())?;
        desk.seen.with(|seen| {
            let step = of_step(seen.as_ref().ok()?, &id)?;
            let row = |(name, short, long): &(String, Length, Length)| {
                let span = words::span(*short, *long, kept.unit());
                view! { <tr><th scope="row">{name.clone()}</th><td class="number">{span}</td></tr> }
            };
            Some(step.sections.iter().map(row).collect_view())
        })
    };
    view! {
        <table>
            <caption>{move || tr!("Each section of this step: cut at, shortest to longest, in {}", kept.unit().word())}</caption>
            <thead><tr><th scope="col">{tr("Section")}</th><th scope="col" class="number">{tr("Cut at")}</th></tr></thead>
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
            let level = words::lies(&level, kept().unit());
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
