//! When a cut is outgrown: where its ends lie in weeks to come, and the day to return.

use super::grow::Rate;
use super::{Ready, Record, SavedCut};
use crate::consult::{Ask, Zone};
use crate::cut::{CutError, Outcome, TOLD, told_root};
use crate::fall::{Hanging, natural_fall};
use crate::geometry::Vec3;
use crate::head::{Body, Landmark, Level, Side};
use crate::measure::{Day, Length, Unit, read_length};
use crate::plan::{Group, Settles, Value};
use crate::words::tr;
use serde::{Deserialize, Serialize};

/// Weeks that are looked at.
pub const WEEKS: usize = 26;
/// An agreed landmark counts for ends that lie no more than this above it, cm: ends that were never meant
/// to reach it are outgrown by where they lie. Judgement.
const NEAR: f64 = 2.0;

/// What hair is worn as: how much further down its ends may hang before it shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WornAs {
    /// A fringe, or pieces that end on the face.
    Face,
    /// A short cut.
    Short,
    /// An outline above the shoulders.
    Outline,
    /// Layers.
    Layers,
    /// An outline at the shoulders or below.
    Long,
}

impl WornAs {
    /// All of them.
    pub const ALL: [Self; 5] = [
        Self::Face,
        Self::Short,
        Self::Outline,
        Self::Layers,
        Self::Long,
    ];

    /// How much lower ends may hang before it is outgrown, cm, until somebody says. Judgement: at the usual
    /// rate of growth each lies within what the trade says ([`WornAs::trade`]).
    pub const fn usual(self) -> f64 {
        match self {
            Self::Face => 1.0,
            Self::Short => 1.5,
            Self::Outline => 2.0,
            Self::Layers => 2.5,
            Self::Long => 3.0,
        }
    }

    /// Weeks after which it is usually cut again, from and to: common practice, no source.
    pub const fn trade(self) -> (u32, u32) {
        match self {
            Self::Face => (2, 4),
            Self::Short => (4, 6),
            Self::Outline => (4, 8),
            Self::Layers => (6, 10),
            Self::Long => (8, 12),
        }
    }

    /// Its name on the screen.
    pub fn name(self) -> &'static str {
        match self {
            Self::Face => tr("Fringe and face"),
            Self::Short => tr("Short cut"),
            Self::Outline => tr("Outline"),
            Self::Layers => tr("Layers"),
            Self::Long => tr("Long hair"),
        }
    }

    /// Its word in stored documents.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Face => "face",
            Self::Short => "short",
            Self::Outline => "outline",
            Self::Layers => "layers",
            Self::Long => "long",
        }
    }

    /// How much lower it may hang, as a card says it or as is usual; up to 30 cm.
    pub fn slack(self, record: Option<&Record>) -> Length {
        let typed = record.and_then(|record| record.outgrown.get(self.word()));
        let read = typed.and_then(|typed| Self::read(typed).ok());
        read.unwrap_or(Length::from_cm(self.usual()))
    }

    /// Reads how much lower hair may hang.
    ///
    /// # Errors
    /// A sentence, where that is no length, or none that is told here.
    pub fn read(typed: &str) -> Result<Length, String> {
        let read = read_length(typed, Unit::Cm).map_err(|why| why.to_string())?;
        let sound = (0.1..=30.0).contains(&read.cm());
        let sentence = || tr("This is told from 1 mm to 30 cm; the usual is taken.").to_owned();
        sound.then_some(read).ok_or_else(sentence)
    }
}

/// What of the head is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LookedAt {
    /// Front, sides or back, as in the consultation.
    Zone(Zone),
    /// A named place.
    Place(Landmark),
}

/// One place and when it is outgrown.
#[derive(Clone, Debug, PartialEq)]
pub struct Outgrown {
    /// Where.
    pub spot: LookedAt,
    /// What it is worn as.
    pub worn: WornAs,
    /// Heights of its ends, dry, now and in each of [`WEEKS`] weeks, cm; of two sides the lower one.
    pub heights: Vec<f64>,
    /// The landmark it was agreed or aimed at, where its ends lie near it; none where what counts is where
    /// they lie now.
    pub at: Option<Landmark>,
    /// How much lower its ends may hang, cm.
    pub slack: Length,
    /// Weeks until they do; none if not within [`WEEKS`].
    pub weeks: Option<f64>,
    /// The day on which they do.
    pub day: Option<Day>,
}

/// When a cut is outgrown.
#[derive(Clone, Debug, PartialEq)]
pub struct Outlook {
    /// The day of the cut.
    pub from: Day,
    /// How fast the hair grows.
    pub rate: Rate,
    /// What was cut, place by place from the front to the back; what was not cut is left out.
    pub places: Vec<Outgrown>,
}

impl Outlook {
    /// Of a cut that was made: `followed` is what was really cut.
    ///
    /// # Errors
    /// [`CutError`] when a length cannot be worked out.
    pub fn of(
        cut: &SavedCut,
        ready: &Ready,
        followed: &Outcome,
        from: Day,
        rate: Rate,
        record: Option<&Record>,
    ) -> Result<Self, CutError> {
        let mut places = Vec::new();
        let zones = Zone::ALL.map(LookedAt::Zone);
        for spot in zones.into_iter().chain(TOLD.map(LookedAt::Place)) {
            let roots = spot.roots(ready, followed);
            if roots.is_empty() {
                continue;
            }
            let heights = heights(ready, followed, &rate, &roots)?;
            let now = heights.first().copied().unwrap_or_default();
            let agreed = spot.agreed(cut, ready);
            let level = agreed.map(|landmark| (landmark, height(ready, landmark)));
            let near = level.filter(|(_, z)| (0.0..=NEAR).contains(&(now - z)));
            let worn = spot.worn(ready, agreed, now);
            let slack = worn.slack(record);
            let weeks = reached(&heights, near.map_or(now, |(_, z)| z) - slack.cm());
            places.push(Outgrown {
                spot,
                worn,
                at: near.map(|(landmark, _)| landmark),
                slack,
                weeks,
                day: weeks.map(|weeks| from.after_days((weeks * 7.0) as i64)),
                heights,
            });
        }
        Ok(Self { from, rate, places })
    }

    /// The place that is outgrown first: its day is that to return on. None if nothing is within
    /// [`WEEKS`].
    pub fn soonest(&self) -> Option<&Outgrown> {
        let due = self.places.iter().filter(|place| place.weeks.is_some());
        due.min_by(|a, b| {
            let weeks = |place: &Outgrown| place.weeks.unwrap_or(f64::INFINITY);
            weeks(a).total_cmp(&weeks(b))
        })
    }
}

impl Outgrown {
    /// Its name on the screen: the front is a fringe where it is worn as one.
    pub fn name(&self) -> Option<&'static str> {
        match self.spot {
            LookedAt::Zone(Zone::Front) if self.worn == WornAs::Face => Some(tr("Fringe and face")),
            LookedAt::Zone(zone) => Some(zone.name()),
            LookedAt::Place(_) => None,
        }
    }

    /// Where its ends lie in so many weeks.
    pub fn level(&self, ready: &Ready, weeks: usize) -> Option<Level> {
        let z = self.heights.get(weeks)?;
        Some(Level::of(&ready.head, *z))
    }

    /// Whether the weeks lie within what the trade says of such a cut.
    pub fn is_usual(&self) -> bool {
        let (from, to) = self.worn.trade();
        self.weeks
            .is_some_and(|weeks| (f64::from(from)..=f64::from(to)).contains(&weeks))
    }
}

/// The height of a landmark that ends are told by, cm.
fn height(ready: &Ready, landmark: Landmark) -> f64 {
    ready.head.landmark(landmark, Side::Centre).z
}

impl LookedAt {
    /// The roots that stand for it, of those that this plan cuts.
    fn roots(self, ready: &Ready, followed: &Outcome) -> Vec<Vec3> {
        let head = &ready.head;
        let both = match self {
            Self::Zone(zone) => zone.spots().map(|spot| head.place(spot)),
            Self::Place(place) => {
                [Side::Left, Side::Right].map(|side| told_root(head, place, side))
            }
        };
        let cuts = |root: &Vec3| {
            let mut cutting = followed.sections.iter().filter(|s| s.cuts());
            cutting.any(|s| s.section.patch.holds(*root))
        };
        // Where both sides are alike the left stands for both.
        let sides = if followed.is_even() { 1 } else { 2 };
        both.into_iter().take(sides).filter(cuts).collect()
    }

    /// The landmark that it was agreed or aimed to end at, or that was chosen in the plan.
    fn agreed(self, cut: &SavedCut, ready: &Ready) -> Option<Landmark> {
        let Self::Zone(zone) = self else {
            return None;
        };
        let settles = match zone {
            Zone::Front => Settles::Front,
            Zone::Back => Settles::Outline,
            Zone::Sides => return cut.consultation.landmark(Ask::EndsAt(zone)),
        };
        let chosen = || {
            let choices = ready.plan.choices.iter();
            let mut of = choices.filter(|choice| choice.settles == Some(settles));
            match ready.choices.value(&ready.plan, &of.next()?.id) {
                Ok(Value::Landmark(landmark)) => Some(landmark),
                _ => None,
            }
        };
        let said = cut.consultation.landmark(Ask::EndsAt(zone));
        said.or_else(chosen)
    }

    /// What hair that ends at `now` is worn as. Judgement.
    fn worn(self, ready: &Ready, agreed: Option<Landmark>, now: f64) -> WornAs {
        let plan = &ready.plan;
        let at_the_front = matches!(
            self,
            Self::Zone(Zone::Front) | Self::Place(Landmark::FrontHairline)
        );
        let settled = agreed.is_some()
            || plan
                .choices
                .iter()
                .any(|choice| choice.settles == Some(Settles::Front));
        let on_the_face = at_the_front && settled && now >= height(ready, Landmark::Cheekbone);
        if on_the_face || plan.group == Some(Group::Fringe) {
            WornAs::Face
        } else if plan.group == Some(Group::Short) {
            WornAs::Short
        } else if now <= height(ready, Landmark::Shoulder) {
            WornAs::Long
        } else if plan.group == Some(Group::Layered) {
            WornAs::Layers
        } else {
            WornAs::Outline
        }
    }
}

/// The heights of the lowest end of these roots, dry and let go, now and week by week, cm.
fn heights(
    ready: &Ready,
    followed: &Outcome,
    rate: &Rate,
    roots: &[Vec3],
) -> Result<Vec<f64>, CutError> {
    let (body, worn) = (Body::of(&ready.head), ready.job().wear().on(&ready.head));
    let mut all = Vec::with_capacity(WEEKS + 1);
    let mut now = Vec::with_capacity(roots.len());
    for &root in roots {
        now.push((root, followed.lengths.at(&ready.head, root)?));
    }
    for week in 0..=WEEKS {
        let grown = rate.over_weeks(week as f64).cm();
        let hairs: Vec<Hanging> = now
            .iter()
            .map(|&(root, cm)| Hanging {
                root,
                length: followed.lengths.hangs(root, cm + grown),
            })
            .collect();
        let tips = natural_fall(&body, &worn, &hairs);
        let lowest = tips.iter().map(|fallen| fallen.tip.z);
        all.push(lowest.fold(f64::INFINITY, f64::min));
    }
    Ok(all)
}

/// The weeks after which heights, week by week, first lie at `z` or below; straight between two weeks.
fn reached(heights: &[f64], z: f64) -> Option<f64> {
    let week = heights.iter().position(|height| *height <= z)?;
    let (Some(before), Some(there)) = (
        week.checked_sub(1).and_then(|before| heights.get(before)),
        heights.get(week),
    ) else {
        return Some(0.0);
    };
    let through = (before - z) / (before - there);
    Some(week as f64 - 1.0 + through.clamp(0.0, 1.0))
}
