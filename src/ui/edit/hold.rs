//! How a step is held: elevation, over-direction, fingers, the head's tilt.

use super::desk::Desk;
use super::fields::{degrees, only, pick};
use super::names;
use crate::head::Landmark;
use crate::learn::Idea;
use crate::plan::{Elevation, Facing, FallLine, Fingers, Held, Over, Reference, Step};
use crate::ui::parts::LearnLink;
use crate::words::{tr, tr_in};
use leptos::prelude::*;
use std::mem::discriminant;

/// Points that hair may be over-directed to.
const TOWARDS: [Landmark; 5] = [
    Landmark::FrontHairline,
    Landmark::HighPoint,
    Landmark::Crown,
    Landmark::AboveEar,
    Landmark::Occipital,
];
const FINGERS: [Fingers; 5] = [
    Fingers::ParallelToHead,
    Fingers::Rounded,
    Fingers::Level,
    Fingers::Plumb,
    Fingers::Leaning(0.0),
];
const LINES: [FallLine; 4] = [
    FallLine::Place,
    FallLine::Level,
    FallLine::Sloping(10.0),
    FallLine::Aside(15.0),
];
const FACINGS: [Facing; 5] = [
    Facing::Side,
    Facing::Back,
    Facing::Front,
    Facing::Top,
    Facing::Slope(45.0),
];

fn lift(step: &Step) -> Option<(Elevation, Over, Fingers)> {
    match &step.held {
        Held::Stationary(cut) => Some((cut.elevation, cut.over, cut.fingers)),
        Held::Travelling(travel) => Some((travel.elevation, travel.over, travel.fingers)),
        _ => None,
    }
}

fn set_lift(step: &mut Step, set: impl FnOnce(&mut Elevation, &mut Over, &mut Fingers)) {
    match &mut step.held {
        Held::Stationary(cut) => set(&mut cut.elevation, &mut cut.over, &mut cut.fingers),
        Held::Travelling(travel) => {
            set(&mut travel.elevation, &mut travel.over, &mut travel.fingers);
        }
        _ => {}
    }
}

fn fall_slope(step: &Step) -> Option<f64> {
    match &step.held {
        Held::Fall(fall) => match fall.line {
            FallLine::Sloping(degrees) | FallLine::Aside(degrees) => Some(degrees),
            _ => None,
        },
        _ => None,
    }
}

fn facing_slope(step: &Step) -> Option<f64> {
    match &step.held {
        Held::Plane(plane) => match plane.facing {
            Facing::Slope(degrees) => Some(degrees),
            _ => None,
        },
        _ => None,
    }
}

/// How the open step is held.
#[component]
pub fn HoldForm(desk: Desk) -> impl IntoView {
    let lines = LINES.map(|l| names::fall_line(l).to_owned()).to_vec();
    let facings = FACINGS.map(|f| names::facing(f).to_owned()).to_vec();
    view! {
        {only(desk, |step| lift(step).is_some(), move || view! { <LiftForm desk/> }.into_any())}
        {only(desk, |step| matches!(step.held, Held::Fall(_)), move || pick(
            desk, "fall-line", tr("The line it falls to"), lines.clone(),
            |step| match &step.held {
                Held::Fall(fall) => LINES.iter().position(|l| discriminant(l) == discriminant(&fall.line)),
                _ => None,
            },
            |step, i| if let Held::Fall(fall) = &mut step.held { fall.line = LINES[i] }))}
        {only(desk, |step| fall_slope(step).is_some(), move || degrees(
            desk, "fall-slope", tr("Lower towards the face, or away from the parting, by"), (-45, 45), fall_slope,
            |step, to| if let Held::Fall(fall) = &mut step.held {
                fall.line = match fall.line {
                    FallLine::Aside(_) => FallLine::Aside(to),
                    _ => FallLine::Sloping(to),
                };
            }))}
        {only(desk, |step| matches!(step.held, Held::Plane(_)), move || pick(
            desk, "facing", tr("The wall or floor"), facings.clone(),
            |step| match &step.held {
                Held::Plane(plane) => FACINGS.iter().position(|f| discriminant(f) == discriminant(&plane.facing)),
                _ => None,
            },
            |step, i| if let Held::Plane(plane) = &mut step.held { plane.facing = FACINGS[i] }))}
        {only(desk, |step| facing_slope(step).is_some(), move || degrees(
            desk, "facing-slope", tr("Up from the side by"), (0, 90), facing_slope,
            |step, to| if let Held::Plane(plane) = &mut step.held { plane.facing = Facing::Slope(to) }))}
        <details class="edges">
            <summary>{tr("The client’s head")}</summary>
            {degrees(desk, "tilt-forward", tr("Chin down (above 0) or up"), (-60, 60),
                |step| Some(step.tilt.forward), |step, to| step.tilt.forward = to)}
            {degrees(desk, "tilt-left", tr("Towards the client’s left shoulder (above 0) or right"), (-45, 45),
                |step| Some(step.tilt.left), |step, to| step.tilt.left = to)}
        </details>
        {only(desk, |step| !step.held.cuts(), || view! { <p class="soft">{tr("Nothing is held to a line: it is only looked at.")}</p> }.into_any())}
    }
}

/// Over-directed to one of [`TOWARDS`].
fn towards(landmark: Landmark) -> &'static str {
    match landmark {
        Landmark::FrontHairline => tr("Towards the front hairline"),
        Landmark::HighPoint => tr("Towards the high point"),
        Landmark::Crown => tr("Towards the crown"),
        Landmark::AboveEar => tr("Towards the place above the ear"),
        _ => tr("Towards the occipital bone"),
    }
}

/// Elevation, over-direction and fingers.
#[component]
fn LiftForm(desk: Desk) -> impl IntoView {
    let from = [
        tr("From the head (90° is straight out)"),
        tr("From the room (90° is level)"),
    ];
    let mut over = vec![
        tr_in("over-direction, feminine", "None").to_owned(),
        tr("So many degrees").to_owned(),
    ];
    over.extend(TOWARDS.map(towards).map(str::to_owned));
    let fingers = FINGERS.map(|f| names::fingers(f).to_owned()).to_vec();
    view! {
        {degrees(desk, "elevation", tr("Elevation"), (0, 180),
            |step| lift(step).map(|(elevation, ..)| elevation.degrees),
            |step, to| set_lift(step, |elevation, _, _| elevation.degrees = to))}
        {pick(desk, "elevation-from", tr_in("of an angle", "Measured"), from.map(str::to_owned).to_vec(),
            |step| lift(step).map(|(elevation, ..)| usize::from(elevation.from == Reference::Room)),
            |step, i| set_lift(step, |elevation, _, _| {
                elevation.from = if i == 1 { Reference::Room } else { Reference::Head };
            }))}
        <LearnLink idea=Idea::Elevation/>
        {pick(desk, "over", tr("Over-direction"), over,
            |step| match lift(step)?.1 {
                Over::None => Some(0),
                Over::Degrees(_) => Some(1),
                Over::To(to) => TOWARDS.iter().position(|l| *l == to).map(|i| i + 2),
            },
            |step, i| set_lift(step, |_, over, _| *over = match i {
                0 => Over::None,
                1 => Over::Degrees(0.0),
                i => Over::To(TOWARDS[i - 2]),
            }))}
        <LearnLink idea=Idea::OverDirection/>
        {only(desk, |step| matches!(lift(step), Some((_, Over::Degrees(_), _))), move || degrees(
            desk, "over-degrees", tr("Towards the face (above 0) or the back"), (-90, 90),
            |step| match lift(step)?.1 { Over::Degrees(degrees) => Some(degrees), _ => None },
            |step, to| set_lift(step, |_, over, _| *over = Over::Degrees(to))))}
        {pick(desk, "fingers", tr("Fingers"), fingers,
            |step| {
                let own = discriminant(&lift(step)?.2);
                FINGERS.iter().position(|f| discriminant(f) == own)
            },
            |step, i| set_lift(step, |_, _, fingers| *fingers = FINGERS[i]))}
        {only(desk, |step| matches!(lift(step), Some((_, _, Fingers::Leaning(_)))), move || degrees(
            desk, "leaning", tr("Upper end further from the head (above 0) or nearer"), (-80, 80),
            |step| match lift(step)?.2 { Fingers::Leaning(degrees) => Some(degrees), _ => None },
            |step, to| set_lift(step, |_, _, fingers| *fingers = Fingers::Leaning(to))))}
    }
}
