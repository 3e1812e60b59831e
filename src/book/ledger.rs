//! A practice head's hair as something that is used up: it does not grow.
//!
//! Attempt by attempt the lengths that one leaves are what the next begins with. What is left tells which
//! cuts can still be made, and in which order the most of them.

use super::grow::Left;
use super::{Record, SavedCut};
use crate::cut::{Job, Live, Outcome, Strand};
use crate::hair::{Hair, LengthMap};
use crate::head::{Head, Region, Regions};
use crate::measure::{Length, Unit, read_length};
use crate::plan::{Choices, Plan, built_ins};

/// Places of the scalp that remaining lengths are looked at: enough to tell a mean to a millimetre.
const PLACES: usize = 400;
/// A section whose hair reaches its line over this share of it can be cut as it should. Judgement.
const REACHES: f64 = 0.75;
/// A cut can still be made if so many of its sections can. Judgement.
const STILL: f64 = 0.9;
/// The hair of a new practice head, where nobody said, cm. Invented: many are sold with 40 to 60.
const NEW: f64 = 45.0;

/// What is left in one region.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Zoned {
    /// Which.
    pub region: Region,
    /// The shortest hair of it.
    pub shortest: Length,
    /// The mean over its scalp.
    pub mean: Length,
}

/// One attempt on a practice head.
#[derive(Clone, Debug, PartialEq)]
pub struct Attempt {
    /// The id of the cut.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Its day, as `2026-11-25`.
    pub day: String,
    /// What it left, region by region.
    pub left: Vec<Zoned>,
}

/// A cut that could be made on what is left.
#[derive(Clone, Debug, PartialEq)]
pub struct Possible {
    /// The plan's id.
    pub plan: String,
    /// Its name.
    pub name: String,
    /// The share of its sections whose hair reaches the line, 0 to 1; 0 where it can't be held at all.
    pub reaches: f64,
    /// The same share on the hair that its plan takes as given: less than 1 where it means some to be
    /// left.
    pub meant: f64,
}

impl Possible {
    /// Whether it can still be made as it should.
    pub fn can_be_made(&self) -> bool {
        self.reaches > 0.0 && self.reaches >= STILL * self.meant
    }
}

/// What can still be cut on a practice head.
#[derive(Clone, Debug, PartialEq)]
pub struct Still {
    /// Every built-in cut as it stands, on what is left: those that can be made first, and of those the ones
    /// that leave the most.
    pub each: Vec<Possible>,
    /// Cuts in an order in which the most of them can be made one after the other, long before short; each was
    /// tried on what the one before leaves. A part of a cut, such as a fringe, and a trim are cuts as well.
    pub order: Vec<Possible>,
}

/// A practice head's hair.
#[derive(Clone, Debug)]
pub struct Ledger {
    head: Head,
    hair: Hair,
    /// How long it was when it was new.
    pub new: Length,
    /// Whether that was said, or is what is usual.
    pub said: bool,
    /// Every attempt that cut something, the first one first.
    pub attempts: Vec<Attempt>,
    /// Attempts that can't be worked out, by title: they are left out of what remains.
    pub unread: Vec<String>,
    /// The lengths that are left.
    left: LengthMap,
    /// The same region by region.
    pub remaining: Vec<Zoned>,
}

impl Ledger {
    /// Of a practice head and the cuts made on it, in any order. None if its tapes contradict each other.
    pub fn of(record: &Record, visits: &[SavedCut]) -> Option<Self> {
        let typed = read_length(&record.new_length, Unit::Cm).ok();
        let new = typed.filter(|length| length.cm() > 0.0);
        // A head is worked out from its tapes as a cut is.
        let card = record.new_cut("", "", "", "");
        let head = card.head().ok()?;
        let hair = record.consultation.hair(&head);
        let new_length = new.unwrap_or(Length::from_cm(NEW));
        let whole = LengthMap::even(new_length);
        let mut ledger = Self {
            remaining: zones(&head, &whole),
            head,
            hair,
            new: new_length,
            said: new.is_some(),
            attempts: Vec::new(),
            unread: Vec::new(),
            left: whole,
        };
        let mut sorted: Vec<&SavedCut> = Vec::new();
        for visit in visits {
            let place = sorted.partition_point(|other| other.day() <= visit.day());
            sorted.insert(place, visit);
        }
        for visit in sorted {
            ledger.attempt(visit);
        }
        Some(ledger)
    }

    /// One more attempt, on what those before it left.
    fn attempt(&mut self, visit: &SavedCut) {
        let Some(walk) = visit.walk.as_ref().filter(|walk| walk.has_cut()) else {
            return;
        };
        let on_it = SavedCut {
            left: Some(Left {
                map: self.left.to_text(),
                of: String::new(),
                day: String::new(),
                grown: Length::ZERO,
            }),
            ..visit.clone()
        };
        let left = on_it.ready().ok().and_then(|ready| {
            let followed = ready.followed(walk).ok()?;
            followed.left_map(&ready.head).ok()
        });
        match left {
            Some(left) => {
                self.remaining = zones(&self.head, &left);
                self.left = left;
                self.attempts.push(Attempt {
                    id: visit.id.clone(),
                    title: visit.title.clone(),
                    day: visit.day(),
                    left: self.remaining.clone(),
                });
            }
            None => self.unread.push(visit.title.clone()),
        }
    }

    /// What can still be cut.
    pub fn still(&self) -> Still {
        let tried = self.tried();
        let can = tried.iter().filter(|tried| tried.possible.can_be_made());
        let race = Race::of(self, can);
        let plans = built_ins();
        let mut left = self.left.clone();
        let mut order = Vec::new();
        for possible in race.order() {
            let plan = plans.iter().find(|plan| plan.id == possible.plan);
            let Some((reaches, after)) = plan.and_then(|plan| self.try_on(plan, &left)) else {
                continue;
            };
            let now = Possible {
                reaches,
                ..possible
            };
            if now.can_be_made()
                && let Ok(after) = after.left_map(&self.head)
            {
                left = after;
                order.push(now);
            }
        }
        Still {
            each: tried.into_iter().map(|tried| tried.possible).collect(),
            order,
        }
    }

    /// How much of the new hair a zone has on average, a whole number of hundredths.
    pub fn percent(&self, zone: &Zoned) -> u32 {
        (zone.mean.cm() / self.new.cm().max(0.1) * 100.0)
            .clamp(0.0, 100.0)
            .round() as u32
    }

    /// Each built-in cut and what it comes to.
    fn tried(&self) -> Vec<Tried> {
        let mut all: Vec<Tried> = Vec::new();
        for plan in built_ins() {
            let tried = self.try_on(&plan, &self.left);
            let reaches = tried.as_ref().map_or(0.0, |(reaches, _)| *reaches);
            let leaves = tried
                .as_ref()
                .map_or(0.0, |(_, outcome)| self.mean(outcome));
            // Where all but a few reach there is nothing to ask.
            let meant = if reaches >= STILL {
                1.0
            } else {
                share(self.run(&plan, None).as_ref())
            };
            let now = Tried {
                possible: Possible {
                    plan: plan.id,
                    name: plan.name,
                    reaches,
                    meant,
                },
                leaves,
                outcome: tried.map(|(_, outcome)| outcome),
            };
            let better = |of: &Tried| (of.possible.can_be_made(), of.leaves);
            let place = all.partition_point(|other| better(other) >= better(&now));
            all.insert(place, now);
        }
        all
    }

    /// A cut on hair of these lengths: the share of its sections that reach, and what it comes to.
    fn try_on(&self, plan: &Plan, left: &LengthMap) -> Option<(f64, Outcome)> {
        let outcome = self.run(plan, Some(left.clone()))?;
        Some((share(Some(&outcome)), outcome))
    }

    /// A cut on hair of these lengths, or that its plan takes as given. Targets are those of nine roots a
    /// section, near enough to tell what reaches.
    fn run(&self, plan: &Plan, left: Option<LengthMap>) -> Option<Outcome> {
        let hair = self.hair.clone().beginning(left);
        let job = Job {
            head: &self.head,
            hair: &hair,
            plan,
            choices: &Choices::default(),
        };
        Some(Live::new(&job).ok()?.outcome().clone())
    }

    /// The mean length of its hair, cm, looked at at few places: to put cuts into an order.
    fn mean(&self, outcome: &Outcome) -> f64 {
        const FEW: usize = 60;
        let (mut sum, mut area) = (0.0, 0.0);
        for sample in self.head.samples(FEW) {
            // Left and right come in pairs that are alike here.
            if sample.root.x > 0.0
                && let Ok(cm) = outcome.lengths.at(&self.head, sample.root)
            {
                sum += cm * sample.area;
                area += sample.area;
            }
        }
        if area > 0.0 { sum / area } else { 0.0 }
    }
}

/// What is left, region by region.
fn zones(head: &Head, left: &LengthMap) -> Vec<Zoned> {
    let regions = Regions::of(head);
    let mut all = Region::ALL.map(|region| (region, f64::INFINITY, 0.0, 0.0));
    for sample in head.samples(PLACES) {
        let region = regions.at(sample.root);
        let cm = left.at(head.spot(sample.root));
        for (of, shortest, sum, area) in &mut all {
            if *of == region {
                *shortest = shortest.min(cm);
                *sum += cm * sample.area;
                *area += sample.area;
            }
        }
    }
    let there = all.into_iter().filter(|(.., area)| *area > 0.0);
    there
        .map(|(region, shortest, sum, area)| Zoned {
            region,
            shortest: Length::from_cm(shortest),
            mean: Length::from_cm(sum / area),
        })
        .collect()
}

/// A built-in cut as it was tried.
struct Tried {
    possible: Possible,
    /// The mean that it leaves, cm.
    leaves: f64,
    outcome: Option<Outcome>,
}

/// The share of the sections that cut something whose hair reaches; none if it could not be worked out.
fn share(outcome: Option<&Outcome>) -> f64 {
    let cutting = || {
        outcome
            .into_iter()
            .flat_map(|o| &o.sections)
            .filter(|s| s.cuts())
    };
    let reach = cutting().filter(|s| s.reach() >= REACHES).count();
    reach as f64 / cutting().count().max(1) as f64
}

/// Cuts that could be made, and of each what the others would leave of its hair.
struct Race {
    runners: Vec<Runner>,
}

/// One of them.
struct Runner {
    possible: Possible,
    /// The mean that it leaves, cm.
    leaves: f64,
    /// Section by section, for each hair how long it is, at which length it is cut, and how long each of the
    /// cuts, by its place, leaves it, cm.
    needs: Vec<Vec<Need>>,
}

struct Need {
    before: f64,
    line: f64,
    left: Vec<f64>,
}

/// No more cuts than this are put into an order: there are so many subsets of them.
const MOST: usize = 16;

impl Race {
    fn of<'a>(ledger: &Ledger, tried: impl Iterator<Item = &'a Tried>) -> Self {
        let head = &ledger.head;
        let mut all = Vec::new();
        for one in tried.take(MOST) {
            if let Some(outcome) = &one.outcome
                && let Ok(map) = outcome.coarse_map(head)
            {
                all.push((one, outcome, map));
            }
        }
        let runner = |(one, outcome, _): &(&Tried, &Outcome, LengthMap)| {
            let need = |strand: &Strand| {
                let spot = head.spot(strand.root);
                Need {
                    before: strand.before,
                    line: strand.cut_at.unwrap_or(f64::INFINITY),
                    left: all.iter().map(|(.., map)| map.at(spot)).collect(),
                }
            };
            let cutting = outcome.sections.iter().filter(|s| s.cuts());
            let needs = cutting.map(|s| s.strands.iter().map(need).collect());
            Runner {
                possible: one.possible.clone(),
                leaves: one.leaves,
                needs: needs.collect(),
            }
        };
        Self {
            runners: all.iter().map(runner).collect(),
        }
    }

    /// The longest order in which each can be made after all those before it: of all sets of cuts the largest
    /// that can be built one by one, the shortest always last.
    fn order(self) -> Vec<Possible> {
        let sets = 1_usize << self.runners.len();
        let mut built = vec![false; sets];
        let mut largest = 0_usize;
        for set in 0..sets {
            let there = set == 0 || self.last_of(set, &built).is_some();
            if let Some(built) = built.get_mut(set) {
                *built = there;
            }
            if there && set.count_ones() > largest.count_ones() {
                largest = set;
            }
        }
        let mut order = Vec::new();
        while let Some(last) = self.last_of(largest, &built) {
            largest &= !(1 << last);
            if let Some(runner) = self.runners.get(last) {
                order.insert(0, runner.possible.clone());
            }
        }
        order
    }

    /// The one of a set that may be cut last, after all others of it; of several the one that leaves the
    /// least.
    fn last_of(&self, set: usize, built: &[bool]) -> Option<usize> {
        let mut best: Option<(f64, usize)> = None;
        for (place, runner) in self.runners.iter().enumerate() {
            let others = set & !(1 << place);
            let may = set != others
                && best.is_none_or(|(leaves, _)| runner.leaves < leaves)
                && built.get(others).copied().unwrap_or(false)
                && runner.can_after(others);
            if may {
                best = Some((runner.leaves, place));
            }
        }
        best.map(|(_, place)| place)
    }
}

impl Runner {
    /// Whether it can be made after all cuts of a set: nothing gets longer, so what they leave is the shortest
    /// that any of them leaves.
    fn can_after(&self, set: usize) -> bool {
        let there = |need: &&Need| {
            let mut long = need.before;
            for (place, left) in need.left.iter().enumerate() {
                if set & (1 << place) != 0 {
                    long = long.min(*left);
                }
            }
            // What a map is off is no hair that is missing.
            long + OFF >= need.line
        };
        let reaches = |hairs: &&Vec<Need>| {
            hairs.iter().filter(there).count() as f64 >= REACHES * hairs.len() as f64
        };
        let reach = self.needs.iter().filter(reaches).count();
        reach as f64 >= STILL * self.possible.meant * self.needs.len() as f64
    }
}

impl Possible {
    /// The share that reaches as a whole number of hundredths.
    pub fn percent(&self) -> u32 {
        (self.reaches * 100.0).round() as u32
    }
}

/// What lengths read off a coarse map may be off, cm.
const OFF: f64 = 0.3;
