//! From which side a head is drawn.

use crate::fall;
use crate::geometry::Vec3;
use crate::head::Side;
use kurbo::Point;

/// The side from which a head is drawn. One centimetre is ten units of the picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum View {
    /// From the client's left: the face points to the picture's left.
    Left,
    /// From the client's right.
    Right,
    /// From the front: the client's left is on the picture's right.
    Front,
    /// From the back: the client's left is on the picture's left.
    Back,
}

/// Units of a picture to a centimetre.
pub const SCALE: f64 = 10.0;

impl View {
    /// The view in which the hair of a side is seen.
    pub const fn of(side: Side) -> Self {
        match side {
            Side::Right => Self::Right,
            Side::Left | Side::Centre => Self::Left,
        }
    }

    /// The side whose ear it shows; from the front and the back, where both are, the left.
    pub const fn side(self) -> Side {
        match self {
            Self::Left | Self::Front | Self::Back => Side::Left,
            Self::Right => Side::Right,
        }
    }

    /// The same view, as silhouettes of fallen hair know it.
    pub const fn falls(self) -> fall::View {
        match self {
            Self::Left => fall::View::LeftSide,
            Self::Right => fall::View::RightSide,
            Self::Front => fall::View::Front,
            Self::Back => fall::View::Back,
        }
    }

    /// The view from the other side of the mirror: left for right; front and back stay.
    pub const fn opposite(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
            same => same,
        }
    }

    /// Where a place lies in the picture, in millimetres; down is positive.
    pub fn project(self, p: Vec3) -> Point {
        let across = match self {
            Self::Left => -p.y,
            Self::Right => p.y,
            Self::Front => p.x,
            Self::Back => -p.x,
        };
        Point::new(across * SCALE, -p.z * SCALE)
    }

    /// How far a place lies towards the viewer from the middle of the head, in cm.
    pub const fn depth(self, p: Vec3) -> f64 {
        match self {
            Self::Left => p.x,
            Self::Right => -p.x,
            Self::Front => p.y,
            Self::Back => -p.y,
        }
    }
}
