//! The trade's words for what a step says.

use crate::plan::{
    Area, Bound, Edge, Elevation, Facing, FallLine, Fingers, Held, Line, Over, Pattern, Plan,
    Reference, Rule, Sides, Station, Step, usual_regions,
};
use crate::words::{noted, tr, tr_in};

/// How a step's hair is held, in a few words.
pub fn hold(held: &Held) -> &'static str {
    tr(HOLDS[hold_place(held)])
}

/// All ways to hold, in the order of [`hold_place`].
pub const HOLDS: [&str; 7] = [
    noted("In its fall, to a line"),
    noted("To a stationary guide"),
    noted("With a travelling guide"),
    noted("Straight out to a wall or floor"),
    noted("Trim: so much off"),
    noted("Over the comb, tapered"),
    noted("Check only, nothing is cut"),
];

/// The place of a way to hold among [`HOLDS`].
pub const fn hold_place(held: &Held) -> usize {
    match held {
        Held::Fall(_) => 0,
        Held::Stationary(_) => 1,
        Held::Travelling(_) => 2,
        Held::Plane(_) => 3,
        Held::Trim(_) => 4,
        Held::Taper(_) => 5,
        Held::Check => 6,
    }
}

/// Sides, as the person reads them.
pub fn sides(sides: Sides) -> &'static str {
    match sides {
        Sides::Both => tr("Both sides alike"),
        Sides::Left => tr("Left side only"),
        Sides::Right => tr("Right side only"),
        Sides::Across => tr("Across the middle"),
    }
}

/// An elevation with its reference.
pub fn elevation(elevation: Elevation) -> String {
    let from = match elevation.from {
        Reference::Head => tr("from the head"),
        Reference::Room => tr("from the room"),
    };
    format!("{:.0}° {from}", elevation.degrees)
}

/// Elevation, over-direction and fingers of a hold.
pub fn lift(held: &Held) -> String {
    let (lift, over, along) = match held {
        Held::Stationary(cut) => (cut.elevation, cut.over, cut.fingers),
        Held::Travelling(travel) => (travel.elevation, travel.over, travel.fingers),
        Held::Fall(fall) => return fall_line(fall.line).to_lowercase(),
        Held::Plane(plane) => return facing(plane.facing).to_lowercase(),
        Held::Trim(_) | Held::Taper(_) | Held::Check => return String::new(),
    };
    let over = match over {
        Over::None => String::new(),
        Over::Degrees(degrees) => tr!(", over {degrees}°", degrees = format!("{degrees:.0}")),
        Over::To(landmark) => tr!(", over to {}", landmark.the()),
    };
    tr!(
        "{}{over}, fingers {}",
        elevation(lift),
        fingers(along).to_lowercase(),
        over
    )
}

/// What guides a step.
pub fn guide(plan: &Plan, step: &Step) -> String {
    let hold = hold(&step.held);
    match step.held.rule() {
        Some(rule) => format!("{hold}; {}", rule_words(plan, rule)),
        None => hold.to_owned(),
    }
}

/// What settles a guide's length.
pub fn rule_words(plan: &Plan, rule: &Rule) -> String {
    match rule {
        Rule::AsStep(id) => {
            let step = plan.steps.iter().find(|s| &s.id == id);
            step.map_or(tr("a step that is gone").to_owned(), |step| {
                tr!("as “{}”", step.name())
            })
        }
        Rule::Beside => tr("as the hair beside it").to_owned(),
        Rule::AmountOff(_) => tr("so much off").to_owned(),
        Rule::Length(_) => tr("a length").to_owned(),
        Rule::EndsAt(_) => tr("ends at a landmark").to_owned(),
    }
}

/// How fingers lie.
pub fn fingers(fingers: Fingers) -> &'static str {
    match fingers {
        Fingers::ParallelToHead => tr("Parallel to the head"),
        Fingers::Rounded => tr("Rounded with the head"),
        Fingers::Level => tr_in("of the fingers", "Level"),
        Fingers::Plumb => tr_in("of the fingers", "Upright"),
        Fingers::Leaning(_) => tr_in("of the fingers", "Leaning"),
    }
}

/// The line that hair falls to.
pub fn fall_line(line: FallLine) -> &'static str {
    match line {
        FallLine::Place => tr("Combed to one point"),
        FallLine::Level => tr("Level with the floor"),
        FallLine::Sloping(_) => tr("Sloping towards face or back"),
        FallLine::Aside(_) => tr("Sloping away from the parting"),
    }
}

/// The way a wall faces.
pub fn facing(facing: Facing) -> &'static str {
    match facing {
        Facing::Side => tr("Wall beside the head"),
        Facing::Back => tr("Wall behind the head"),
        Facing::Front => tr("Wall before the face"),
        Facing::Top => tr("Floor over the head"),
        Facing::Slope(_) => tr("Slope between wall and floor"),
    }
}

/// A stationary guide's place.
pub fn station(station: Station) -> String {
    match station {
        Station::Parting => tr("Over the parting").to_owned(),
        Station::EarToEar => tr("At the ear-to-ear parting").to_owned(),
        Station::FirstSection => tr("At the first section").to_owned(),
        Station::AlongFirst => tr("All along the first section").to_owned(),
        Station::At(landmark) => tr!("At {}", landmark.the()),
    }
}

/// An area in a few words.
pub fn area(area: &Area) -> String {
    match area {
        Area::FrontPiece { .. } => tr("A front piece at the hairline").to_owned(),
        Area::Pivoting { names, .. } => {
            tr!("{} wedges from the high point", names.len())
        }
        Area::Parted {
            region, pattern, ..
        } => format!(
            "{}; {}",
            region_words(region),
            pattern_name(pattern).to_lowercase()
        ),
        Area::Places { places } => tr!("{} places to check", places.len()),
    }
}

/// A region in a few words: what it is called if it is a usual one, else its edges.
pub fn region_words(region: &[Bound]) -> String {
    if let Some((_, name)) = usual_regions().into_iter().find(|(r, _)| r == region) {
        return name.to_owned();
    }
    let edges = region.iter().map(|bound| {
        let (side, line) = bound.parts();
        format!(
            "{} {}",
            sides_of_line()[side].to_lowercase(),
            line_words(line)
        )
    });
    edges.collect::<Vec<_>>().join(", ")
}

/// The sides of a line that a region may lie on, in the order of [`Bound::parts`].
pub fn sides_of_line() -> [&'static str; 6] {
    [
        tr_in("of a line", "Before"),
        tr_in("of a line", "Behind"),
        tr_in("of a line", "Above"),
        tr_in("of a line", "Below"),
        tr_in("of a line", "Inside"),
        tr_in("of a line", "Outside"),
    ]
}

/// A bounding line in a few words.
pub fn line_words(line: Line) -> String {
    match line {
        Line::EarToEar => tr("the ear-to-ear parting").to_owned(),
        Line::Level { at, up: 0.0 } => at.the().to_owned(),
        Line::Level { at, .. } => tr!("a level near {}", at.the()),
        Line::Horseshoe => tr("the horseshoe").to_owned(),
        Line::ToHighPoint(edge) => tr!("a line from {} to the high point", edge_words(edge)),
        Line::Beside { .. } => tr("a line beside the middle").to_owned(),
        Line::Fringe { .. } => tr("the fringe’s triangle").to_owned(),
    }
}

/// Where an edge meets the hairline.
pub fn edge_words(edge: Edge) -> String {
    match edge {
        Edge::Parting => tr("the parting").to_owned(),
        Edge::Temple => tr("the temple").to_owned(),
        Edge::InFrontOfEar => tr("in front of the ear").to_owned(),
        Edge::AboveEar => tr("above the ear").to_owned(),
        Edge::BehindEar => tr("behind the ear").to_owned(),
        Edge::NapeCorner => tr("the nape corner").to_owned(),
        Edge::Behind(share) => tr!(
            "{} % of the way to the back",
            format!("{:.0}", share.clamp(0.0, 1.0) * 100.0)
        ),
        Edge::BackCentre => tr("the centre back").to_owned(),
    }
}

/// A pattern of partings.
pub fn pattern_name(pattern: &Pattern) -> &'static str {
    patterns()[pattern_place(pattern)]
}

/// All patterns, in the order of [`pattern_place`].
pub fn patterns() -> [&'static str; 9] {
    [
        tr("One section"),
        tr_in("of partings", "Horizontal"),
        tr_in("of partings", "Vertical"),
        tr("Diagonal, down to the face"),
        tr("Diagonal, down to the back"),
        tr("Pivoting about a point"),
        tr("Radial from the high point"),
        tr("Horseshoes about the top"),
        tr("Strips from front to back"),
    ]
}

/// The place of a pattern among [`patterns`].
pub const fn pattern_place(pattern: &Pattern) -> usize {
    match pattern {
        Pattern::Whole => 0,
        Pattern::Horizontal { .. } => 1,
        Pattern::Vertical { .. } => 2,
        Pattern::DiagonalForward { .. } => 3,
        Pattern::DiagonalBack { .. } => 4,
        Pattern::Pivoting { .. } => 5,
        Pattern::Radial { .. } => 6,
        Pattern::Horseshoe { .. } => 7,
        Pattern::Strips { .. } => 8,
    }
}
