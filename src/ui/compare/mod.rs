//! Two plans beside or over each other, before and after, plan and result, left and right: the hair let
//! down, and the lengths at named places.

use super::edit::Letting;
use super::frame::{Stage, Stages, titled, with_cut};
use super::grow::begins_with;
use super::kept::kept;
use super::parts::{Options, Outlined, Pick, key_line, one_outlined, view_of, views, wrong};
use super::words;
use crate::book::{Ready, SavedCut};
use crate::chart::{Against, Draped, OutlineChart};
use crate::cut::{Apart, Measured, Outcome, PlaceLength, Summary, before};
use crate::fall::sharpness;
use crate::head::Side;
use crate::measure::Unit;
use crate::plan::{Choices, built_ins};
use crate::walk::Walk;
use crate::words::tr;
use leptos::prelude::*;
use leptos_router::components::A;
use std::sync::{Arc, OnceLock};

/// What may be laid beside each other.
#[derive(Clone, Debug, PartialEq)]
enum Shown {
    /// The hair before the cut.
    Before,
    /// This cut's plan as it stands.
    Now,
    /// What the chair made of it.
    AsCut,
    /// The built-in plan that it began with, nothing chosen in it.
    AsItCame,
    /// The other side of what it is laid against, in a mirror.
    OtherSide,
    /// Another saved cut, on its own head.
    Other(String),
    /// A built-in cut on this head.
    BuiltIn(String),
}

/// One of the two, worked out and let down.
struct Look {
    ready: Ready,
    outcome: Outcome,
    letting: Letting,
    summary: Summary,
    draped: OnceLock<Result<Draped, String>>,
}

type Looked = Arc<Result<Look, String>>;

/// Two plans beside each other.
#[component]
pub fn CompareScreen() -> impl IntoView {
    titled(tr("Compare"));
    with_cut(|cut| view! { <CompareForm cut/> })
}

/// Everything that may be shown, with its words.
fn offers(cut: &SavedCut) -> Vec<(Shown, String)> {
    let mut all = vec![
        (Shown::Before, hair_before(cut)),
        (Shown::Now, tr("This plan, as it is now").to_owned()),
        (Shown::AsItCame, tr("The same cut, as it came").to_owned()),
    ];
    if cut.walk.as_ref().is_some_and(Walk::has_cut) {
        all.push((Shown::AsCut, tr("This plan, as it was cut").to_owned()));
    }
    let others = kept().lines().unwrap_or_default();
    // Ids begin with the time: the latest first.
    let others = others.iter().rev().filter(|line| line.id != cut.id);
    let seen = kept().settings_now().seen;
    all.extend(others.map(|line| {
        // A title may be somebody's name.
        let words = match seen {
            true => tr!("Saved, {}", words::day(&line.day)),
            false => tr!("{}, saved", line.title),
        };
        (Shown::Other(line.id.clone()), words)
    }));
    all.extend(built_ins().into_iter().map(|plan| {
        let plan = plan.said(kept().usage_now());
        (Shown::BuiltIn(plan.id), tr!("{}, on this head", plan.name))
    }));
    all
}

/// The name of the hair before: also how the last visit left it, where that tells it.
fn hair_before(cut: &SavedCut) -> String {
    match begins_with(cut, kept().unit_now()) {
        Some(left) => tr!("The hair before. {left}", left),
        None => tr("The hair before").to_owned(),
    }
}

impl Look {
    /// Works one out, or says why it can't be.
    fn at(cut: &SavedCut, shown: &Shown) -> Result<Self, String> {
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
            Shown::AsItCame => of_plan(&cut.plan)?,
            Shown::BuiltIn(id) => of_plan(id)?,
            Shown::Other(id) => of(&kept().store().load(id).map_err(|e| e.to_string())?)?,
            _ => of(cut)?,
        };
        let job = ready.job();
        let outcome = match (shown, &cut.walk) {
            (Shown::Before, _) => before(&job),
            (Shown::AsCut, Some(walk)) => ready.followed(walk).map_err(|e| e.to_string())?,
            _ => ready.outcome(&Measured::new()).map_err(|e| e.to_string())?,
        };
        let letting = Letting::of(&job, &outcome).map_err(|e| e.to_string())?;
        let summary = outcome
            .summary(&job, letting.down())
            .map_err(|e| e.to_string())?;
        Ok(Self {
            ready,
            outcome,
            letting,
            summary,
            draped: OnceLock::new(),
        })
    }

    /// It let down for its outline, the first time that is asked for.
    fn draped(&self) -> Result<&Draped, String> {
        let drape = || Draped::of(&self.ready.job(), &self.outcome).map_err(|e| e.to_string());
        self.draped
            .get_or_init(drape)
            .as_ref()
            .map_err(Clone::clone)
    }
}

#[component]
fn CompareForm(cut: RwSignal<SavedCut>) -> impl IntoView {
    let kept = kept();
    let id = cut.with_untracked(|cut| cut.id.clone());
    let firsts = cut.with_untracked(offers);
    let mut seconds = firsts.clone();
    seconds.insert(
        3,
        (
            Shown::OtherSide,
            tr("The other side of One, mirrored").to_owned(),
        ),
    );
    let names =
        |all: &[(Shown, String)]| all.iter().map(|(_, name)| name.clone()).collect::<Vec<_>>();
    let (first_names, second_names) = (names(&firsts), names(&seconds));
    let (firsts, seconds) = (StoredValue::new(firsts), StoredValue::new(seconds));
    let changed = cut.with_untracked(|cut| cut.own.is_some() || cut.choices != Choices::default());
    // What was changed against what it came as; else what is cut against what was there.
    let one = RwSignal::new(if changed { 2_usize } else { 0 });
    let two = RwSignal::new(1_usize);
    let view = RwSignal::new("left".to_owned());
    let over = RwSignal::new("beside".to_owned());
    let shown = |all: StoredValue<Vec<(Shown, String)>>, which: usize| {
        all.with_value(|all| all.get(which).cloned())
            .unwrap_or((Shown::Now, String::new()))
    };
    let looked = move |all, which: RwSignal<usize>| {
        let look = move |_: Option<&Looked>| {
            let (shown, _) = shown(all, which.get());
            Arc::new(cut.with(|cut| Look::at(cut, &shown)))
        };
        // Whatever it is read from, it is worked out anew.
        Memo::new_with_compare(look, |_, _| true)
    };
    let (look_one, look_two) = (looked(firsts, one), looked(seconds, two));
    let laid = vec![
        ("beside".to_owned(), tr("Side by side").to_owned()),
        ("over".to_owned(), tr("Over each other").to_owned()),
    ];
    let pictures = move || -> Result<AnyView, String> {
        let unit = kept.unit();
        let a = look_one.get();
        let a = a.as_ref().as_ref().map_err(Clone::clone)?;
        let name_one = tr!("One: {}", shown(firsts, one.get()).1);
        let (shown_two, name_two) = shown(seconds, two.get());
        let name_two = tr!("Two: {}", name_two);
        let view = view_of(&view.read());
        if shown_two == Shown::OtherSide {
            let chart = OutlineChart {
                view,
                hair: a.draped()?,
                against: Against::OtherSide,
                unit,
            };
            let outline = one_outlined(Outlined::of(kept, &chart, &name_one, Some(&name_two), "")?);
            let places = a.outcome.at_places(&a.ready.head);
            let places = places.map_err(|e| e.to_string())?;
            return Ok(view! { {outline} {sides(&places, unit)} }.into_any());
        }
        let b = look_two.get();
        let b = b.as_ref().as_ref().map_err(Clone::clone)?;
        let apart = Apart::of(&a.summary, &b.summary, unit);
        if over.read().as_str() == "over" {
            let chart = OutlineChart {
                view,
                hair: b.draped()?,
                against: Against::Other(a.draped()?),
                unit,
            };
            let more = if chart.heads_differ() {
                tr(
                    "The heads differ: their middles lie on each other, and the head of One is dashed.",
                )
            } else {
                ""
            };
            let outline = one_outlined(Outlined::of(
                kept,
                &chart,
                &name_two,
                Some(&name_one),
                more,
            )?);
            return Ok(
                view! { <p class="told">{apart.said()}</p> {outline} {lengths(&apart, unit)} }
                    .into_any(),
            );
        }
        let lowest = a.letting.lowest(&b.letting);
        let figure = |look: &Look, name: String| {
            view! {
                <figure class="figure">
                    <div inner_html=look.letting.picture(view, lowest, &name)></div>
                    <figcaption>{name}</figcaption>
                </figure>
            }
        };
        Ok(view! {
            <p class="told">{apart.said()}</p>
            <div class="pair pictures">{figure(a, name_one)} {figure(b, name_two)}</div>
            <FallenKeys/>
            <div class="side-by-side">
                {lengths(&apart, unit)}
                {ends(&apart, [&a.summary, &b.summary], unit)}
            </div>
        }
        .into_any())
    };
    let back = format!("/cut/{id}/plan");
    let own_way = move || shown(seconds, two.get()).0 != Shown::OtherSide;
    view! {
        <Stages id here=Stage::Plan/>
        <h1>{tr("Compare")}</h1>
        <div class="pair picks">
            <Pick id="one" label=tr("One") options=first_names own=true chosen=Signal::derive(move || Some(one.get())) on_choose=Callback::new(move |i| one.set(i))/>
            <Pick id="two" label=tr("Two") options=second_names own=true chosen=Signal::derive(move || Some(two.get())) on_choose=Callback::new(move |i| two.set(i))/>
        </div>
        <div class="outline-choices">
            <Options ask=tr("Seen from") name="seen" options=views() chosen=view on_choose=Callback::new(move |v| view.set(v))/>
            {move || own_way().then(|| view! {
                <Options ask=tr("Shown as") name="laid" options=laid.clone() chosen=over on_choose=Callback::new(move |v| over.set(v))/>
            })}
        </div>
        {move || pictures().unwrap_or_else(wrong)}
        <div class="actions">
            <A href=back attr:class="button main">{tr("Back to the plan")}</A>
        </div>
    }
}

/// What the lines of hair let down mean.
#[component]
fn FallenKeys() -> impl IntoView {
    view! {
        <ul class="key" aria-label=tr("What the lines mean")>
            {key_line("d-hairs", "M4 2 V14 M12 2 V14 M20 2 V14 M28 2 V14 M36 2 V14", tr("Hair, let down and dry"))}
            {key_line("d-ends", "M40 4 h-28 M40 12 h-16", tr("How much of it ends at a height"))}
            {key_line("d-weight", "M1 8 H39", tr("Where most ends lie"))}
        </ul>
    }
}

/// The lengths of both, place by place.
fn lengths(apart: &Apart, unit: Unit) -> impl IntoView + use<> {
    let lengths = apart.places.iter().map(|(a, b)| {
        view! {
            <tr>
                <th scope="row">{a.place.name()}</th>
                <td class="number">{a.cut.0.number(unit)}</td>
                <td class="number">{b.cut.0.number(unit)}</td>
                <td class="number">{words::difference(a.cut.0, b.cut.0, unit)}</td>
            </tr>
        }
    });
    view! {
        <table>
            <caption>{tr!("How long the hair of a place is, as cut, in {}. Points beside the middle are on the client’s left.", unit.word())}</caption>
            <thead><tr>
                <th scope="col">{tr("Place")}</th>
                <th scope="col" class="number">{tr("One")}</th>
                <th scope="col" class="number">{tr("Two")}</th>
                <th scope="col" class="number">{tr("Difference")}</th>
            </tr></thead>
            <tbody>{lengths.collect_view()}</tbody>
        </table>
    }
}

/// The lengths of left and right, at the places that have two sides.
fn sides(places: &[PlaceLength], unit: Unit) -> impl IntoView + use<> {
    // A place's right side stands right after its left.
    let pairs = places.windows(2).filter(|two| two[1].side == Side::Right);
    let rows = pairs.map(|two| {
        view! {
            <tr>
                <th scope="row">{two[0].place.name()}</th>
                <td class="number">{two[0].cut.0.number(unit)}</td>
                <td class="number">{two[1].cut.0.number(unit)}</td>
                <td class="number">{words::difference(two[0].cut.0, two[1].cut.0, unit)}</td>
            </tr>
        }
    });
    view! {
        <table>
            <caption>{tr!("How long the hair of a place is on either side, as cut, in {}.", unit.word())}</caption>
            <thead><tr>
                <th scope="col">{tr("Place")}</th>
                <th scope="col" class="number">{tr("Left")}</th>
                <th scope="col" class="number">{tr("Right")}</th>
                <th scope="col" class="number">{tr("Right is")}</th>
            </tr></thead>
            <tbody>{rows.collect_view()}</tbody>
        </table>
    }
}

/// The levels of both, place by place.
fn ends(apart: &Apart, both: [&Summary; 2], unit: Unit) -> impl IntoView + use<> {
    let ends = apart.places.iter().map(|(a, b)| {
        view! {
            <tr>
                <th scope="row">{a.place.name()}</th>
                <td>{a.ends.said(unit)}</td>
                <td>{b.ends.said(unit)}</td>
            </tr>
        }
    });
    let weight = |s: &Summary| {
        s.weight
            .map(|(l, sharp)| format!("{}, {}", l.said(unit), sharpness(sharp)))
    };
    view! {
        <table class="ends">
            <caption>{tr("Where it ends, let down and dry")}</caption>
            <thead><tr>
                <th scope="col">{tr("Place")}</th>
                <th scope="col">{tr("One")}</th>
                <th scope="col">{tr("Two")}</th>
            </tr></thead>
            <tbody>
                <tr class="weight-row">
                    <th scope="row">{tr("Weight")}</th>
                    {both.map(|of| view! { <td>{weight(of)}</td> }).into_iter().collect_view()}
                </tr>
                {ends.collect_view()}
            </tbody>
        </table>
    }
}
