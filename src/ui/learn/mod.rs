//! The ideas that lengths follow from: one a screen, with a picture that a slider moves.

use super::frame::{HOME, titled, way_back};
use super::kept::kept;
use super::parts::{Picture, Turns, wrong};
use crate::learn::{Idea, Lesson, Shown};
use crate::measure::{Length, Unit, read_decimal};
use crate::words::tr;
use leptos::prelude::*;
use leptos_router::components::A;
use leptos_router::hooks::use_params_map;

/// One idea; the first, where the address names none.
#[component]
pub fn LearnScreen() -> impl IntoView {
    kept().opened_none();
    let params = use_params_map();
    let which = Memo::new(move |_| {
        let named = params.read().get("idea").unwrap_or_default();
        Idea::of(&named).unwrap_or(Idea::Elevation)
    });
    let link = move |idea: Idea| {
        let here = move || (which.get() == idea).then_some("page");
        view! { <li><A href=format!("/learn/{}", idea.word()) attr:aria-current=here>{idea.name()}</A></li> }
    };
    view! {
        {move || view! { <Explained idea=which.get()/> }}
        <nav aria-label=tr("Ideas")><ul class="parts ideas">{Idea::ALL.map(link).collect_view()}</ul></nav>
        <div class="actions">
            {way_back().map(|path| view! {
                <A href=path attr:class="button main">{tr("Back to where you were")}</A>
            })}
            <A href=HOME exact=true attr:class="button">{tr("Your cuts")}</A>
        </div>
    }
}

/// An idea: what it is, and the picture that the slider moves.
#[component]
fn Explained(idea: Idea) -> impl IntoView {
    titled(idea.name());
    let kept = kept();
    let turns = Turns::new(1);
    view! {
        <h1>{idea.name()}</h1>
        <p class="lede">{kept.said(idea.about())}</p>
        {turns.at(1, move || match Lesson::of(idea) {
            Ok(lesson) => view! { <Tried lesson/> }.into_any(),
            Err(why) => wrong(why),
        })}
        <p class="soft">
            {tr("On the mean head of the surveys, in straight hair. Names differ from school to school, the geometry does not.")}
        </p>
    }
}

#[component]
fn Tried(lesson: Lesson) -> impl IntoView {
    let kept = kept();
    let (idea, turn) = (lesson.idea, lesson.turn());
    let lesson = StoredValue::new(lesson);
    let at = RwSignal::new(turn.begins);
    let shown = Memo::new(move |_| {
        let unit = kept.unit();
        lesson.with_value(|lesson| lesson.at(at.get(), unit).map_err(|why| why.to_string()))
    });
    let value = move || format!("{}{}", at.get(), turn.mark);
    let moved = move |ev| {
        if let Some(to) = read_decimal(&event_target_value(&ev)) {
            at.set(to.round() as u32);
        }
    };
    let picture = move || shown.with(|s| s.as_ref().map_or(String::new(), |s| s.picture.clone()));
    let failed = move || shown.with(|s| s.as_ref().err().map(wrong));
    let said = move || shown.with(|s| s.as_ref().map_or(String::new(), |s| kept.said(&s.said)));
    let table = move || {
        let unit = kept.unit();
        shown.with(|shown| shown.as_ref().ok().map(|shown| rows(shown, unit)))
    };
    view! {
        <div class="learn">
            <div class="learn-turn">
                <label for="turned">{idea.turned()} ": " <strong>{value}</strong></label>
                <input type="range" id="turned" min=turn.least max=turn.most step=turn.step
                    aria-valuetext=value prop:value=move || at.get() on:input=moved/>
                <p role="status">{said}</p>
            </div>
            <div class="learn-picture">
                {failed}
                <Picture svg=Signal::derive(picture) caption=tr("Drawn by the same engine that works out your cuts")/>
            </div>
            <div>
                <p>{kept.said(idea.to_try())}</p>
                <div class="scrolls">
                    <table>
                        <caption>{move || tr!("Each section, cut at, in {}", kept.unit().word())}</caption>
                        <thead><tr>
                            <th scope="col">{tr("Section")}</th>
                            <th scope="col" class="number">{tr("Shortest")}</th>
                            <th scope="col" class="number">{tr("Longest")}</th>
                        </tr></thead>
                        {table}
                    </table>
                </div>
            </div>
        </div>
    }
}

fn rows(shown: &Shown, unit: Unit) -> AnyView {
    let row = |(i, (short, long)): (usize, &(Length, Length))| {
        let marked = (shown.marked == Some(i)).then_some(tr(" (marked)"));
        view! {
            <tr>
                <th scope="row">{i + 1}{marked}</th>
                <td class="number">{short.number(unit)}</td>
                <td class="number">{long.number(unit)}</td>
            </tr>
        }
    };
    let rows = shown.rows.iter().enumerate().map(row).collect_view();
    view! { <tbody>{rows}</tbody> }.into_any()
}
