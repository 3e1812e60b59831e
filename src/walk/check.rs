//! What a cross-check compares: places along a parting at right angles to how the hair was cut.
//!
//! A check names single places, so that it runs at right angles whatever the cut: the parting of the
//! section that cut a place last is looked up, and the check crosses it there.

use super::pair::{FACE, LONG, falls};
use super::verdict::Kind;
use crate::cut::{CutError, Job, Outcome, SectionCut};
use crate::geometry::{Convex, Vec3};
use crate::head::{Head, Landmark, Side};
use crate::measure::Length;
use crate::plan::Row;
use crate::words::tr;

/// One place of a check.
#[derive(Clone, Debug, PartialEq)]
pub struct CheckPlace {
    /// Its number within the section: 1 in the middle, 0 at the higher end or the one nearer the face, 2
    /// at the other. A number stays with its place where another one has no hair.
    pub place: usize,
    /// Its name, by the nearest named point.
    pub name: String,
    /// How long the hair is there after the cut, as held.
    pub expected: Length,
    /// What hair it is.
    pub kind: Kind,
    /// Where it grows, on the skull.
    pub root: Vec3,
}

/// How far from a named place its neighbours are compared, cm: into the sections next to it. Where the
/// hairline or the middle is nearer than that, half as far. Judgement.
const ASIDE: f64 = 2.5;
/// As far down as this, as a share of the way to the hairline, hair is the outline's. Judgement.
const EDGE: f64 = 0.88;
/// A cut that comes this near to the length of the hair made it, cm: what a ruler can tell. Judgement.
const MADE: f64 = 0.25;

/// The places that the section of a check compares: along the parting where it has one; of a single place
/// itself and its neighbours on a parting across the way it was cut.
///
/// # Errors
/// [`CutError`] when a length cannot be worked out.
pub fn check_places(
    job: &Job<'_>,
    outcome: &Outcome,
    section: &SectionCut,
) -> Result<Vec<CheckPlace>, CutError> {
    let head = job.head;
    let row = section.section.patch.row(head, 0.5);
    let roots: Vec<(usize, Vec3)> = if row.length() > ASIDE {
        [0.02, 0.5, 0.98]
            .into_iter()
            .enumerate()
            .filter_map(|(place, along)| Some((place, row.at(head, along)?)))
            .collect()
    } else {
        match row.points().first() {
            Some(&root) => across(job, outcome, root)?,
            None => Vec::new(),
        }
    };
    // A single place has a name of its own.
    let own = (row.length() <= ASIDE).then_some(section.section.name.as_str());
    let mut places: Vec<CheckPlace> = Vec::with_capacity(roots.len());
    for (place, root) in roots {
        let expected = outcome.lengths.at(head, root)?;
        places.push(CheckPlace {
            place,
            name: own.map_or_else(|| nearest(head, root), str::to_owned),
            expected: Length::from_cm(expected),
            kind: kind_at(job, outcome, root, expected)?,
            root,
        });
    }
    tell_apart(&mut places);
    Ok(places)
}

/// A place and its neighbours across the way it was cut, the higher or the one nearer the face first.
fn across(job: &Job<'_>, outcome: &Outcome, root: Vec3) -> Result<Vec<(usize, Vec3)>, CutError> {
    let head = job.head;
    let normal = head.skull().normal(root);
    // Level where no section took it.
    let cut = cut_by(job, outcome, root)?
        .and_then(|section| along(head, section, root))
        .unwrap_or(Vec3::Z.cross(normal));
    let way = normal.cross(cut).normalize_or_zero();
    let inner = if way.z.abs() > 0.35 {
        way.z
    } else if way.y.abs() > way.x.abs() / 2.0 {
        way.y
    } else {
        -way.x * root.x.signum()
    };
    let inner = way * if inner < 0.0 { -1.0 } else { 1.0 };
    let taken = |p: Vec3| {
        let mut cutting = outcome.sections.iter().filter(|s| s.cuts());
        cutting.any(|s| s.section.patch.holds(p))
    };
    // Hair that nobody cuts, beside a fringe, says nothing of the cut.
    let all = !taken(root);
    let step = |cm: f64| {
        let beside = [cm, cm / 2.0].map(|cm| head.skull().settle(root + inner * cm));
        let counts = |p: &Vec3| head.grows_hair(*p) && p.x * root.x >= 0.0 && (all || taken(*p));
        beside.into_iter().find(counts)
    };
    let mut places = Vec::with_capacity(3);
    places.extend(step(ASIDE).map(|p| (0, p)));
    places.push((1, root));
    places.extend(step(-ASIDE).map(|p| (2, p)));
    Ok(places)
}

/// The section that made the hair of a root as long as it is, or else the last that took it.
fn cut_by<'a>(
    job: &Job<'_>,
    outcome: &'a Outcome,
    root: Vec3,
) -> Result<Option<&'a SectionCut>, CutError> {
    let length = outcome.lengths.at(job.head, root)?;
    let mut last = None;
    let cutting = outcome.sections.iter().rev().filter(|s| s.cuts());
    for section in cutting.filter(|s| s.section.patch.holds(root)) {
        last = last.or(Some(section));
        if let Some(line) = &section.line {
            let at = line.cuts_at(job.head, job.hair, root, f64::INFINITY)?;
            if (at - length).abs() < MADE {
                return Ok(Some(section));
            }
        }
    }
    Ok(last)
}

/// The way along which a section's parting runs at a root.
fn along(head: &Head, section: &SectionCut, root: Vec3) -> Option<Vec3> {
    let rows = (0..=8).map(|i| section.section.patch.row(head, f64::from(i) / 8.0));
    let near = |row: &Row| {
        row.at(head, row.share(root))
            .map(|p| p.distance_squared(root))
    };
    let mut best: Option<(f64, Row)> = None;
    for row in rows {
        if let Some(far) = near(&row)
            && best.as_ref().is_none_or(|(least, _)| far < *least)
        {
            best = Some((far, row));
        }
    }
    let (_, row) = best?;
    let (share, aside) = (row.share(root), 0.3 / row.length().max(0.6));
    let from = row.at(head, (share - aside).max(0.0))?;
    let to = row.at(head, (share + aside).min(1.0))?;
    (to - from).try_normalize()
}

/// What hair grows at a root, `length` cm long after the cut: how far off it may be goes by that.
///
/// # Errors
/// [`CutError`] when a length cannot be worked out.
pub fn kind_at(
    job: &Job<'_>,
    outcome: &Outcome,
    root: Vec3,
    length: f64,
) -> Result<Kind, CutError> {
    let spot = job.head.spot(root);
    let face = spot.azimuth.abs() <= FACE.to_radians();
    // A fringe is face hair to its point.
    let falls = || Ok::<_, CutError>(cut_by(job, outcome, root)?.is_some_and(falls));
    Ok(if face && (spot.out >= EDGE || falls()?) {
        Kind::Face
    } else if spot.out >= EDGE {
        Kind::Outline
    } else if length > LONG {
        Kind::InsideLong
    } else {
        Kind::Inside
    })
}

/// The named points of the scalp.
const POINTS: [Landmark; 11] = [
    Landmark::FrontHairline,
    Landmark::Temple,
    Landmark::HighPoint,
    Landmark::Crown,
    Landmark::ParietalRidge,
    Landmark::Occipital,
    Landmark::Nape,
    Landmark::NapeCorner,
    Landmark::InFrontOfEar,
    Landmark::AboveEar,
    Landmark::BehindEar,
];

/// The name of the nearest named point of the scalp.
fn nearest(head: &Head, root: Vec3) -> String {
    let side = if root.x < 0.0 {
        Side::Right
    } else {
        Side::Left
    };
    let far = |landmark| head.landmark(landmark, side).distance_squared(root);
    let nearest = POINTS
        .into_iter()
        .min_by(|a, b| far(*a).total_cmp(&far(*b)));
    nearest.map_or("", Landmark::name).to_owned()
}

/// Adds to names that several places have which of them it is; the middle one keeps its name.
fn tell_apart(places: &mut [CheckPlace]) {
    let middle = places
        .iter()
        .find(|p| p.place == 1)
        .map(|p| (p.name.clone(), p.root));
    let Some((name, root)) = middle else { return };
    for place in places.iter_mut().filter(|p| p.place != 1 && p.name == name) {
        let way = place.root - root;
        place
            .name
            .push_str(if way.z.abs() > way.y.abs().max(way.x.abs()) * 0.7 {
                if way.z > 0.0 {
                    tr(", higher")
                } else {
                    tr(", lower")
                }
            } else if way.y.abs() > way.x.abs() {
                if way.y > 0.0 {
                    tr(", nearer the face")
                } else {
                    tr(", nearer the back")
                }
            } else if way.x * root.x > 0.0 {
                tr(", further out")
            } else {
                tr(", nearer the middle")
            });
    }
}
