//! The words that several screens use for the same thing.

use crate::cut::{Level, SectionCut};
use crate::head::{Back, Head, Kind, Landmark, Region, Side, Top};
use crate::measure::{Length, Unit};
use crate::plan::Parting;

/// A landmark as the person reads it.
pub const fn landmark(landmark: Landmark) -> &'static str {
    match landmark {
        Landmark::FrontHairline => "Front hairline",
        Landmark::Temple => "Temple",
        Landmark::HighPoint => "High point",
        Landmark::Crown => "Crown",
        Landmark::ParietalRidge => "Parietal ridge",
        Landmark::Occipital => "Occipital bone",
        Landmark::Nape => "Nape",
        Landmark::NapeCorner => "Nape corner",
        Landmark::InFrontOfEar => "In front of the ear",
        Landmark::AboveEar => "Above the ear",
        Landmark::BehindEar => "Behind the ear",
        Landmark::Brow => "Brow",
        Landmark::Cheekbone => "Cheekbone",
        Landmark::MouthCorner => "Mouth corner",
        Landmark::JawCorner => "Jaw corner",
        Landmark::Chin => "Chin",
        Landmark::Collarbone => "Collarbone",
        Landmark::Shoulder => "Shoulder",
        Landmark::Chest => "Chest",
        Landmark::Waist => "Waist",
    }
}

/// A region as the person reads it.
pub const fn region(region: Region) -> &'static str {
    match region {
        Region::Front => "Front",
        Region::Top => "Top",
        Region::Crown => "Crown",
        Region::Side => "Sides",
        Region::Back => "Back",
        Region::Nape => "Nape",
    }
}

/// A kind of head as the person reads it.
pub const fn kind(kind: Kind) -> &'static str {
    match kind {
        Kind::Person => "A person",
        Kind::Practice => "A practice head",
    }
}

/// The shape of a back as the person reads it.
pub const fn back(back: Back) -> &'static str {
    match back {
        Back::Flat => "Flat",
        Back::Even => "Even",
        Back::Full => "Full",
    }
}

/// The shape of a top as the person reads it.
pub const fn top(top: Top) -> &'static str {
    match top {
        Top::Flat => "Flat",
        Top::Even => "Even",
        Top::Domed => "Domed",
    }
}

/// A parting as the person reads it.
pub const fn parting(parting: Parting) -> &'static str {
    match parting {
        Parting::Left => "Client's left",
        Parting::Centre => "Centre",
        Parting::Right => "Client's right",
    }
}

/// A side as the person reads it.
pub const fn side(side: Side) -> &'static str {
    match side {
        Side::Left => "Left side",
        Side::Centre => "Middle",
        Side::Right => "Right side",
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

/// A level by a landmark and how far below it, cm: `the chin`, `2 cm below the chin`.
pub fn level((by, below): (Landmark, f64), unit: Unit) -> String {
    let place = landmark(by).to_ascii_lowercase();
    let off = Length::from_cm(below.abs());
    if off.number(unit) == "0" {
        return format!("the {place}");
    }
    let way = if below > 0.0 { "below" } else { "above" };
    format!("{} {way} the {place}", off.shown(unit))
}

/// Where the ends of a let-down head of hair lie: the highest, where most lie, the lowest, as heights.
pub fn ends(head: &Head, heights: [f64; 3], unit: Unit) -> String {
    let [high, most, low] = heights.map(|z| level(head.level_near(z), unit));
    if high == low {
        return format!("All ends at {low}, dry.");
    }
    format!("Ends from {high} down to {low}, most of them at {most}, dry.")
}

/// A height as a place: `at the chin`, `2.5 cm below the chin`.
pub fn lies(at: &Level, unit: Unit) -> String {
    let told = level((at.landmark, at.below), unit);
    if told.starts_with("the ") {
        format!("at {told}")
    } else {
        told
    }
}

/// How sharp a weight line is, by the share of all ends near it. Judgement.
pub const fn sharpness(share: f64) -> &'static str {
    if share > 0.6 {
        "a hard line"
    } else if share > 0.25 {
        "a soft line"
    } else {
        "spread out"
    }
}

/// `1 visit`, `4 visits`.
pub fn counted(count: usize, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

/// A name in quotation marks.
pub fn quoted(name: &str) -> String {
    format!("“{name}”")
}

/// How much of a section reaches its line, where not all of it does.
pub fn reach(section: &SectionCut) -> Option<String> {
    let reach = section.reach();
    if reach >= 1.0 {
        None
    } else if reach <= 0.0 {
        Some("Too short to reach: leave it.".to_owned())
    } else {
        Some(format!(
            "About {:.0} % reaches; leave the rest.",
            reach * 100.0
        ))
    }
}

/// From one length to another as both are shown, so that it adds up: `+0.5`, `−1` or `same`, in the unit.
pub fn difference(from: Length, to: Length, unit: Unit) -> String {
    let change = from.change_shown(to, unit);
    let size = Length::from_cm(change.cm().abs()).number(unit);
    match size.as_str() {
        "0" => "same".to_owned(),
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
        return "no difference.".to_owned();
    }
    let way = if cm > 0.0 { "longer" } else { "shorter" };
    format!("{size} {} {way}.", unit.mark())
}

/// The time of day of an ISO 8601 time, on the device's clock: `14:05`.
pub fn time(iso: &str) -> String {
    let date = js_sys::Date::new(&iso.into());
    let (hours, minutes) = (date.get_hours(), date.get_minutes());
    if date.get_time().is_nan() {
        return "just now".to_owned();
    }
    format!("{hours:02}:{minutes:02}")
}

/// A day as `25 November 2026`, from an ISO 8601 time.
pub fn day(iso: &str) -> String {
    const MONTHS: [&str; 12] = [
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ];
    let mut parts = iso.split('T').next().unwrap_or_default().split('-');
    let mut next = || parts.next().and_then(|p| p.parse::<usize>().ok());
    match (next(), next(), next()) {
        (Some(year), Some(month @ 1..=12), Some(day)) => {
            format!("{day} {} {year}", MONTHS[month - 1])
        }
        _ => "some day".to_owned(),
    }
}
