//! Where a cutting line lies in space.

use super::fold::CutError;
use super::lengths::Lengths;
use crate::geometry::{Convex, Target, Vec3, bracketed, taut};
use crate::head::{Head, Landmark, Spot};
use crate::plan::{
    Choices, Cut, Elevation, Fingers, Held, Plan, Reference, Rule, Section, Station, sections,
};

/// Half of the line that the fingers of one hand make when they slide once along it, in cm.
/// Judgement.
const HALF_LINE: f64 = 4.0;
/// How near to the head a line may stand, in cm: the thickness of a comb.
const STAND_OFF: f64 = 0.3;
/// Share of the way out at which a parting's line is centred.
const MIDDLE: f64 = 0.55;

/// What the engine needs to lay the line of a step.
pub(super) struct Setting<'a> {
    pub head: &'a Head,
    pub plan: &'a Plan,
    pub choices: &'a Choices,
    /// The hair as the steps before left it.
    pub lengths: &'a Lengths,
}

impl Setting<'_> {
    /// The cutting line for the sections of one side of a step, of which `first` is the first; none
    /// when the step cuts nothing.
    pub fn line(&self, held: &Held, first: &Section) -> Result<Option<Target>, CutError> {
        match held {
            Held::Check => Ok(None),
            Held::Fall { to } => {
                let landmark = self.choices.landmark(self.plan, to)?;
                Ok(Some(Target::Point(
                    self.head.landmark(landmark, first.side),
                )))
            }
            Held::Stationary(cut) => self.stationary(cut, first).map(Some),
        }
    }

    fn stationary(&self, cut: &Cut, first: &Section) -> Result<Target, CutError> {
        let parting = self.choices.parting(self.plan).azimuth();
        let base = match cut.station {
            Station::Parting => Spot {
                azimuth: parting,
                out: MIDDLE,
            },
            Station::EarToEar => {
                let ridge = self.head.landmark(Landmark::ParietalRidge, first.side);
                let out = self.head.spot(ridge).out;
                Spot {
                    azimuth: Landmark::AboveEar.hairline_azimuth().unwrap_or_default()
                        * first.side.sign(),
                    out,
                }
            }
        };
        let stand = Stand::at(self.head, base);
        let up = stand.direction(cut.elevation);
        let along = match cut.fingers {
            Fingers::ParallelToHead => stand.down,
            Fingers::Level => Vec3::Z.cross(up).try_normalize().unwrap_or(stand.across()),
        };
        // The guide hair, which settles how far off the line is, and what helps if it is too short.
        let (guide, length, advice) = match &cut.length {
            Rule::AsStep(step) => {
                let guide = self.guide_of(step, parting);
                let length = self.lengths.at(self.head, guide)?;
                (
                    guide,
                    length,
                    "Choose a lower point of the face, or look again how long the hair is now.",
                )
            }
            Rule::AmountOff(off) => {
                let guide = first.patch.spot(0.5, 0.5);
                let off = self.choices.cm(self.plan, off)?;
                let length = self.lengths.at(self.head, guide)? - off;
                (guide, length, "Take less off.")
            }
        };
        let root = self.head.place(guide);
        let line = |off: f64| {
            let middle = stand.base + up * off;
            Target::Segment(middle - along * HALF_LINE, middle + along * HALF_LINE)
        };
        let over = |off: f64| {
            taut(self.head.skull(), root, &line(off)).map_or(-length, |path| path.length - length)
        };
        // The line can stand no further off than the guide hair is long, but for where it grows.
        let furthest = length.max(STAND_OFF) + root.distance(stand.base) + 1.0;
        let off =
            bracketed((STAND_OFF, furthest), 1e-5, over).map_err(|_| CutError::GuideTooShort {
                length: length.max(0.0),
                advice,
            })?;
        Ok(line(off))
    }
}

impl Setting<'_> {
    /// The hair of an earlier step that guides this one: that of its first section next to the
    /// parting, at the hairline; the front of the parting if there is no such step.
    fn guide_of(&self, step: &str, parting: f64) -> Spot {
        let earlier = self.plan.steps.iter().find(|s| s.id == step);
        let first = earlier.and_then(|s| sections(self.plan, s, self.choices).into_iter().next());
        first.map_or(
            Spot {
                azimuth: parting,
                out: 1.0,
            },
            |s| s.patch.spot(0.0, 1.0),
        )
    }
}

/// A place on the scalp with its directions.
struct Stand {
    base: Vec3,
    normal: Vec3,
    /// The steepest way down along the scalp.
    down: Vec3,
}

impl Stand {
    fn at(head: &Head, spot: Spot) -> Self {
        let base = head.place(spot);
        let normal = head.skull().normal(base);
        let fall = Vec3::NEG_Z + normal * normal.z;
        let down = fall.try_normalize().unwrap_or(Vec3::Y);
        Self { base, normal, down }
    }

    /// Level, across the way down.
    fn across(&self) -> Vec3 {
        self.normal.cross(self.down)
    }

    /// The direction hair is held in at this elevation.
    fn direction(&self, elevation: Elevation) -> Vec3 {
        let angle = elevation.degrees.to_radians();
        match elevation.from {
            Reference::Head => self.down * angle.cos() + self.normal * angle.sin(),
            Reference::Room => {
                let level = Vec3::new(self.normal.x, self.normal.y, 0.0);
                let out = level.try_normalize().unwrap_or(Vec3::Y);
                Vec3::NEG_Z * angle.cos() + out * angle.sin()
            }
        }
    }
}
