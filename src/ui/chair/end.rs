//! The end: what was cut against what was planned.

use crate::book::{Ready, SavedCut};
use crate::chart::{ContourMap, Lines, section_bars, section_chart};
use crate::cut::{Outcome, PlaceLength};
use crate::measure::Unit;
use crate::plan::Plan;
use crate::ui::frame::{HOME, Stage, Stages, titled, with_cut};
use crate::ui::grow::{Outlook, Repeat};
use crate::ui::kept::{kept, now};
use crate::ui::parts::{
    Column, ContourKeys, Legend, Picture, PlaceTable, SectionKeys, Turns, wrong,
};
use crate::ui::prepare::worked_out;
use crate::ui::words;
use crate::walk::{Row, Spent, Walk, clock, compare, order};
use crate::words::{tr, tr_in};
use leptos::prelude::*;
use leptos_router::components::A;

/// The end of one cut.
#[component]
pub fn EndScreen() -> impl IntoView {
    titled(tr("Planned and cut"));
    with_cut(|cut| {
        let (id, finished) = cut.with_untracked(|cut| (cut.id.clone(), cut.finished()));
        let turns = Turns::new(10);
        let again = format!("/cut/{id}/walk");
        let pictures = format!("/cut/{id}/see/outline");
        let pass = format!("/cut/{id}/pass");
        let check = format!("/cut/{id}/judge");
        view! {
            <Stages id here=Stage::Chair/>
            <h1>{tr("Planned and cut")}</h1>
            {turns.at(1, move || match cut.with_untracked(|cut| worked_out(kept(), cut)) {
                Ok(of) => {
                    let of = StoredValue::new(of);
                    turns.at(2, move || {
                        let (ready, planned) = of.get_value();
                        match cut.with_untracked(|cut| looked_back(cut, ready, planned)) {
                            Ok(looked) => view! { <LookBack cut looked turns/> }.into_any(),
                            Err(why) => wrong(why),
                        }
                    })
                }
                Err(why) => wrong(why),
            })}
            {turns.at(8, move || view! { <Outlook cut/> }.into_any())}
            {turns.at(10, move || view! { <Repeat cut=cut.get_untracked()/> }.into_any())}
            <div class="actions">
                {finished.then(|| view! {
                    <A href=HOME exact=true attr:class="button main">{tr("Your cuts")}</A>
                })}
                <A href=check attr:class="button">{tr("Check it yourself")}</A>
                {finished.then(|| view! {
                    <A href=again attr:class="button">{tr("Back to the chair")}</A>
                })}
                <A href=pictures attr:class="button">{tr("Pictures")}</A>
                <A href=pass attr:class="button">{tr("Pass the plan on")}</A>
            </div>
        }
    })
}

/// What a walk came to.
struct Looked {
    plan: Plan,
    rows: Vec<Row>,
    took: String,
    /// The section that is due, counted from 1, and how many there are; none where all are done.
    due: Option<(usize, usize)>,
    /// What came out otherwise.
    map: Changes,
}

/// What came out otherwise than planned, all over.
struct Changes {
    ready: Ready,
    planned: Outcome,
    cut: Outcome,
}

fn looked_back(cut: &SavedCut, ready: Ready, planned: Outcome) -> Result<Looked, String> {
    let walk = cut.walk.clone().unwrap_or_default();
    let real = ready.followed(&walk).map_err(|e| e.to_string())?;
    let rows = compare(&planned, &real, &walk);
    let keys = order(&real);
    let spent = Spent::of(
        &walk,
        &ready.plan,
        &real,
        &walk.finished_at.clone().unwrap_or_else(now),
    );
    Ok(Looked {
        plan: ready.plan.clone(),
        rows,
        took: clock(spent.total),
        due: walk.current(&keys).map(|place| (place + 1, keys.len())),
        map: Changes {
            ready,
            planned,
            cut: real,
        },
    })
}

#[component]
fn LookBack(cut: RwSignal<SavedCut>, looked: Looked, turns: Turns) -> impl IntoView {
    let kept = kept();
    let Looked {
        plan,
        rows,
        took,
        due,
        map,
    } = looked;
    let map = StoredValue::new(map);
    // No names before the client.
    let title = (!kept.settings_now().seen).then(|| {
        view! { <strong>{cut.with_untracked(|cut| cut.title.clone())}</strong> <br/> }
    });
    let finished = cut.with_untracked(|cut| {
        cut.walk
            .as_ref()
            .and_then(|walk: &Walk| walk.finished_at.as_deref().map(words::day))
    });
    let when = finished.map_or(tr("Not finished yet").to_owned(), |day| {
        tr!("Finished on {day}", day)
    });
    let go_on = due.map(|(place, count)| {
        let again = cut.with_untracked(|cut| format!("/cut/{}/walk", cut.id));
        view! {
            <p class="lede">{tr!("Section {place} of {count} comes next.", place, count)}</p>
            <div class="actions">
                <A href=again attr:class="button main">{tr!("Go on at section {place}", place)}</A>
            </div>
        }
    });
    let rows = StoredValue::new(rows);
    let bars = map.with_value(|map| rows.with_value(|rows| section_bars(&map.planned, rows)));
    let drawn = Memo::new(move |_| {
        section_chart(
            &bars,
            kept.unit(),
            tr("Planned and cut along the head"),
            tr(
                "Each section's planned lengths as a bar and what it was cut at as a dot. The same numbers stand in the table.",
            ),
        )
    });
    let titles: Vec<(String, String)> = plan
        .steps
        .iter()
        .map(|step| (step.id.clone(), step.title.clone()))
        .collect();
    let table = move || {
        let unit = kept.unit();
        let line = |row: &Row| {
            let cut = row
                .cut
                .map(|cut| cut.number(unit))
                .unwrap_or(tr("not cut").to_owned());
            let difference = row.cut.map(|cut| words::difference(row.planned, cut, unit));
            view! {
                <tr>
                    <th scope="row">
                        {row.name.clone()} ", " {kept.said(row.key.side.said())}
                        {row.measured.then(|| view! { <br/><span class="soft">{tr("measured")}</span> })}
                    </th>
                    <td class="number">{row.planned.number(unit)}</td>
                    <td class="number">{cut}</td>
                    <td class="number">{difference}</td>
                </tr>
            }
        };
        titles
            .iter()
            .filter_map(|(id, title)| {
                let lines = rows.with_value(|rows| {
                    let ours = rows.iter().filter(|row| &row.key.step == id);
                    ours.map(line).collect::<Vec<_>>()
                });
                (!lines.is_empty()).then(|| view! {
                    <tbody>
                        <tr class="group"><th colspan="4" scope="rowgroup">{title.clone()}</th></tr>
                        {lines}
                    </tbody>
                })
            })
            .collect_view()
    };
    let chart = move || {
        view! {
            {move || drawn.with(|drawn| drawn.as_ref().err().map(wrong))}
            <Picture svg=Signal::derive(move || drawn.get().unwrap_or_default()) caption=tr("Longest hair of each section along the head") keep="planned-and-cut">
                <SectionKeys cut=true/>
            </Picture>
        }
        .into_any()
    };
    let table = move || {
        view! {
            <table>
                <caption>{move || tr!("Longest hair of each section, as held, in {}", kept.unit().word())}</caption>
                <thead>
                    <tr>
                        <th scope="col">{tr("Section")}</th>
                        <th scope="col" class="number">{tr("Planned")}</th>
                        <th scope="col" class="number">{tr_in("as it was cut", "Cut")}</th>
                        <th scope="col" class="number">{tr("Difference")}</th>
                    </tr>
                </thead>
                {table.clone()}
            </table>
        }
        .into_any()
    };
    view! {
        <p>{title} <span class="soft">{when} " · " {plan.name} " · " {took}</span></p>
        {go_on}
        <div class="side-by-side">
            <div>{turns.at(3, chart)}</div>
            <div class="scrolls">{turns.at(4, table)}</div>
        </div>
        <h2>{tr("The whole scalp")}</h2>
        <div class="side-by-side">
            <div>{turns.at(5, move || map.with_value(|map| changed_map(map, kept.unit())))}</div>
            {turns.at(6, move || map.with_value(|map| changed_places(map, kept.unit())))}
        </div>
    }
}

/// What came out otherwise, on the map.
fn changed_map(of: &Changes, unit: Unit) -> AnyView {
    let Changes {
        ready,
        planned,
        cut,
    } = of;
    let head = &ready.head;
    let map = ContourMap::new(
        head,
        Lines::Change { planned, cut },
        &ready.job().wear(),
        unit,
        (
            tr("What came out longer or shorter than planned, everywhere on the scalp"),
            tr(
                "The scalp from above, forehead up, the client\u{2019}s left on the left. Each line joins hair that came out the same amount longer, with a plus, or shorter, with a minus, and carries it; within a section its own amount stands. The amounts at the named places stand in the table below.",
            ),
        ),
    );
    let map = match map {
        Ok(map) => map,
        Err(why) => return wrong(why),
    };
    let caption = if map.nothing {
        tr("All of it as planned")
    } else {
        tr("From above, forehead up")
    };
    view! {
        <Picture svg=map.svg.clone() caption keep="what-came-out-otherwise">
            <ContourKeys map legend=Legend::Change/>
        </Picture>
    }
    .into_any()
}

/// The same at the named places.
fn changed_places(of: &Changes, unit: Unit) -> AnyView {
    let head = &of.ready.head;
    let (before, after) = match (of.planned.at_places(head), of.cut.at_places(head)) {
        (Ok(before), Ok(after)) => (before, after),
        (Err(why), _) | (_, Err(why)) => {
            return wrong(why);
        }
    };
    let number = |places: &[PlaceLength]| places.iter().map(|p| p.cut.0.number(unit)).collect();
    let both = before.iter().zip(&after);
    let differences = both.map(|(a, b)| words::difference(a.cut.0, b.cut.0, unit));
    let columns = vec![
        Column {
            name: tr("Planned"),
            values: number(&before),
        },
        Column {
            name: tr_in("as it was cut", "Cut"),
            values: number(&after),
        },
        Column {
            name: tr("Difference"),
            values: differences.collect(),
        },
    ];
    view! { <PlaceTable places=before columns unit/> }.into_any()
}
