//! Where on the head a step cuts and how high it lifts, told from its data alone: no head is laid out for it.

use super::holds::{Elevation, Held};
use super::model::Step;
use super::partings::{Area, Bound, Edge, Line};
use crate::head::{Landmark, Region};
use crate::words::tr;

/// How high hair is lifted when it is cut, in bands. Public units tell low, medium and high lift apart, about
/// 1 to 44°, 45° and 46 to 89°; the bands here take a hand's error at 45° and 90° in. Judgement.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Lift {
    /// In its fall, not lifted: below 1°.
    Fall,
    /// Below 40°.
    Low,
    /// 40° to 80°.
    Middle,
    /// Straight out: 80° to 100°.
    Out,
    /// Beyond 100°.
    Up,
}

impl Lift {
    /// All of them, the lowest first.
    pub const ALL: [Self; 5] = [Self::Fall, Self::Low, Self::Middle, Self::Out, Self::Up];

    /// The band of an elevation, from head or room as the plan has it: the two agree at the sides.
    pub fn of(elevation: Elevation) -> Self {
        let degrees = elevation.degrees;
        if degrees < 1.0 {
            Self::Fall
        } else if degrees < 40.0 {
            Self::Low
        } else if degrees < 80.0 {
            Self::Middle
        } else if degrees <= 100.0 {
            Self::Out
        } else {
            Self::Up
        }
    }

    /// Its words at the head of a sentence.
    pub fn words(self) -> &'static str {
        match self {
            Self::Fall => tr("Hair cut in its fall"),
            Self::Low => tr("Hair lifted less than 40°"),
            Self::Middle => tr("Hair lifted 40° to 80°"),
            Self::Out => tr("Hair held straight out"),
            Self::Up => tr("Hair lifted beyond 100°"),
        }
    }
}

impl Held {
    /// How high it lifts; none where that is no matter of degrees: a plane, a trim, a taper, a check.
    pub fn lift(&self) -> Option<Lift> {
        match self {
            Self::Fall(_) => Some(Lift::Fall),
            Self::Stationary(cut) => Some(Lift::of(cut.elevation)),
            Self::Travelling(travel) => Some(Lift::of(travel.elevation)),
            Self::Plane(_) | Self::Trim(_) | Self::Taper(_) | Self::Check => None,
        }
    }
}

/// How far round the head from the face an edge meets the hairline, in order alone.
fn order(edge: Edge) -> f64 {
    match edge {
        Edge::Parting => 0.0,
        Edge::Temple => 1.0,
        Edge::InFrontOfEar => 2.0,
        Edge::AboveEar => 3.0,
        Edge::BehindEar => 4.0,
        Edge::NapeCorner => 4.4,
        Edge::Behind(share) => 4.0 + share.clamp(0.0, 1.0),
        Edge::BackCentre => 5.0,
    }
}

const TEMPLE: f64 = 1.0;
const EAR: f64 = 3.0;

/// The region between two edges.
fn between(from: Edge, to: Edge) -> Region {
    let (near, far) = (order(from).min(order(to)), order(from).max(order(to)));
    if far <= TEMPLE {
        Region::Front
    } else if (near + far) / 2.0 < EAR {
        Region::Side
    } else {
        Region::Back
    }
}

/// The edge at which a line from the hairline to the high point stands.
const fn edge(line: Line) -> Option<Edge> {
    match line {
        Line::EarToEar => Some(Edge::AboveEar),
        Line::ToHighPoint(edge) => Some(edge),
        _ => None,
    }
}

/// What one bound alone says, if it says anything; the smaller the number, the more it says.
fn bounded(bound: &Bound) -> Option<(u8, Region)> {
    match *bound {
        Bound::Before(Line::Fringe { .. }) => Some((0, Region::Front)),
        Bound::Below(Line::Level {
            at: Landmark::Occipital | Landmark::Nape,
            ..
        }) => Some((0, Region::Nape)),
        Bound::Above(
            Line::Horseshoe
            | Line::Level {
                at: Landmark::ParietalRidge,
                ..
            },
        ) => Some((1, Region::Top)),
        Bound::Before(line) => {
            let region = between(Edge::Parting, edge(line)?);
            Some((2, region))
        }
        Bound::Behind(line) => {
            let region = between(edge(line)?, Edge::BackCentre);
            (region == Region::Back).then_some((3, region))
        }
        _ => None,
    }
}

impl Step {
    /// The region in which most of a section's hair grows, by its number from 1; none where the data of the
    /// plan does not say, as of a ring round the whole head.
    pub fn region(&self, number: usize) -> Option<Region> {
        match &self.area {
            Area::FrontPiece { .. } => Some(Region::Front),
            Area::Pivoting { edges, .. } => {
                let near = edges.get(number.checked_sub(1)?)?;
                Some(between(*near, *edges.get(number)?))
            }
            Area::Parted { region, .. } => {
                let said = region.iter().filter_map(bounded);
                said.min_by_key(|(rank, _)| *rank).map(|(_, region)| region)
            }
            Area::Places { .. } => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{Plan, built_in};

    fn step<'a>(plan: &'a Plan, id: &str) -> &'a Step {
        plan.steps.iter().find(|step| step.id == id).unwrap()
    }

    #[test]
    fn steps_of_built_in_cuts_lie_where_their_titles_say() {
        for (plan, id, number, wanted) in [
            ("one-length-bob", "nape", 1, Some(Region::Nape)),
            ("one-length-bob", "back", 3, Some(Region::Back)),
            ("one-length-bob", "sides", 1, Some(Region::Side)),
            ("straight-fringe", "fringe", 2, Some(Region::Front)),
            ("square-layers", "top", 1, Some(Region::Top)),
            ("square-layers", "sides", 1, Some(Region::Side)),
            ("round-layers", "below", 1, None),
            ("tapered-nape", "sides", 1, Some(Region::Side)),
            (
                "soft-layers-face-frame",
                "front-guide",
                1,
                Some(Region::Front),
            ),
            (
                "soft-layers-face-frame",
                "face-frame",
                1,
                Some(Region::Front),
            ),
            (
                "soft-layers-face-frame",
                "face-frame",
                2,
                Some(Region::Side),
            ),
            ("soft-layers-face-frame", "face-frame", 9, None),
            ("soft-layers-face-frame", "face-frame", 0, None),
            ("soft-layers-face-frame", "back", 1, Some(Region::Back)),
            ("soft-layers-face-frame", "cross-check", 1, None),
        ] {
            let plan = built_in(plan).unwrap();
            assert_eq!(step(&plan, id).region(number), wanted, "{id} {number}");
        }
    }

    #[test]
    fn a_lift_is_told_by_its_band() {
        for (plan, id, wanted) in [
            ("one-length-bob", "nape", Some(Lift::Fall)),
            ("graduated-bob", "nape", Some(Lift::Middle)),
            ("uniform-layers", "back", Some(Lift::Out)),
            ("long-graduation", "front", Some(Lift::Low)),
            ("trim", "nape", None),
            ("tapered-nape", "nape", None),
        ] {
            let plan = built_in(plan).unwrap();
            assert_eq!(step(&plan, id).held.lift(), wanted, "{id}");
        }
        let from = crate::plan::Reference::Head;
        let lift = |degrees| Lift::of(Elevation { degrees, from });
        assert_eq!(lift(180.0), Lift::Up);
        assert_eq!(lift(f64::NAN), Lift::Up);
    }
}
