//! Where the hair ends on its way round: the front pieces, the sides, the back.

use super::fold::{CutError, Job, Outcome};
use super::let_down::LetDown;
use super::wish::{What, spot};
use crate::fall::Hanging;
use crate::geometry::Vec3;
use crate::head::{Level, Side, Spot};

/// Where one stretch of the outline ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EndAt {
    /// Which: front pieces, sides or back.
    pub what: What,
    /// On which side; the back's is the middle.
    pub side: Side,
    /// Its end, let down and dry.
    pub tip: Vec3,
    /// The height of it.
    pub level: Level,
}

impl Outcome {
    /// Where front pieces, sides and back end on their own hair, left and right; `down` is its hair let
    /// down. What has no hair left is there too, with its root as its end.
    ///
    /// # Errors
    /// [`CutError`] when a length cannot be worked out.
    pub fn ends_round(&self, job: &Job<'_>, down: &LetDown) -> Result<Vec<EndAt>, CutError> {
        let head = job.head;
        let parting = job.choices.parting(job.plan).azimuth();
        let mut all = Vec::new();
        for what in [What::Front, What::Sides, What::Back] {
            let left = spot(job, what);
            // Beside the parting, wherever it is; the sides about the middle.
            let right = match what {
                What::Front => 2.0 * parting - left.azimuth,
                _ => -left.azimuth,
            };
            let right = Spot {
                azimuth: right,
                ..left
            };
            let places = match what {
                What::Back => vec![(Side::Centre, left)],
                _ => vec![(Side::Left, left), (Side::Right, right)],
            };
            for (side, place) in places {
                let root = head.place(place);
                let length = self.lengths.falls_to(head, root)?;
                if let Some(fallen) = down.with(&[Hanging { root, length }]).first() {
                    all.push(EndAt {
                        what,
                        side,
                        tip: fallen.tip,
                        level: Level::of(head, fallen.tip.z),
                    });
                }
            }
        }
        Ok(all)
    }
}
