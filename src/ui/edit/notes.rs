//! What is said of a step at the chair, what it may shorten again, what to take care of.

use super::desk::Desk;
use super::fields::text;
use crate::plan::{Caution, Step};
use crate::words::{noted, tr};
use leptos::prelude::*;

const CAUTIONS: [(Caution, &str); 3] = [
    (Caution::Eyes, noted("Near the eyes")),
    (Caution::Ear, noted("Near the ear")),
    (Caution::Neck, noted("Near the neck")),
];

/// Words and cautions of the open step.
#[component]
pub fn NotesForm(desk: Desk) -> impl IntoView {
    view! {
        {text(desk, "title", tr("Name of the step"), |_| String::new(), |step| &step.title, |step, to| step.title = to)}
        <p class="soft">{tr("What is left empty is told from the hold, as it is now.")}</p>
        {text(desk, "comb", tr("Combing"), |desk| desk.told(|w| w.comb), |step| &step.words.comb, |step, to| step.words.comb = to)}
        {text(desk, "fingers-words", tr("Fingers"), |desk| desk.told(|w| w.fingers), |step| &step.words.fingers, |step, to| step.words.fingers = to)}
        {text(desk, "guide-words", tr("Guide"), |desk| desk.told(|w| w.guide), |step| &step.words.guide, |step, to| step.words.guide = to)}
        {text(desk, "technique", tr("How to cut"), |_| String::new(), |step| &step.words.technique, |step, to| step.words.technique = to)}
        {text(desk, "stance", tr("Where to stand"), |_| String::new(), |step| &step.words.stance, |step, to| step.words.stance = to)}
        <fieldset>
            <legend>{tr("Take care")}</legend>
            <div class="options">
                {CAUTIONS.map(|(caution, name)| {
                    let on = Signal::derive(move || {
                        desk.of_step(|_, step| step.cautions.contains(&caution)).unwrap_or(false)
                    });
                    tick(tr(name).to_owned(), on, Callback::new(move |()| {
                        desk.change_step(|step| turn(&mut step.cautions, caution));
                    }))
                }).collect_view()}
            </div>
        </fieldset>
        <Earlier desk/>
    }
}

/// How it stands to the steps before it.
#[component]
fn Earlier(desk: Desk) -> impl IntoView {
    let earlier = Memo::new(move |_| desk.earlier());
    let group = move |ask: &'static str,
                      of: fn(&Step) -> &Vec<String>,
                      of_mut: fn(&mut Step) -> &mut Vec<String>| {
        let tick_of = move |(id, title): (String, String)| {
            let own = id.clone();
            let on = Signal::derive(move || {
                desk.of_step(|_, step| of(step).contains(&own))
                    .unwrap_or(false)
            });
            tick(
                title,
                on,
                Callback::new(move |()| {
                    let id = id.clone();
                    desk.change_step(|step| turn(of_mut(step), id));
                }),
            )
        };
        view! {
            <fieldset>
                <legend>{ask}</legend>
                <div class="options">{earlier.get().into_iter().map(tick_of).collect_view()}</div>
            </fieldset>
        }
    };
    move || {
        (!earlier.get().is_empty()).then(|| view! {
            {group(tr("It may shorten again"), |step| &step.recuts, |step| &mut step.recuts)}
            {group(tr("A step in length is wanted towards"), |step| &step.apart, |step| &mut step.apart)}
        })
    }
}

/// One thing that is on or off.
fn tick(name: String, on: Signal<bool>, set: Callback<()>) -> impl IntoView {
    view! {
        <label>
            <input type="checkbox" prop:checked=on on:change=move |_| set.run(())/>
            {name}
        </label>
    }
}

/// Puts a thing into a list, or takes it out.
fn turn<T: PartialEq>(list: &mut Vec<T>, thing: T) {
    match list.iter().position(|t| *t == thing) {
        Some(place) => {
            list.remove(place);
        }
        None => list.push(thing),
    }
}
