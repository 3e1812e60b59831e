//! A worked-out plan let down, ready to be drawn.

use crate::chart::{Stage, View, fallen, fallen_picture};
use crate::cut::{CutError, Job, LetDown, Outcome, PLACES};
use crate::head::Head;

/// Hair let down on its head.
#[derive(Clone)]
pub struct Letting {
    head: Head,
    down: LetDown,
}

impl Letting {
    /// The hair of an outcome let down.
    pub fn of(job: &Job<'_>, outcome: &Outcome) -> Result<Self, CutError> {
        Ok(Self {
            head: job.head.clone(),
            down: outcome.let_down(job, PLACES)?,
        })
    }

    /// The hair.
    pub const fn down(&self) -> &LetDown {
        &self.down
    }

    /// The lowest end of both, so that pictures of both have one measure.
    pub fn lowest(&self, other: &Self) -> f64 {
        self.down.lowest().min(other.down.lowest())
    }

    /// A whole picture, its stage reaching down to `lowest`.
    pub fn picture(&self, view: View, lowest: f64, title: &str) -> String {
        let stage = Stage::new(&self.head, view, lowest);
        fallen_picture(&stage, &fallen(&self.down, view, &stage), title)
    }
}
