//! The lengths along a line of the head in words.

use super::along::{Along, AlongHalf, AlongRun};
use crate::head::Side;
use crate::measure::{Length, Unit};
use crate::words::tr;

/// A place is told by a named one that is no further from it than this; else it is near it. cm.
const AT: f64 = 1.0;

/// What the chart of a line shows, in sentences: the shortest and the longest of the plan, how far what was
/// cut is off it, and how far left and right differ. Lengths as cut, in the unit.
pub fn along_said(along: &Along, unit: Unit) -> String {
    let mut all = Vec::new();
    // Where both halves are planned alike, once is enough.
    let differ = match &along.halves[..] {
        [left, right] => farthest(&left.planned, &right.planned)
            .filter(|(_, cm)| Length::from_cm(cm.abs()).number(unit) != "0")
            .map(|(at, cm)| (left, at, cm)),
        _ => None,
    };
    if differ.is_some() {
        for half in &along.halves {
            let whose = tr!("Planned on the {}", half.side.said());
            all.extend(span(half, &whose, unit));
        }
    } else if let Some(half) = along.halves.first() {
        let both = along.halves.len() > 1;
        let whose = if both {
            tr("Planned on both sides")
        } else {
            tr("Planned")
        };
        all.extend(span(half, whose, unit));
    }
    for mark in along.halves.first().iter().flat_map(|half| &half.marks) {
        if let Some((short, long)) = mark.step {
            let [short, long] = [short, long].map(Length::from_cm);
            all.push(tr!(
                "At the {} a step: {} beside {}.",
                mark.name,
                short.shown(unit),
                long.shown(unit)
            ));
        }
    }
    for half in &along.halves {
        all.extend(off(half, unit));
    }
    if let Some((left, at, cm)) = differ {
        all.push(tr!(
            "Left and right are planned to differ by up to {}, {}.",
            Length::from_cm(cm.abs()).shown(unit),
            place(left, at)
        ));
    }
    all.join(" ")
}

/// The shortest and the longest that is planned, and how often it steps.
fn span(half: &AlongHalf, whose: &str, unit: Unit) -> Option<String> {
    let all = || half.planned.iter().flatten().copied();
    let (short, long) = (
        all().min_by(|a, b| a.1.total_cmp(&b.1))?,
        all().max_by(|a, b| a.1.total_cmp(&b.1))?,
    );
    let [least, most] = [short, long].map(|(_, cm)| Length::from_cm(cm));
    let steps = match half.planned.len() {
        0 | 1 => String::new(),
        runs => tr!(", with one step in it" | ", with {n} steps in it" % runs - 1),
    };
    Some(if least.number(unit) == most.number(unit) {
        tr!(
            "{whose}: {} all along{steps}.",
            most.shown(unit),
            whose,
            steps
        )
    } else {
        tr!(
            "{whose}: from {} {} to {} {}{steps}.",
            least.shown(unit),
            place(half, short.0),
            most.shown(unit),
            place(half, long.0),
            whose,
            steps
        )
    })
}

/// How far what was cut is off the plan.
fn off(half: &AlongHalf, unit: Unit) -> Option<String> {
    half.cut.first()?;
    let whose = match half.side {
        Side::Left => tr("Cut on the left:"),
        Side::Right => tr("Cut on the right:"),
        Side::Centre => tr("Cut:"),
    };
    let (at, cm) = farthest(&half.cut, &half.planned)?;
    let size = Length::from_cm(cm.abs()).measured_number(unit);
    if size == "0" {
        return Some(tr!("{whose} as planned, as far as it went.", whose));
    }
    let (size, place) = ([&size, unit.mark()].join(" "), place(half, at));
    Some(if cm > 0.0 {
        tr!(
            "{whose} up to {size} longer than planned, {place}.",
            whose,
            size,
            place
        )
    } else {
        tr!(
            "{whose} up to {size} shorter than planned, {place}.",
            whose,
            size,
            place
        )
    })
}

/// Where one differs most from another, and by how much, cm.
fn farthest(one: &[AlongRun], other: &[AlongRun]) -> Option<(f64, f64)> {
    let mut most: Option<(f64, f64)> = None;
    for &(at, cm) in one.iter().flatten() {
        let Some(there) = value(other, at) else {
            continue;
        };
        let by = cm - there;
        if most.is_none_or(|(_, most)| by.abs() > most.abs()) {
            most = Some((at, by));
        }
    }
    most
}

/// The length at a place of some runs, by the rule of three; none within a step.
fn value(runs: &[AlongRun], at: f64) -> Option<f64> {
    let run = runs.iter().find(|run| {
        run.first().is_some_and(|p| p.0 <= at) && run.last().is_some_and(|p| p.0 >= at)
    })?;
    let next = run.partition_point(|p| p.0 <= at);
    let a = run.get(next.checked_sub(1)?)?;
    let Some(b) = run.get(next) else {
        return Some(a.1);
    };
    Some(a.1 + (b.1 - a.1) * (at - a.0) / (b.0 - a.0).max(1e-9))
}

/// A place by its nearest named one: `at the nape`, `near the crown`.
fn place(half: &AlongHalf, at: f64) -> String {
    let far = |mark: &&super::along::AlongMark| (mark.at - at).abs();
    let nearest = half.marks.iter().min_by(|a, b| far(a).total_cmp(&far(b)));
    match nearest {
        Some(mark) if far(&mark) <= AT => tr!("at the {}", mark.name),
        Some(mark) => tr!("near the {}", mark.name),
        None => String::new(),
    }
}
