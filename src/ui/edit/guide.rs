//! What guides a step: how it is held, where a guide stands, what settles its length.

use super::desk::Desk;
use super::fields::{length, only, pick};
use super::names;
use crate::head::Landmark;
use crate::measure::{Length, read_change, read_length};
use crate::plan::{Carried, Given, Held, Plan, Rule, Station, Step};
use crate::ui::kept::kept;
use crate::ui::parts::{LengthField, Pick, Question, fault_said};
use crate::words::{noted, tr};
use leptos::prelude::*;

/// Places a stationary guide may stand at.
const STATIONS: [Station; 10] = [
    Station::Parting,
    Station::EarToEar,
    Station::FirstSection,
    Station::AlongFirst,
    Station::At(Landmark::HighPoint),
    Station::At(Landmark::Crown),
    Station::At(Landmark::FrontHairline),
    Station::At(Landmark::AboveEar),
    Station::At(Landmark::BehindEar),
    Station::At(Landmark::Occipital),
];

/// Landmarks that hair may fall or be cut to.
pub const LEVELS: [Landmark; 9] = Landmark::LEVELS;

fn station(step: &Step) -> Option<Station> {
    match &step.held {
        Held::Stationary(cut) => Some(cut.station),
        _ => None,
    }
}

/// What guides the open step.
#[component]
pub fn GuideForm(desk: Desk) -> impl IntoView {
    let texts = |all: &[&str]| all.iter().map(|t| tr(t).to_owned()).collect::<Vec<_>>();
    let stations = STATIONS.map(names::station).to_vec();
    view! {
        {pick(desk, "hold-kind", tr("How it is held"), texts(&names::HOLDS),
            |step| Some(names::hold_place(&step.held)),
            |step, i| step.held = step.held.as_kind(i))}
        {only(desk, |step| matches!(step.held, Held::Stationary(_)), move || pick(
            desk, "station", tr("Where the guide stays"), stations.clone(),
            |step| STATIONS.iter().position(|s| Some(*s) == station(step)),
            |step, i| if let Held::Stationary(cut) = &mut step.held { cut.station = STATIONS[i] }))}
        {only(desk, |step| matches!(step.held, Held::Travelling(_)), move || pick(
            desk, "carried", tr("What travels"), texts(&[noted("A little of the section before"), noted("The first guide, to the end")]),
            |step| match &step.held {
                Held::Travelling(t) => Some(usize::from(t.guide == Carried::First)),
                _ => None,
            },
            |step, i| if let Held::Travelling(t) = &mut step.held {
                t.guide = if i == 1 { Carried::First } else { Carried::Neighbour };
            }))}
        {only(desk, |step| step.held.rule().is_some(), move || view! { <RuleForm desk/> }.into_any())}
        {only(desk, |step| matches!(step.held, Held::Fall(_)), move || view! {
            <LandmarkOf desk id="falls-to" label=tr("Falls to the level of") of=fall_to set=set_fall_to/>
            <LengthOf desk id="below" label=tr("Lower than that by") signed=true of=below set=set_below/>
        }.into_any())}
        {only(desk, |step| matches!(step.held, Held::Trim(_)), move || view! {
            <LengthOf desk id="trim-off" label=tr("How much comes off") signed=false of=trim_off set=set_trim_off/>
        }.into_any())}
        {only(desk, |step| matches!(step.held, Held::Taper(_)), move || view! {
            <LengthOf desk id="taper-from" label=tr("How long at the hairline") signed=false of=taper_from set=set_taper_from/>
            <LengthOf desk id="taper-to" label=tr("Rising to") signed=false of=taper_to set=set_taper_to/>
            {length(desk, "taper-rise", tr("Longer with each cm up, by"), false,
                |step| match &step.held { Held::Taper(t) => Some(t.rise), _ => None },
                |step, to| if let Held::Taper(t) = &mut step.held { t.rise = to })}
        }.into_any())}
        {only(desk, |step| step.held.cuts() && !matches!(step.held, Held::Trim(_) | Held::Taper(_)), move || length(
            desk, "longer", tr("Leave it longer than the guide by"), true,
            |step| Some(step.longer),
            |step, to| step.longer = to))}
    }
}

/// What settles the guide's length.
#[component]
fn RuleForm(desk: Desk) -> impl IntoView {
    // The steps it may follow, by id and title.
    let earlier = move || desk.earlier();
    let options = move || {
        let own = [
            tr("A length"),
            tr("Ends at a landmark, let down"),
            tr("So much off"),
            tr("As the hair beside it"),
        ];
        let mut all: Vec<String> = own.map(str::to_owned).into();
        all.extend(
            earlier()
                .into_iter()
                .map(|(_, title)| tr!("As long as “{title}” left it", title)),
        );
        all
    };
    let chosen = Signal::derive(move || {
        desk.of_step(|_, step| step.held.rule().cloned())
            .flatten()
            .and_then(|rule| match rule {
                Rule::Length(_) => Some(0),
                Rule::EndsAt(_) => Some(1),
                Rule::AmountOff(_) => Some(2),
                Rule::Beside => Some(3),
                Rule::AsStep(id) => earlier().iter().position(|(s, _)| *s == id).map(|i| i + 4),
            })
    });
    let choose = Callback::new(move |i: usize| {
        let named = untrack(earlier)
            .get(i.wrapping_sub(4))
            .map(|(id, _)| id.clone());
        desk.change_step(|step| {
            if let Some(rule) = step.held.rule_mut() {
                *rule = match (i, named) {
                    (0, _) => Rule::Length(Given::Fixed(12.0)),
                    (1, _) => Rule::EndsAt(Given::Fixed(Landmark::Chin)),
                    (2, _) => Rule::AmountOff(Given::Fixed(2.0)),
                    (_, Some(id)) => Rule::AsStep(id),
                    _ => Rule::Beside,
                };
            }
        });
    });
    // The list is made anew only when the steps before change.
    let listed = Memo::new(move |_| options());
    view! {
        {move || view! { <Pick id="rule" label=tr("How long the guide is") options=listed.get() chosen on_choose=choose/> }}
        {only(desk, |step| matches!(step.held.rule(), Some(Rule::Length(_) | Rule::AmountOff(_))), move || view! {
            <LengthOf desk id="guide-length" label=tr("That much") signed=false of=rule_length set=set_rule_length/>
        }.into_any())}
        {only(desk, |step| matches!(step.held.rule(), Some(Rule::EndsAt(_))), move || view! {
            <LandmarkOf desk id="guide-ends" label=tr("Ends at the level of") of=rule_landmark set=set_rule_landmark/>
        }.into_any())}
    }
}

fn rule_length(step: &Step) -> Option<&Given<f64>> {
    match step.held.rule()? {
        Rule::Length(given) | Rule::AmountOff(given) => Some(given),
        _ => None,
    }
}

fn set_rule_length(step: &mut Step, cm: f64) {
    if let Some(Rule::Length(given) | Rule::AmountOff(given)) = step.held.rule_mut() {
        *given = Given::Fixed(cm);
    }
}

fn rule_landmark(step: &Step) -> Option<&Given<Landmark>> {
    match step.held.rule()? {
        Rule::EndsAt(given) => Some(given),
        _ => None,
    }
}

fn set_rule_landmark(step: &mut Step, to: Landmark) {
    if let Some(Rule::EndsAt(given)) = step.held.rule_mut() {
        *given = Given::Fixed(to);
    }
}

fn fall_to(step: &Step) -> Option<&Given<Landmark>> {
    match &step.held {
        Held::Fall(fall) => Some(&fall.to),
        _ => None,
    }
}

fn set_fall_to(step: &mut Step, to: Landmark) {
    if let Held::Fall(fall) = &mut step.held {
        fall.to = Given::Fixed(to);
    }
}

fn below(step: &Step) -> Option<&Given<f64>> {
    match &step.held {
        Held::Fall(fall) => Some(&fall.below),
        _ => None,
    }
}

fn set_below(step: &mut Step, cm: f64) {
    if let Held::Fall(fall) = &mut step.held {
        fall.below = Given::Fixed(cm);
    }
}

fn trim_off(step: &Step) -> Option<&Given<f64>> {
    match &step.held {
        Held::Trim(trim) => Some(&trim.off),
        _ => None,
    }
}

fn set_trim_off(step: &mut Step, cm: f64) {
    if let Held::Trim(trim) = &mut step.held {
        trim.off = Given::Fixed(cm);
    }
}

fn taper_from(step: &Step) -> Option<&Given<f64>> {
    match &step.held {
        Held::Taper(taper) => Some(&taper.hairline),
        _ => None,
    }
}

fn set_taper_from(step: &mut Step, cm: f64) {
    if let Held::Taper(taper) = &mut step.held {
        taper.hairline = Given::Fixed(cm);
    }
}

fn taper_to(step: &Step) -> Option<&Given<f64>> {
    match &step.held {
        Held::Taper(taper) => Some(&taper.up_to),
        _ => None,
    }
}

fn set_taper_to(step: &mut Step, cm: f64) {
    if let Held::Taper(taper) = &mut step.held {
        taper.up_to = Given::Fixed(cm);
    }
}

/// The choice of this id, asked as the plan asks it.
fn asked(desk: Desk, plan: Plan, id: &str) -> AnyView {
    let choice = plan.choices.iter().find(|c| c.id == id).cloned();
    let choice = choice.map(|mut choice| {
        choice.ask = kept().said(&choice.ask);
        choice
    });
    let plan = StoredValue::new(plan);
    match choice {
        Some(choice) => view! { <Question cut=desk.cut plan choice/> }.into_any(),
        None => ().into_any(),
    }
}

/// A length that stands in the step, or that the plan asks for.
#[component]
fn LengthOf(
    desk: Desk,
    id: &'static str,
    label: &'static str,
    signed: bool,
    of: fn(&Step) -> Option<&Given<f64>>,
    set: fn(&mut Step, f64),
) -> impl IntoView {
    let kept = kept();
    let asks = Memo::new(move |_| {
        desk.of_step(|_, step| match of(step) {
            Some(Given::Choice(id)) => Some(id.clone()),
            _ => None,
        })
        .flatten()
    });
    let text = Signal::derive(move || {
        desk.unread(id).unwrap_or_else(|| {
            let cm = desk.of_step(|_, step| match of(step) {
                Some(Given::Fixed(cm)) => *cm,
                _ => 0.0,
            });
            Length::from_cm(cm.unwrap_or(0.0)).shown(kept.unit())
        })
    });
    let read = if signed { read_change } else { read_length };
    let fault = move || {
        read(&desk.unread(id)?, kept.unit())
            .err()
            .map(|why| why.to_string())
    };
    let write = Callback::new(move |text: String| match read(&text, kept.unit_now()) {
        Ok(length) => {
            desk.set_unread(id, None);
            desk.change_step(|step| set(step, length.cm()));
        }
        Err(_) => desk.set_unread(id, Some(text)),
    });
    view! {
        {move || match asks.get() {
            Some(choice) => asked(desk, untrack(move || desk.plan()), &choice),
            None => view! { <LengthField id=id.to_owned() label text set=write signed/> }.into_any(),
        }}
        {fault_said(fault)}
    }
}

/// A landmark that stands in the step, or that the plan asks for.
#[component]
fn LandmarkOf(
    desk: Desk,
    id: &'static str,
    label: &'static str,
    of: fn(&Step) -> Option<&Given<Landmark>>,
    set: fn(&mut Step, Landmark),
) -> impl IntoView {
    let given = Memo::new(move |_| desk.of_step(|_, step| of(step).cloned()).flatten());
    let chosen = Signal::derive(move || match given.get() {
        Some(Given::Fixed(landmark)) => LEVELS.iter().position(|l| *l == landmark),
        _ => None,
    });
    let choose = Callback::new(move |i: usize| desk.change_step(|step| set(step, LEVELS[i])));
    let options = || LEVELS.map(|l| l.name().to_owned()).to_vec();
    let asks = Memo::new(move |_| match given.get() {
        Some(Given::Choice(id)) => Some(id),
        _ => None,
    });
    move || match asks.get() {
        Some(choice) => asked(desk, untrack(move || desk.plan()), &choice),
        None => view! { <Pick id label options=options() chosen on_choose=choose/> }.into_any(),
    }
}
