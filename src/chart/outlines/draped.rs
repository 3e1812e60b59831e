//! A worked-out head of hair let down, with all that its outlines are drawn from.

use crate::chart::View;
use crate::cut::{CutError, EndAt, Job, LetDown, Outcome};
use crate::fall::{Drape, Row};
use crate::geometry::Vec3;
use crate::head::{Head, Landmark, Side};

/// Places of the scalp that are let down. With the hem between them the outline lies within a
/// millimetre of that of ten times as many.
const PLACES: usize = 900;
/// How finely ways of hair are followed over the body, cm.
const SPACING: f64 = 0.5;
/// From a side, hair this far beyond the middle line still counts as seen, cm: what lies on the middle
/// line belongs to both sides.
const BEYOND: f64 = 0.5;
/// Seen from the front or the back, hair less far beyond the ear's opening than this lies before the head,
/// cm.
const BESIDE_EAR: f64 = 1.0;

/// Hair let down on its head. Made once, it is drawn from any side.
#[derive(Clone, Debug)]
pub struct Draped {
    /// The head.
    pub head: Head,
    /// The hair.
    pub down: LetDown,
    /// Where front pieces, sides and back end.
    pub ends: Vec<EndAt>,
    drape: Drape,
}

impl Draped {
    /// Lets the hair of an outcome down.
    ///
    /// # Errors
    /// [`CutError`] when a length cannot be worked out.
    pub fn of(job: &Job<'_>, outcome: &Outcome) -> Result<Self, CutError> {
        let down = outcome.let_down(job, PLACES)?;
        Ok(Self {
            head: job.head.clone(),
            ends: outcome.ends_round(job, &down)?,
            drape: down.drape(SPACING),
            down,
        })
    }

    /// What its hair covers from one side, row by row: from the left and the right the hair of that side,
    /// from the front and the back all of it.
    pub fn rows(&self, view: View) -> Vec<Row> {
        match view {
            View::Left | View::Right => self
                .drape
                .rows(view.falls(), |p| view.depth(p) > -BEYOND),
            View::Front | View::Back => self.drape.rows(view.falls(), |_| true),
        }
    }

    /// From the front or the back: what lies before the head, with all that lies over it. From the front
    /// it leaves the face free.
    pub(super) fn near_rows(&self, view: View) -> Vec<Row> {
        let ear = view.depth(self.head.ear_opening(Side::Left)) - BESIDE_EAR;
        let edge = match view {
            View::Back => Landmark::Nape,
            _ => Landmark::FrontHairline,
        };
        let over = self.head.landmark(edge, Side::Centre).z;
        let seen = |p: Vec3| view.depth(p) > ear || p.z > over;
        self.drape.rows(view.falls(), seen)
    }
}
