//! What the parts of this folder ask of the card and the visits behind a cut.

use crate::book::{Learned, Rate, Record, SavedCut, learn};
use crate::measure::{Day, Unit};
use crate::ui::kept::{Kept, today};
use crate::ui::words;

/// Whose a cut is, and how fast that hair grows. Visits are only gone through where no rate stands on the
/// card.
pub fn rate_of(kept: Kept, cut: &SavedCut) -> (Option<Record>, Rate) {
    let record = kept.record_of(cut);
    let unsaid = |record: &&Record| record.growth.trim().is_empty();
    let learned = match record.as_ref().filter(unsaid) {
        Some(record) => learn(&kept.visits_of(&record.id)),
        None => Learned::default(),
    };
    let rate = Rate::of(record.as_ref(), &learned);
    (record, rate)
}

/// Today on the device's clock.
pub fn this_day() -> Option<Day> {
    Day::read(&today())
}

/// What a cut begins with, in words: `As left on 12 October 2026, grown 2.1 cm since.` None where the
/// plan's own question counts.
pub fn begins_with(cut: &SavedCut, unit: Unit) -> Option<String> {
    cut.left_map()?;
    let left = cut.left.as_ref()?;
    let on = match Day::read(&left.day) {
        Some(day) => format!("on {}", words::day(&day.to_string())),
        None => "by the last visit".to_owned(),
    };
    let grown = left.grown.as_measured(unit);
    Some(if left.grown.cm() < crate::book::A_TRIM {
        format!("As left {on}.")
    } else {
        format!("As left {on}, grown {grown} since.")
    })
}
