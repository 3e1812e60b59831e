//! How long the hair is, everywhere on the scalp, after the steps so far.

use super::fold::CutError;
use crate::geometry::{Target, Vec3, taut};
use crate::hair::Before;
use crate::head::{Head, Spot};
use crate::plan::Patch;

/// The length of the hair as a function of the place on the scalp.
///
/// It is kept as what was done rather than as samples, so that any root can be asked exactly.
#[derive(Clone, Debug)]
pub struct Lengths {
    before: Before,
    cuts: Vec<Applied>,
}

/// One section cut.
#[derive(Clone, Debug)]
struct Applied {
    patch: Patch,
    line: Target,
    /// How much longer than computed it came out, in cm.
    shift: f64,
}

impl Lengths {
    /// Hair that nobody has cut yet.
    pub fn before(before: Before) -> Self {
        Self {
            before,
            cuts: Vec::new(),
        }
    }

    /// The length in cm at one spot of the scalp.
    ///
    /// # Errors
    /// [`CutError`] when a path cannot be found.
    pub fn at(&self, head: &Head, spot: Spot) -> Result<f64, CutError> {
        self.at_root(head, spot, head.place(spot))
    }

    /// The same where the root of the spot is known already.
    pub(super) fn at_root(&self, head: &Head, spot: Spot, root: Vec3) -> Result<f64, CutError> {
        let mut length = self.before.at(head, root)?;
        for cut in self.cuts.iter().filter(|cut| cut.patch.holds(spot)) {
            let reach = taut(head.skull(), root, &cut.line)?.length + cut.shift;
            length = length.min(reach.max(0.0));
        }
        Ok(length)
    }

    /// The same hair with one more section cut along `line`, `shift` cm longer than computed.
    pub(super) fn with(mut self, patch: Patch, line: Target, shift: f64) -> Self {
        self.cuts.push(Applied { patch, line, shift });
        self
    }
}
