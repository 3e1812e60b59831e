//! What a client's visits teach of their hair: how fast it grows, and how far it hangs.
//!
//! Each lock that was measured before a cut, where the visit before tells how long it was left, shows what
//! grew in between. Each lock that was measured hanging after a cut shows its hanging ratio. Nothing is
//! taken over by itself: it is told, and offered.

use super::SavedCut;
use super::visit::{How, Measure, When};
use crate::cut::{Outcome, told_root};
use crate::hair::Growth;
use crate::head::{Head, Landmark, Region, Regions, Side};
use crate::measure::{Day, Length};

/// So many locks are needed before a rate of growth is told: one that was measured to 3 mm with a comb and a
/// ruler, a month and a half apart, is a fifth off. Judgement.
pub const NEEDED_GROWTH: usize = 3;
/// So many locks of a region before its hanging ratio is. Judgement.
pub const NEEDED_HANGING: usize = 2;
/// Visits nearer to each other than this tell nothing of growth, days: what grows is no more than what a
/// ruler is off. Judgement.
const APART: i64 = 14;
/// Days in a month of the year's mean length.
const DAYS_A_MONTH: f64 = 365.25 / 12.0;
/// The least hanging ratio that a ruler measures; no hair hangs longer than it is combed but by what a ruler
/// is off, 2 %. Judgement.
const HANGING: (f64, f64) = (0.1, 1.02);

/// A figure that was learned, and from how much.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Found {
    /// The figure: cm a month, or a ratio.
    pub value: f64,
    /// Measures behind it.
    pub count: usize,
    /// The least and the most that single ones show.
    pub spread: (f64, f64),
}

/// How far the hair of a region hangs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hangs {
    /// The region.
    pub region: Region,
    /// Length hanging over length combed, 0.1 to 1.
    pub found: Found,
}

/// What a client's visits taught.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Learned {
    /// How fast it grows, cm a month; none of too few measures.
    pub growth: Option<Found>,
    /// Measures of growth so far, those left out not among them.
    pub grown: usize,
    /// Measures that were left out: shorter than the visit before left it (it was cut elsewhere), or longer
    /// than hair grows.
    pub left_out: usize,
    /// How far it hangs, by region, of regions with enough measures.
    pub hanging: Vec<Hangs>,
}

/// One visit as it is learned from.
struct Taught<'a> {
    visit: &'a SavedCut,
    day: Day,
    /// Worked out only when it is asked for: most visits need not be.
    cut: std::cell::OnceCell<Option<(Head, Outcome)>>,
}

impl Taught<'_> {
    /// The head, and what was really cut; none if it can't be worked out or nothing was cut.
    fn cut(&self) -> Option<&(Head, Outcome)> {
        self.cut
            .get_or_init(|| {
                let walk = self.visit.walk.as_ref().filter(|walk| walk.has_cut())?;
                let ready = self.visit.ready().ok()?;
                let followed = ready.followed(walk).ok()?;
                Some((ready.head, followed))
            })
            .as_ref()
    }

    fn measured(&self, place: (Landmark, Side), when: When, how: How) -> Option<f64> {
        let measure = self.visit.visit.measure(place.0, place.1, when, how)?;
        Some(measure.length().ok()?.cm()).filter(|cm| *cm > 0.0)
    }

    /// How long this visit left the hair of a place, cm combed: measured after it, or else as it was cut.
    fn left(&self, place: (Landmark, Side)) -> Option<f64> {
        let measured = self.measured(place, When::After, How::Combed);
        measured.or_else(|| {
            let (head, outcome) = self.cut()?;
            let root = told_root(head, place.0, place.1);
            outcome.lengths.at(head, root).ok()
        })
    }
}

/// What these visits of one client teach, in any order.
pub fn learn(visits: &[SavedCut]) -> Learned {
    let mut taught: Vec<Taught<'_>> = Vec::new();
    for visit in visits {
        if let Some(day) = Day::read(&visit.day()) {
            let place = taught.partition_point(|other| other.day <= day);
            let cut = std::cell::OnceCell::new();
            taught.insert(place, Taught { visit, day, cut });
        }
    }
    let (growth, left_out) = growth(&taught);
    Learned {
        growth: (growth.len() >= NEEDED_GROWTH).then(|| Found {
            value: Growth::a_month(ratio(&growth)).cm_a_month(),
            count: growth.len(),
            spread: spread(&growth),
        }),
        grown: growth.len(),
        left_out,
        hanging: hanging(&taught),
    }
}

/// What grew, cm, and in how many months, lock by lock; and how many locks were left out.
fn growth(taught: &[Taught<'_>]) -> (Vec<(f64, f64)>, usize) {
    let (mut all, mut left_out) = (Vec::new(), 0);
    for (earlier, later) in taught.iter().zip(taught.iter().skip(1)) {
        let days = earlier.day.until(later.day);
        if days < APART {
            continue;
        }
        let months = days as f64 / DAYS_A_MONTH;
        let before = |m: &&Measure| (m.when, m.how) == (When::Before, How::Combed);
        for measure in later.visit.visit.measures.iter().filter(before) {
            let place = (measure.place, measure.side);
            let now = later.measured(place, When::Before, How::Combed);
            let (Some(now), Some(left)) = (now, earlier.left(place)) else {
                continue;
            };
            let grown = now - left;
            if grown < 0.0 || grown / months > Growth::RANGE.1 {
                left_out += 1;
            } else {
                all.push((grown, months));
            }
        }
    }
    (all, left_out)
}

fn hanging(taught: &[Taught<'_>]) -> Vec<Hangs> {
    let mut all: Vec<(Region, f64, f64)> = Vec::new();
    for one in taught {
        let hung = |m: &&Measure| (m.when, m.how) == (When::After, How::Hanging);
        for measure in one.visit.visit.measures.iter().filter(hung) {
            let place = (measure.place, measure.side);
            let hangs = one.measured(place, When::After, How::Hanging);
            let (Some(hangs), Some(combed)) = (hangs, one.left(place)) else {
                continue;
            };
            let sound = (HANGING.0..=HANGING.1).contains(&(hangs / combed));
            if sound && let Ok(head) = one.visit.head() {
                let root = told_root(&head, place.0, place.1);
                all.push((Regions::of(&head).at(root), hangs, combed));
            }
        }
    }
    let mut found = Vec::new();
    for region in Region::ALL {
        let ours = all.iter().filter(|(of, ..)| *of == region);
        let ours: Vec<(f64, f64)> = ours.map(|&(_, hangs, combed)| (hangs, combed)).collect();
        if ours.len() >= NEEDED_HANGING {
            found.push(Hangs {
                region,
                found: Found {
                    value: ratio(&ours).clamp(HANGING.0, 1.0),
                    count: ours.len(),
                    spread: spread(&ours),
                },
            });
        }
    }
    found
}

/// All of the first over all of the second: long spans, and long locks, count for more.
fn ratio(pairs: &[(f64, f64)]) -> f64 {
    let (above, below) = pairs
        .iter()
        .fold((0.0, 0.0), |(a, b), pair| (a + pair.0, b + pair.1));
    above / below
}

fn spread(pairs: &[(f64, f64)]) -> (f64, f64) {
    let each = || pairs.iter().map(|pair| pair.0 / pair.1);
    (
        each().fold(f64::INFINITY, f64::min),
        each().fold(0.0, f64::max),
    )
}

impl Hangs {
    /// A lock that hangs so: how far of ten centimetres combed.
    pub fn lock(&self) -> (Length, Length) {
        let combed = 10.0;
        (
            Length::from_cm((self.found.value * combed * 100.0).round() / 100.0),
            Length::from_cm(combed),
        )
    }
}
