//! What is left on a section on purpose, in a sentence.

use crate::cut::SectionCut;
use crate::measure::Unit;
use crate::words::tr;

/// `Up to 0.5 cm of it is left on for the ear and the curl.`; none if nothing is, or less than is shown.
pub fn left_on(section: &SectionCut, unit: Unit) -> Option<String> {
    let left_on = section.left_on()?;
    if left_on.most.number(unit) == "0" {
        return None;
    }
    let words: Vec<&str> = left_on.reasons.iter().map(|r| r.words()).collect();
    let most = left_on.most.shown(unit);
    Some(if words.is_empty() {
        tr!("Up to {most} of it is left on.", most)
    } else {
        let reasons = words.join(tr(" and "));
        tr!(
            "Up to {most} of it is left on for {reasons}.",
            most,
            reasons
        )
    })
}
