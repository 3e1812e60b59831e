//! The line that gets cut, and at what length it cuts the hair of a root.

use super::fold::CutError;
use super::pose::{Pose, Stand};
use crate::geometry::{Convex, Target, Taut, Vec3, taut};
use crate::hair::{CutAt, FallsTo, Hair};
use crate::head::{Head, Landmark, Region, Regions, Side};
use crate::plan::{Elevation, Over, Row};

/// The person's hair on their head, as the fold asks about it.
#[derive(Clone, Debug)]
pub(super) struct OnHead {
    pub hair: Hair,
    /// None where hair is the same in all regions.
    regions: Option<Regions>,
}

impl OnHead {
    pub fn new(head: &Head, hair: &Hair) -> Self {
        Self {
            hair: hair.clone(),
            regions: (!hair.is_even()).then(|| Regions::of(head)),
        }
    }

    pub fn region(&self, root: Vec3) -> Region {
        self.regions.map_or(Region::Top, |r| r.at(root))
    }

    /// How long hair at a root must be cut for this much to hang, cm.
    pub fn cut_at(&self, root: Vec3, hanging: f64) -> f64 {
        let falls = FallsTo::from_cm(hanging);
        self.hair.cut_at(falls, self.region(root)).cm()
    }

    pub fn falls_to(&self, root: Vec3, cut: f64) -> FallsTo {
        self.hair.falls_to(CutAt::from_cm(cut), self.region(root))
    }
}

/// A cutting line.
#[derive(Clone, Debug)]
pub enum CuttingLine {
    /// One straight line, point or plane in space.
    Straight(Target),
    /// A bent line: the nearest of these pieces counts.
    Bent(Vec<Target>),
    /// A line that follows the head along a section.
    Following(Following),
    /// The line that ends fall to.
    Fall(Target),
    /// A line that slopes: ends fall plumb to this plane.
    Sloping {
        /// A level at or below all of the line, for the way down.
        level: Target,
        /// Any point of the sloping plane.
        through: Vec3,
        /// The plane's unit normal.
        normal: Vec3,
        /// Straight up in the room.
        up: Vec3,
    },
    /// So many cm shorter than it was.
    Off(f64),
    /// So long at the lower hairline, longer by `rise` with each cm up from it, up to a length, cm.
    Taper {
        /// The length at the hairline; below zero where the skin is reached above it.
        from: f64,
        /// Cm a cm.
        rise: f64,
        /// The length that it rises to.
        up_to: f64,
    },
}

/// A line that follows the round of the head: from each place of the section's middle row so far out,
/// in the direction in which hair is held there.
#[derive(Clone, Debug)]
pub struct Following {
    pub(super) row: Row,
    /// Places along the row, as shares of its length, and how far out the line stands there, cm. In
    /// rising order; straight between them.
    pub(super) off: Vec<(f64, f64)>,
    pub(super) elevation: Elevation,
    pub(super) over: Over,
    pub(super) side: Side,
    pub(super) pose: Pose,
}

impl Following {
    /// The place of the line abreast of `root`.
    pub(super) fn abreast(&self, head: &Head, root: Vec3) -> Vec3 {
        self.at(head, self.row.share(root))
    }

    /// The place of the line this share of the way along the row.
    pub(super) fn at(&self, head: &Head, along: f64) -> Vec3 {
        let base = self.row.at(head, along).unwrap_or_default();
        let there = base + self.direction(head, base) * self.off_at(along);
        // Hair that is held into the head lies on it.
        if head.skull().value(there) < 1.0 {
            head.skull().settle(there)
        } else {
            there
        }
    }

    fn off_at(&self, along: f64) -> f64 {
        let next = self.off.partition_point(|(share, _)| *share < along);
        match (self.off.get(next.wrapping_sub(1)), self.off.get(next)) {
            (Some(&(a, from)), Some(&(b, to))) => {
                from + (to - from) * ((along - a) / (b - a).max(f64::MIN_POSITIVE))
            }
            (Some(&(_, end)), None) | (None, Some(&(_, end))) => end,
            (None, None) => 0.0,
        }
    }

    pub(super) fn direction(&self, head: &Head, base: Vec3) -> Vec3 {
        let place = |landmark: Landmark| self.pose.landmark(head, landmark, self.side);
        Stand::at(head, base, &self.pose).held(self.elevation, self.over, self.side, place)
    }
}

/// At what length a line cuts the hair of a root.
#[derive(Clone, Copy, Debug)]
pub(super) struct Reach {
    /// The length in cm.
    pub length: f64,
    /// Its way to the line; none for a trim.
    pub path: Option<Taut>,
}

impl CuttingLine {
    /// At what length it cuts the hair of `root` that is `before` cm long, with what is left on there on
    /// purpose.
    pub(super) fn reach(
        &self,
        head: &Head,
        hair: &OnHead,
        root: Vec3,
        before: f64,
    ) -> Result<Reach, CutError> {
        let reach = self.bare(head, hair, root, before)?;
        Ok(Reach {
            length: reach.length + self.left_on(hair, root),
            ..reach
        })
    }

    /// A length in cm below which it cuts no hair of `root`, found without looking for a path: none is
    /// shorter than the crow's way to the line.
    pub(super) fn at_least(&self, hair: &OnHead, root: Vec3) -> f64 {
        let crow = |target: &Target| target.nearest(root).distance(root);
        let bare = match self {
            Self::Straight(target) => crow(target),
            Self::Fall(target) => hair.cut_at(root, crow(target)),
            Self::Bent(_)
            | Self::Following(_)
            | Self::Sloping { .. }
            | Self::Off(_)
            | Self::Taper { .. } => return 0.0,
        };
        bare + self.left_on(hair, root)
    }

    /// How much longer than it says hair at `root` is left on purpose, cm. A trim takes the same off
    /// everywhere.
    pub(super) fn left_on(&self, hair: &OnHead, root: Vec3) -> f64 {
        match self {
            Self::Off(_) => 0.0,
            _ => hair.hair.allowance(root),
        }
    }

    /// The same without what is left on: where the line itself lies.
    pub(super) fn bare(
        &self,
        head: &Head,
        hair: &OnHead,
        root: Vec3,
        before: f64,
    ) -> Result<Reach, CutError> {
        let along = |target: &Target| taut(head.skull(), root, target);
        Ok(match self {
            Self::Straight(target) => Reach::along(along(target)?),
            Self::Bent(pieces) => {
                let mut nearest: Option<Taut> = None;
                for piece in pieces {
                    let path = along(piece)?;
                    if nearest.is_none_or(|n| path.length < n.length) {
                        nearest = Some(path);
                    }
                }
                Reach {
                    length: nearest.map_or(before, |path| path.length),
                    path: nearest,
                }
            }
            Self::Following(line) => Reach::along(along(&Target::Point(line.abreast(head, root)))?),
            // Hair that grows below the level it is to fall to is not cut there.
            Self::Fall(Target::Plane { through, normal })
                if (root - *through).dot(*normal) < 0.0 =>
            {
                Reach {
                    length: f64::INFINITY,
                    path: None,
                }
            }
            Self::Fall(target) => {
                let path = along(target)?;
                Reach {
                    length: hair.cut_at(root, path.length),
                    path: Some(path),
                }
            }
            Self::Sloping {
                level,
                through,
                normal,
                up,
            } => {
                let path = along(level)?;
                // Where the plumb line meets the plane, above the level.
                let short = (*through - path.meets).dot(*normal) / normal.dot(*up);
                let hanging = (path.length - short).max(0.0);
                Reach {
                    length: hair.cut_at(root, hanging),
                    path: Some(Taut {
                        length: hanging,
                        meets: path.meets + *up * short,
                        ..path
                    }),
                }
            }
            Self::Off(cm) => Reach {
                length: (before - cm).max(0.0),
                path: None,
            },
            Self::Taper { from, rise, up_to } => Reach {
                length: (from + rise * above_lower_hairline(head, root))
                    .min(*up_to)
                    .max(0.0),
                path: None,
            },
        })
    }

    /// At what length, in cm as cut, it cuts hair that is `before` cm long at a root.
    ///
    /// # Errors
    /// [`CutError`] when a path cannot be found.
    pub fn cuts_at(
        &self,
        head: &Head,
        hair: &Hair,
        root: Vec3,
        before: f64,
    ) -> Result<f64, CutError> {
        Ok(self
            .reach(head, &OnHead::new(head, hair), root, before)?
            .length)
    }

    /// The line as points for drawing: one for a point, none for a plane or a trim.
    pub fn points(&self, head: &Head) -> Vec<Vec3> {
        let ends = |target: &Target| match *target {
            Target::Point(p) => vec![p],
            Target::Segment(a, b) => vec![a, b],
            Target::Plane { .. } => Vec::new(),
        };
        match self {
            Self::Straight(target) | Self::Fall(target) => ends(target),
            Self::Bent(pieces) => {
                let mut points: Vec<Vec3> = pieces.iter().flat_map(ends).collect();
                points.dedup();
                points
            }
            Self::Following(line) => (0..=8).map(|i| line.at(head, f64::from(i) / 8.0)).collect(),
            Self::Sloping { .. } | Self::Off(_) | Self::Taper { .. } => Vec::new(),
        }
    }
}

/// How far up from the hairline of nape and ear a root grows, cm along the scalp; before the ear, where
/// the hairline runs upright, how far above the sideburn, if that is more.
fn above_lower_hairline(head: &Head, root: Vec3) -> f64 {
    let spot = head.spot(root);
    let up = head.hairline().distance(spot.azimuth) * (1.0 - spot.out);
    let before_ear = Landmark::InFrontOfEar
        .hairline_azimuth()
        .unwrap_or_default();
    if spot.azimuth.abs() < before_ear {
        let side = if root.x < 0.0 {
            Side::Right
        } else {
            Side::Left
        };
        up.max(root.z - head.landmark(Landmark::InFrontOfEar, side).z)
    } else {
        up.max(0.0)
    }
}

impl Reach {
    fn along(path: Taut) -> Self {
        Self {
            length: path.length,
            path: Some(path),
        }
    }
}
