//! The self-check of one cut.

use super::criteria::{Criteria, LookBack};
use super::marks::MarksFields;
use super::more::More;
use super::places::Places;
use crate::book::{Expected, Judgement, SavedCut, expected, judge};
use crate::measure::Length;
use crate::ui::frame::{Stage, Stages, titled, with_cut};
use crate::ui::kept::kept;
use crate::ui::parts::wrong;
use crate::words::tr;
use leptos::prelude::*;
use leptos_router::components::A;

/// What every part of the screen is told from.
#[derive(Clone, Copy)]
pub struct Judging {
    /// The cut.
    pub cut: RwSignal<SavedCut>,
    /// What its named places are to be, by the plan alone.
    pub expected: StoredValue<Vec<Expected>>,
    /// What was measured against that.
    pub judged: Memo<Judgement>,
}

impl Judging {
    fn of(cut: RwSignal<SavedCut>) -> Result<Self, String> {
        let ready = cut.with_untracked(|cut| kept().ready(cut));
        let all = expected(&ready.map_err(|e| e.to_string())?).map_err(|e| e.to_string())?;
        let expected = StoredValue::new(all);
        let judged = Memo::new(move |_| {
            let marks = kept().settings().marks;
            expected.with_value(|all| cut.with(|cut| judge(all, &cut.visit, &marks)))
        });
        Ok(Self {
            cut,
            expected,
            judged,
        })
    }
}

/// How a cut came out, by its maker's own plan and marks.
#[component]
pub fn JudgeScreen() -> impl IntoView {
    titled(tr("Check it yourself"));
    with_cut(|cut| {
        let id = cut.with_untracked(|cut| cut.id.clone());
        let of = cut.with_untracked(|cut| cut.visit.of.clone());
        let trends = if of.is_empty() {
            "/trends".to_owned()
        } else {
            format!("/trends?of={of}")
        };
        let to = |part: &str| format!("/cut/{id}/{part}");
        view! {
            <Stages id=id.clone() here=Stage::Chair/>
            <h1>{tr("Check it yourself")}</h1>
            {match Judging::of(cut) {
                Ok(judging) => view! { <Parts judging/> }.into_any(),
                Err(why) => wrong(why),
            }}
            <div class="actions">
                <A href=to("assess") attr:class="button main">{tr("Sheet for an assessor")}</A>
                <A href=trends attr:class="button">{tr("What comes back")}</A>
                <A href=to("end") attr:class="button">{tr("Planned and cut")}</A>
            </div>
        }
    })
}

#[component]
fn Parts(judging: Judging) -> impl IntoView {
    let kept = kept();
    let said = move || {
        let settings = kept.settings();
        let said = judging
            .judged
            .with(|judged| judged.said(&settings.marks, kept.unit(), settings.seen));
        let line = |text: String| view! { <p>{text}</p> };
        said.into_iter().map(line).collect_view()
    };
    let seen = move || kept.settings().seen;
    let mark = move || Length::from_cm(kept.settings().marks.pass()).as_measured(kept.unit());
    let more = move || {
        let count = judging.cut.with(|cut| cut.visit.measured_beside());
        if count > 0 {
            tr!("1 measured" | "{n} measured" % count)
        } else {
            String::new()
        }
    };
    view! {
        <div class="note judged-said" role="status">{said}</div>
        <p class="soft">{tr("Comb each lock taut, as it was cut, and measure from the scalp. A ruler on combed hair is good to 2 or 3 mm: make nothing of less.")}</p>
        <Places judging/>
        <details class="group">
            <summary>{tr("More: before, and hanging dry")}<span class="soft">{more}</span></summary>
            <More judging/>
        </details>
        <details class="group">
            <summary>{tr("Your marks")}<span class="soft">{mark}</span></summary>
            <MarksFields/>
        </details>
        <h2>{tr("What was done")}</h2>
        {move || {
            if seen() {
                view! { <p class="note">{tr("Marks, remarks and looking back are hidden while the client looks on.")}</p> }
                    .into_any()
            } else {
                view! { <Criteria cut=judging.cut/> <LookBack cut=judging.cut/> }.into_any()
            }
        }}
    }
}
