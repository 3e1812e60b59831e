//! What can still be done where hair came out too short.
//!
//! Common practice: stop, and don't take the rest up to the short spot a bit each time; hide it by
//! blending over the next sections; tell the client plainly, and let them choose.

use super::follow::without;
use super::run::Walk;
use crate::cut::{Agreed, CutError, Job, Outcome, SectionCut, SectionKey};
use crate::geometry::Vec3;
use crate::hair::Growth;
use crate::head::Side;
use crate::measure::{A_RULER, Length, Unit};
use crate::words::tr;

/// What can still be done where a section came out shorter than agreed.
#[derive(Clone, Debug, PartialEq)]
pub struct Mend {
    /// How much shorter than agreed it hangs, cm.
    pub short_by: f64,
    /// Sections beside it that come back to the plan step by step: key, name, what to cut them at. None
    /// of them hangs shorter than agreed, or is cut shorter than the section itself came out.
    pub blend: Vec<(SectionKey, String, Length)>,
    /// Later sections that would hang shorter than agreed too if they followed: key and name.
    pub leave: Vec<(SectionKey, String)>,
    /// How many weeks it takes to grow back.
    pub weeks: u32,
}

/// The most that two neighbours may differ in a blend, cm: the tolerance of interior layers. Judgement.
const A_BLEND: f64 = 0.5;
/// The most sections a blend runs over. Judgement: a longer one is another cut.
const MOST: usize = 6;
/// The most sections that are left as planned by name: more make no short sentence. All stand in the data.
const NAMED: usize = 4;
/// Past so many weeks a time is told in months. Judgement.
const WEEKS: u32 = 16;
/// Days of a mean month.
const DAYS: f64 = 30.4375;
/// Sections whose roots come this near lie beside each other, cm. Judgement.
const BESIDE: f64 = 2.0;

/// What can still be done about a section that was measured and came out shorter than it was to be: none
/// if it hangs as agreed. `outcome` is the plan as the walk goes on now: what it guides follows it, unless the
/// plan is kept.
///
/// # Errors
/// [`CutError`] when the plan cannot be worked out.
pub fn mend(
    job: &Job<'_>,
    agreed: &Agreed,
    outcome: &Outcome,
    walk: &Walk,
    key: &SectionKey,
) -> Result<Option<Mend>, CutError> {
    let (Some(came_out), Some(section)) = (walk.came_out_at(key), outcome.section(key)) else {
        return Ok(None);
    };
    let shift = came_out.cm() - section.long().cm();
    if !section.cuts() || shift >= 0.0 {
        return Ok(None);
    }
    let mut short_by = short(agreed, outcome, section, shift);
    for &(root, landmark) in &agreed.no_higher {
        if section.section.patch.holds(root) {
            let level = job.head.landmark(landmark, Side::Centre).z;
            let mut ends = outcome.lengths.ends_at(job.head, root)?;
            if walk.keeps_plan(key) {
                // The fold knows nothing of the measure then; the hair does.
                let cm = outcome.lengths.at(job.head, root)?;
                let hangs = |cm: f64| outcome.lengths.hangs(root, cm.max(0.0)).cm();
                ends += hangs(cm) - hangs(cm + shift);
            }
            short_by = short_by.max(ends - level);
        }
    }
    if short_by <= A_RULER {
        return Ok(None);
    }
    // As the plan has it without this measure.
    let planned = without(job, outcome, walk, key)?;

    let blend = blend(job, agreed, &planned, walk, section, shift);
    let later = outcome.sections.iter().skip_while(|s| &s.key != key);
    let leave = later.skip(1).filter(|s| s.cuts()).filter_map(|section| {
        let key = &section.key;
        let as_planned = planned.section(key)?;
        let due = walk.entry(key).is_none() && walk.matched(key).is_none();
        let blended = blend.iter().any(|(other, ..)| other == key);
        let falls_under = short(agreed, outcome, section, 0.0) > A_RULER
            && short(agreed, &planned, as_planned, 0.0) <= A_RULER;
        (due && !blended && falls_under).then(|| (key.clone(), section.section.name.clone()))
    });
    let weeks = Growth::default().weeks_for(Length::from_cm(short_by));
    Ok(Some(Mend {
        short_by,
        leave: leave.collect(),
        blend,
        weeks: (weeks.round().clamp(1.0, 1e4)) as u32,
    }))
}

/// How much shorter than agreed the shortest hair of a section hangs that is cut there, if it is cut `shift`
/// cm longer than its target; below zero if it hangs longer.
fn short(agreed: &Agreed, outcome: &Outcome, section: &SectionCut, shift: f64) -> f64 {
    let Some(shortest) = agreed.shortest else {
        return f64::NEG_INFINITY;
    };
    let cut = section.strands.iter().filter_map(|strand| {
        let after = (strand.cut_at? + shift).max(0.0);
        (after < strand.before).then(|| outcome.lengths.hangs(strand.root, after).cm())
    });
    shortest.cm() - cut.fold(f64::INFINITY, f64::min)
}

/// The sections beside the one that is `shift` cm off, and what to cut them at to come back to the plan.
fn blend(
    job: &Job<'_>,
    agreed: &Agreed,
    planned: &Outcome,
    walk: &Walk,
    from: &SectionCut,
    shift: f64,
) -> Vec<(SectionKey, String, Length)> {
    let steps = &job.plan.steps;
    // Hair this short is not cut shorter yet, and further off than a blend bridges the rest is a step.
    let least = from.long().cm() + shift;
    let shift = shift.max(-A_BLEND * (MOST + 1) as f64);
    let wanted = ((-shift / A_BLEND).ceil() as usize)
        .saturating_sub(1)
        .min(MOST);
    let mut beside: Vec<&SectionCut> = Vec::new();
    let later = planned.sections.iter().skip_while(|s| s.key != from.key);
    for section in later.skip(1) {
        let due = walk.entry(&section.key).is_none() && walk.matched(&section.key).is_none();
        let last = beside.last().copied().unwrap_or(from);
        let apart = steps[section.step].apart.contains(&steps[last.step].id);
        if beside.len() < wanted
            && section.cuts()
            && section.key.side == from.key.side
            && due
            && !apart
            && touch(last, section)
        {
            beside.push(section);
        }
    }
    let count = beside.len() + 1;
    let blended = beside.into_iter().enumerate().filter_map(|(i, section)| {
        let back = shift * (1.0 - (i + 1) as f64 / count as f64);
        let off = held_back(agreed, planned, section, back);
        let cm = (section.long().cm() + off).max(least);
        // What can't be told from the plan is no blend.
        (cm - section.long().cm() < -A_RULER / 2.0).then(|| {
            let name = section.section.name.clone();
            (section.key.clone(), name, Length::from_cm(cm))
        })
    });
    blended.collect()
}

/// How far off its target a section may be cut, of `off` cm, so that it still hangs as agreed.
fn held_back(agreed: &Agreed, planned: &Outcome, section: &SectionCut, off: f64) -> f64 {
    let fine = |off: f64| short(agreed, planned, section, off) <= 0.0;
    if fine(off) {
        return off;
    }
    let (mut fails, mut holds) = (off, 0.0);
    for _ in 0..12 {
        let middle = f64::midpoint(fails, holds);
        if fine(middle) {
            holds = middle;
        } else {
            fails = middle;
        }
    }
    holds
}

/// Whether two sections lie beside each other.
fn touch(a: &SectionCut, b: &SectionCut) -> bool {
    let near = |p: Vec3| {
        let mut others = b.strands.iter();
        others.any(|other| other.root.distance(p) < BESIDE)
    };
    (a.step == b.step && a.key.number + 1 == b.key.number)
        || a.strands.iter().any(|strand| near(strand.root))
}

impl Mend {
    /// It in short plain sentences, lengths in the unit. Nothing in them alarms: the client may look on.
    pub fn said(&self, unit: Unit) -> Vec<String> {
        let short = Length::from_cm(self.short_by).shown(unit);
        let mut all = vec![tr!(
            "It hangs {short} shorter than agreed. Don't take the rest up to it.",
            short
        )];
        if let Some((first, _)) = self.leave.first() {
            // Sides are told only where both are meant.
            let one = self.leave.iter().all(|(key, _)| key.side == first.side);
            let mut names = String::new();
            for (i, (key, name)) in self.leave.iter().take(NAMED).enumerate() {
                names.push_str(if i > 0 { ", " } else { "" });
                names.push_str(name);
                if !one {
                    names.push_str(&format!(" ({})", key.side.said()));
                }
            }
            if self.leave.len() > NAMED {
                names.push_str(&tr!(" and {} more", self.leave.len() - NAMED));
            }
            all.push(tr!("Leave as planned: {names}.", names));
        }
        if !self.blend.is_empty() {
            let each: Vec<String> = self
                .blend
                .iter()
                .map(|(_, name, length)| tr!("{name} at {}", length.shown(unit), name))
                .collect();
            all.push(tr!(
                "Blend over 1 section: {}." | "Blend over {n} sections: {}." % self.blend.len(),
                each.join(", ")
            ));
        }
        all.push(tr("Point into the ends where it meets longer hair.").to_owned());
        all.push(if self.weeks > WEEKS {
            let months = f64::from(self.weeks) * 7.0 / DAYS;
            tr!(
                "Grown back in about {months} months.",
                months = format!("{months:.0}")
            )
        } else {
            tr!("Grown back in about 1 week." | "Grown back in about {n} weeks." % self.weeks)
        });
        all.push(tr("Tell the client, and let them choose.").to_owned());
        all
    }
}
