//! What lies on the head at one place of a cut.

use crate::cut::{CutError, CuttingLine, Job, Outcome, SectionCut, let_down};
use crate::geometry::{Convex, Vec3};
use crate::head::Head;

/// How finely held hair is drawn, cm.
const HELD: f64 = 0.6;
/// How finely falling hair is drawn, cm, and how many hairs of a whole head.
const FALLING: f64 = 1.5;
const HAIRS: usize = 220;
/// The places of a section's edge are no nearer to each other, cm.
const EDGE: f64 = 0.4;
/// The longest piece of a way that is looked at as one, cm.
const PIECE: f64 = 1.6;
/// The least that is shown: half the breadth of head and ears, and down to the foot of the neck, cm.
const HEAD_WIDE: f64 = 13.5;
const HEAD_LOW: f64 = -23.0;
/// The same where hair is let down: it hangs within, the shoulders run out of the picture, cm.
const BODY_WIDE: f64 = 18.0;
/// Room around, cm.
const ROOM: f64 = 1.0;

/// What lies on the head at one place of a cut.
#[derive(Clone, Debug, Default)]
pub struct Scene {
    /// The edges of the sections that are cut already, places on the scalp.
    pub done: Vec<Vec<Vec3>>,
    /// The edge of the section that is shown.
    pub patch: Vec<Vec3>,
    /// Its held hair, from root to line.
    pub strands: Vec<Vec<Vec3>>,
    /// Where its hair grows.
    pub roots: Vec<Vec3>,
    /// The fingers' line; a single place where all hair comes together.
    pub line: Vec<Vec3>,
    /// The held hair of the section before, which guides it.
    pub guide: Vec<Vec<Vec3>>,
    /// The ways of hair let down.
    pub hairs: Vec<Vec<Vec3>>,
}

impl Scene {
    /// The section at `place` of an outcome with its hair held, and the sections before it; bare if there is
    /// none at that place.
    pub fn held(head: &Head, outcome: &Outcome, place: usize) -> Self {
        let Some(section) = outcome.sections.get(place) else {
            return Self::default();
        };
        let strands = ways(head, section);
        let guide = outcome.before_in_step(section);
        Self {
            line: line(head, section, &strands),
            roots: section.strands.iter().map(|s| s.root).collect(),
            strands,
            guide: guide.map(|guide| ways(head, guide)).unwrap_or_default(),
            ..Self::parted(head, outcome, place)
        }
    }

    /// The same section in the hair as it falls once it is cut.
    ///
    /// # Errors
    /// [`CutError`] when a length cannot be worked out.
    pub fn let_down(job: &Job<'_>, outcome: &Outcome, place: usize) -> Result<Self, CutError> {
        let lengths = outcome.lengths_after(place);
        let down = let_down(job.head, &lengths, &job.wear(), HAIRS)?;
        Ok(Self {
            hairs: down
                .ways(|_| true, 0.0, FALLING)
                .into_iter()
                .map(|way| finer(&way))
                .collect(),
            ..Self::parted(job.head, outcome, place)
        })
    }

    /// The section's edge and those of what is cut before it.
    fn parted(head: &Head, outcome: &Outcome, place: usize) -> Self {
        let edge = |section: &SectionCut| {
            let whole = section.section.patch.outline(head);
            let mut edge: Vec<Vec3> = Vec::new();
            for p in whole {
                if edge.last().is_none_or(|last| last.distance(p) >= EDGE) {
                    edge.push(p);
                }
            }
            edge.extend(edge.first().copied());
            edge
        };
        let before = outcome.sections.iter().take(place);
        Self {
            done: before.filter(|s| s.cuts()).map(edge).collect(),
            patch: outcome.sections.get(place).map(edge).unwrap_or_default(),
            ..Self::default()
        }
    }

    /// The lowest end of the hair let down, cm; none if it is not.
    pub fn lowest(&self) -> Option<f64> {
        let ends = self.hairs.iter().filter_map(|way| way.last());
        ends.map(|p| p.z).reduce(f64::min)
    }

    /// The measures of a picture that holds the head and the held hair of a whole step in every turn, so
    /// that the head keeps its size from section to section.
    pub fn held_window(head: &Head, outcome: &Outcome, step: usize) -> String {
        let sections = outcome.sections.iter().filter(|s| s.step == step);
        let places: Vec<Vec3> = sections.flat_map(|s| ways(head, s)).flatten().collect();
        window(head, &places, HEAD_WIDE, HEAD_LOW)
    }

    /// The same for hair let down that reaches down to `lowest`, cm.
    pub fn fallen_window(head: &Head, lowest: f64) -> String {
        window(head, &[Vec3::Z * lowest.min(HEAD_LOW)], BODY_WIDE, HEAD_LOW)
    }
}

fn window(head: &Head, places: &[Vec3], wide: f64, low: f64) -> String {
    let wide = places.iter().map(|p| p.x.hypot(p.y)).fold(wide, f64::max) + ROOM;
    // From above, what is before and behind takes the room of what is up and down.
    let high = places.iter().map(|p| p.z).fold(head.skull().top, f64::max) + ROOM;
    let low = places.iter().map(|p| p.z).fold(low, f64::min) - ROOM;
    super::turned_window((low, high.max(head.skull().half_length + 3.0)), wide)
}

/// The ways along which the hair of a section is held.
pub(super) fn ways(head: &Head, section: &SectionCut) -> Vec<Vec<Vec3>> {
    if let Some(CuttingLine::Taper { .. }) = section.line.as_deref() {
        // Over the comb hair stands straight out.
        let reaching = section.strands.iter().filter(|s| s.reaches());
        let out = |root: Vec3, long: f64| vec![root, root + head.skull().normal(root) * long];
        return reaching.map(|s| out(s.root, s.after)).collect();
    }
    section
        .held(head, HELD)
        .iter()
        .map(|way| finer(way))
        .collect()
}

/// A way with its straight pieces in several: each place of it may be hidden or not.
fn finer(way: &[Vec3]) -> Vec<Vec3> {
    let mut all: Vec<Vec3> = way.first().copied().into_iter().collect();
    for pair in way.windows(2) {
        let pieces = (pair[0].distance(pair[1]) / PIECE).ceil().clamp(1.0, 200.0);
        all.extend((1..=pieces as usize).map(|i| pair[0].lerp(pair[1], i as f64 / pieces)));
    }
    all
}

/// The fingers' line; where a plane cuts, between the two ends that lie farthest apart.
fn line(head: &Head, section: &SectionCut, ways: &[Vec<Vec3>]) -> Vec<Vec3> {
    let Some(line) = &section.line else {
        return Vec::new();
    };
    let points = line.points(head);
    if !points.is_empty() {
        return points;
    }
    let ends: Vec<Vec3> = ways.iter().filter_map(|way| way.last().copied()).collect();
    let mut best: Vec<Vec3> = ends.first().copied().into_iter().collect();
    let mut far = 0.0;
    for (i, &a) in ends.iter().enumerate() {
        for &b in &ends[i + 1..] {
            if a.distance(b) > far {
                (far, best) = (a.distance(b), vec![a, b]);
            }
        }
    }
    best
}
