//! From where a section is seen.

use super::Eye;
use super::scene::ways;
use crate::cut::SectionCut;
use crate::geometry::{Convex, Vec3};
use crate::head::Head;

/// A root is seen whose scalp faces the eye by so much (1 is straight).
const SEEN: f64 = 0.1;
/// More than so much makes it no better seen. Judgement.
const STRAIGHT: f64 = 0.5;
/// Another view must be so many times as good as one before it in [`Eye::NAMED`]. Judgement.
const BETTER: f64 = 1.05;
/// The same of the view from the top, where a head is hardest to know again. Judgement.
const FROM_TOP: f64 = 2.0;
/// A section is seen if so much of its roots is, as a share; else a view is worth so little of what it shows.
/// Judgement.
const MOSTLY: f64 = 0.5;
const HIDDEN: f64 = 0.01;
/// What a root counts beside the hair that grows on it, cm.
const A_ROOT: f64 = 1.0;

/// The share of a section's roots whose scalp faces the eye, 0 to 1.
pub fn facing(head: &Head, section: &SectionCut, eye: Eye) -> f64 {
    let toward = eye.frame().toward;
    let roots = roots(head, section);
    let seen = roots
        .iter()
        .filter(|root| head.skull().normal(**root).dot(toward) > SEEN);
    seen.count() as f64 / roots.len().max(1) as f64
}

/// The view of [`Eye::NAMED`] in which a section is seen best: most of its roots face the eye, and its held
/// hair looks longest.
pub fn seen_best(head: &Head, section: &SectionCut) -> Eye {
    let mut ways = ways(head, section);
    if ways.is_empty() {
        ways = roots(head, section)
            .into_iter()
            .map(|root| vec![root])
            .collect();
    }
    let worth = |eye: Eye| -> f64 {
        let toward = eye.frame().toward;
        let of = |way: &Vec<Vec3>| match (way.first(), way.last()) {
            (Some(&root), Some(&end)) => {
                let faces = head.skull().normal(root).dot(toward).clamp(0.0, STRAIGHT);
                let across = end - root;
                let long = (across - toward * across.dot(toward)).length();
                faces * (A_ROOT + long)
            }
            _ => 0.0,
        };
        let all: f64 = ways.iter().map(of).sum();
        // Long hair seen from behind its own roots shows nothing of the section.
        let hidden = facing(head, section, eye) < MOSTLY;
        if hidden { all * HIDDEN } else { all }
    };
    let mut best = (Eye::THREE_QUARTER, worth(Eye::THREE_QUARTER));
    for (_, eye) in Eye::NAMED {
        let worth = worth(eye);
        let better = if eye.tilt > 1.0 { FROM_TOP } else { BETTER };
        if worth > best.1 * better {
            best = (eye, worth);
        }
    }
    best.0
}

/// The roots of a section; of one without, the middle of its scalp.
fn roots(head: &Head, section: &SectionCut) -> Vec<Vec3> {
    if section.strands.is_empty() {
        return vec![section.section.patch.at(head, 0.5, 0.5)];
    }
    section.strands.iter().map(|strand| strand.root).collect()
}
