//! Two plans side by side, or before and after: the hair let down, and the lengths at named places.

use super::edit::Letting;
use super::frame::{Stage, Stages, titled, with_cut};
use super::kept::kept;
use super::parts::{Options, Pick};
use super::words;
use crate::chart::View;
use crate::cut::{Measured, Summary, before};
use crate::measure::Unit;
use crate::plan::{Choices, built_ins};
use crate::store::{Listed, Ready, SavedCut};
use leptos::prelude::*;
use leptos_router::components::A;

/// What may be laid side by side.
#[derive(Clone, Debug, PartialEq)]
enum Shown {
    /// The hair before the cut.
    Before,
    /// This cut's plan as it stands.
    Now,
    /// The built-in plan that it began with, nothing chosen in it.
    AsItCame,
    /// Another saved cut, on its own head.
    Other(String),
    /// A built-in cut on this head.
    BuiltIn(String),
}

/// One side: its name and what it comes to.
#[derive(Clone)]
struct SideShown {
    letting: Letting,
    summary: Summary,
}

/// Two plans side by side.
#[component]
pub fn CompareScreen() -> impl IntoView {
    titled("Compare");
    with_cut(|cut| view! { <CompareForm cut/> })
}

/// Everything that may be shown, with its words.
fn offers(cut: &SavedCut) -> Vec<(Shown, String)> {
    let mut all = vec![
        (Shown::Before, "The hair before".to_owned()),
        (Shown::Now, "This plan, as it is now".to_owned()),
        (Shown::AsItCame, "The same cut, as it came".to_owned()),
    ];
    let others = kept().store().list().unwrap_or_default();
    all.extend(others.into_iter().filter_map(|listed| match listed {
        Listed::Cut(other) if other.id != cut.id => {
            Some((Shown::Other(other.id), format!("{}, saved", other.title)))
        }
        _ => None,
    }));
    all.extend(built_ins().into_iter().map(|plan| {
        (
            Shown::BuiltIn(plan.id),
            format!("{}, on this head", plan.name),
        )
    }));
    all
}

/// One side worked out, or why it can't be.
fn look(cut: &SavedCut, shown: &Shown) -> Result<SideShown, String> {
    let of = |cut: &SavedCut| cut.ready().map_err(|e| e.to_string());
    let of_plan = |id: &str| -> Result<Ready, String> {
        of(&SavedCut {
            plan: id.to_owned(),
            own: None,
            choices: Choices::default(),
            ..cut.clone()
        })
    };
    let ready = match shown {
        Shown::Before | Shown::Now => of(cut)?,
        Shown::AsItCame => of_plan(&cut.plan)?,
        Shown::BuiltIn(id) => of_plan(id)?,
        Shown::Other(id) => of(&kept().store().load(id).map_err(|e| e.to_string())?)?,
    };
    let job = ready.job();
    let outcome = match shown {
        Shown::Before => before(&job),
        _ => ready.outcome(&Measured::new()).map_err(|e| e.to_string())?,
    };
    let letting = Letting::of(&job, &outcome).map_err(|e| e.to_string())?;
    let summary = outcome
        .summary(&job, letting.down())
        .map_err(|e| e.to_string())?;
    Ok(SideShown { letting, summary })
}

#[component]
fn CompareForm(cut: RwSignal<SavedCut>) -> impl IntoView {
    let kept = kept();
    let id = cut.with_untracked(|cut| cut.id.clone());
    let offered = StoredValue::new(cut.with_untracked(offers));
    let changed = cut.with_untracked(|cut| cut.own.is_some() || cut.choices != Choices::default());
    // What was changed against what it came as; else what is cut against what was there.
    let one = RwSignal::new(if changed { 2_usize } else { 0 });
    let two = RwSignal::new(1_usize);
    let view = RwSignal::new(View::Left);
    let look_at = move |which: RwSignal<usize>| {
        let shown = offered.with_value(|all| all.get(which.get()).map(|(shown, _)| shown.clone()));
        shown.map_or(Err(String::new()), |shown| {
            cut.with(|cut| look(cut, &shown))
        })
    };
    let sides = move || (look_at(one), look_at(two));
    let names =
        offered.with_value(|all| all.iter().map(|(_, name)| name.clone()).collect::<Vec<_>>());
    let name_of = move |which: RwSignal<usize>| {
        offered.with_value(|all| all.get(which.get()).map(|(_, name)| kept.said(name)))
    };
    let views = vec![
        ("side".to_owned(), "From the side".to_owned()),
        ("back".to_owned(), "From the back".to_owned()),
    ];
    let chosen = Signal::derive(move || {
        if view.get() == View::Back {
            "back"
        } else {
            "side"
        }
        .to_owned()
    });
    let choose = Callback::new(move |v: String| {
        view.set(if v == "back" { View::Back } else { View::Left });
    });
    let back = format!("/cut/{id}/plan");
    view! {
        <Stages id here=Stage::Plan/>
        <h1>"Compare"</h1>
        <div class="pair picks">
            <Pick id="one" label="One" options=names.clone() chosen=Signal::derive(move || Some(one.get())) on_choose=Callback::new(move |i| one.set(i))/>
            <Pick id="two" label="Two" options=names chosen=Signal::derive(move || Some(two.get())) on_choose=Callback::new(move |i| two.set(i))/>
        </div>
        <Options ask="Seen" name="seen" options=views chosen on_choose=choose/>
        {move || {
            let unit = kept.unit();
            match sides() {
                (Ok(a), Ok(b)) => {
                    let lowest = a.letting.lowest(&b.letting);
                    let figure = |side: &SideShown, name: Option<String>| view! {
                        <figure class="figure">
                            <div inner_html=side.letting.picture(view.get(), lowest, &name.clone().unwrap_or_default())></div>
                            <figcaption>{name}</figcaption>
                        </figure>
                    };
                    view! {
                        <div class="pair pictures">
                            {figure(&a, name_of(one).map(|n| format!("One: {n}")))}
                            {figure(&b, name_of(two).map(|n| format!("Two: {n}")))}
                        </div>
                        {tables(&a.summary, &b.summary, unit)}
                    }
                    .into_any()
                }
                (Err(why), _) | (_, Err(why)) => {
                    view! { <p class="note warn" role="alert">{why}</p> }.into_any()
                }
            }
        }}
        <div class="actions">
            <A href=back attr:class="button main">"Back to the plan"</A>
        </div>
    }
}

/// Lengths and levels of both, place by place.
fn tables(a: &Summary, b: &Summary, unit: Unit) -> impl IntoView {
    let lengths = a.places.iter().zip(&b.places).map(|(a, b)| {
        view! {
            <tr>
                <th scope="row">{words::landmark(a.place)}</th>
                <td class="number">{a.cut.0.number(unit)}</td>
                <td class="number">{b.cut.0.number(unit)}</td>
                <td class="number">{words::difference(b.longer_than(a), unit)}</td>
            </tr>
        }
    });
    let level = |l: &crate::cut::Level| words::lies(l, unit);
    let ends = a.places.iter().zip(&b.places).map(|(a, b)| {
        view! {
            <tr>
                <th scope="row">{words::landmark(a.place)}</th>
                <td>{level(&a.ends)}</td>
                <td>{level(&b.ends)}</td>
            </tr>
        }
    });
    let weight = |s: &Summary| {
        s.weight
            .map(|(l, sharp)| format!("{}, {}", level(&l), words::sharpness(sharp)))
    };
    view! {
        <div class="side-by-side">
            <table>
                <caption>{format!("How long the hair of a place is, as cut, in {}. Points beside the middle are on the client’s left.", unit.mark())}</caption>
                <thead><tr>
                    <th scope="col">"Place"</th>
                    <th scope="col" class="number">"One"</th>
                    <th scope="col" class="number">"Two"</th>
                    <th scope="col" class="number">"Change"</th>
                </tr></thead>
                <tbody>{lengths.collect_view()}</tbody>
            </table>
            <table class="ends">
                <caption>"Where it ends, let down and dry"</caption>
                <thead><tr>
                    <th scope="col">"Place"</th>
                    <th scope="col">"One"</th>
                    <th scope="col">"Two"</th>
                </tr></thead>
                <tbody>
                    <tr class="weight-row">
                        <th scope="row">"Weight"</th>
                        <td>{weight(a)}</td>
                        <td>{weight(b)}</td>
                    </tr>
                    {ends.collect_view()}
                </tbody>
            </table>
        </div>
    }
}
