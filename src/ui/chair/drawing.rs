//! The held hair of a section on this head, from the side where it is seen best; it can be turned.

use super::at::AtChair;
use crate::chart::{HeldHair, InHand, View, profile_in_hand, seen_from};
use crate::cut::{Outcome, SectionCut};
use crate::plan::Technique;
use crate::ui::kept::kept;
use crate::ui::parts::Picture;
use crate::words::{tr, tr_in};
use leptos::prelude::*;
use std::sync::Arc;

/// Where one stands who sees the head so.
fn from(view: View) -> &'static str {
    match view {
        View::Left => tr("the client's left"),
        View::Right => tr("the client's right"),
        View::Front => tr_in("seen from", "the front"),
        View::Back => tr_in("seen from", "the back"),
    }
}

/// The next side to look from.
const fn next(view: View) -> View {
    match view {
        View::Left => View::Back,
        View::Back => View::Right,
        View::Right => View::Front,
        View::Front => View::Left,
    }
}

/// The drawing, with a button that turns it.
#[component]
pub fn Drawing(
    at: AtChair,
    outcome: Arc<Outcome>,
    section: SectionCut,
    technique: Option<Technique>,
) -> impl IntoView {
    let first = at
        .ready
        .with_value(|ready| seen_from(&ready.head, &section));
    let view = RwSignal::new(first);
    let how = InHand {
        hand: kept().settings_now().hand,
        technique,
    };
    // Hair that was held to the same line before is the guide.
    let before = outcome.before_in_step(&section).cloned();
    let svg = move || {
        let view = view.get();
        let mut hair: Vec<HeldHair<'_>> = before
            .iter()
            .map(|section| HeldHair {
                section,
                marked: false,
            })
            .collect();
        hair.push(HeldHair {
            section: &section,
            marked: true,
        });
        at.ready.with_value(|ready| {
            profile_in_hand(
                &ready.head,
                view,
                &hair,
                how,
                &tr!("{}, as it is held", section.section.name),
                &tr!(
                    "The head from {}, the hair of this section as taut lines to where it is cut.",
                    from(view)
                ),
            )
        })
    };
    view! {
        <Picture svg=Signal::derive(svg)/>
        <button
            class="turn"
            aria-label=move || tr!("Turn the drawing. Now from {}", from(view.get()))
            on:click=move |_| view.update(|view| *view = next(*view))
        >
            {tr("Turn")}
        </button>
    }
}
