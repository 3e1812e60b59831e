//! A finished cut as trends read it: from stored values alone, nothing is worked out again.

use super::line::{Line, State};
use super::saved::SavedCut;
use super::visit::{How, When};
use crate::head::{Kind, Landmark, Region, Side};
use crate::plan::{Lift, Plan, built_in};

/// Which cuts are looked at.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Which {
    /// All but those of the invented salon.
    All,
    /// Those on practice heads; not the invented salon's either.
    Practice,
    /// Those of the client or practice head of this id.
    Of(String),
}

impl Which {
    /// Whether a cut may be one of them, by its line; [`Past::of`] is sure.
    pub fn may_be(&self, line: &Line) -> bool {
        let ours = match self {
            Self::All | Self::Practice => !line.invented,
            Self::Of(id) => line.of == *id,
        };
        ours && line.measured && line.state == State::Finished
    }
}

/// One length that was measured, against what it was to be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slip {
    /// Where it grows; none where the plan does not say.
    pub region: Option<Region>,
    /// On which side.
    pub side: Side,
    /// How high it was lifted; none of what was measured after the cut.
    pub lift: Option<Lift>,
    /// How much longer it came out than it was to be, cm; shorter if below zero.
    pub cm: f64,
}

/// Who is off by more than this mistyped it, cm. Judgement.
const MISTYPED: f64 = 10.0;

/// A finished cut with what was measured in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Past {
    /// The cut's id.
    pub id: String,
    /// The day of the visit, as `2026-11-25`.
    pub day: String,
    /// What the cut is called.
    pub title: String,
    /// What was measured, at the chair and after the cut.
    pub slips: Vec<Slip>,
}

/// Built-in plans that were read already, by id.
#[derive(Debug, Default)]
pub struct Plans(Vec<(String, Option<Plan>)>);

impl Plans {
    fn of<'a>(&'a mut self, cut: &'a SavedCut) -> Option<&'a Plan> {
        if let Some(own) = cut.own.as_deref() {
            return Some(own);
        }
        let known = self.0.iter().position(|(id, _)| *id == cut.plan);
        let at = known.unwrap_or(self.0.len());
        if known.is_none() {
            self.0.push((cut.plan.clone(), built_in(&cut.plan)));
        }
        self.0.get(at)?.1.as_ref()
    }
}

impl Past {
    /// What a cut tells; none if it is not one of `which`, not finished, or nothing was measured in it.
    pub fn of(cut: &SavedCut, which: &Which, plans: &mut Plans) -> Option<Self> {
        let ours = match which {
            Which::All => !cut.visit.invented,
            Which::Practice => !cut.visit.invented && cut.shape.kind == Kind::Practice,
            Which::Of(id) => cut.visit.of == *id,
        };
        let walk = cut.walk.as_ref().filter(|walk| walk.finished_at.is_some());
        let walk = walk.filter(|_| ours)?;
        let plan = plans.of(cut);
        let mut slips = Vec::new();
        for done in &walk.done {
            let measured = walk.came_out_at(&done.key);
            let Some((measured, target)) = measured.zip(walk.target(&done.key)) else {
                continue;
            };
            let step = plan.and_then(|plan| plan.steps.iter().find(|s| s.id == done.key.step));
            slips.push(Slip {
                region: step.and_then(|step| step.region(done.key.number)),
                side: done.key.side,
                lift: step.and_then(|step| step.held.lift()),
                cm: measured.cm() - target.cm(),
            });
        }
        for measure in &cut.visit.measures {
            if (measure.when, measure.how) != (When::After, How::Combed) {
                continue;
            }
            if let Some(cm) = measure.difference() {
                slips.push(Slip {
                    region: region_of(measure.place),
                    side: measure.side,
                    lift: None,
                    cm,
                });
            }
        }
        slips.retain(|slip| slip.cm.abs() <= MISTYPED);
        (!slips.is_empty()).then(|| Self {
            id: cut.id.clone(),
            day: cut.day(),
            title: cut.title.clone(),
            slips,
        })
    }
}

/// The region of a named place of the scalp; none of a point of the body.
const fn region_of(place: Landmark) -> Option<Region> {
    Some(match place {
        Landmark::FrontHairline => Region::Front,
        Landmark::HighPoint => Region::Top,
        Landmark::Crown => Region::Crown,
        Landmark::Temple
        | Landmark::InFrontOfEar
        | Landmark::AboveEar
        | Landmark::ParietalRidge => Region::Side,
        Landmark::BehindEar | Landmark::Occipital => Region::Back,
        Landmark::Nape | Landmark::NapeCorner => Region::Nape,
        _ => return None,
    })
}
