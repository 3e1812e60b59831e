//! Which scalp a step takes and how that is parted, as data.
//!
//! Every parting is where a plane cuts the scalp: a level plane for a horizontal parting, an upright
//! one for a vertical, planes through one line for partings that pivot.

use crate::head::Landmark;
use serde::{Deserialize, Serialize};

/// The scalp a step takes, parted into sections.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Area {
    /// A small piece at the front hairline, each side of the parting: half of the triangle whose
    /// point lies on the parting.
    FrontPiece {
        /// How far it reaches to the side of the parting at the hairline, in degrees about the high
        /// point.
        width: f64,
        /// How far behind the hairline its point lies, cm along the scalp.
        depth: f64,
        /// Its name.
        name: String,
    },
    /// Sections pivoting from the high point, between these edges in order.
    Pivoting {
        /// The first edge and, after it, each section's far edge.
        edges: Vec<Edge>,
        /// One name a section.
        names: Vec<String>,
    },
    /// A region, parted in one pattern.
    Parted {
        /// What bounds the region; all of the scalp if there is nothing.
        #[serde(default)]
        region: Vec<Bound>,
        /// How it is parted.
        pattern: Pattern,
        /// What its sections are called; each gets its number after it.
        name: String,
    },
    /// Single places, for checking.
    Places {
        /// Where to measure.
        places: Vec<Place>,
    },
}

/// One edge of a region.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Bound {
    /// The side of a line that looks to the face.
    Before(Line),
    /// The side of a line that looks to the back.
    Behind(Line),
    /// What lies above a line.
    Above(Line),
    /// What lies below a line.
    Below(Line),
    /// What lies nearer to the middle than a line.
    Within(Line),
    /// What lies further to the side than a line.
    Outside(Line),
}

/// A parting that bounds regions.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Line {
    /// From above one ear over the high point to above the other.
    EarToEar,
    /// Level, at a named point and so many cm up along the upright.
    Level {
        /// The point.
        at: Landmark,
        /// How much higher, cm.
        #[serde(default)]
        up: f64,
    },
    /// From one temple round behind the crown to the other: it parts off the top.
    Horseshoe,
    /// From a point of the hairline up to the high point.
    ToHighPoint(Edge),
    /// Front to back, so many cm beside the middle.
    Beside {
        /// How far, cm.
        cm: f64,
    },
    /// From a point on the parting, so many cm behind the front hairline, to the hairline so many
    /// degrees about the high point beside the parting: a fringe's triangle.
    Fringe {
        /// Depth, cm along the scalp.
        depth: f64,
        /// Degrees to the side.
        width: f64,
    },
}

/// How a region is parted into sections.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Pattern {
    /// One section.
    Whole,
    /// Level partings.
    Horizontal {
        /// How deep a section is, cm along the scalp.
        spacing: f64,
        /// Where the first one lies.
        from: End,
    },
    /// Upright partings, turning about the upright axis of the head.
    Vertical {
        /// How wide a section is where it is widest, cm along the scalp.
        spacing: f64,
        /// Where the first one lies.
        from: Start,
    },
    /// Partings that slope down towards the face.
    DiagonalForward {
        /// By how much from level, degrees.
        degrees: f64,
        /// How deep a section is, cm along the scalp.
        spacing: f64,
        /// Where the first one lies.
        from: End,
    },
    /// Partings that slope down away from the face.
    DiagonalBack {
        /// By how much from level, degrees.
        degrees: f64,
        /// How deep a section is, cm along the scalp.
        spacing: f64,
        /// Where the first one lies.
        from: End,
    },
    /// Wedges that turn about one point.
    Pivoting {
        /// The point.
        about: Landmark,
        /// How wide a wedge is where it is widest, cm along the scalp.
        spacing: f64,
        /// Where the first one lies.
        from: Start,
    },
    /// Wedges that fan from the high point.
    Radial {
        /// How wide a wedge is where it is widest, cm along the scalp.
        spacing: f64,
        /// Where the first one lies.
        from: Start,
    },
    /// Horseshoes about the top, one below the other.
    Horseshoe {
        /// How deep one is, cm along the scalp.
        spacing: f64,
        /// Where the first one lies.
        from: End,
    },
    /// Strips from front to back.
    Strips {
        /// How wide a strip is, cm along the scalp.
        spacing: f64,
    },
}

/// Whether sections begin at the bottom or at the top.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum End {
    /// At the bottom: each next section lies above.
    Bottom,
    /// At the top.
    Top,
}

/// Whether sections begin at the front or at the back.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Start {
    /// At the front: each next section lies behind.
    Front,
    /// At the back.
    Back,
}

/// An edge of a pivoting section, by where it meets the hairline on one side.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Edge {
    /// The parting the client wears.
    Parting,
    /// The temple.
    Temple,
    /// In front of the ear.
    InFrontOfEar,
    /// Above the ear: the ear-to-ear parting.
    AboveEar,
    /// Just behind the ear.
    BehindEar,
    /// The corner of the nape.
    NapeCorner,
    /// Between behind the ear and the centre back: a share of the way.
    Behind(f64),
    /// The middle of the back.
    BackCentre,
}

/// A single place on one side of the scalp.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Place {
    /// Its name.
    pub name: String,
    /// Degrees about the high point from the front.
    pub azimuth: f64,
    /// Share of the way from the high point to the hairline.
    pub out: f64,
}

impl Bound {
    /// Which side it is, by its place (before, behind, above, below, within, outside), and of which
    /// line.
    pub const fn parts(self) -> (usize, Line) {
        match self {
            Self::Before(line) => (0, line),
            Self::Behind(line) => (1, line),
            Self::Above(line) => (2, line),
            Self::Below(line) => (3, line),
            Self::Within(line) => (4, line),
            Self::Outside(line) => (5, line),
        }
    }

    /// The side of this place of a line; past the last, the last.
    pub const fn of(side: usize, line: Line) -> Self {
        match side {
            0 => Self::Before(line),
            1 => Self::Behind(line),
            2 => Self::Above(line),
            3 => Self::Below(line),
            4 => Self::Within(line),
            _ => Self::Outside(line),
        }
    }
}

impl Pattern {
    /// How far apart its partings lie, cm; none if it has none.
    pub const fn spacing(&self) -> Option<f64> {
        let mut own = *self;
        match own.spacing_mut() {
            Some(spacing) => Some(*spacing),
            None => None,
        }
    }

    /// The same, to be changed.
    pub const fn spacing_mut(&mut self) -> Option<&mut f64> {
        match self {
            Self::Whole => None,
            Self::Horizontal { spacing, .. }
            | Self::Vertical { spacing, .. }
            | Self::DiagonalForward { spacing, .. }
            | Self::DiagonalBack { spacing, .. }
            | Self::Pivoting { spacing, .. }
            | Self::Radial { spacing, .. }
            | Self::Horseshoe { spacing, .. }
            | Self::Strips { spacing } => Some(spacing),
        }
    }

    /// How far diagonal partings slope from level, degrees; none if they are not diagonal.
    pub const fn slope(&self) -> Option<f64> {
        match self {
            Self::DiagonalForward { degrees, .. } | Self::DiagonalBack { degrees, .. } => {
                Some(*degrees)
            }
            _ => None,
        }
    }

    /// Slopes diagonal partings so many degrees.
    pub const fn set_slope(&mut self, to: f64) {
        if let Self::DiagonalForward { degrees, .. } | Self::DiagonalBack { degrees, .. } = self {
            *degrees = to;
        }
    }

    /// Whether it begins at the top or the back; none if it has no such beginning.
    pub const fn begins_late(&self) -> Option<bool> {
        match self {
            Self::Whole | Self::Strips { .. } => None,
            Self::Horizontal { from, .. }
            | Self::DiagonalForward { from, .. }
            | Self::DiagonalBack { from, .. }
            | Self::Horseshoe { from, .. } => Some(matches!(from, End::Top)),
            Self::Vertical { from, .. }
            | Self::Pivoting { from, .. }
            | Self::Radial { from, .. } => Some(matches!(from, Start::Back)),
        }
    }

    /// Begins at the top or the back, or at the bottom or the front.
    pub const fn set_begins_late(&mut self, late: bool) {
        match self {
            Self::Whole | Self::Strips { .. } => {}
            Self::Horizontal { from, .. }
            | Self::DiagonalForward { from, .. }
            | Self::DiagonalBack { from, .. }
            | Self::Horseshoe { from, .. } => *from = if late { End::Top } else { End::Bottom },
            Self::Vertical { from, .. }
            | Self::Pivoting { from, .. }
            | Self::Radial { from, .. } => *from = if late { Start::Back } else { Start::Front },
        }
    }

    /// A pattern of another kind, in the order in which they are written above, as far apart and
    /// begun alike where both have that.
    pub fn as_kind(&self, kind: usize) -> Self {
        let spacing = self.spacing().unwrap_or(2.5);
        let late = self.begins_late().unwrap_or(false);
        let degrees = self.slope().unwrap_or(30.0);
        let end = if late { End::Top } else { End::Bottom };
        let start = if late { Start::Back } else { Start::Front };
        match kind {
            1 => Self::Horizontal { spacing, from: end },
            2 => Self::Vertical {
                spacing,
                from: start,
            },
            3 => Self::DiagonalForward {
                degrees,
                spacing,
                from: end,
            },
            4 => Self::DiagonalBack {
                degrees,
                spacing,
                from: end,
            },
            5 => Self::Pivoting {
                about: Landmark::Crown,
                spacing,
                from: start,
            },
            6 => Self::Radial {
                spacing,
                from: start,
            },
            7 => Self::Horseshoe { spacing, from: end },
            8 => Self::Strips { spacing },
            _ => Self::Whole,
        }
    }
}
