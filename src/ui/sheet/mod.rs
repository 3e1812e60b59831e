//! The sheet: a cut on one or two printed pages, for where no phone is wanted.
//!
//! `facts` is whose head it is and what was agreed, `maps` the pictures of the whole, `step` one step
//! with its sections, `check` what is measured at the end, `paper` what stands around any sheet; all written as `parts::Html`. It is read once and
//! follows nothing: paper does not change either. How it is printed stands in `style/sheet.css`.

mod check;
mod facts;
mod maps;
mod paper;
mod step;

use super::frame::{Stage, titled, with_cut};
use super::kept::{kept, now};
use super::parts::Html;
use super::prepare::{to_look_at, worked_out};
use crate::book::{Ready, SavedCut};
use crate::cut::Outcome;
use crate::words::tr;
use leptos::prelude::*;
pub use paper::{OnPaper, foot, heading, lines};
use step::Sheet;

/// So many things to look at first are told on paper. Judgement.
const MOST_SAID: usize = 9;

/// The sheet of one cut.
#[component]
pub fn SheetScreen() -> impl IntoView {
    titled(tr("Sheet to print"));
    with_cut(|cut| {
        let id = cut.with_untracked(|cut| cut.id.clone());
        let sheet = cut.with_untracked(|cut| {
            let (ready, outcome) = worked_out(kept(), cut)?;
            let said = to_look_at(kept(), &ready, &outcome)?;
            Ok(written(cut, &ready, &outcome, &said))
        });
        view! {
            <OnPaper
                id
                here=Stage::Plan
                title=tr("Sheet to print")
                class="on-paper"
                back=("plan", tr("Back to the plan"))
                sheet
            />
        }
    })
}

/// The whole sheet.
fn written(cut: &SavedCut, ready: &Ready, outcome: &Outcome, said: &[String]) -> String {
    let kept = kept();
    let sheet = Sheet::new(ready, outcome, kept.unit_now());
    let mut html = Html::default();
    let named = heading(&mut html, cut, &ready.plan.name, &now());
    facts::write(&mut html, cut, &sheet);
    // A plan with more to look at than this is not ready to be cut; the paper would be full of it.
    let mut first: Vec<String> = said.iter().take(MOST_SAID).cloned().collect();
    if first.len() < said.len() {
        first.push(tr("More of this stands with the plan on the screen.").to_owned());
    }
    lines(&mut html, tr("Look at this first"), &first);
    maps::write(&mut html, &sheet);
    let how = tr!(
        "Lengths in {}. Cut at: shortest to longest hair, combed taut, as held. Off: the most that comes off. Falls to: the longest, dry and let go. No.: the client\u{2019}s left, then right, in cutting order.",
        sheet.unit.word()
    );
    html.within("<p class=\"sheet-how\">", &how, "</p>");
    for place in 0..ready.plan.steps.len() {
        step::write(&mut html, &sheet, place);
    }
    check::write(&mut html, &sheet);
    foot(
        &mut html,
        &ready.plan,
        tr(
            "Lengths are computed guidance: your eye, your training and your local rules come first.",
        ),
        named,
    );
    html.done()
}
