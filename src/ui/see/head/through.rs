//! The way through the cut, section by section.

use super::looked::Looked;
use super::turn::moves;
use crate::cut::SectionCut;
use crate::head::Side;
use crate::measure::{Length, Unit};
use crate::ui::kept::kept;
use crate::ui::parts::Pick;
use crate::words::{tr, tr_in};
use leptos::prelude::*;
use std::time::Duration;

/// How long each section is shown while it runs.
const A_SECTION: Duration = Duration::from_millis(800);

/// Which section is shown, and the buttons that go on and back.
#[component]
pub fn Through(looked: Looked) -> impl IntoView {
    let kept = kept();
    let place = looked.place;
    let last = move || looked.count.get().saturating_sub(1);
    let runs = RwSignal::new(None::<IntervalHandle>);
    let stop = move || {
        if let Some(running) = runs.try_update(Option::take).flatten() {
            running.clear();
        }
    };
    on_cleanup(stop);
    let go = move |on: isize| {
        stop();
        looked.go(on);
    };
    let tick = move || {
        if place.get_untracked() >= looked.count.get_untracked().saturating_sub(1) {
            stop();
        } else {
            looked.go(1);
        }
    };
    let play = move |_| {
        if runs.with_untracked(Option::is_some) {
            return stop();
        }
        // From the end it begins anew.
        if place.get_untracked() >= looked.count.get_untracked().saturating_sub(1) {
            place.set(0);
        }
        runs.set(set_interval_with_handle(tick, A_SECTION).ok());
    };
    let told = move || {
        let number = place.get().saturating_add(1);
        let was_cut = looked.was_cut_at();
        let section = looked
            .section(|section| said(section, looked.real.get(), was_cut, kept.unit()))
            .unwrap_or_default();
        kept.said(&tr!(
            "Section {number} of {}: {section}",
            looked.count.get(),
            number,
            section
        ))
    };
    // Steps that have a section on this head, each with the place of its first.
    let steps: Vec<(String, usize)> = untrack(|| {
        looked.with(|ready, outcome| {
            let first = |i: usize| outcome.sections.iter().position(|s| s.step == i);
            let steps = ready.plan.steps.iter().enumerate();
            steps
                .filter_map(|(i, step)| Some((step.title.clone(), first(i)?)))
                .collect()
        })
    });
    let titles = steps.iter().map(|(title, _)| title.clone()).collect();
    let firsts = StoredValue::new(
        steps
            .into_iter()
            .map(|(_, first)| first)
            .collect::<Vec<_>>(),
    );
    let step = move || {
        let at = place.get();
        firsts.with_value(|firsts| firsts.iter().rposition(|first| *first <= at))
    };
    let to_step = move |i: usize| {
        stop();
        if let Some(first) = firsts.with_value(|firsts| firsts.get(i).copied()) {
            place.set(first);
        }
    };
    // Still there to be focused: who steps to the end by keys stays on the button.
    let off = |there: Signal<bool>| move || there.get().then_some("true");
    let at_start = Signal::derive(move || place.get() == 0);
    let at_end = Signal::derive(move || place.get() >= last());
    view! {
        <div class="head-through">
            <p class="head-where" aria-live=move || if runs.with(Option::is_some) { "off" } else { "polite" }>{told}</p>
            <div class="head-steps" role="group" aria-label=tr("Through the cut")>
                <button type="button" aria-disabled=off(at_start) on:click=move |_| go(isize::MIN)>{tr_in("of sections", "First")}</button>
                <button type="button" aria-disabled=off(at_start) on:click=move |_| go(-1)>{tr_in("of sections", "Previous")}</button>
                <button type="button" aria-disabled=off(at_end) on:click=move |_| go(1)>{tr_in("of sections", "Next")}</button>
                <button type="button" aria-disabled=off(at_end) on:click=move |_| go(isize::MAX)>{tr_in("of sections", "Last")}</button>
                {moves().then(|| view! {
                    <button type="button" class="head-play" on:click=play>
                        {move || if runs.with(Option::is_some) { tr_in("of what runs by itself", "Pause") } else { tr_in("of what runs by itself", "Play") }}
                    </button>
                })}
            </div>
            <Pick
                id="head-step"
                label=tr("Step")
                options=titles
                chosen=Signal::derive(step)
                on_choose=Callback::new(to_step)
            />
        </div>
    }
}

/// A section in a few words: `Face frame 2, left, cut at 14 to 17.5 cm`. Of what was really cut: how long it
/// came out, or what it is still to be cut at.
fn said(section: &SectionCut, real: bool, was_cut: Option<Length>, unit: Unit) -> String {
    let side = match section.key.side {
        Side::Left => tr_in("after a section’s name", "left"),
        Side::Centre => tr_in("after a section’s name", "middle"),
        Side::Right => tr_in("after a section’s name", "right"),
    };
    let name = &section.section.name;
    if !section.cuts() {
        return tr!("{name}, {side}, looked over, not cut", name, side);
    }
    if let Some(long) = was_cut {
        return tr!(
            "{name}, {side}, cut: {} at its longest",
            long.shown(unit),
            name,
            side
        );
    }
    let (short, long) = (section.short().number(unit), section.long().number(unit));
    let mark = unit.mark();
    let length = if short == long {
        format!("{long} {mark}")
    } else {
        tr!("{short} to {long} {mark}", short, long, mark)
    };
    if real {
        tr!(
            "{name}, {side}, still to cut at {length}",
            name,
            side,
            length
        )
    } else {
        tr!("{name}, {side}, cut at {length}", name, side, length)
    }
}
