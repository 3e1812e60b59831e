//! The trade's words for what a step says.

use crate::plan::{
    Area, Bound, Edge, Elevation, Facing, FallLine, Fingers, Held, Line, Over, Pattern, Plan,
    Reference, Rule, Sides, Station, Step, landmark_word,
};

/// How a step's hair is held, in a few words.
pub fn hold(held: &Held) -> &'static str {
    HOLDS[hold_place(held)]
}

/// All ways to hold, in the order of [`hold_place`].
pub const HOLDS: [&str; 7] = [
    "In its fall, to a line",
    "To a stationary guide",
    "With a travelling guide",
    "Straight out to a wall or floor",
    "Trim: so much off",
    "Over the comb, tapered",
    "Check only, nothing is cut",
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
pub const fn sides(sides: Sides) -> &'static str {
    match sides {
        Sides::Both => "Both sides alike",
        Sides::Left => "Left side only",
        Sides::Right => "Right side only",
        Sides::Across => "Across the middle",
    }
}

/// An elevation with its reference.
pub fn elevation(elevation: Elevation) -> String {
    let from = match elevation.from {
        Reference::Head => "from the head",
        Reference::Room => "from the room",
    };
    format!("{:.0}° {from}", elevation.degrees)
}

/// Elevation, over-direction and fingers of a hold.
pub fn lift(held: &Held) -> String {
    let (lift, over, along) = match held {
        Held::Stationary(cut) => (cut.elevation, cut.over, cut.fingers),
        Held::Travelling(travel) => (travel.elevation, travel.over, travel.fingers),
        Held::Fall(fall) => return fall_line(fall.line).to_ascii_lowercase(),
        Held::Plane(plane) => return facing(plane.facing).to_ascii_lowercase(),
        Held::Trim(_) | Held::Taper(_) | Held::Check => return String::new(),
    };
    let over = match over {
        Over::None => String::new(),
        Over::Degrees(degrees) => format!(", over {degrees:.0}°"),
        Over::To(landmark) => format!(", over to the {}", spoken(landmark)),
    };
    format!(
        "{}{over}, fingers {}",
        elevation(lift),
        fingers(along).to_ascii_lowercase()
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
            step.map_or("a step that is gone".to_owned(), |step| {
                format!("as “{}”", step.title)
            })
        }
        Rule::Beside => "as the hair beside it".to_owned(),
        Rule::AmountOff(_) => "so much off".to_owned(),
        Rule::Length(_) => "a length".to_owned(),
        Rule::EndsAt(_) => "ends at a landmark".to_owned(),
    }
}

/// How fingers lie.
pub const fn fingers(fingers: Fingers) -> &'static str {
    match fingers {
        Fingers::ParallelToHead => "Parallel to the head",
        Fingers::Rounded => "Rounded with the head",
        Fingers::Level => "Level",
        Fingers::Plumb => "Upright",
        Fingers::Leaning(_) => "Leaning",
    }
}

/// The line that hair falls to.
pub const fn fall_line(line: FallLine) -> &'static str {
    match line {
        FallLine::Place => "Combed to one point",
        FallLine::Level => "Level with the floor",
        FallLine::Sloping(_) => "Sloping towards face or back",
        FallLine::Aside(_) => "Sloping away from the parting",
    }
}

/// The way a wall faces.
pub const fn facing(facing: Facing) -> &'static str {
    match facing {
        Facing::Side => "Wall beside the head",
        Facing::Back => "Wall behind the head",
        Facing::Front => "Wall before the face",
        Facing::Top => "Floor over the head",
        Facing::Slope(_) => "Slope between wall and floor",
    }
}

/// A stationary guide's place.
pub fn station(station: Station) -> String {
    match station {
        Station::Parting => "Over the parting".to_owned(),
        Station::EarToEar => "At the ear-to-ear parting".to_owned(),
        Station::FirstSection => "At the first section".to_owned(),
        Station::AlongFirst => "All along the first section".to_owned(),
        Station::At(landmark) => format!("At the {}", spoken(landmark)),
    }
}

/// An area in a few words.
pub fn area(area: &Area) -> String {
    match area {
        Area::FrontPiece { .. } => "A front piece at the hairline".to_owned(),
        Area::Pivoting { names, .. } => {
            format!("{} wedges from the high point", names.len())
        }
        Area::Parted {
            region, pattern, ..
        } => format!(
            "{}; {}",
            region_words(region),
            pattern_name(pattern).to_ascii_lowercase()
        ),
        Area::Places { places } => format!("{} places to check", places.len()),
    }
}

/// A region in a few words: what it is called if it is a usual one, else its edges.
pub fn region_words(region: &[Bound]) -> String {
    if let Some((_, name)) = super::area::usual().into_iter().find(|(r, _)| r == region) {
        return name.to_owned();
    }
    let edges = region.iter().map(|bound| {
        let (side, line) = bound.parts();
        format!(
            "{} {}",
            SIDES_OF_LINE[side].to_ascii_lowercase(),
            line_words(line)
        )
    });
    edges.collect::<Vec<_>>().join(", ")
}

/// The sides of a line that a region may lie on, in the order of [`Bound::parts`].
pub const SIDES_OF_LINE: [&str; 6] = ["Before", "Behind", "Above", "Below", "Inside", "Outside"];

/// A bounding line in a few words.
pub fn line_words(line: Line) -> String {
    match line {
        Line::EarToEar => "the ear-to-ear parting".to_owned(),
        Line::Level { at, up: 0.0 } => format!("the {}", spoken(at)),
        Line::Level { at, .. } => format!("a level near the {}", spoken(at)),
        Line::Horseshoe => "the horseshoe".to_owned(),
        Line::ToHighPoint(edge) => format!("a line from {} to the high point", edge_words(edge)),
        Line::Beside { .. } => "a line beside the middle".to_owned(),
        Line::Fringe { .. } => "the fringe’s triangle".to_owned(),
    }
}

/// Where an edge meets the hairline.
pub fn edge_words(edge: Edge) -> String {
    match edge {
        Edge::Parting => "the parting".to_owned(),
        Edge::Temple => "the temple".to_owned(),
        Edge::InFrontOfEar => "in front of the ear".to_owned(),
        Edge::AboveEar => "above the ear".to_owned(),
        Edge::BehindEar => "behind the ear".to_owned(),
        Edge::NapeCorner => "the nape corner".to_owned(),
        Edge::Behind(share) => format!(
            "{:.0} % of the way to the back",
            share.clamp(0.0, 1.0) * 100.0
        ),
        Edge::BackCentre => "the centre back".to_owned(),
    }
}

/// A pattern of partings.
pub const fn pattern_name(pattern: &Pattern) -> &'static str {
    PATTERNS[pattern_place(pattern)]
}

/// All patterns, in the order of [`pattern_place`].
pub const PATTERNS: [&str; 9] = [
    "One section",
    "Horizontal",
    "Vertical",
    "Diagonal, down to the face",
    "Diagonal, down to the back",
    "Pivoting about a point",
    "Radial from the high point",
    "Horseshoes about the top",
    "Strips from front to back",
];

/// The place of a pattern among [`PATTERNS`].
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

fn spoken(landmark: crate::head::Landmark) -> String {
    landmark_word(landmark).replace('_', " ")
}
