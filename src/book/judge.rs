//! A cut against its own plan, at the named places: planned, measured, and what that comes to.
//!
//! The plan judged by is that of before the first cut: what was measured on the way does not move it.

use super::marks::Marks;
use super::ready::Ready;
use super::visit::{How, Measure, Visit, When};
use crate::cut::{CutError, Measured, before, told_root};
use crate::head::{Landmark, Side};
use crate::measure::{Length, Unit};
use crate::words::{tr, tr_in};

/// How long the hair of one named place is to be, each as the plan has it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Expected {
    /// The place: one of [`crate::cut::TOLD`].
    pub place: Landmark,
    /// On which side; the middle is `Centre`, looked at just beside it.
    pub side: Side,
    /// Combed taut, after the cut.
    pub after: Length,
    /// Dry and let go, after the cut.
    pub after_hanging: Length,
    /// Combed taut, before it.
    pub before: Length,
    /// Dry and let go, before it.
    pub before_hanging: Length,
}

/// A place that loses less than this is not cut by the plan, cm. Judgement.
const CUT: f64 = 0.1;

impl Expected {
    /// Whether the plan cuts anything here.
    pub fn cuts(&self) -> bool {
        self.before.cm() - self.after.cm() >= CUT
    }

    /// The length at one time, held one way.
    pub const fn of(&self, when: When, how: How) -> Length {
        match (when, how) {
            (When::Before, How::Combed) => self.before,
            (When::Before, How::Hanging) => self.before_hanging,
            (When::After, How::Combed) => self.after,
            (When::After, How::Hanging) => self.after_hanging,
        }
    }
}

/// To the millimetre, as it stands beside what was measured, so that a difference adds up.
fn told(cm: f64) -> Length {
    Length::from_cm((cm * 10.0).round() / 10.0)
}

/// What every named place is to be by the plan alone, from the front to the nape, left before right.
///
/// # Errors
/// [`CutError`] when a length cannot be worked out.
pub fn expected(ready: &Ready) -> Result<Vec<Expected>, CutError> {
    let (job, head) = (ready.job(), &ready.head);
    let start = before(&job);
    let planned = ready.outcome(&Measured::new())?;
    let mut all = Vec::new();
    for place in planned.at_places(head)? {
        let root = told_root(head, place.place, place.side);
        let cm = start.lengths.at(head, root)?;
        all.push(Expected {
            place: place.place,
            side: place.side,
            after: told(place.cut.cm()),
            after_hanging: told(planned.lengths.hangs(root, place.cut.cm()).cm()),
            before: told(cm),
            before_hanging: told(start.lengths.hangs(root, cm).cm()),
        });
    }
    Ok(all)
}

/// What a deviation comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Off {
    /// Within the mark for merit.
    Best,
    /// Within the pass mark.
    Within,
    /// Longer than that: it can still be taken off.
    Long,
    /// Shorter than that, by no more than twice.
    Short,
    /// Shorter by more than twice the pass mark: it can't be put right.
    FarShort,
}

/// Lengths are typed to a millimetre: a tenth of that is nothing.
const HAIR: f64 = 0.01;

impl Off {
    /// What so many cm more than planned (less if below zero) come to.
    pub fn of(deviation: f64, marks: &Marks) -> Self {
        let pass = marks.pass();
        if deviation.abs() <= marks.best() + HAIR {
            Self::Best
        } else if deviation.abs() <= pass + HAIR {
            Self::Within
        } else if deviation > 0.0 {
            Self::Long
        } else if deviation >= -2.0 * pass - HAIR {
            Self::Short
        } else {
            Self::FarShort
        }
    }

    /// Whether it is within the pass mark.
    pub const fn passes(self) -> bool {
        matches!(self, Self::Best | Self::Within)
    }

    /// Its words. With `seen` the client looks on, and nothing on the screen alarms.
    pub fn said(self, seen: bool) -> &'static str {
        match self {
            Self::Best => tr("as planned"),
            Self::Within => tr("within your mark"),
            Self::Long if !seen => tr("too long"),
            Self::Short if !seen => tr_in("of a length", "short"),
            Self::FarShort if !seen => tr("too short"),
            Self::Long | Self::Short | Self::FarShort => tr("look again"),
        }
    }
}

/// One named place, judged.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlaceJudged {
    /// The place.
    pub place: Landmark,
    /// On which side.
    pub side: Side,
    /// Whether the plan cuts here; a place that it leaves does not count.
    pub cut: bool,
    /// The length by the plan: as it was when the measure was put down, else as it is now.
    pub planned: Length,
    /// As measured, combed, after the cut; none if it was not, or does not read.
    pub measured: Option<Length>,
    /// How much longer than planned it came out, cm; shorter if below zero.
    pub deviation: Option<f64>,
    /// How much longer it came out than the same place on the other side, beyond what is planned, cm.
    pub from_twin: Option<f64>,
    /// What the deviation comes to.
    pub off: Option<Off>,
}

/// What a cut comes to by the person's own marks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// Nothing can be said before so many more places are measured.
    Open(usize),
    /// Too far off, and not to be put right.
    NotYet,
    /// Not within, but it would be once what is too long is taken off.
    PutRight,
    /// Within the pass mark.
    Pass,
    /// Within the mark for merit.
    Merit,
}

/// A cut against its own plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Judgement {
    /// Every named place, from the front to the nape, left before right.
    pub places: Vec<PlaceJudged>,
    /// How many places the plan cuts.
    pub cut: usize,
    /// How many of those were measured.
    pub measured: usize,
    /// How many of those are within the pass mark.
    pub within: usize,
    /// How many are too long.
    pub long: usize,
    /// How many are short by more than the pass mark.
    pub short: usize,
    /// What it comes to.
    pub mark: Mark,
}

/// A cut is marked by no fewer places than this, or all that it cuts if they are fewer. Judgement.
const LEAST: usize = 5;

/// Judges what was measured of a visit.
pub fn judge(expected: &[Expected], visit: &Visit, marks: &Marks) -> Judgement {
    let mut places: Vec<PlaceJudged> = expected.iter().map(|e| alone(e, visit, marks)).collect();
    for i in 0..places.len() {
        let (place, side) = (places[i].place, places[i].side);
        let across = |p: &&PlaceJudged| p.place == place && p.side == side.mirrored();
        let twin = places.iter().find(across).filter(|p| p.side != side);
        let twin = twin.and_then(|twin| twin.deviation);
        // Both sides against the plan: a step between them that is wanted is no fault.
        places[i].from_twin = places[i]
            .deviation
            .zip(twin)
            .map(|(own, twin)| tidy(own - twin));
    }
    let cut = places.iter().filter(|p| p.cut).count();
    let offs = || places.iter().filter(|p| p.cut).filter_map(|p| p.off);
    let count = |of: &dyn Fn(Off) -> bool| offs().filter(|off| of(*off)).count();
    let measured = count(&|_| true);
    let within = count(&Off::passes);
    let long = count(&|off| off == Off::Long);
    let far_short = count(&|off| off == Off::FarShort);
    let short = far_short + count(&|off| off == Off::Short);
    let best = count(&|off| off == Off::Best);
    // A count that makes up the share exactly does, whatever a product of floating numbers says.
    let enough = |count: usize| count as f64 + 1e-9 >= marks.share() * measured as f64;
    let least = LEAST.min(cut);
    let mark = if measured < least || measured == 0 {
        Mark::Open(least.max(1) - measured)
    } else if far_short > 0 || !enough(within + long) {
        Mark::NotYet
    } else if !enough(within) {
        Mark::PutRight
    } else if enough(best) && short == 0 {
        Mark::Merit
    } else {
        Mark::Pass
    };
    Judgement {
        places,
        cut,
        measured,
        within,
        long,
        short,
        mark,
    }
}

/// To a tenth of a millimetre: what is left of a sum of decimals is no length.
fn tidy(cm: f64) -> f64 {
    (cm * 100.0).round() / 100.0
}

fn alone(expected: &Expected, visit: &Visit, marks: &Marks) -> PlaceJudged {
    let Expected { place, side, .. } = *expected;
    let kept = visit.measure(place, side, When::After, How::Combed);
    let sound = |length: &Length| (0.0..=LONGEST).contains(&length.cm());
    let then = kept.and_then(|m| m.expected).filter(sound);
    let planned = then.unwrap_or(expected.after);
    let measured = kept.and_then(|m: &Measure| m.length().ok());
    let deviation = measured.map(|length| tidy(length.cm() - planned.cm()));
    PlaceJudged {
        place,
        side,
        cut: expected.cuts(),
        planned,
        measured,
        deviation,
        from_twin: None,
        off: deviation.map(|cm| Off::of(cm, marks)),
    }
}

/// A stored number may be anything; nobody types a longer length, cm (`measure::read_length`).
const LONGEST: f64 = 250.0;

impl Judgement {
    /// What it comes to, in sentences; lengths in the unit. With `seen` the client looks on.
    pub fn said(&self, marks: &Marks, unit: Unit, seen: bool) -> Vec<String> {
        let pass = Length::from_cm(marks.pass()).as_measured(unit);
        let counted = tr!(
            "{} of {} places within {pass}",
            self.within,
            self.measured,
            pass
        );
        let mut all = Vec::new();
        match self.mark {
            Mark::Open(_) if self.cut == 0 => {
                return vec![tr("This plan cuts at none of the named places.").to_owned()];
            }
            Mark::Open(more) => all.push(tr!(
                "{} of the {} places that the plan cuts are measured. Measure {more} more, which is enough to mark the cut.",
                self.measured,
                self.cut,
                more
            )),
            Mark::Merit => {
                let best = Length::from_cm(marks.best()).as_measured(unit);
                all.push(tr!(
                    "{counted}, enough of them within {best}: pass with merit, by your own mark.",
                    counted,
                    best
                ));
            }
            Mark::Pass => all.push(tr!("{counted}: pass, by your own mark.", counted)),
            Mark::PutRight | Mark::NotYet if seen => {
                all.push(tr!("{counted}. Look again.", counted))
            }
            Mark::PutRight => all.push(tr!(
                "{counted}: not yet. What is too long can still be taken off.",
                counted
            )),
            Mark::NotYet => all.push(tr!("{counted}: not yet, by your own mark.", counted)),
        }
        if seen {
            return all;
        }
        if self.long > 0 {
            all.push(tr!(
                "One place is too long: take it off, then measure again."
                    | "{n} places are too long: take it off, then measure again." % self.long
            ));
        }
        if self.short > 0 {
            all.push(tr!(
                "One place is short: that weighs more, for it can\u{2019}t be put right; one that is short by more than twice the mark is no pass."
                | "{n} places are short: that weighs more, for it can\u{2019}t be put right; one that is short by more than twice the mark is no pass."
                % self.short
            ));
        }
        all
    }

    /// The largest deviation of all places that the plan cuts, either way.
    pub fn largest(&self) -> Option<&PlaceJudged> {
        let size = |p: &PlaceJudged| p.deviation.map_or(-1.0, f64::abs);
        let measured = self.places.iter().filter(|p| p.cut && p.off.is_some());
        measured.max_by(|a, b| size(a).total_cmp(&size(b)))
    }
}
