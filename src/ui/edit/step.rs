//! One step, part by part: where, what guides it, how it is held, what is done.

use super::desk::Desk;
use super::result::Sections;
use super::{area, guide, hold, names, notes};
use crate::learn::Idea;
use crate::plan::Field;
use crate::ui::kept::kept;
use crate::ui::parts::LearnLink;
use crate::words::{tr, tr_in};
use leptos::prelude::*;

/// The form of the open step.
#[component]
pub fn StepForm(desk: Desk) -> impl IntoView {
    let title = move || desk.of_step(|_, step| step.name()).unwrap_or_default();
    let title = move || kept().said(&title());
    view! {
        <h2>{title}</h2>
        <Group desk name=tr("Where") field=Field::Area open=false said=move |desk: Desk| {
            desk.of_step(|_, step| names::area(&step.area)).unwrap_or_default()
        }>
            <area::AreaForm desk/>
        </Group>
        <Group desk name=tr("Guide") field=Field::Guide open=true said=move |desk: Desk| {
            desk.of_step(names::guide).unwrap_or_default()
        }>
            <guide::GuideForm desk/>
            <LearnLink idea=Idea::Guide/>
        </Group>
        <Group desk name=tr_in("how hair is held", "Hold") field=Field::Hold open=true said=move |desk: Desk| {
            desk.of_step(|_, step| names::lift(&step.held)).unwrap_or_default()
        }>
            <hold::HoldForm desk/>
        </Group>
        <Sections desk/>
        <Group desk name=tr("Words and cautions") field=Field::Order open=false said=move |_| String::new()>
            <notes::NotesForm desk/>
        </Group>
    }
}

/// A part of the step that opens, with how it stands in its summary and what is wrong with it inside.
#[component]
fn Group(
    desk: Desk,
    name: &'static str,
    field: Field,
    open: bool,
    said: fn(Desk) -> String,
    children: Children,
) -> impl IntoView {
    let faults = move || {
        let mut all = desk.faults_of(field);
        // What cannot be worked out is said where the length comes from.
        if field == Field::Guide
            && let Some(stopped) = desk.stopped.get()
            && stopped.step == desk.of_step(|_, step| step.id.clone())
            && stopped.step.is_some()
        {
            all.push(stopped.words);
        }
        all
    };
    view! {
        <details class="part" open=open>
            <summary><span class="part-name">{name}</span> <span class="soft">{move || kept().said(&said(desk))}</span></summary>
            <div class="part-body">
                {children()}
                <div aria-live="polite">
                    {move || faults().into_iter().map(|why| view! { <p class="fault">{why}</p> }).collect_view()}
                </div>
            </div>
        </details>
    }
}
