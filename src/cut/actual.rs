//! The guide as it was really cut: the line that makes a step's first section come out as measured.
//!
//! The first section of a step is cut by what the plan says; from then on it is the guide, whatever the
//! plan said. So the line for the rest of its side is laid as a plan would lay it whose guide is so much
//! longer or shorter that the first section's long end is the measured one.

use super::fold::{CutError, Measured, Outcome, Run};
use super::guide::Setting;
use super::hold::{Carry, Laid};
use super::lengths::Lengths;
use super::section::{SectionCut, SectionKey};
use super::sided::Sided;
use crate::head::Side;
use crate::measure::Length;
use crate::plan::{Held, Rule, Section, Step};
use std::sync::Arc;

/// How exactly the long end is met, cm.
const EXACT: f64 = 5e-5;
/// Where a target jumps, because it is told from more rows of roots, it is met no nearer than this, cm.
const JUMP: f64 = 0.05;
/// Lines that are tried.
const TRIES: usize = 24;
/// A guide is never taken for longer or shorter by more than this many times what was measured. Where a
/// long end hardly follows its guide, as where little of it reaches, it says nothing of it. Judgement.
const FOLLOWS: f64 = 4.0;

/// A line as it was really cut along.
pub(super) struct Actual {
    pub laid: Laid,
    /// What a travelling guide then carries on.
    pub carry: Option<Carry>,
    /// How much longer than planned the guide was, cm.
    pub longer: f64,
}

/// Whether a step's first section is the guide of those after it: the step itself settles how long it is.
///
/// Where hair of an earlier step settles it, that hair stays the guide. A trim has none: as much comes
/// off each section as off every other (`plan::Trim`).
pub(super) const fn sets_its_guide(held: &Held) -> bool {
    match held {
        Held::Fall(_) | Held::Taper(_) => true,
        Held::Trim(_) | Held::Check => false,
        Held::Stationary(_) | Held::Plane(_) | Held::Travelling(_) => matches!(
            held.rule(),
            Some(Rule::Length(_) | Rule::EndsAt(_) | Rule::AmountOff(_))
        ),
    }
}

/// Whether a step goes on along the very line that an earlier one began: the outline that back and sides
/// take over from the nape. A taper begins anew, at its own hairline.
pub(super) fn same_line(earlier: &Step, step: &Step) -> bool {
    matches!(step.held, Held::Fall(_)) && step.held == earlier.held && step.tilt == earlier.tilt
}

impl Run<'_> {
    /// The line of a step's first section as it was really cut, if one can be laid that makes its long end
    /// come out so.
    pub(super) fn actual(
        &self,
        setting: &Setting<'_>,
        before: &Lengths,
        index: usize,
        planned: &SectionCut,
        measured: Length,
    ) -> Option<Actual> {
        let step = &self.job.plan.steps[index];
        let section = &planned.section;
        let off = planned.long().cm() - measured.cm();
        // Nobody cuts more than there is, or less than nothing.
        let most = planned.strands.iter().map(|s| s.before);
        if measured.cm() < 0.0 || measured.cm() > most.fold(0.0, f64::max) + JUMP {
            return None;
        }
        let lay = |longer: f64| {
            let there = Setting {
                really: setting.really + longer,
                ..*setting
            };
            let mut carry = None;
            let laid = there.line(&step.held, section, section, &mut carry);
            laid.ok().flatten().map(|laid| (laid, carry))
        };
        let longer = met(off, FOLLOWS * off.abs(), |longer| {
            let line = Arc::new(lay(longer)?.0.line);
            let there = self.section(before, index, step, section, Some(&line));
            Some(there.ok()?.long().cm() - measured.cm())
        })?;
        let (laid, carry) = lay(longer)?;
        Some(Actual {
            laid,
            carry,
            longer,
        })
    }

    /// One side of a step along the lines that the plan says, on the hair as it is: for a step that cannot
    /// go on from what was really cut, as when too little is left to be held.
    pub(super) fn as_planned(
        &self,
        so_far: &Outcome,
        index: usize,
        side: Side,
        ours: &[&Section],
    ) -> Result<Sided, CutError> {
        let measured = Measured::new();
        let run = Run {
            measured: &measured,
            ..*self
        };
        let planned = (0..index).try_fold(run.start(), |so_far, step| run.step(so_far, step))?;
        let so_far = Outcome {
            guides: Vec::new(),
            ..so_far.clone()
        };
        let mut done = run.side(&so_far, &planned.lengths, index, side, ours)?;
        for (cut, (.., shift)) in done.cuts.iter().zip(&mut done.changed) {
            *shift = self.measured(&cut.key).map_or(0.0, |m| cut.shift(m));
        }
        (done.as_planned, done.crossed) = (true, true);
        Ok(done)
    }

    /// What a section came out at, if that was measured.
    pub(super) fn measured(&self, key: &SectionKey) -> Option<Length> {
        let measured = self.measured.get(key).copied();
        measured.filter(|length| length.cm().is_finite())
    }
}

/// Where `off` is nothing, no further than `most` from 0, where it is `at_zero`. It rises by about 1 with
/// each 1. Where nothing can be laid it tells nothing; that counts as beyond.
fn met(at_zero: f64, most: f64, mut off: impl FnMut(f64) -> Option<f64>) -> Option<f64> {
    if at_zero.abs() <= EXACT {
        return Some(0.0);
    }
    // The furthest place short of it, and the nearest beyond.
    let mut short = 0.0;
    let mut beyond = None;
    let mut last = (0.0, at_zero);
    let mut slope = 1.0;
    for _ in 0..TRIES {
        let guess: f64 = last.0 - last.1 / slope;
        let place = match beyond {
            Some(beyond) => {
                let share = (guess - short) / (beyond - short);
                if share > 0.0 && share < 1.0 {
                    guess
                } else {
                    f64::midpoint(short, beyond)
                }
            }
            None => guess.clamp(-most, most),
        };
        let moved = place - last.0;
        if moved.abs() < EXACT / 10.0 {
            break;
        }
        let Some(there) = off(place) else {
            beyond = Some(place);
            continue;
        };
        if there.abs() <= EXACT {
            return Some(place);
        }
        let risen = (there - last.1) / moved;
        if risen > 0.0 {
            slope = risen;
        }
        if there.signum() == at_zero.signum() {
            short = place;
        } else {
            beyond = Some(place);
        }
        last = (place, there);
    }
    (last.1.abs() <= JUMP && beyond.is_some()).then_some(last.0)
}
