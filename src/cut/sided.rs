//! One side of a step, and its twin in the mirror.

use super::line::CuttingLine;
use super::mirror::Mirrored;
use super::section::{SectionCut, Strand};
use crate::plan::{Patch, Section};
use std::sync::Arc;

/// A patch, the line it was cut along and how much longer it came out, cm.
pub(super) type Cutting = (Patch, Arc<CuttingLine>, f64);

/// One side of a step, cut.
#[derive(Default)]
pub(super) struct Sided {
    pub cuts: Vec<SectionCut>,
    /// What it did to the hair, section by section; nothing of a check.
    pub changed: Vec<Cutting>,
    /// How much longer than planned its guide really was, cm.
    pub longer: f64,
    /// Whether it is told as planned, because it cannot go on from what was really cut.
    pub as_planned: bool,
    /// Whether it asked about hair that the other side cut.
    pub crossed: bool,
}

impl Sided {
    /// The right side of a step of which this is the left, where both are alike.
    pub fn twins(&self, ours: &[&Section]) -> Self {
        // Sections of a step share a line; so do their twins.
        let mut known: Vec<(&Arc<CuttingLine>, Arc<CuttingLine>)> = Vec::new();
        fn twin<'a>(
            known: &mut Vec<(&'a Arc<CuttingLine>, Arc<CuttingLine>)>,
            line: &'a Arc<CuttingLine>,
        ) -> Arc<CuttingLine> {
            if let Some((_, mirrored)) = known.iter().rfind(|(of, _)| Arc::ptr_eq(of, line)) {
                return Arc::clone(mirrored);
            }
            let mirrored = Arc::new(line.mirrored());
            known.push((line, Arc::clone(&mirrored)));
            mirrored
        }
        let changed = self.changed.iter().zip(ours);
        let changed = changed
            .map(|((_, line, shift), section)| {
                (section.patch.clone(), twin(&mut known, line), *shift)
            })
            .collect();
        let cuts = self.cuts.iter().zip(ours);
        let cuts = cuts
            .map(|(cut, section)| SectionCut {
                key: cut.key.mirrored(),
                section: (*section).clone(),
                line: cut.line.as_ref().map(|line| twin(&mut known, line)),
                strands: cut.strands.iter().map(Strand::mirrored).collect(),
                ..cut.clone()
            })
            .collect();
        Self {
            cuts,
            changed,
            longer: self.longer,
            as_planned: self.as_planned,
            crossed: self.crossed,
        }
    }
}
