//! The words that several screens use for the same thing.

use crate::cut::SectionCut;
use crate::hair::Before;
use crate::head::{Back, Head, Kind, Level, Region, Side, Top};
use crate::measure::{Day, Length, Unit};
use crate::plan::{Parting, Value};
use crate::words::{tr, tr_in};

/// A region as the person reads it.
pub fn region(region: Region) -> &'static str {
    match region {
        Region::Front => tr_in("region of the head", "Front"),
        Region::Top => tr_in("region of the head", "Top"),
        Region::Crown => tr_in("region of the head", "Crown"),
        Region::Side => tr_in("region of the head", "Sides"),
        Region::Back => tr_in("region of the head", "Back"),
        Region::Nape => tr_in("region of the head", "Nape"),
    }
}

/// A kind of head as the person reads it.
pub fn kind(kind: Kind) -> &'static str {
    match kind {
        Kind::Person => tr("A person"),
        Kind::Practice => tr("A practice head"),
    }
}

/// The shape of a back as the person reads it.
pub fn back(back: Back) -> &'static str {
    match back {
        Back::Flat => tr_in("shape of a head", "Flat"),
        Back::Even => tr_in("shape of a head", "Even"),
        Back::Full => tr_in("shape of a head", "Full"),
    }
}

/// The shape of a top as the person reads it.
pub fn top(top: Top) -> &'static str {
    match top {
        Top::Flat => tr_in("shape of a head", "Flat"),
        Top::Even => tr_in("shape of a head", "Even"),
        Top::Domed => tr_in("shape of a head", "Domed"),
    }
}

/// A parting as the person reads it.
pub fn parting(parting: Parting) -> &'static str {
    match parting {
        Parting::Left => tr("Client's left"),
        Parting::Centre => tr("Centre"),
        Parting::Right => tr("Client's right"),
    }
}

/// An answer to a plan's own question as the person reads it.
pub fn answer(value: Value, unit: Unit) -> String {
    match value {
        Value::Landmark(landmark) | Value::Before(Before::EndsAt(landmark)) => {
            landmark.name().to_lowercase()
        }
        Value::Parting(chosen) => parting(chosen).to_lowercase(),
        Value::Length(length) => length.shown(unit),
        Value::Before(Before::Everywhere(length)) => tr!("{} everywhere", length.shown(unit)),
    }
}

/// A side as the person reads it.
pub fn side(side: Side) -> &'static str {
    match side {
        Side::Left => tr("Left side"),
        Side::Centre => tr("Middle"),
        Side::Right => tr("Right side"),
    }
}

/// `15–27`: two lengths in the unit, without it; one where both read alike.
pub fn span(short: Length, long: Length, unit: Unit) -> String {
    let (short, long) = (short.number(unit), long.number(unit));
    if short == long {
        long
    } else {
        format!("{short}–{long}")
    }
}

/// Where the ends of a let-down head of hair lie: the highest, where most lie, the lowest, as heights.
pub fn ends(head: &Head, heights: [f64; 3], unit: Unit) -> String {
    let [high, most, low] = heights.map(|z| Level::of(head, z).place(unit));
    if high == low {
        return tr!("All ends at {low}, dry.", low);
    }
    tr!(
        "Ends from {high} down to {low}, most of them at {most}, dry.",
        high,
        low,
        most
    )
}

/// A name in quotation marks.
pub fn quoted(name: &str) -> String {
    tr!("“{name}”", name)
}

/// From this share on nobody counts what is missing. Judgement.
const NEARLY_ALL: f64 = 0.95;

/// How much of a section reaches its line, where not all of it does.
pub fn reach(section: &SectionCut) -> Option<String> {
    let reach = section.reach();
    if reach >= 1.0 {
        None
    } else if reach <= 0.0 {
        Some(tr("Too short to reach: leave it.").to_owned())
    } else if reach >= NEARLY_ALL {
        Some(tr("Nearly all reaches; leave the rest.").to_owned())
    } else {
        Some(tr!(
            "About {} % reaches; leave the rest.",
            format!("{:.0}", reach * 100.0)
        ))
    }
}

/// From one length to another as both are shown, so that it adds up: `+0.5`, `−1` or `same`, in the unit.
pub fn difference(from: Length, to: Length, unit: Unit) -> String {
    let change = from.change_shown(to, unit);
    let size = Length::from_cm(change.cm().abs()).number(unit);
    match size.as_str() {
        "0" => tr("same").to_owned(),
        _ if change > Length::ZERO => format!("+{size}"),
        _ => format!("−{size}"),
    }
}

/// A difference as it is said of hair that was measured: `0.3 cm shorter.`, `1 cm longer.`
pub fn against(cm: f64, unit: Unit) -> String {
    let size = Length::from_cm(cm.abs());
    longer_or_shorter(cm, &size.measured_number(unit), unit)
}

/// The same of a target, which is told to the half centimetre.
pub fn against_plan(cm: f64, unit: Unit) -> String {
    let size = Length::from_cm(cm.abs());
    longer_or_shorter(cm, &size.number(unit), unit)
}

fn longer_or_shorter(cm: f64, size: &str, unit: Unit) -> String {
    if size == "0" {
        return tr("no difference.").to_owned();
    }
    let size = format!("{size} {}", unit.mark());
    if cm > 0.0 {
        tr!("{size} longer.", size)
    } else {
        tr!("{size} shorter.", size)
    }
}

/// The time of day of an ISO 8601 time, on the device's clock: `14:05`.
pub fn time(iso: &str) -> String {
    let date = js_sys::Date::new(&iso.into());
    let (hours, minutes) = (date.get_hours(), date.get_minutes());
    if date.get_time().is_nan() {
        return tr("just now").to_owned();
    }
    format!("{hours:02}:{minutes:02}")
}

/// A day as `25 November 2026`, from an ISO 8601 time.
pub fn day(iso: &str) -> String {
    Day::read(iso).map_or_else(|| tr("some day").to_owned(), Day::said)
}
