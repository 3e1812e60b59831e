//! What is left on a section on purpose, in a sentence.

use crate::cut::SectionCut;
use crate::measure::Unit;

/// `Up to 0.5 cm of it is left on for the ear and the curl.`; none if nothing is, or less than is shown.
pub fn left_on(section: &SectionCut, unit: Unit) -> Option<String> {
    let left_on = section.left_on()?;
    if left_on.most.number(unit) == "0" {
        return None;
    }
    let words: Vec<&str> = left_on.reasons.iter().map(|r| r.words()).collect();
    let reasons = match words.as_slice() {
        [] => String::new(),
        all => format!(" for {}", all.join(" and ")),
    };
    let most = left_on.most.shown(unit);
    Some(format!("Up to {most} of it is left on{reasons}."))
}
