//! What was cut against what was planned.

use super::run::Walk;
use crate::cut::{Outcome, SectionCut, SectionKey};
use crate::measure::Length;

/// One section, planned and cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Which.
    pub key: SectionKey,
    /// Its name.
    pub name: String,
    /// Its long end as planned before the first cut.
    pub planned: Length,
    /// Its long end as cut: measured, or else the target it was cut to, as the screen showed it; none if
    /// it was not cut.
    pub cut: Option<Length>,
    /// Whether that was measured.
    pub measured: bool,
}

impl Row {
    /// Cut less planned, in cm: above zero it came out longer.
    pub fn difference(&self) -> Option<f64> {
        self.cut.map(|cut| cut.cm() - self.planned.cm())
    }

    /// How far off it came out, cm; 0 where it was not cut.
    pub fn off(&self) -> f64 {
        self.difference().map_or(0.0, f64::abs)
    }
}

/// The section that came out furthest off its plan; the first of several.
pub fn furthest(rows: &[Row]) -> Option<&Row> {
    let further = |a: &&Row, b: &&Row| a.off().total_cmp(&b.off());
    rows.iter().rev().max_by(further)
}

/// Every section that cuts something, planned against cut. `planned` is the plan on this head with
/// nothing measured, `followed` the plan with what the walk measured.
pub fn compare(planned: &Outcome, followed: &Outcome, walk: &Walk) -> Vec<Row> {
    planned
        .sections
        .iter()
        .filter(|section| section.cuts())
        .map(|section| {
            let now = followed.section(&section.key).map(SectionCut::long);
            Row {
                key: section.key.clone(),
                name: section.section.name.clone(),
                planned: section.long(),
                cut: walk.cut_at(&section.key, now),
                measured: walk.came_out_at(&section.key).is_some(),
            }
        })
        .collect()
}
