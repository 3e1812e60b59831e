//! The plan: its few choices, what they come to, and the picture of it.

use crate::book::{Ready, SavedCut};
use crate::chart::{
    ContourMap, HeldHair, Lines, View, profile, scalp_map, section_bars, section_chart,
    section_parcels,
};
use crate::cut::{Measured, Outcome, findings};
use crate::learn::Idea;
use crate::plan::{Choice, Kind, Plan};
use crate::ui::frame::{Stage, Stages, titled, with_cut};
use crate::ui::grow::BeginsWith;
use crate::ui::kept::{Kept, kept};
use crate::ui::parts::{
    Column, ContourKeys, LearnLink, Legend, Options, Picture, PlaceTable, Question, SectionKeys,
    SectionMap, SectionTable, Turns, UndoBar, go_to_chair, soon, told_line, told_list, wrong,
};
use crate::words::tr;
use leptos::prelude::*;
use leptos_router::components::A;

/// The plan of one cut.
#[component]
pub fn PlanScreen() -> impl IntoView {
    titled(tr("The plan"));
    with_cut(|cut| {
        let plan = cut.with_untracked(|cut| kept().plan(cut));
        match plan {
            Some(plan) => view! { <PlanForm cut plan/> }.into_any(),
            None => view! {
                <Stages id=cut.with_untracked(|cut| cut.id.clone()) here=Stage::Plan/>
                <h1>{tr("Unknown plan")}</h1>
                <p>{tr("This cut uses a plan that this version of Tautline does not have. It is kept as it is.")}</p>
            }
            .into_any(),
        }
    })
}

/// The plan worked out, or why it can't be.
pub fn worked_out(kept: Kept, cut: &SavedCut) -> Result<(Ready, Outcome), String> {
    let ready = kept.ready(cut).map_err(|e| e.to_string())?;
    let outcome = ready.outcome(&Measured::new()).map_err(|e| e.to_string())?;
    Ok((ready, outcome))
}

/// What to look at in a plan, in sentences, or why that can't be said.
pub fn to_look_at(kept: Kept, ready: &Ready, outcome: &Outcome) -> Result<Vec<String>, String> {
    let found = findings(&ready.job(), outcome, &ready.agreed).map_err(|e| e.to_string())?;
    let said = found.iter().map(|f| kept.said(&f.said(kept.unit())));
    Ok(said.collect())
}

#[component]
fn PlanForm(cut: RwSignal<SavedCut>, plan: Plan) -> impl IntoView {
    let kept = kept();
    let turns = Turns::new(9);
    let id = cut.with_untracked(|cut| cut.id.clone());
    let shown = StoredValue::new(plan.clone());
    let choices = plan.choices.clone();
    // What the last visit left answers how long the hair is.
    let known = Memo::new(move |_| cut.with(|cut| cut.left_map().is_some()));
    let ask = move |choice: Choice| {
        if !matches!(choice.kind, Kind::Before { .. }) {
            return view! { <Question cut plan=shown choice/> }.into_any();
        }
        let question = move || {
            let choice = choice.clone();
            (!known.get()).then(|| view! { <Question cut plan=shown choice/> })
        };
        question.into_any()
    };
    view! {
        <Stages id=id.clone() here=Stage::Plan/>
        <h1>{cut.with_untracked(|cut| cut.plan_said(&plan.name))}</h1>
        <WithPlan cut/>
        <div class="edit-bar"><UndoBar cut quiet=true/></div>
        <p>{plan.about}</p>
        <p class="soft">{plan.suits}</p>
        <Knowing plan=shown.get_value()/>
        <BeginsWith cut/>
        {choices.into_iter().map(ask).collect_view()}
        {turns.at(1, move || {
            match cut.with(|cut| kept.ready(cut).map_err(|why| why.to_string())) {
                Ok(ready) => view! { <Result ready cut turns/> }.into_any(),
                Err(why) => wrong(why),
            }
        })}
        <div class="actions onward">
            <A href=format!("/cut/{id}/walk") attr:class="button main">{tr("To the chair")}</A>
        </div>
    }
}

/// What else can be done with the plan. Where nobody chose it yet, that comes first.
#[component]
fn WithPlan(cut: RwSignal<SavedCut>) -> impl IntoView {
    let (id, chosen) = cut.with_untracked(|cut| (cut.id.clone(), cut.is_chosen()));
    let choose = format!("/cut/{id}/choose");
    let first = if chosen {
        view! { <A href=choose attr:class="button">{tr("Choose another cut")}</A> }.into_any()
    } else {
        view! {
            <p class="note">{tr("Nothing is chosen yet: this is the plan that every new cut begins with.")}</p>
            <A href=choose attr:class="button main">{tr("Choose a cut")}</A>
        }
        .into_any()
    };
    view! {
        <nav class="edit-bar" aria-label=tr("With this plan")>
            {first}
            <A href=format!("/cut/{id}/edit") attr:class="button">{tr("Change it")}</A>
            <A href=format!("/cut/{id}/aim") attr:class="button plain">{tr("Aim backwards")}</A>
            <A href=format!("/cut/{id}/see/head") attr:class="button plain">{tr("Pictures")}</A>
            <A href=format!("/cut/{id}/compare") attr:class="button plain">{tr("Compare")}</A>
            <A href=format!("/cut/{id}/sheet") attr:class="button plain">{tr("Sheet to print")}</A>
            <A href=format!("/cut/{id}/pass") attr:class="button plain">{tr("Pass it on")}</A>
        </nav>
    }
}

/// What else is worth knowing of a cut, folded away.
#[component]
fn Knowing(plan: Plan) -> impl IntoView {
    let time = plan.time_said();
    view! {
        <details class="knowing">
            <summary>{tr("More about this cut")}</summary>
            <dl class="instructions">
                {told_line(tr("Not for"), plan.not_for)}
                {told_line(tr("Weight"), plan.weight)}
                {told_list(tr("Mistakes"), plan.mistakes)}
                {told_list(tr("Checks"), plan.checks)}
                {told_line(tr("Time"), time.unwrap_or_default())}
            </dl>
            <p><LearnLink idea=Idea::Weight/></p>
        </details>
    }
}

/// What to look at before the first cut.
#[component]
fn Findings(said: Vec<String>) -> impl IntoView {
    (!said.is_empty()).then(|| {
        view! {
            <div class="note">
                <h2>{tr("Look at this first")}</h2>
                <ul>{said.into_iter().map(|s| view! { <li>{s}</li> }).collect_view()}</ul>
            </div>
        }
    })
}

/// What the plan comes to: the chart, the held hair, the table, the map.
#[component]
fn Result(ready: Ready, cut: RwSignal<SavedCut>, turns: Turns) -> impl IntoView {
    let ready = StoredValue::new(ready);
    turns.at(2, move || {
        let outcome = ready.with_value(|ready| ready.outcome(&Measured::new()));
        match outcome {
            Ok(outcome) => come_to((ready.get_value(), outcome), cut, turns),
            Err(why) => wrong(why),
        }
    })
}

fn come_to(of: (Ready, Outcome), cut: RwSignal<SavedCut>, turns: Turns) -> AnyView {
    let kept = kept();
    let unit = kept.unit();
    let of = StoredValue::new(of);
    let first = move || match of.with_value(|(ready, outcome)| to_look_at(kept, ready, outcome)) {
        Ok(said) => view! { <Findings said/> }.into_any(),
        Err(why) => wrong(why),
    };
    let chart = move || {
        let svg = of.with_value(|(_, outcome)| {
            section_chart(
                &section_bars(outcome, &[]),
                unit,
                tr("Section lengths along the head"),
                tr("Shortest and longest length of each section, from the front to the back. The same numbers stand in the table."),
            )
        });
        let caption = tr!("Length in {} along the head", unit.word());
        match svg {
            Ok(svg) => view! { <Picture svg caption/> <SectionKeys cut=false/> }.into_any(),
            Err(why) => wrong(why),
        }
    };
    let held = move || {
        let svg = of.with_value(|(ready, outcome)| {
            let held = |section| HeldHair {
                section,
                marked: false,
            };
            let left = outcome.sections.iter();
            let left = left.filter(|s| s.key.side != crate::head::Side::Right);
            profile(
                &ready.head,
                View::Left,
                &left.map(held).collect::<Vec<_>>(),
                tr("All held hair on the left side"),
                tr("The head from the left with the hair of every section held taut at its cutting line."),
            )
        });
        view! { <Picture svg caption=tr("Every section of the left side as it is held, on this head")/> }
            .into_any()
    };
    let table = move || {
        let (plan, outcome) =
            of.with_value(|(ready, outcome)| (ready.plan.clone(), outcome.clone()));
        view! { <SectionTable plan outcome unit/> }.into_any()
    };
    let map = move || {
        let (ready, outcome) = of.get_value();
        view! { <ScalpMap ready outcome cut turns/> }.into_any()
    };
    turns.at(3, move || {
        view! {
            {first()}
            <h2>{tr("How long each section is cut")}</h2>
            <div class="side-by-side">
                <div>{turns.at(4, chart)}</div>
                {turns.at(5, held)}
            </div>
            {turns.at(6, table)}
            {turns.at(7, map)}
        }
        .into_any()
    })
}

/// The whole scalp from above: how long the hair is everywhere, or the sections in their order.
#[component]
fn ScalpMap(
    ready: Ready,
    outcome: Outcome,
    cut: RwSignal<SavedCut>,
    turns: Turns,
) -> impl IntoView {
    let kept = kept();
    let unit = kept.unit();
    let shown = RwSignal::new("lengths".to_owned());
    let bare = scalp_map(
        &ready.head,
        &[],
        tr("The scalp from above, forehead up"),
        tr("Its lines are on their way."),
    );
    let is_order = move || shown.get() == "order";
    let of = StoredValue::new((ready, outcome));
    let order = Memo::new(move |_| {
        of.with_value(|(ready, outcome)| {
            scalp_map(
                &ready.head,
                &section_parcels(outcome),
                tr("The sections in the order in which they are cut"),
                tr(
                    "The scalp from above, forehead up, the client\u{2019}s left on the left. Each section carries its place in the order.",
                ),
            )
        })
    });
    let map = RwSignal::new(None::<Result<ContourMap, String>>);
    soon(map, move || {
        let drawn = of.with_value(|(ready, outcome)| {
            ContourMap::new(
                &ready.head,
                Lines::Lengths(outcome),
                &ready.job().wear(),
                unit,
                (
                    tr("How long the hair is, everywhere on the scalp"),
                    tr("The scalp from above, forehead up, the client\u{2019}s left on the left. Each line joins hair of one length and carries it. The lengths at the named places stand in the table below."),
                ),
            )
            .map_err(|why| why.to_string())
        });
        map.set(Some(drawn));
    });
    let svg = Signal::derive(move || {
        if is_order() {
            return order.get();
        }
        map.with(|map| match map {
            Some(Ok(map)) => map.svg.clone(),
            _ => bare.clone(),
        })
    });
    let legend = move || {
        if is_order() {
            return None;
        }
        map.with(|map| match map {
            Some(Ok(map)) => {
                Some(view! { <ContourKeys map=map.clone() legend=Legend::Lengths/> }.into_any())
            }
            Some(Err(why)) => Some(wrong(why)),
            None => None,
        })
    };
    let options = vec![
        ("lengths".to_owned(), tr("Lengths").to_owned()),
        ("order".to_owned(), tr("Sections in order").to_owned()),
    ];
    let id = cut.with_untracked(|cut| cut.id.clone());
    let below = turns.at(9, move || {
        match of.with_value(|(ready, outcome)| outcome.at_places(&ready.head)) {
            Ok(places) => {
                let values = places.iter().map(|p| p.cut.0.number(unit)).collect();
                let columns = vec![Column {
                    name: tr("Length"),
                    values,
                }];
                view! { <PlaceTable places columns unit/> }.into_any()
            }
            Err(why) => wrong(why),
        }
    });
    view! {
        <h2>{tr("The whole scalp")}</h2>
        <Options ask=tr("Shown") name="scalp" options chosen=shown on_choose=Callback::new(move |v| shown.set(v))/>
        <SectionMap id of svg at_chair=go_to_chair(cut) holder="plan-scalp" below>{legend}</SectionMap>
    }
}
