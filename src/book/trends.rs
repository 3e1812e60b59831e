//! What comes back in several cuts: where they came out shorter or longer than planned, again and again.
//!
//! Each cut counts once in each group, as the mean of what was measured there, so that a cut measured at
//! twenty places says no more than one measured at two.

use super::marks::{Marks, RULER};
use super::past::{Past, Slip};
use super::sign_test::sign_test;
use crate::head::{Region, Side};
use crate::plan::Lift;

/// So many cuts are looked at, the last ones: what a hand did years ago is no habit any more. Judgement.
pub const MOST: usize = 40;
/// Fewer cuts than this make no habit. Judgement.
pub const LEAST: usize = 3;
/// By chance alone no more often than this: then it is told as a habit. The usual level of a test.
const SURE: f64 = 0.05;

/// What belongs together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Group {
    /// Everything.
    All,
    /// One side.
    Side(Side),
    /// The right less the left, where both were measured.
    RightLessLeft,
    /// A region, both sides.
    Region(Region),
    /// A region on one side.
    Part(Region, Side),
    /// What was lifted so high.
    Lift(Lift),
}

/// The groups, from the widest on.
fn groups() -> Vec<Group> {
    let sides = [Side::Left, Side::Right];
    let mut all = vec![Group::All];
    all.extend(sides.map(Group::Side));
    all.push(Group::RightLessLeft);
    all.extend(Region::ALL.map(Group::Region));
    all.extend(Lift::ALL.map(Group::Lift));
    for region in Region::ALL {
        all.extend(sides.map(|side| Group::Part(region, side)));
    }
    all
}

impl Group {
    fn holds(self, slip: &Slip) -> bool {
        match self {
            Self::All | Self::RightLessLeft => true,
            Self::Side(side) => slip.side == side,
            Self::Region(region) => slip.region == Some(region),
            Self::Part(region, side) => slip.region == Some(region) && slip.side == side,
            Self::Lift(lift) => slip.lift == Some(lift),
        }
    }

    /// What a cut came to in it, cm; none if nothing was measured there.
    fn value(self, cut: &Past) -> Option<f64> {
        let on = |side: Side| mean(cut.slips.iter().filter(|s| s.side == side).map(|s| s.cm));
        match self {
            Self::RightLessLeft => Some(on(Side::Right)? - on(Side::Left)?),
            _ => mean(cut.slips.iter().filter(|s| self.holds(s)).map(|s| s.cm)),
        }
    }

    /// What each side alone comes to over all cuts; one side where only one was measured.
    fn sides(self, cuts: &[Past]) -> Vec<f64> {
        let of = |side: Side| {
            let one = |cut: &Past| {
                let ours = |s: &&Slip| self.holds(s) && s.side == side;
                mean(cut.slips.iter().filter(ours).map(|s| s.cm))
            };
            mean(cuts.iter().filter_map(one))
        };
        [Side::Left, Side::Right]
            .into_iter()
            .filter_map(of)
            .collect()
    }

    const fn is_of_both_sides(self) -> bool {
        matches!(self, Self::All | Self::Region(_) | Self::Lift(_))
    }
}

fn mean(all: impl Iterator<Item = f64>) -> Option<f64> {
    let (count, sum) = all.fold((0_u32, 0.0), |(count, sum), cm| (count + 1, sum + cm));
    (count > 0).then(|| sum / f64::from(count))
}

/// A group over all cuts in which it was measured.
#[derive(Clone, Debug, PartialEq)]
pub struct Trend {
    /// Of what.
    pub group: Group,
    /// The place of each such cut among all, in time order, and what it came to, cm.
    pub cuts: Vec<(usize, f64)>,
    /// How many are shorter by more than the pass mark.
    pub short: usize,
    /// How many are longer by more than the pass mark.
    pub long: usize,
    /// The mean, cm.
    pub mean: f64,
    /// How far single cuts lie about it: the standard deviation of a sample, cm; 0 of one cut.
    pub spread: f64,
    /// How many lie off beyond a ruler's doubt the way the mean does, and how many the other way.
    pub ways: (usize, usize),
    /// How likely as uneven a row or a more uneven one would be by chance, 0 to 1 ([`sign_test`]).
    pub chance: f64,
    /// Whether it is told: see [`Trends::told`].
    pub told: bool,
}

impl Trend {
    fn of(group: Group, past: &[Past], marks: &Marks) -> Option<Self> {
        let values = past.iter().map(|cut| group.value(cut)).enumerate();
        let cuts: Vec<(usize, f64)> = values.filter_map(|(i, cm)| Some((i, cm?))).collect();
        let mean = mean(cuts.iter().map(|c| c.1))?;
        let off = cuts.iter().map(|(_, cm)| (cm - mean) * (cm - mean));
        let freedom = cuts.len().saturating_sub(1).max(1) as f64;
        let spread = (off.sum::<f64>() / freedom).sqrt();
        let count = |of: &dyn Fn(f64) -> bool| cuts.iter().filter(|c| of(c.1)).count();
        let (low, high) = (count(&|cm| cm < -RULER), count(&|cm| cm > RULER));
        let ways = if mean < 0.0 { (low, high) } else { (high, low) };
        // A mean of both sides is told only where both do it.
        let sides = || group.sides(past);
        let both = !group.is_of_both_sides()
            || sides()
                .iter()
                .all(|side| side.abs() > RULER && (*side < 0.0) == (mean < 0.0));
        let told = cuts.len() >= LEAST && mean.abs() > RULER && ways.0 * 2 > cuts.len() && both;
        Some(Self {
            group,
            short: count(&|cm| cm < -marks.pass() - HAIR),
            long: count(&|cm| cm > marks.pass() + HAIR),
            mean,
            spread,
            ways,
            chance: sign_test(ways.1, ways.0),
            told,
            cuts,
        })
    }

    /// Whether chance alone would seldom do this.
    pub fn sure(&self) -> bool {
        self.chance <= SURE
    }
}

/// Lengths are typed to a millimetre: a tenth of that is nothing.
const HAIR: f64 = 0.01;

/// What several cuts came to.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Trends {
    /// The cuts, in time order: day and title.
    pub cuts: Vec<(String, String)>,
    /// Every group in which anything was measured, the widest first.
    pub all: Vec<Trend>,
}

impl Trends {
    /// Of these cuts, in any order.
    pub fn of(cuts: Vec<Past>, marks: &Marks) -> Self {
        let mut past: Vec<Past> = Vec::with_capacity(cuts.len());
        for cut in cuts {
            let at = past.partition_point(|p| (&p.day, &p.id) <= (&cut.day, &cut.id));
            past.insert(at, cut);
        }
        let of = |group| Trend::of(group, &past, marks);
        let all = groups().into_iter().filter_map(of).collect();
        let cuts = past.iter().map(|cut| (cut.day.clone(), cut.title.clone()));
        Self {
            cuts: cuts.collect(),
            all,
        }
    }

    /// What is worth a sentence, the largest first, three at the most: where most of three cuts or more lie
    /// off the same way, their mean too, each by more than a ruler's doubt; of both sides only where both do
    /// it. A part is told beside a wider group only if it is worse by more than a ruler's doubt. Judgement.
    pub fn told(&self) -> Vec<&Trend> {
        let mut told: Vec<&Trend> = Vec::new();
        for trend in self.all.iter().filter(|trend| trend.told) {
            let alike = |t: &&&Trend| {
                t.group == Group::All
                    || match (t.group, trend.group) {
                        // The two sides are two things, and so are regions.
                        (Group::Side(a), Group::Side(b)) => a == b,
                        (Group::Side(a), Group::Part(_, b)) => a == b,
                        (Group::Region(a), Group::Region(b)) => a == b,
                        (Group::Region(a), Group::Part(b, _)) => a == b,
                        (Group::Lift(_), Group::Lift(_) | Group::Part(..)) => false,
                        _ => true,
                    }
            };
            let same_way = |t: &&&Trend| (t.mean < 0.0) == (trend.mean < 0.0);
            let wider = told.iter().filter(same_way).filter(alike);
            let most = wider.map(|t| t.mean.abs()).fold(0.0, f64::max);
            let sides_told = told.iter().any(|t| matches!(t.group, Group::Side(_)));
            let repeats = trend.group == Group::RightLessLeft && sides_told;
            if !repeats && (most == 0.0 || trend.mean.abs() > most + RULER) {
                let at = told.partition_point(|t| t.mean.abs() >= trend.mean.abs());
                told.insert(at, trend);
            }
        }
        told.truncate(3);
        told
    }

    /// One group, if anything was measured in it.
    pub fn group(&self, group: Group) -> Option<&Trend> {
        self.all.iter().find(|trend| trend.group == group)
    }
}
