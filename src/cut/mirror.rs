//! The other side: on a head whose sides are alike, cut alike so far, the right is the left in a mirror.

use super::line::{CuttingLine, Following};
use super::section::Strand;
use crate::geometry::{Target, Taut, Vec3};
use crate::plan::Row;

/// Left and right changed over.
pub(super) trait Mirrored {
    /// The same on the other side.
    fn mirrored(&self) -> Self;
}

impl Mirrored for Vec3 {
    fn mirrored(&self) -> Self {
        Self::new(-self.x, self.y, self.z)
    }
}

impl Mirrored for Target {
    fn mirrored(&self) -> Self {
        match self {
            Self::Point(p) => Self::Point(p.mirrored()),
            Self::Segment(from, to) => Self::Segment(from.mirrored(), to.mirrored()),
            Self::Plane { through, normal } => Self::Plane {
                through: through.mirrored(),
                normal: normal.mirrored(),
            },
        }
    }
}

impl Mirrored for Taut {
    fn mirrored(&self) -> Self {
        Self {
            leaves: self.leaves.mirrored(),
            meets: self.meets.mirrored(),
            heading: self.heading.mirrored(),
            ..*self
        }
    }
}

impl Mirrored for Strand {
    fn mirrored(&self) -> Self {
        Self {
            root: self.root.mirrored(),
            path: self.path.map(|path| path.mirrored()),
            ..*self
        }
    }
}

impl Mirrored for CuttingLine {
    fn mirrored(&self) -> Self {
        match self {
            Self::Straight(target) => Self::Straight(target.mirrored()),
            Self::Bent(pieces) => Self::Bent(pieces.iter().map(Target::mirrored).collect()),
            Self::Following(line) => Self::Following(line.mirrored()),
            Self::Fall(target) => Self::Fall(target.mirrored()),
            Self::Sloping {
                level,
                through,
                normal,
                up,
            } => Self::Sloping {
                level: level.mirrored(),
                through: through.mirrored(),
                normal: normal.mirrored(),
                up: up.mirrored(),
            },
            Self::Off(_) | Self::Taper { .. } => self.clone(),
        }
    }
}

impl Mirrored for Following {
    fn mirrored(&self) -> Self {
        Self {
            row: Row::mirrored(&self.row),
            off: self.off.clone(),
            side: self.side.mirrored(),
            ..*self
        }
    }
}
