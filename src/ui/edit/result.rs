//! What the plan comes to: hair let down, weight, lengths; it follows a dragging hand.

use super::desk::{Desk, Seen};
use crate::chart::View;
use crate::ui::kept::kept;
use crate::ui::words;
use leptos::prelude::*;

/// The picture and the numbers.
#[component]
pub fn ResultPanel(desk: Desk) -> impl IntoView {
    let kept = kept();
    let seen = desk.seen;
    let weight = move || {
        seen.with(|seen| {
            let (level, sharpness) = seen.as_ref().ok()?.weight?;
            Some((
                super::level(&level, kept.unit()),
                words::sharpness(sharpness),
            ))
        })
    };
    let step = move || {
        let id = desk.of_step(|_, step| step.id.clone())?;
        seen.with(|seen| Some(of_step(seen.as_ref().ok()?, &id, kept.unit())))
    };
    let all = move || {
        seen.with(|seen| {
            let (short, long) = seen.as_ref().ok()?.spread?;
            Some(words::span(short, long, kept.unit()))
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
        View::Back => "See it from the side",
        _ => "See it from the back",
    };
    view! {
        <section class="desk-seen" aria-label="What the plan comes to">
            <FallenPicture desk seen/>
            <div class="desk-numbers">
                <div aria-live="polite">
                    {move || fault().map(|why| view! { <p class="note warn">{why}</p> })}
                </div>
                <dl>
                    <div>
                        <dt>"Weight"</dt>
                        <dd>{move || weight().map(|(level, sharp)| view! { {level} <span class="soft">", " {sharp}</span> })}</dd>
                    </div>
                    <div>
                        <dt>"This step, cut at"</dt>
                        <dd class="number">{move || step().map(|(span, _)| format!("{span} {}", kept.unit().mark()))}</dd>
                    </div>
                    <div>
                        <dt>"All, cut at"</dt>
                        <dd class="number">{move || all().map(|span| format!("{span} {}", kept.unit().mark()))}</dd>
                    </div>
                </dl>
                <details>
                    <summary>"Each section of this step"</summary>
                    <table>
                        <caption>{move || format!("Cut at, shortest to longest, in {}", kept.unit().mark())}</caption>
                        <tbody>
                            {move || step().map(|(_, rows)| rows.into_iter().map(|(name, span)| view! {
                                <tr><th scope="row">{name}</th><td class="number">{span}</td></tr>
                            }).collect_view())}
                        </tbody>
                    </table>
                </details>
                <button type="button" on:click=turn>{other}</button>
            </div>
        </section>
    }
}

/// The lengths of one step: all of it, and section by section.
fn of_step(seen: &Seen, id: &str, unit: crate::measure::Unit) -> (String, Vec<(String, String)>) {
    let step = seen.steps.iter().find(|step| step.id == id);
    let rows: Vec<(String, String)> = step
        .iter()
        .flat_map(|step| &step.sections)
        .map(|(name, short, long)| (name.clone(), words::span(*short, *long, unit)))
        .collect();
    let span = step.and_then(|step| step.spread);
    let whole = span.map_or("nothing is cut".to_owned(), |(short, long)| {
        words::span(short, long, unit)
    });
    (whole, rows)
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
    let told = move || match desk.view.get() {
        View::Back => "The hair let down, from the back",
        _ => "The hair let down, from the client's left",
    };
    move || {
        stage.get().map(|stage| {
            view! {
                <svg class="drawing fallen" role="img" aria-label=told viewBox=stage.view_box>
                    <g inner_html=stage.body></g>
                    <path class="d-fallen" d=move || moving(|f| &f.hair)></path>
                    <path class="d-ends" d=move || moving(|f| &f.ends)></path>
                    <path class="d-weight-before" d=before></path>
                    <path class="d-weight" d=move || moving(|f| &f.weight)></path>
                </svg>
            }
        })
    }
}
