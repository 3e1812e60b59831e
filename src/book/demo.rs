//! An invented salon: clients, practice heads and visits to look at, marked as invented and taken away again
//! in one press. Nobody is meant: names, heads and cuts are made up, and every card says so.

use super::grow::{Rate, repeat};
use super::learn::Learned;
use super::record::Record;
use super::saved::SavedCut;
use super::visit::{How, Measure, When};
use crate::consult::{Ask, Zone};
use crate::cut::{Measured, Outcome, before as start};
use crate::head::{Head, Kind, Side, Tape};
use crate::measure::{Day, Length, Unit};
use crate::walk::{Walk, order};

/// How fast the invented clients' hair grows, cm a month: slower than is usual, so that there is something to
/// learn.
const GROWS: &str = "1.1 cm";

/// One invented client or practice head, with its visits.
struct Card {
    /// Its id on the device.
    id: &'static str,
    name: &'static str,
    kind: Kind,
    tags: &'static [&'static str],
    notes: &'static str,
    /// Circumference, ear to ear, hairline to nape, cm; 0 where it was not measured.
    tapes: [f64; 3],
    answers: &'static [(Ask, &'static str)],
    visits: &'static [Cut],
}

/// One invented visit.
struct Cut {
    /// So many days ago.
    ago: i64,
    plan: &'static str,
    /// Answers of the plan.
    chosen: &'static [(&'static str, &'static str)],
    /// How much longer the sections after a side's first came out, left and right, mm.
    off: [i32; 2],
    /// After how many days to come back; 0 if nothing was agreed.
    back: i64,
    notes: &'static str,
}

const fn visit(
    ago: i64,
    plan: &'static str,
    chosen: &'static [(&'static str, &'static str)],
    back: i64,
) -> Cut {
    Cut {
        ago,
        plan,
        chosen,
        off: [0, 0],
        back,
        notes: "",
    }
}

const fn attempt(ago: i64, plan: &'static str, off: [i32; 2], notes: &'static str) -> Cut {
    Cut {
        ago,
        plan,
        chosen: &[("before", "40 cm")],
        off,
        back: 0,
        notes,
    }
}

const CARDS: [Card; 8] = [
    Card {
        id: "invented-fern",
        name: "A. Fern (invented)",
        kind: Kind::Person,
        tags: &["layers"],
        notes: "Parts it on the left. Likes to tie it back.",
        tapes: [55.5, 34.0, 34.5],
        answers: &[
            (Ask::Curl, "wavy"),
            (Ask::LockHangs(None), "22.5 cm"),
            (Ask::LockCombed(None), "25 cm"),
            (Ask::Density, "medium"),
            (Ask::Texture, "medium"),
            (Ask::EndsAt(Zone::Front), "mouth_corner"),
        ],
        visits: &[
            visit(183, "soft-layers-face-frame", &[], 56),
            visit(120, "soft-layers-face-frame", &[], 56),
            visit(57, "soft-layers-face-frame", &[("off", "1.5 cm")], 56),
        ],
    },
    Card {
        id: "invented-moss",
        name: "B. Moss (invented)",
        kind: Kind::Person,
        tags: &["bob", "house call"],
        notes: "",
        tapes: [54.0, 0.0, 0.0],
        answers: &[(Ask::Curl, "straight"), (Ask::Texture, "fine")],
        visits: &[
            visit(92, "graduated-bob", &[], 42),
            visit(46, "graduated-bob", &[], 42),
        ],
    },
    Card {
        id: "invented-reed",
        name: "C. Reed (invented)",
        kind: Kind::Person,
        tags: &["curls"],
        notes: "Cut dry, look again after a week.",
        tapes: [57.0, 35.0, 0.0],
        answers: &[
            (Ask::Curl, "curly"),
            (Ask::State, "dry"),
            (Ask::Curls, "on"),
            (Ask::LockHangs(None), "18 cm"),
            (Ask::LockCombed(None), "26 cm"),
        ],
        visits: &[visit(70, "round-layers", &[("length", "14 cm")], 84)],
    },
    Card {
        id: "invented-teal",
        name: "D. Teal (invented)",
        kind: Kind::Person,
        tags: &["fringe", "house call"],
        notes: "",
        tapes: [0.0, 0.0, 0.0],
        answers: &[(Ask::Curl, "straight"), (Ask::Density, "high")],
        visits: &[
            visit(64, "straight-fringe", &[], 21),
            visit(43, "straight-fringe", &[], 21),
            visit(22, "straight-fringe", &[], 21),
        ],
    },
    Card {
        id: "invented-vale",
        name: "E. Vale (invented)",
        kind: Kind::Person,
        tags: &[],
        notes: "",
        tapes: [56.0, 0.0, 33.0],
        answers: &[(Ask::Texture, "coarse")],
        visits: &[visit(800, "one-length-long", &[], 70)],
    },
    Card {
        id: "invented-wren",
        name: "F. Wren (invented)",
        kind: Kind::Person,
        tags: &["short"],
        notes: "",
        tapes: [58.0, 36.0, 36.0],
        answers: &[],
        visits: &[visit(33, "tapered-nape", &[], 35)],
    },
    Card {
        id: "invented-head-3",
        name: "Head no. 3 (invented)",
        kind: Kind::Practice,
        tags: &["training"],
        notes: "",
        tapes: [53.5, 32.5, 0.0],
        answers: &[],
        visits: &[
            attempt(30, "long-layers", [0, -6], "The right crept up."),
            attempt(23, "graduated-bob", [1, -7], ""),
            attempt(16, "tapered-nape", [0, -5], "Better on the left."),
        ],
    },
    Card {
        id: "invented-head-4",
        name: "Head no. 4 (invented)",
        kind: Kind::Practice,
        tags: &["training"],
        notes: "",
        tapes: [54.0, 33.0, 0.0],
        answers: &[],
        visits: &[
            attempt(9, "long-layers", [1, 1], ""),
            attempt(2, "square-layers", [-1, -6], ""),
        ],
    },
];

/// The invented salon as of one day.
#[derive(Clone, Copy, Debug)]
pub struct Salon {
    today: Day,
}

impl Salon {
    /// The salon, its last visits some days before `today`.
    pub const fn new(today: Day) -> Self {
        Self { today }
    }

    /// How many cards it has.
    pub const fn len(self) -> usize {
        CARDS.len()
    }

    /// It is never empty.
    pub const fn is_empty(self) -> bool {
        CARDS.is_empty()
    }

    /// One card and its visits, the earliest first; none past the last. Some tens of milliseconds: every cut
    /// is worked out.
    pub fn card(self, place: usize) -> Option<(Record, Vec<SavedCut>)> {
        let card = CARDS.get(place)?;
        let mut record = Record::new(card.id, card.kind, card.name, &self.at(0, 9 * 60));
        record.invented = true;
        record.notes = card.notes.to_owned();
        record.tags = card.tags.iter().map(|tag| (*tag).to_owned()).collect();
        let tapes = [Tape::Circumference, Tape::EarToEar, Tape::HairlineToNape];
        for (tape, cm) in tapes.into_iter().zip(card.tapes) {
            if cm > 0.0 {
                record.tapes.insert(tape, format!("{cm} cm"));
            }
        }
        for (ask, answer) in card.answers {
            record.consultation.put(*ask, answer);
        }
        match card.kind {
            Kind::Person => record.consent.card = self.today.after_days(-900).to_string(),
            Kind::Practice => record.new_length = "40 cm".to_owned(),
        }
        let mut visits: Vec<SavedCut> = Vec::new();
        for (number, cut) in card.visits.iter().enumerate() {
            let visit = self.visit(&record, number, cut, visits.last());
            record.take_from(&visit);
            visits.push(visit);
        }
        Some((record, visits))
    }

    /// A time so many days ago, minutes after midnight.
    fn at(self, ago: i64, minutes: u32) -> String {
        let day = self.today.after_days(-ago);
        format!("{day}T{:02}:{:02}:00.000Z", minutes / 60 % 24, minutes % 60)
    }

    fn visit(
        self,
        record: &Record,
        number: usize,
        of: &Cut,
        before: Option<&SavedCut>,
    ) -> SavedCut {
        let began = 10 * 60;
        let id = format!("{}-{}", record.id, number + 1);
        let at = self.at(of.ago, began);
        let mut cut = before
            .filter(|before| before.plan == of.plan)
            .and_then(|before| self.again(record, before, of, (&id, &at)))
            .unwrap_or_else(|| record.new_cut(&id, "", of.plan, &at));
        cut.title = format!("Invented visit {}", number + 1);
        cut.visit.notes = of.notes.to_owned();
        if of.back > 0 {
            let back = self.today.after_days(of.back - of.ago);
            cut.visit.return_on = back.to_string();
        }
        if let Some(plan) = cut.plan() {
            for (choice, answer) in of.chosen {
                // An answer that the plan does not know is left out, as everywhere.
                let _ = cut.choices.set(&plan, choice, answer);
            }
        }
        let worked_out = cut.ready().ok().and_then(|ready| {
            let outcome = ready.outcome(&Measured::new()).ok()?;
            Some((outcome, ready))
        });
        if let Some((outcome, ready)) = worked_out {
            if cut.left.is_some() {
                let found = start(&ready.job());
                measure(&mut cut, &found, &ready.head, When::Before, [0, 0]);
            }
            let walk = self.walk(&outcome, of, began);
            cut.saved_at
                .clone_from(walk.finished_at.as_ref().unwrap_or(&walk.started_at));
            cut.walk = Some(walk);
            if record.kind == Kind::Practice {
                measure(&mut cut, &outcome, &ready.head, When::After, of.off);
            }
        }
        cut
    }

    /// The same cut again, over hair that grew a little slower than is usual.
    fn again(
        self,
        record: &Record,
        before: &SavedCut,
        of: &Cut,
        named: (&str, &str),
    ) -> Option<SavedCut> {
        let slow = Record {
            growth: GROWS.to_owned(),
            ..record.clone()
        };
        let rate = Rate::of(Some(&slow), &Learned::default());
        let ready = before.ready().ok()?;
        let followed = ready.followed(before.walk.as_ref()?).ok()?;
        let day = self.today.after_days(-of.ago);
        repeat(before, &ready, &followed, (day, &rate), named).ok()
    }

    /// A walk through all sections, a minute each, those after a side's first as far off as was said.
    fn walk(self, outcome: &Outcome, of: &Cut, began: u32) -> Walk {
        let keys = order(outcome);
        let mut walk = Walk::start(&self.at(of.ago, began));
        for (minute, section) in (began + 1..).zip(&outcome.sections) {
            let at = self.at(of.ago, minute);
            let target = section.cuts().then(|| section.long());
            let off = off_by(of.off, section.key.side);
            if let Some(target) = target.filter(|_| off != 0.0 && section.key.number > 1) {
                // As a ruler tells it.
                let out = Length::from_cm(((target.cm() + off) * 10.0).round() / 10.0);
                walk.put_down(&section.key, Some(out), Some(target), &at);
            }
            walk.done(&keys, target, &at);
        }
        walk
    }
}

/// How far off one side came out, cm.
fn off_by([left, right]: [i32; 2], side: Side) -> f64 {
    let mm = match side {
        Side::Left => left,
        Side::Right => right,
        Side::Centre => 0,
    };
    f64::from(mm) / 10.0
}

/// Measures the named places, as far off as was said.
fn measure(cut: &mut SavedCut, outcome: &Outcome, head: &Head, when: When, off: [i32; 2]) {
    for at in outcome.at_places(head).unwrap_or_default() {
        let expected = at.cut.0;
        let length = Length::from_cm(expected.cm() + off_by(off, at.side));
        cut.visit.put(Measure {
            place: at.place,
            side: at.side,
            when,
            how: How::Combed,
            typed: length.as_measured(Unit::Cm),
            // What is found before a cut was planned by nobody.
            expected: (when == When::After).then_some(expected),
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn all(today: &str) -> Vec<(Record, Vec<SavedCut>)> {
        let salon = Salon::new(Day::read(today).unwrap());
        (0..salon.len()).filter_map(|n| salon.card(n)).collect()
    }

    #[test]
    fn the_salon_is_marked_works_out_and_reads_back() {
        let salon = all("2026-11-26");
        assert_eq!(salon.len(), CARDS.len());
        let mut ids = Vec::new();
        for (record, visits) in &salon {
            assert!(record.invented && record.name.ends_with("(invented)"));
            assert_eq!(&Record::from_json(&record.to_json()).unwrap(), record);
            ids.push(record.id.clone());
            for visit in visits {
                ids.push(visit.id.clone());
                assert!(visit.visit.invented && visit.visit.of == record.id);
                assert_eq!(&SavedCut::from_json(&visit.to_json()).unwrap(), visit);
                let walk = visit.walk.as_ref().expect(&visit.id);
                assert!(walk.finished_at.is_some(), "{}", visit.id);
                let ready = visit.ready().unwrap();
                let planned = ready.outcome(&Measured::new()).unwrap();
                assert!(walk.all_cut(&planned), "{}", visit.id);
                // Every answer is one that its plan has.
                assert!(ready.followed(walk).is_ok(), "{}", visit.id);
            }
            if record.kind == Kind::Person && visits.len() > 1 {
                // What was measured before each cut teaches how fast this hair grows.
                let grows = crate::book::learn(visits).growth.unwrap();
                // Told by a ruler, to a millimetre.
                assert!((grows.value - 1.1).abs() < 0.05, "{grows:?}");
            }
            let last = visits.last().unwrap();
            assert_eq!(record.taken_on, last.day());
        }
        let count = ids.len();
        ids.sort();
        ids.dedup();
        assert_eq!(ids.len(), count);
        assert_eq!(all("2026-11-26"), salon);
    }

    #[test]
    fn every_answer_is_one_that_its_plan_has() {
        for cut in CARDS.iter().flat_map(|card| card.visits) {
            let plan = crate::plan::built_in(cut.plan).expect(cut.plan);
            let mut choices = crate::plan::Choices::default();
            for (choice, answer) in cut.chosen {
                choices.set(&plan, choice, answer).unwrap();
            }
        }
    }
}
