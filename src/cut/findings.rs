//! What is wrong with a plan on this head, each in a plain sentence.

use super::fold::{CutError, Job, Outcome};
use super::height::fine;
use super::section::SectionKey;
use crate::geometry::Vec3;
use crate::hair::FallsTo;
use crate::head::{Landmark, Region, Regions, Sample, Side};
use crate::measure::{A_RULER, Length, Unit, area as in_square};
use crate::plan::{Area, Covers, Plan, Sides, Step};
use crate::words::{tr, tr_in};

/// What was agreed with the client.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Agreed {
    /// No hair shorter than this, hanging.
    pub shortest: Option<FallsTo>,
    /// No hair of these places ends above the level of a landmark.
    pub no_higher: Vec<(Vec3, Landmark)>,
}

/// Something to look at before the first cut.
#[derive(Clone, Debug, PartialEq)]
pub enum Finding {
    /// A section is cut shorter than agreed.
    TooShort {
        /// The section.
        key: SectionKey,
        /// Its name.
        name: String,
        /// By how much, cm.
        by: f64,
    },
    /// Hair of a place would end above a landmark it was promised to reach.
    TooHigh {
        /// Where it grows, as the trade says it.
        place: &'static str,
        /// The landmark.
        landmark: Landmark,
        /// By how much, cm.
        by: f64,
    },
    /// None of a section's hair reaches its line.
    NeverReaches {
        /// The section.
        key: SectionKey,
        /// Its name.
        name: String,
    },
    /// No step cuts this part of the scalp.
    Uncovered {
        /// Where.
        region: Region,
        /// How much of it, cm².
        area: f64,
    },
    /// A later step cuts off what an earlier one had cut to its length.
    Contested {
        /// The earlier step's title.
        earlier: String,
        /// The later step's title.
        later: String,
        /// By how much at most, cm.
        by: f64,
    },
    /// A step is cut on one side only.
    OneSided {
        /// The step's title.
        step: String,
        /// Its side.
        side: Side,
    },
}

impl Finding {
    /// It in a sentence, its lengths in the unit.
    pub fn said(&self, unit: Unit) -> String {
        match self {
            Self::TooShort { key, name, by } => tr!(
                "{name} ({}) would hang {} shorter than agreed.",
                key.side.said(),
                fine(*by, unit),
                name
            ),
            Self::TooHigh {
                place,
                landmark,
                by,
            } => tr!(
                "Hair of {place}, promised to reach {}, would end {} above it.",
                landmark.the(),
                fine(*by, unit),
                place
            ),
            Self::NeverReaches { key, name } => tr!(
                "{name} ({}) is too short to reach the line: nothing is cut there.",
                key.side.said(),
                name
            ),
            Self::Uncovered { region, area } => {
                tr!(
                    "No step cuts about {} of {}.",
                    in_square(*area, unit),
                    place(region)
                )
            }
            Self::Contested { earlier, later, by } => tr!(
                "“{later}” shortens again what “{earlier}” has cut, by up to {}. If that is wanted, say so in the step.",
                fine(*by, unit),
                later,
                earlier
            ),
            Self::OneSided { step, side } => tr!(
                "“{step}” is cut on the {} only, and no step does the same on the other side.",
                side.said(),
                step
            ),
        }
    }
}

impl std::fmt::Display for Finding {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.said(Unit::Cm))
    }
}

/// Where, as the trade says it.
fn place(region: &Region) -> &'static str {
    match region {
        Region::Front => tr_in("part of the head after “of”", "the front"),
        Region::Top => tr_in("part of the head after “of”", "the top"),
        Region::Crown => tr_in("part of the head after “of”", "the crown"),
        Region::Side => tr_in("part of the head after “of”", "the sides"),
        Region::Back => tr_in("part of the head after “of”", "the back"),
        Region::Nape => tr_in("part of the head after “of”", "the nape"),
    }
}

/// Where on the way round the head, as a promise names it: the hairline runs through no region alone.
fn round_the_head(root: Vec3) -> &'static str {
    match root.x.atan2(root.y).to_degrees().abs() {
        turn if turn < 45.0 => place(&Region::Front),
        turn if turn < 120.0 => place(&Region::Side),
        _ => place(&Region::Back),
    }
}

/// Less uncovered scalp than this is a parting's width, cm².
const A_PARTING: f64 = 2.0;
/// Less shortened again than this is a blend, cm: the tolerance of interior layers. Judgement.
const A_BLEND: f64 = 0.5;

/// Everything that is wrong with a plan that was worked out.
///
/// # Errors
/// [`CutError`] when a length cannot be worked out.
pub fn findings(
    job: &Job<'_>,
    outcome: &Outcome,
    agreed: &Agreed,
) -> Result<Vec<Finding>, CutError> {
    let mut all = too_short(job, outcome, agreed)?;
    all.extend(never_reaching(outcome));
    if job.plan.covers == Covers::All {
        all.extend(uncovered(job, outcome));
    }
    all.extend(contested(job, outcome)?);
    all.extend(one_sided(job.plan));
    Ok(all)
}

fn too_short(job: &Job<'_>, outcome: &Outcome, agreed: &Agreed) -> Result<Vec<Finding>, CutError> {
    let mut all = Vec::new();
    if let Some(shortest) = agreed.shortest {
        for section in outcome.sections.iter().filter(|s| s.cuts()) {
            // What was shorter before is nobody's doing.
            let cut = section.strands.iter().filter(|s| s.after < s.before);
            let hangs = cut.map(|s| outcome.lengths.hangs(s.root, s.after).cm());
            let least = hangs.fold(f64::INFINITY, f64::min);
            let by = shortest.cm() - least;
            if by > A_RULER {
                all.push(Finding::TooShort {
                    key: section.key.clone(),
                    name: section.section.name.clone(),
                    by,
                });
            }
        }
    }
    for &(root, landmark) in &agreed.no_higher {
        let level = job.head.landmark(landmark, Side::Centre).z;
        let by = outcome.lengths.ends_at(job.head, root)? - level;
        let place = round_the_head(root);
        if by <= A_RULER {
            continue;
        }
        // Left and right of one place are said once.
        let said = all.iter_mut().find_map(|finding| match finding {
            Finding::TooHigh {
                place: other,
                landmark: of,
                by,
            } if *other == place && *of == landmark => Some(by),
            _ => None,
        });
        match said {
            Some(most) => *most = most.max(by),
            None => all.push(Finding::TooHigh {
                place,
                landmark,
                by,
            }),
        }
    }
    Ok(all)
}

fn never_reaching(outcome: &Outcome) -> Vec<Finding> {
    let none = |s: &&super::SectionCut| s.cuts() && !s.strands.is_empty() && s.reach() <= 0.0;
    let never = outcome.sections.iter().filter(none);
    never
        .map(|section| Finding::NeverReaches {
            key: section.key.clone(),
            name: section.section.name.clone(),
        })
        .collect()
}

fn uncovered(job: &Job<'_>, outcome: &Outcome) -> Vec<Finding> {
    let regions = Regions::of(job.head);
    let covered = |sample: &&Sample| {
        let mut cutting = outcome.sections.iter().filter(|s| s.cuts());
        !cutting.any(|s| s.section.patch.holds(sample.root))
    };
    let bare: Vec<&Sample> = job.head.grid().iter().filter(covered).collect();
    Region::ALL
        .into_iter()
        .map(|region| {
            let here = bare.iter().filter(|s| regions.at(s.root) == region);
            (region, here.map(|s| s.area).sum())
        })
        .filter(|(_, area)| *area > A_PARTING)
        .map(|(region, area)| Finding::Uncovered { region, area })
        .collect()
}

/// Looked for at every root of a later step's sections.
fn contested(job: &Job<'_>, outcome: &Outcome) -> Result<Vec<Finding>, CutError> {
    let steps = &job.plan.steps;
    let mut most = std::collections::BTreeMap::new();
    for section in outcome.sections.iter().filter(|s| s.cuts()) {
        for strand in &section.strands {
            let by = strand.before - strand.after;
            if by <= A_BLEND {
                continue;
            }
            // The last step that cut here, if it cut this hair at all.
            let earlier = outcome.sections.iter().rfind(|other| {
                other.cuts() && other.step < section.step && other.section.patch.holds(strand.root)
            });
            let Some((other, line)) = earlier.and_then(|o| Some((o, o.line.as_ref()?))) else {
                continue;
            };
            if wanted(&steps[section.step], &steps[other.step]) {
                continue;
            }
            let at = line.cuts_at(job.head, job.hair, strand.root, f64::INFINITY)?;
            if (at - strand.before).abs() < A_RULER {
                let most: &mut f64 = most.entry((other.step, section.step)).or_insert(0.0);
                *most = most.max(by);
            }
        }
    }
    Ok(most
        .into_iter()
        .map(|((earlier, later), by)| Finding::Contested {
            earlier: steps[earlier].name(),
            later: steps[later].name(),
            by,
        })
        .collect())
}

fn wanted(later: &Step, earlier: &Step) -> bool {
    later.recuts.contains(&earlier.id) || later.apart.contains(&earlier.id)
}

fn one_sided(plan: &Plan) -> Vec<Finding> {
    let single =
        |step: &&Step| step.held.cuts() && matches!(step.sides, Sides::Left | Sides::Right);
    plan.steps
        .iter()
        .filter(single)
        .filter(|step| {
            !plan.steps.iter().any(|other| {
                other.sides != step.sides
                    && other.held == step.held
                    && other.tilt.mirrors(&step.tilt)
                    && same_area(&other.area, &step.area)
            })
        })
        .map(|step| Finding::OneSided {
            step: step.name(),
            side: step.sides.all()[0],
        })
        .collect()
}

/// Whether two areas take the same scalp in the same partings, whatever they are called.
fn same_area(a: &Area, b: &Area) -> bool {
    match (a, b) {
        (
            Area::Parted {
                region, pattern, ..
            },
            Area::Parted {
                region: other,
                pattern: way,
                ..
            },
        ) => region == other && pattern == way,
        (Area::Pivoting { edges, .. }, Area::Pivoting { edges: other, .. }) => edges == other,
        (
            Area::FrontPiece { width, depth, .. },
            Area::FrontPiece {
                width: wide,
                depth: deep,
                ..
            },
        ) => width == wide && depth == deep,
        _ => false,
    }
}

/// A length told as agreed: nothing shorter than this, hanging.
impl From<Length> for Agreed {
    fn from(shortest: Length) -> Self {
        Self {
            shortest: Some(FallsTo(shortest)),
            no_higher: Vec::new(),
        }
    }
}
