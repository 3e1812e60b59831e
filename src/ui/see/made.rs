//! What the pictures of one cut are drawn from.

use crate::cut::{CutError, Measured, Outcome, before};
use crate::store::{Ready, SavedCut};
use crate::ui::kept::Kept;
use crate::walk::Walk;

/// A cut worked out: as the hair was, as it is planned, as it came out.
pub struct Made {
    /// Which cut.
    pub id: String,
    /// What it is worked out from.
    pub ready: Ready,
    /// The hair before.
    pub before: Outcome,
    /// The plan.
    pub planned: Outcome,
    /// The walk and what was cut, as far as it went; none if nothing was yet.
    pub cut: Option<(Walk, Outcome)>,
}

impl Made {
    /// The hair as it comes out: as cut, and what follows of it; as planned where nothing is cut.
    pub fn real(&self) -> &Outcome {
        self.cut.as_ref().map_or(&self.planned, |(_, cut)| cut)
    }

    /// Works a cut out.
    ///
    /// # Errors
    /// A sentence.
    pub fn of(kept: Kept, cut: &SavedCut) -> Result<Self, String> {
        let ready = kept.ready(cut).map_err(|e| e.to_string())?;
        let planned = ready.outcome(&Measured::new()).map_err(|e| e.to_string())?;
        let walk = cut.walk.as_ref().filter(|walk| walk.has_cut());
        let real = walk.map(|walk| Ok((walk.clone(), ready.followed(walk)?)));
        Ok(Self {
            id: cut.id.clone(),
            before: before(&ready.job()),
            planned,
            cut: real.transpose().map_err(|e: CutError| e.to_string())?,
            ready,
        })
    }
}
