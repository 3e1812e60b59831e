//! What the pictures of one cut are drawn from.

use super::ahead::Shelf;
use super::outline::Seen;
use super::scalp::{Drawn, Shown};
use crate::book::{Ready, SavedCut};
use crate::chart::{Draped, Scene, Turned};
use crate::cut::{CutError, Measured, Outcome, before};
use crate::measure::Unit;
use crate::ui::kept::Kept;
use crate::ui::parts::Outlined;
use crate::walk::Walk;
use std::sync::{Arc, OnceLock};

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
    /// The maps of the scalp that were drawn already.
    pub maps: Shelf<(Shown, Unit), Drawn>,
    /// The outlines that were.
    pub outlines: Shelf<Seen, Outlined>,
    hung: [OnceLock<Result<Draped, String>>; 3],
    turned: [OnceLock<Arc<Turned>>; 2],
    lowest: OnceLock<f64>,
}

/// Which hair of a cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Which {
    /// As it was before.
    Before,
    /// As it is planned.
    Planned,
    /// As it comes out; see [`Made::real`].
    Real,
}

impl Made {
    /// The hair as it comes out: as cut, and what follows of it; as planned where nothing is cut.
    pub fn real(&self) -> &Outcome {
        self.cut.as_ref().map_or(&self.planned, |(_, cut)| cut)
    }

    /// Hair let down. That takes a while, so it is done the first time it is asked for, and kept.
    ///
    /// # Errors
    /// A sentence.
    pub fn draped(&self, which: Which) -> Result<&Draped, String> {
        let (place, outcome) = match (which, &self.cut) {
            (Which::Before, _) => (0, &self.before),
            (Which::Real, Some((_, cut))) => (2, cut),
            _ => (1, &self.planned),
        };
        let drape = || Draped::of(&self.ready.job(), outcome).map_err(|e| e.to_string());
        let hung = self.hung[place].get_or_init(drape);
        hung.as_ref().map_err(Clone::clone)
    }

    /// The head that is turned, with as much of the body as held hair needs, or hair let down.
    pub fn turned(&self, down: bool) -> Arc<Turned> {
        let lowest = || if down { self.lowest() } else { 0.0 };
        let turned = || Arc::new(Turned::new(&self.ready.head, lowest()));
        self.turned[usize::from(down)].get_or_init(turned).clone()
    }

    /// The lowest end of the hair before the cut, cm in the head's frame; 0 where it cannot be let down.
    pub fn lowest(&self) -> f64 {
        let before = || {
            Scene::let_down(&self.ready.job(), &self.before, 0)
                .ok()?
                .lowest()
        };
        *self.lowest.get_or_init(|| before().unwrap_or_default())
    }

    /// Whether all that is to be cut is.
    pub fn all_cut(&self) -> bool {
        let cut = self.cut.as_ref();
        cut.is_some_and(|(walk, outcome)| walk.all_cut(outcome))
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
            maps: Shelf::new(),
            outlines: Shelf::new(),
            hung: Default::default(),
            turned: Default::default(),
            lowest: OnceLock::new(),
        })
    }
}
