//! The lengths along a line of the head in words.

use super::along::{Along, AlongHalf, AlongRun};
use crate::head::Side;
use crate::measure::{Length, Unit};

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
            let whose = format!("Planned on the {}", half.side.word());
            all.extend(span(half, &whose, unit));
        }
    } else if let Some(half) = along.halves.first() {
        let both = along.halves.len() > 1;
        let whose = if both {
            "Planned on both sides"
        } else {
            "Planned"
        };
        all.extend(span(half, whose, unit));
    }
    for mark in along.halves.first().iter().flat_map(|half| &half.marks) {
        if let Some((short, long)) = mark.step {
            let [short, long] = [short, long].map(Length::from_cm);
            all.push(format!(
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
        all.push(format!(
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
        2 => ", with one step in it".to_owned(),
        runs => format!(", with {} steps in it", runs - 1),
    };
    Some(if least.number(unit) == most.number(unit) {
        format!("{whose}: {} all along{steps}.", most.shown(unit))
    } else {
        format!(
            "{whose}: from {} {} to {} {}{steps}.",
            least.shown(unit),
            place(half, short.0),
            most.shown(unit),
            place(half, long.0)
        )
    })
}

/// How far what was cut is off the plan.
fn off(half: &AlongHalf, unit: Unit) -> Option<String> {
    half.cut.first()?;
    let whose = match half.side {
        Side::Left => "Cut on the left:",
        Side::Right => "Cut on the right:",
        Side::Centre => "Cut:",
    };
    let (at, cm) = farthest(&half.cut, &half.planned)?;
    let size = Length::from_cm(cm.abs()).measured_number(unit);
    if size == "0" {
        return Some(format!("{whose} as planned, as far as it went."));
    }
    let way = if cm > 0.0 { "longer" } else { "shorter" };
    Some(format!(
        "{whose} up to {size} {} {way} than planned, {}.",
        unit.mark(),
        place(half, at)
    ))
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
        Some(mark) if far(&mark) <= AT => format!("at the {}", mark.name),
        Some(mark) => format!("near the {}", mark.name),
        None => String::new(),
    }
}
