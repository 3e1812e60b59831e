//! The plan: its few choices, what they come to, and the picture of it.

use crate::chart::{HeldHair, View, profile, section_bars, section_chart};
use crate::cut::{Agreed, Measured, Outcome, findings};
use crate::hair::Hair;
use crate::head::Head;
use crate::measure::{Length, read_length, with_unit};
use crate::plan::{Choice, Kind, Parting, Plan};
use crate::store::SavedCut;
use crate::ui::frame::{Stage, Stages, titled, with_cut};
use crate::ui::kept::kept;
use crate::ui::parts::{Options, Picture, SectionKeys, SectionTable};
use crate::ui::words;
use leptos::prelude::*;
use leptos_router::components::A;

/// The plan of one cut.
#[component]
pub fn PlanScreen() -> impl IntoView {
    titled("The plan");
    with_cut(|cut| {
        let plan = cut.with_untracked(SavedCut::plan);
        match plan {
            Some(plan) => view! { <PlanForm cut plan/> }.into_any(),
            None => view! {
                <h1>"Unknown plan"</h1>
                <p>"This cut uses a plan that this version of Tautline does not have. It is kept as it is."</p>
            }
            .into_any(),
        }
    })
}

/// The plan worked out and what to look at in it, or why it can't be.
fn worked_out(cut: &SavedCut, plan: &Plan) -> Result<(Head, Outcome, Vec<String>), String> {
    let head = cut.head().map_err(|e| e.to_string())?;
    let outcome = cut
        .outcome(&head, plan, &Measured::new())
        .map_err(|e| e.to_string())?;
    let said = {
        let hair = Hair::default();
        findings(&cut.job(&head, &hair, plan), &outcome, &Agreed::default())
            .map_err(|e| e.to_string())?
            .iter()
            .map(ToString::to_string)
            .collect()
    };
    Ok((head, outcome, said))
}

#[component]
fn PlanForm(cut: RwSignal<SavedCut>, plan: Plan) -> impl IntoView {
    let id = cut.with_untracked(|cut| cut.id.clone());
    let shown = StoredValue::new(plan.clone());
    let choices = plan.choices.clone();
    let ask = move |choice: Choice| view! { <Question cut plan=shown choice/> };
    view! {
        <Stages id=id.clone() here=Stage::Plan/>
        <h1>{plan.name}</h1>
        <A href=format!("/cut/{id}/choose") attr:class="button">"Choose another cut"</A>
        <p>{plan.about}</p>
        <p class="soft">{plan.suits}</p>
        <Knowing plan=shown.get_value()/>
        {choices.into_iter().map(ask).collect_view()}
        {move || {
            let result = cut.with(|cut| shown.with_value(|plan| worked_out(cut, plan)));
            match result {
                Ok((head, outcome, said)) => view! {
                    <Findings said/>
                    <Result head outcome plan=shown/>
                }
                .into_any(),
                Err(why) => view! { <p class="note warn" role="alert">{why}</p> }.into_any(),
            }
        }}
        <div class="actions">
            <A href=format!("/cut/{id}/walk") attr:class="button main">"To the chair"</A>
        </div>
    }
}

/// What else is worth knowing of a cut, folded away.
#[component]
fn Knowing(plan: Plan) -> impl IntoView {
    let line = |name: &'static str, text: String| {
        (!text.is_empty()).then(|| view! { <div><dt>{name}</dt><dd>{text}</dd></div> })
    };
    let list = |name: &'static str, all: Vec<String>| {
        (!all.is_empty()).then(|| {
            let items = all.into_iter().map(|text| view! { <li>{text}</li> });
            view! { <div><dt>{name}</dt><dd><ul>{items.collect_view()}</ul></dd></div> }
        })
    };
    let time = (plan.minutes > 0).then(|| format!("About {} minutes of cutting.", plan.minutes));
    view! {
        <details class="knowing">
            <summary>"More about this cut"</summary>
            <dl class="instructions">
                {line("Not for", plan.not_for)}
                {line("Weight", plan.weight)}
                {list("Mistakes", plan.mistakes)}
                {list("Checks", plan.checks)}
                {line("Time", time.unwrap_or_default())}
            </dl>
        </details>
    }
}

/// What to look at before the first cut.
#[component]
fn Findings(said: Vec<String>) -> impl IntoView {
    (!said.is_empty()).then(|| {
        view! {
            <div class="note">
                <h2>"Look at this first"</h2>
                <ul>{said.into_iter().map(|s| view! { <li>{s}</li> }).collect_view()}</ul>
            </div>
        }
    })
}

/// What the plan comes to: the chart, the held hair, the table.
#[component]
fn Result(head: Head, outcome: Outcome, plan: StoredValue<Plan>) -> impl IntoView {
    let unit = kept().unit();
    let chart = section_chart(
        &section_bars(&outcome, &[]),
        unit,
        "Section lengths along the head",
        "Shortest and longest length of each section, from the front to the back. The same numbers stand in the table.",
    )
    .unwrap_or_else(|why| why);
    let held: Vec<HeldHair> = outcome
        .sections
        .iter()
        .filter(|s| s.key.side != crate::head::Side::Right)
        .map(|section| HeldHair {
            section,
            marked: false,
        })
        .collect();
    let drawing = profile(
        &head,
        View::Left,
        &held,
        "All held hair on the left side",
        "The head from the left with the hair of every section held taut at its cutting line.",
    );
    view! {
        <h2>"How long each section is cut"</h2>
        <div class="side-by-side">
            <div>
                <Picture svg=chart caption=format!("Length in {} along the head", unit.mark())/>
                <SectionKeys cut=false/>
            </div>
            <Picture svg=drawing caption="Every section of the left side as it is held, on this head"/>
        </div>
        {plan.with_value(|plan| view! { <SectionTable plan=plan.clone() outcome unit/> })}
    }
}

/// One choice of the plan.
#[component]
fn Question(cut: RwSignal<SavedCut>, plan: StoredValue<Plan>, choice: Choice) -> impl IntoView {
    let kept = kept();
    let id = choice.id.clone();
    let fault = RwSignal::new(None::<String>);
    let set = Callback::new(move |text: String| {
        let tried = plan.with_value(|plan| {
            cut.with_untracked(|cut| cut.choices.clone())
                .set(plan, &id, &text)
        });
        fault.set(tried.as_ref().err().map(ToString::to_string));
        if tried.is_ok() {
            kept.change(cut, |cut| {
                plan.with_value(|plan| {
                    // Just tried on a copy.
                    let _ = cut.choices.set(plan, &id, &text);
                });
            });
        }
    });
    let own = StoredValue::new(choice.clone());
    let text = Signal::derive(move || {
        cut.with(|cut| own.with_value(|choice| cut.choices.text(choice).to_owned()))
    });
    let word = |landmark| {
        (
            crate::plan::landmark_word(landmark),
            words::landmark(landmark).to_owned(),
        )
    };
    let partings = |all: &[Parting]| -> Vec<(String, String)> {
        all.iter()
            .map(|&p| (p.word().to_owned(), words::parting(p).to_owned()))
            .collect()
    };
    let options = match &choice.kind {
        Kind::Landmark { options } | Kind::Before { options } => {
            options.iter().copied().map(word).collect()
        }
        Kind::Parting => partings(&Parting::ALL),
        Kind::SideParting => partings(&Parting::ASIDE),
        Kind::Length { .. } => Vec::new(),
    };
    let typed = matches!(choice.kind, Kind::Length { .. } | Kind::Before { .. });
    let label = match choice.kind {
        Kind::Before { .. } => "Or one length everywhere, as on a practice head",
        _ => "",
    };
    view! {
        {if options.is_empty() {
            view! { <LengthField id=choice.id.clone() label=choice.ask.clone() text set/> }.into_any()
        } else {
            let name = choice.id.clone();
            view! { <Options ask=choice.ask.clone() name options chosen=text on_choose=set/> }.into_any()
        }}
        {(typed && !label.is_empty()).then(|| {
            let only_lengths = Signal::derive(move || {
                let text = text.get();
                if text.starts_with(|c: char| c.is_ascii_digit()) { text } else { String::new() }
            });
            view! { <LengthField id=format!("{}-length", choice.id) label text=only_lengths set/> }
        })}
        <div aria-live="polite">
            {move || fault.get().map(|why| view! { <p class="fault">{why}</p> })}
        </div>
    }
}

/// A length with a step down and a step up.
#[component]
pub fn LengthField(
    /// An id unlike any other on the screen.
    id: String,
    /// What is asked.
    #[prop(into)]
    label: String,
    /// The length as it stands, typed; empty if there is none.
    #[prop(into)]
    text: Signal<String>,
    /// Called with what was typed or stepped to, unit and all.
    set: Callback<String>,
) -> impl IntoView {
    let kept = kept();
    let length = move |text: &str| read_length(text, kept.unit_now()).ok();
    let step = move |steps: i32| {
        let now = length(&text.get_untracked()).unwrap_or(Length::ZERO);
        let unit = kept.unit_now();
        set.run(now.stepped(unit, steps).shown(unit));
    };
    let shown = move || {
        let (text, unit) = (text.get(), kept.unit());
        length(&text).map_or(text, |length| length.shown(unit))
    };
    view! {
        <div class="length-field">
            <label for=id.clone()>{label.clone()}</label>
            <div class="stepper">
                <button type="button" on:click=move |_| step(-1)>
                    <span aria-hidden="true">"−"</span><span class="visually-hidden">"Shorter"</span>
                </button>
                <input
                    type="text"
                    id=id
                    autocomplete="off"
                    placeholder=move || kept.unit().mark()
                    prop:value=shown
                    on:change=move |ev| set.run(with_unit(&event_target_value(&ev), kept.unit_now()))
                />
                <button type="button" on:click=move |_| step(1)>
                    <span aria-hidden="true">"+"</span><span class="visually-hidden">"Longer"</span>
                </button>
            </div>
        </div>
    }
}
