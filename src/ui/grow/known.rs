//! What the parts of this folder ask of the card and the visits behind a cut.

use crate::book::{Learned, Ledger, Rate, Record, SavedCut, learn};
use crate::head::Kind;
use crate::measure::{Day, Unit};
use crate::ui::kept::{Kept, today};
use crate::ui::words;
use crate::words::tr;

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

/// Has a new cut on a practice head begin with what is left on that head.
pub fn begin_with_what_is_left(kept: Kept, record: &Record, cut: &mut SavedCut) {
    if record.kind == Kind::Practice
        && let Some(ledger) = Ledger::of(record, &kept.visits_of(&record.id))
    {
        cut.left = ledger.begins();
    }
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
    if left.of.is_empty() {
        return Some(tr("As it was when it was new.").to_owned());
    }
    let on = match Day::read(&left.day) {
        Some(day) => tr!("a day" => "on {}", words::day(&day.to_string())),
        None => tr("by the last visit").to_owned(),
    };
    let grown = left.grown.as_measured(unit);
    Some(if left.grown.cm() < crate::book::A_TRIM {
        tr!("As left {on}.", on)
    } else {
        tr!("As left {on}, grown {grown} since.", on, grown)
    })
}
