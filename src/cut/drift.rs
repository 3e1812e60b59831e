//! What a hand that drifts does to each section.

use super::fold::{CutError, Job, Measured, Outcome, ROOTS, Run};
use super::hold::Nudge;
use super::section::SectionKey;
use crate::plan::Held;

/// How far a hand may drift unnoticed: degrees of elevation and cm of the hold point. Judgement.
pub const USUAL: (f64, f64) = (10.0, 1.0);

/// What drift does to one section.
#[derive(Clone, Debug, PartialEq)]
pub struct Drifted {
    /// Which.
    pub key: SectionKey,
    /// How much longer (above zero) or shorter its long end comes out, cm, when it is held so many
    /// degrees too low and too high. None where elevation means nothing: in its fall, or for a trim.
    pub elevation: Option<(f64, f64)>,
    /// The same with the hold point so many cm too near and too far.
    pub hold: (f64, f64),
}

impl Drifted {
    /// The greatest change of all, cm.
    pub fn spread(&self) -> f64 {
        let (low, high) = self.elevation.unwrap_or_default();
        [low, high, self.hold.0, self.hold.1]
            .into_iter()
            .map(f64::abs)
            .fold(0.0, f64::max)
    }
}

/// What comes of every section when its own step is held `degrees` too low or too high, and at a
/// point `cm` too near or too far, everything before it as planned.
///
/// # Errors
/// [`CutError`] when the plan itself cannot be worked out. A drift that cannot be held (a guide too
/// short for it) counts as none.
pub fn drift(job: &Job<'_>, (degrees, cm): (f64, f64)) -> Result<Vec<Drifted>, CutError> {
    let mut all = Vec::new();
    let measured = Measured::new();
    let planned_run = run(job, &measured, &[]);
    let mut so_far = planned_run.start();
    for (index, step) in job.plan.steps.iter().enumerate() {
        let done = so_far.sections.len();
        let planned = planned_run.step(so_far.clone(), index)?;
        if step.held.cuts() {
            let nudged = |nudge: Nudge| {
                let nudges = [(index, nudge)];
                let there = run(job, &measured, &nudges).step(so_far.clone(), index);
                changes(&planned, there.as_ref().ok(), done)
            };
            let held = |degrees: f64| Nudge {
                elevation: degrees,
                ..Nudge::default()
            };
            let out = |cm: f64| Nudge {
                out: cm,
                ..Nudge::default()
            };
            let lifts = !matches!(step.held, Held::Fall(_) | Held::Trim(_) | Held::Taper(_));
            let elevation = lifts.then(|| (nudged(held(-degrees)), nudged(held(degrees))));
            let hold = (nudged(out(-cm)), nudged(out(cm)));
            for (i, section) in planned.sections[done..].iter().enumerate() {
                all.push(Drifted {
                    key: section.key.clone(),
                    elevation: elevation.as_ref().map(|(low, high)| (low[i], high[i])),
                    hold: (hold.0[i], hold.1[i]),
                });
            }
        }
        so_far = planned;
    }
    Ok(all)
}

fn run<'a>(job: &Job<'a>, measured: &'a Measured, nudges: &'a [(usize, Nudge)]) -> Run<'a> {
    Run {
        job: *job,
        measured,
        rows: ROOTS,
        quick: false,
        nudges,
    }
}

/// How much longer the sections from `done` on came out than planned, cm.
fn changes(planned: &Outcome, there: Option<&Outcome>, done: usize) -> Vec<f64> {
    planned.sections[done..]
        .iter()
        .enumerate()
        .map(|(i, section)| {
            there
                .and_then(|outcome| outcome.sections.get(done + i))
                .map_or(0.0, |drifted| drifted.long().cm() - section.long().cm())
        })
        .collect()
}
