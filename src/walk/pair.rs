//! A section and its twin on the other side.

use super::run::Walk;
use super::verdict::{Kind, Tolerances, Verdict, verdict};
use crate::cut::{CuttingLine, Outcome, SectionCut, SectionKey, Strand};
use crate::geometry::Vec3;
use crate::head::Side;
use crate::measure::Length;
use crate::words::tr;

/// Where both sides are brought together to be compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CheckPoint {
    /// The chin.
    Chin,
    /// The tip of the nose.
    NoseTip,
    /// The middle of the back.
    BackCentre,
}

impl CheckPoint {
    /// Its words.
    pub fn word(self) -> &'static str {
        match self {
            Self::Chin => tr("the chin"),
            Self::NoseTip => tr("the nose tip"),
            Self::BackCentre => tr("the middle of the back"),
        }
    }
}

/// A section and its twin on the other side.
#[derive(Clone, Debug, PartialEq)]
pub struct Pair {
    /// The section.
    pub key: SectionKey,
    /// Its twin.
    pub twin: SectionKey,
    /// The name that both have.
    pub name: String,
    /// The section's side.
    pub ours: Side,
    /// What the section came out at, if that was measured.
    pub here: Option<Length>,
    /// What the twin came out at: measured, or else the target it was cut to; none until it is done.
    pub there: Option<Length>,
    /// Whether the twin was measured.
    pub there_measured: bool,
    /// What the section is to be cut at: matched, or else as planned.
    pub target_here: Length,
    /// What the twin is to be cut at, likewise.
    pub target_there: Length,
    /// The longest that the section can be left, cm: no longer than its hair was.
    pub most: f64,
    /// How much longer than its twin the section is meant to be, cm: 0 where both sides are laid out
    /// alike, not so beside a parting that is worn aside.
    pub meant: f64,
    /// How much longer the section is than its twin, or will be by its target, less what is meant, cm;
    /// below zero if shorter. None until the twin is done.
    pub difference: Option<f64>,
    /// Where both are brought to be compared.
    pub point: CheckPoint,
    /// What hair they are.
    pub kind: Kind,
}

/// Where a mean head's chin lies, cm in the head's frame. A fold knows of no head; this only tells which
/// point hair is brought to.
const CHIN: Vec3 = Vec3::new(0.0, 9.1, -13.4);
/// Hair within so many degrees of the front is face hair. Judgement: the temple lies at 52°.
pub(super) const FACE: f64 = 60.0;
/// Past so many degrees from the front hair belongs to the back: just behind the ear. Judgement.
const BACK: f64 = 105.0;
/// Longer hair than this inside the shape is long, cm: about the shoulder from the crown. Judgement.
pub(super) const LONG: f64 = 20.0;
/// Roots this close to a twin's in a mirror are alike, cm.
const ALIKE: f64 = 0.1;

impl Pair {
    /// A section with its twin; none if it has none.
    pub fn of(outcome: &Outcome, walk: &Walk, key: &SectionKey) -> Option<Self> {
        let twin = (key.side != Side::Centre).then(|| key.mirrored())?;
        let section = outcome.section(key)?;
        let across = outcome.section(&twin)?;
        let (target_here, target_there) = (walk.to_cut(section), walk.to_cut(across));
        let here = walk.came_out_at(key);
        let measured = walk.came_out_at(&twin);
        let as_done = || {
            let cut = walk.target(&twin).unwrap_or(target_there);
            walk.is_done(&twin).then_some(cut)
        };
        let there = measured.or_else(as_done);
        let alike = alike(outcome, section, across);
        let meant = if alike {
            0.0
        } else {
            section.long().cm() - across.long().cm()
        };
        let difference = there.map(|there| here.unwrap_or(target_here).cm() - there.cm() - meant);
        Some(Self {
            key: key.clone(),
            twin,
            name: section.section.name.clone(),
            ours: key.side,
            here,
            there,
            there_measured: measured.is_some(),
            target_here,
            most: section.most(),
            target_there,
            meant,
            difference,
            point: point(outcome, section),
            kind: kind(section),
        })
    }

    /// The length to match the twin, where that is worth a question: the twin came out further from what
    /// this section is to be cut at than is allowed, and this one is neither cut nor matched yet and has the
    /// hair for it.
    pub fn offer_match(&self, walk: &Walk, tolerances: &Tolerances) -> Option<Length> {
        let uncut = !walk.is_done(&self.key) && self.here.is_none();
        let free = uncut && walk.matched(&self.key).is_none();
        let there = self.there.filter(|_| self.there_measured && free)?;
        let like = there.cm() + self.meant;
        let off = (like - self.target_here.cm()).abs();
        let fine = verdict(off, tolerances.of(self.kind)) == Verdict::Fine;
        (!fine && like > 0.0 && like <= self.most).then(|| Length::from_cm(like))
    }
}

/// Whether a section and its twin are meant to come out alike: both sides are laid out in a mirror, and as
/// much is left on both. With a parting worn aside they are not, even where their own edges are the same:
/// their guides differ.
fn alike(outcome: &Outcome, section: &SectionCut, twin: &SectionCut) -> bool {
    let left_on = |s: &SectionCut| s.left_on().map_or(0.0, |left| left.most.cm());
    if (left_on(section) - left_on(twin)).abs() > ALIKE {
        return false;
    }
    let of = |side| outcome.sections.iter().filter(move |s| s.key.side == side);
    let mirrored = |a: &SectionCut, b: &SectionCut| {
        let (mut a, mut b) = (a.strands.iter(), b.strands.iter());
        a.len() == b.len()
            && a.all(|a| {
                let twin = Vec3::new(-a.root.x, a.root.y, a.root.z);
                b.next().is_some_and(|b| b.root.distance(twin) < ALIKE)
            })
    };
    of(Side::Left).count() == of(Side::Right).count()
        && of(Side::Left)
            .zip(of(Side::Right))
            .all(|(a, b)| mirrored(a, b))
}

/// Whether a section is cut as it falls.
pub(super) fn falls(section: &SectionCut) -> bool {
    matches!(
        section.line.as_deref(),
        Some(CuttingLine::Fall(_) | CuttingLine::Sloping { .. })
    )
}

/// What hair a section is.
fn kind(section: &SectionCut) -> Kind {
    if section.azimuth().abs() < FACE.to_radians() {
        Kind::Face
    } else if falls(section) {
        Kind::Outline
    } else if section.long().cm() > LONG {
        Kind::InsideLong
    } else {
        Kind::Inside
    }
}

/// Where a section is brought to be compared with its twin.
fn point(outcome: &Outcome, section: &SectionCut) -> CheckPoint {
    if section.azimuth().abs() > BACK.to_radians() {
        return CheckPoint::BackCentre;
    }
    let reaches = |strand: &Strand| {
        let hangs = outcome.lengths.hangs(strand.root, strand.after).cm();
        hangs >= strand.root.distance(CHIN)
    };
    let face = section.azimuth().abs() < FACE.to_radians();
    if face && !section.strands.iter().any(reaches) {
        CheckPoint::NoseTip
    } else {
        CheckPoint::Chin
    }
}
