//! A hold in short words: its lift, combing, fingers and places, each as it stands at the chair.

use super::holds::{Elevation, Facing, FallLine, Fingers, Over, Reference, Station};
use crate::head::Landmark;
use crate::words::{tr, tr_in};

/// Whole degrees, without a sign.
fn whole(degrees: f64) -> String {
    format!("{:.0}", degrees.abs())
}

/// Where hair falls: how it is combed, and how the fingers lie.
pub(super) fn falling(line: FallLine) -> (&'static str, String) {
    let fall = tr("in its fall");
    let level = || tr_in("of fingers", "level").to_owned();
    match line {
        FallLine::Place => (tr("to one point"), level()),
        FallLine::Level => (fall, level()),
        FallLine::Sloping(degrees) if degrees < 0.0 => {
            (fall, tr!("{}° down to the back", whole(degrees)))
        }
        FallLine::Sloping(degrees) => (fall, tr!("{}° down to the face", whole(degrees))),
        FallLine::Aside(degrees) => (fall, tr!("{}° down from parting", whole(degrees))),
    }
}

pub(super) fn lift(elevation: Elevation) -> String {
    let degrees = elevation.degrees.round();
    match (elevation.from, degrees as i32) {
        (_, 0) => tr("no lift").to_owned(),
        (Reference::Head, 90) => tr("straight out").to_owned(),
        (Reference::Head, _) => tr!("{}° from head", format!("{degrees:.0}")),
        (Reference::Room, 90) => tr("level with floor").to_owned(),
        (Reference::Room, 180) => tr("straight up").to_owned(),
        (Reference::Room, _) => tr!("{}° from room", format!("{degrees:.0}")),
    }
}

pub(super) fn over(over: Over) -> Option<String> {
    Some(match over {
        Over::None => return None,
        Over::Degrees(degrees) if degrees < 0.0 => tr!("{}° over to back", whole(degrees)),
        Over::Degrees(degrees) => tr!("{}° over to face", whole(degrees)),
        Over::To(landmark) => tr!("over to {}", place(landmark)),
    })
}

pub(super) fn fingers(fingers: Fingers) -> String {
    match fingers {
        Fingers::ParallelToHead => tr("parallel to head").to_owned(),
        Fingers::Rounded => tr("rounded with head").to_owned(),
        Fingers::Level => tr_in("of fingers", "level").to_owned(),
        Fingers::Plumb => tr_in("of fingers", "upright").to_owned(),
        Fingers::Leaning(degrees) if degrees < 0.0 => {
            tr!("upper end {}° nearer", whole(degrees))
        }
        Fingers::Leaning(degrees) => tr!("upper end {}° further", whole(degrees)),
    }
}

fn station(station: Station) -> &'static str {
    match station {
        Station::Parting => tr("the parting"),
        Station::EarToEar => tr("the ear-to-ear parting"),
        Station::FirstSection | Station::AlongFirst => tr("the first section"),
        Station::At(landmark) => place(landmark),
    }
}

/// Where hair is combed to that is held at a station.
pub(super) fn towards(at: Station) -> String {
    match at {
        // The guide names the parting; here it would take a line too many on a small phone.
        Station::EarToEar => tr("to ear-to-ear").to_owned(),
        at => tr!("to {}", station(at)),
    }
}

/// That the guide stays at a station.
pub(super) fn stays(at: Station) -> String {
    match at {
        Station::EarToEar => tr("ear-to-ear parting, stays").to_owned(),
        Station::At(Landmark::AboveEar | Landmark::BehindEar) => tr!("stays {}", station(at)),
        at => {
            // English drops its article here.
            let at = station(at);
            tr!("stays at {}", at.strip_prefix("the ").unwrap_or(at))
        }
    }
}

/// How hair is held to a plane: lift, comb, fingers.
pub(super) fn facing(facing: Facing) -> (String, &'static str, &'static str) {
    // With the wall behind it this must fit two lines of a small phone.
    let out = || tr("level out").to_owned();
    let upright = tr_in("of fingers", "upright");
    match facing {
        Facing::Side => (out(), tr("to a side wall"), upright),
        Facing::Back => (out(), tr("to a back wall"), upright),
        Facing::Front => (out(), tr("to a front wall"), upright),
        Facing::Top => (
            tr("straight up").to_owned(),
            tr("to a level line"),
            tr_in("of fingers", "level"),
        ),
        Facing::Slope(degrees) => (
            tr!("{}° from room", whole(90.0 + degrees)),
            tr("to a side slope"),
            tr("along the slope"),
        ),
    }
}

/// A named point after `to` or `at`, in as few words as it may be.
pub(super) fn place(landmark: Landmark) -> &'static str {
    match landmark {
        Landmark::InFrontOfEar => tr_in("in few words", "the front of the ear"),
        Landmark::AboveEar => tr_in("in few words", "above the ear"),
        Landmark::BehindEar => tr_in("in few words", "behind the ear"),
        Landmark::Occipital => tr_in("in few words", "the occipital bone"),
        Landmark::MouthCorner => tr_in("in few words", "the mouth corner"),
        Landmark::JawCorner => tr_in("in few words", "the jaw corner"),
        other => other.the(),
    }
}
