//! What was done, by criteria, and what its maker makes of it.

use crate::book::{CRITERIA, Criterion, Judged, Period, Said, SavedCut, Standard};
use crate::ui::kept::kept;
use crate::ui::parts::Options;
use crate::ui::parts::Words;
use crate::words::tr;
use leptos::prelude::*;

/// The criteria, folded by stage.
#[component]
pub fn Criteria(cut: RwSignal<SavedCut>) -> impl IntoView {
    let stage = move |period: Period| {
        let count = Memo::new(move |_| cut.with(|cut| cut.visit.judged.count(period)));
        let said = move || {
            let (met, said, all) = count.get();
            tr!("{met} met, {said} of {all} answered", met, said, all)
        };
        let ours = CRITERIA.into_iter().filter(|one| one.period == period);
        view! {
            <details class="group">
                <summary>{period.title()}<span class="soft">{said}</span></summary>
                {ours.map(|one| view! { <OneCriterion cut one/> }).collect_view()}
            </details>
        }
    };
    let sources = Standard::ALL.map(|standard| {
        view! { <li><strong>{standard.mark()}</strong> " " {standard.title()}</li> }
    });
    view! {
        {Period::ALL.map(stage).into_iter().collect_view()}
        <details class="knowing">
            <summary>{tr("Where these come from")}</summary>
            <p class="soft">{tr("In our own words, in the sense of these public standards; most of them were read in their opening parts only. What your own assessor asks comes first.")}</p>
            <ul>{sources.into_iter().collect_view()}</ul>
        </details>
    }
}

#[component]
fn OneCriterion(cut: RwSignal<SavedCut>, one: Criterion) -> impl IntoView {
    let kept = kept();
    let id = one.id;
    let chosen = Signal::derive(move || {
        let said = cut.with(|cut| cut.visit.judged.said(id));
        said.map_or(String::new(), |said| said.word().to_owned())
    });
    let choose = Callback::new(move |word: String| {
        kept.change(cut, |cut| cut.visit.judged.put(id, &word));
    });
    let options = Said::ALL.map(|said| (said.word().to_owned(), said.name().to_owned()));
    let remark = move || cut.with(|cut| cut.visit.judged.remark(id).to_owned());
    let marks: Vec<&str> = one.standards.iter().map(|s| s.mark()).collect();
    view! {
        <div class="criterion">
            <Options
                ask=kept.said(one.words)
                name=format!("criterion-{id}")
                options=options.into()
                chosen
                on_choose=choose
                take_back=true
            />
            <input
                type="text"
                autocomplete="off"
                placeholder=tr("Remark")
                aria-label=tr!("Remark: {}", kept.said(one.words))
                prop:value=remark
                on:input=move |ev| {
                    let text = event_target_value(&ev);
                    kept.change(cut, |cut| cut.visit.judged.put_remark(id, &text));
                }
            />
            <p class="soft">{marks.join(" · ")}</p>
        </div>
    }
}

/// What its maker makes of it, kept with every letter.
#[component]
pub fn LookBack(cut: RwSignal<SavedCut>) -> impl IntoView {
    view! {
        <h2>{tr("Looking back")}</h2>
        <Thought cut id="went-well" label=tr("What went well") of=|judged| &mut judged.well/>
        <Thought cut id="otherwise" label=tr("What I would do differently") of=|judged| &mut judged.otherwise/>
        <Thought cut id="next-aim" label=tr("What to aim at next") of=|judged| &mut judged.next/>
    }
}

#[component]
fn Thought(
    cut: RwSignal<SavedCut>,
    id: &'static str,
    label: &'static str,
    of: fn(&mut Judged) -> &mut String,
) -> impl IntoView {
    let kept = kept();
    // Cloned, because only a way to change a field leads to it.
    let text = Signal::derive(move || cut.with(|cut| of(&mut cut.visit.judged.clone()).clone()));
    let set = Callback::new(move |text| {
        kept.change(cut, |cut| *of(&mut cut.visit.judged) = text);
    });
    view! { <Words id label text set/> }
}
