//! How long the hair is along a line of the head: before, as planned with what a hand may be off, and as
//! it was cut; the left over the right.

use super::course::Course;
use crate::cut::{CutError, Job, Outcome, told_root};
use crate::geometry::{Convex, Vec3};
use crate::head::{Head, Landmark, Side};
use crate::walk::{Tolerances, Walk, kind_at};
use crate::words::tr;
use std::f64::consts::FRAC_PI_4;

/// A line of the head along which lengths are looked at. Each has a left and a right half.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum AlongLine {
    /// Beside the middle, from the front hairline over the high point to the nape.
    #[default]
    Centre,
    /// From the top down to the ear, where the tape from ear to ear lies.
    EarToEar,
    /// Round the hairline, from the front to the nape.
    Hairline,
}

impl AlongLine {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Centre, Self::EarToEar, Self::Hairline];

    /// Its word, for values of fields.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Centre => "centre",
            Self::EarToEar => "ears",
            Self::Hairline => "hairline",
        }
    }

    /// Its name on the screen.
    pub fn name(self) -> &'static str {
        match self {
            Self::Centre => tr("Centre line"),
            Self::EarToEar => tr("Ear to ear"),
            Self::Hairline => tr("Hairline"),
        }
    }

    /// Where it runs, in words.
    pub fn runs(self) -> &'static str {
        match self {
            Self::Centre => {
                tr("beside the middle, from the front hairline over the high point to the nape")
            }
            Self::EarToEar => tr("from the top down to the ear"),
            Self::Hairline => tr("round the hairline, from the front to the nape"),
        }
    }
}

/// What lengths along a line are told of.
#[derive(Clone, Copy, Debug)]
pub struct AlongOf<'a> {
    /// Head, hair and plan.
    pub job: &'a Job<'a>,
    /// The hair before.
    pub before: &'a Outcome,
    /// The plan.
    pub planned: &'a Outcome,
    /// The walk and what was cut, as far as it went.
    pub cut: Option<(&'a Walk, &'a Outcome)>,
    /// How far off hair may be.
    pub tolerances: &'a Tolerances,
}

/// Lengths along a piece of a line without a step in it: cm along the line, and cm long as cut.
pub type AlongRun = Vec<(f64, f64)>;

/// A named place on a line.
#[derive(Clone, Debug)]
pub struct AlongMark {
    /// The place.
    pub place: Landmark,
    /// Its name in the chart; none of those that would crowd it.
    pub short: &'static str,
    /// Its name in sentences, without its article in English.
    pub name: &'static str,
    /// Where on the line it is, cm from the line's beginning.
    pub at: f64,
    /// How long the hair is there before, cm.
    pub before: f64,
    /// The same as planned.
    pub planned: f64,
    /// The same as cut; none where that is not done yet.
    pub cut: Option<f64>,
    /// Whether the plan cuts it at all.
    pub cuts: bool,
    /// The shortest and the longest planned hair around it, if a step runs there, cm.
    pub step: Option<(f64, f64)>,
}

/// One half of a line.
#[derive(Clone, Debug)]
pub struct AlongHalf {
    /// The client's side; the middle where both are alike.
    pub side: Side,
    /// How long the half is, cm.
    pub long: f64,
    /// The hair before.
    pub before: Vec<AlongRun>,
    /// As planned.
    pub planned: Vec<AlongRun>,
    /// How far off each place of `planned` may be, cm.
    pub tolerance: Vec<Vec<f64>>,
    /// As it was cut, where all sections that cut it are done.
    pub cut: Vec<AlongRun>,
    /// Its named places in their order.
    pub marks: Vec<AlongMark>,
    course: Course,
}

impl AlongHalf {
    /// The root so many cm along it.
    pub fn root(&self, head: &Head, at: f64) -> Vec3 {
        self.course.root(head, at)
    }
}

/// The lengths along a line of the head.
#[derive(Clone, Debug)]
pub struct Along {
    /// The line.
    pub line: AlongLine,
    /// The left and the right half; one for both where they are alike.
    pub halves: Vec<AlongHalf>,
}

/// Roots are looked at so far apart, cm.
const APART: f64 = 0.25;
/// Neighbouring hairs that differ by more than this are looked at more closely, cm.
const STEP: f64 = 0.12;
/// A place is at a step if lengths so far around it differ by more than this, cm: more than any slope.
const AROUND: f64 = 0.4;
const APPARENT: f64 = 2.5;
/// What differs by more so near to each other is a step, cm.
const NEAR: f64 = 0.01;

impl Along {
    /// The lengths along one line.
    ///
    /// # Errors
    /// [`CutError`] when a length cannot be worked out.
    pub fn new(of: &AlongOf<'_>, line: AlongLine) -> Result<Self, CutError> {
        let planned_alike = of.before.is_even() && of.planned.is_even();
        let sides: &[Side] = if planned_alike && cut_evenly(of) {
            &[Side::Centre]
        } else {
            &[Side::Left, Side::Right]
        };
        let mut halves: Vec<AlongHalf> = Vec::with_capacity(sides.len());
        for &side in sides {
            let twin = halves.first().filter(|_| planned_alike);
            let next = half(of, line, side, twin)?;
            halves.push(next);
        }
        Ok(Self { line, halves })
    }
}

/// Whether what was cut so far was cut on both sides, and came out alike.
fn cut_evenly(of: &AlongOf<'_>) -> bool {
    let Some((walk, outcome)) = of.cut else {
        return true;
    };
    outcome.is_even()
        && outcome
            .sections
            .iter()
            .all(|s| walk.is_done(&s.key) == walk.is_done(&s.key.mirrored()))
}

/// One half; of a `twin` that is planned alike only what was cut differs.
fn half(
    of: &AlongOf<'_>,
    line: AlongLine,
    side: Side,
    twin: Option<&AlongHalf>,
) -> Result<AlongHalf, CutError> {
    let head = of.job.head;
    let sign = if side == Side::Right { -1.0 } else { 1.0 };
    let course = Course::of(head, line, sign);
    let before = |root: Vec3| of.before.lengths.at(head, root).map(Some);
    let planned = |root: Vec3| of.planned.lengths.at(head, root).map(Some);
    let cut = |root: Vec3| {
        let Some((walk, outcome)) = of.cut else {
            return Ok(None);
        };
        // Hair that a later section is still to cut again is not done yet.
        let mut any = false;
        for section in outcome.sections.iter().filter(|s| s.cuts()) {
            if section.section.patch.holds(root) {
                if !walk.is_done(&section.key) {
                    return Ok(None);
                }
                any = true;
            }
        }
        Ok(if any {
            Some(outcome.lengths.at(head, root)?)
        } else {
            None
        })
    };
    let off = |&(at, cm): &(f64, f64)| {
        let kind = kind_at(of.job, of.planned, course.root(head, at), cm)?;
        Ok(of.tolerances.of(kind))
    };
    let (before_runs, planned_runs, tolerance) = match twin {
        Some(twin) => (
            twin.before.clone(),
            twin.planned.clone(),
            twin.tolerance.clone(),
        ),
        None => {
            let runs = traced((head, &course), &planned)?;
            let of_run = |run: &AlongRun| run.iter().map(off).collect::<Result<Vec<_>, CutError>>();
            let tolerance = runs.iter().map(of_run).collect::<Result<_, _>>()?;
            (traced((head, &course), &before)?, runs, tolerance)
        }
    };
    let cutting = |root: Vec3| {
        let mut sections = of.planned.sections.iter().filter(|s| s.cuts());
        sections.any(|s| s.section.patch.holds(root))
    };
    let mark = |(place, short, name, at): (Landmark, &'static str, &'static str, f64)| {
        // The very root that every other table tells of.
        let root = told_root(head, place, side);
        Ok(AlongMark {
            cuts: cutting(root),
            step: step_around(head, root, &planned)?,
            place,
            short,
            name,
            at,
            before: of.before.lengths.at(head, root)?,
            planned: of.planned.lengths.at(head, root)?,
            cut: cut(root)?,
        })
    };
    let marks = course.marks(head, line, side);
    Ok(AlongHalf {
        side,
        long: course.long(),
        before: before_runs,
        planned: planned_runs,
        tolerance,
        cut: traced((head, &course), &cut)?,
        marks: marks
            .into_iter()
            .map(mark)
            .collect::<Result<_, CutError>>()?,
        course,
    })
}

/// The shortest and the longest hair around a root, if a step runs there, cm.
fn step_around(
    head: &Head,
    root: Vec3,
    length: LengthAt<'_>,
) -> Result<Option<(f64, f64)>, CutError> {
    let skull = head.skull();
    let here = length(root)?;
    let (mut least, mut most) = (
        here.unwrap_or(f64::INFINITY),
        here.unwrap_or(f64::NEG_INFINITY),
    );
    let out = root.normalize_or(Vec3::Z);
    let across = out.any_orthonormal_vector();
    let along = out.cross(across);
    for i in 0..8 {
        let (sin, cos) = (f64::from(i) * FRAC_PI_4).sin_cos();
        let near = skull.along(root + (across * cos + along * sin) * AROUND);
        if let Some(cm) = length(near)?.filter(|_| head.grows_hair(near)) {
            least = least.min(cm);
            most = most.max(cm);
        }
    }
    Ok((most - least > APPARENT).then_some((least, most)))
}

type LengthAt<'a> = &'a dyn Fn(Vec3) -> Result<Option<f64>, CutError>;

/// The lengths along a course, broken off where they step and where there are none.
fn traced(on: (&Head, &Course), length: LengthAt<'_>) -> Result<Vec<AlongRun>, CutError> {
    let (head, course) = on;
    let pieces = (course.long() / APART).ceil().max(1.0);
    let mut runs: Vec<AlongRun> = Vec::new();
    let mut last: Option<(f64, Option<f64>)> = None;
    for i in 0..=pieces as usize {
        let at = course.long() * (i as f64 / pieces);
        let here = (at, length(course.root(head, at))?);
        match last {
            Some(last) => between(on, length, last, here, &mut runs)?,
            None => runs.extend(here.1.map(|cm| vec![(at, cm)])),
        }
        last = Some(here);
    }
    Ok(runs)
}

/// Goes on from one place to the next.
fn between(
    on: (&Head, &Course),
    length: LengthAt<'_>,
    from: (f64, Option<f64>),
    to: (f64, Option<f64>),
    runs: &mut Vec<AlongRun>,
) -> Result<(), CutError> {
    let smooth = match (from.1, to.1) {
        (Some(a), Some(b)) => (a - b).abs() <= STEP,
        (a, b) => a.is_none() && b.is_none(),
    };
    let near = to.0 - from.0 < NEAR;
    if !smooth && !near {
        let at = f64::midpoint(from.0, to.0);
        let middle = (at, length(on.1.root(on.0, at))?);
        between(on, length, from, middle, runs)?;
        return between(on, length, middle, to, runs);
    }
    let Some(cm) = to.1 else { return Ok(()) };
    match runs.last_mut() {
        Some(run) if smooth => run.push((to.0, cm)),
        _ => runs.push(vec![(to.0, cm)]),
    }
    Ok(())
}
