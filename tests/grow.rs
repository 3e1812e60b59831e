//! Hair that grows: what one visit leaves, and the next that begins from it.

use tautline::book::{
    Found, How, Learned, Measure, Rate, Ready, Record, SavedCut, When, learn, repeat, trim_back,
};
use tautline::cut::{Job, Live, Measured, Outcome, before, cut, cut_on};
use tautline::geometry::{Convex, Vec3};
use tautline::hair::{Hair, LengthMap};
use tautline::head::{Head, Kind, Landmark, Region, Side, Spot, Tapes};
use tautline::measure::{Day, Length, Unit};
use tautline::plan::{Choices, Plan, Value, built_ins};
use tautline::walk::{Walk, order};

fn mean_head() -> Head {
    Head::from_tapes(&Tapes::default()).unwrap()
}

fn worked(head: &Head, hair: &Hair, plan: &Plan) -> Outcome {
    let choices = Choices::default();
    let job = Job {
        head,
        hair,
        plan,
        choices: &choices,
    };
    cut(&job, &Measured::new()).unwrap()
}

/// Numbers between 0 and 1 that look like chance and are always the same.
struct Chance(u64);

impl Chance {
    fn next(&mut self) -> f64 {
        // Knuth's linear congruence (The Art of Computer Programming, 3.3.4), its high bits.
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A place of the scalp, spread evenly over a disc.
    fn spot(&mut self) -> Spot {
        Spot {
            azimuth: (2.0 * self.next() - 1.0) * std::f64::consts::PI,
            out: self.next().sqrt(),
        }
    }
}

/// Whether lengths about a place jump: within half a cell of the map a hair differs by more than a slope of three
/// in one from the hair there.
fn near_a_step(head: &Head, outcome: &Outcome, root: Vec3, here: f64) -> bool {
    let n = root.normalize();
    let aside = n.any_orthonormal_vector();
    let other = n.cross(aside);
    (0..8).any(|i| {
        let (sin, cos) = (std::f64::consts::FRAC_PI_4 * f64::from(i)).sin_cos();
        [0.35, 0.7].iter().any(|far| {
            let there = head
                .skull()
                .settle(root + (aside * cos + other * sin) * *far);
            let cm = outcome.lengths.at(head, there).unwrap();
            (cm - here).abs() > 3.0 * far
        })
    })
}

#[test]
fn the_map_of_every_built_in_cut_is_right_to_two_millimetres() {
    let head = mean_head();
    let (mut all, mut within, mut stepped) = (0, 0, 0);
    for plan in built_ins() {
        let outcome = worked(&head, &Hair::default(), &plan);
        let map = LengthMap::read(&outcome.left_map(&head).unwrap().to_text()).unwrap();
        let mut chance = Chance(7);
        let (mut worst, mut good, mut count): (f64, _, _) = (0.0, 0, 0);
        for _ in 0..1_000 {
            let spot = chance.spot();
            let root = head.place(spot);
            let exact = outcome.lengths.at(&head, root).unwrap();
            if near_a_step(&head, &outcome, root, exact) {
                stepped += 1;
                continue;
            }
            let off = (map.at(spot) - exact).abs();
            worst = worst.max(off);
            good += usize::from(off <= 0.2);
            count += 1;
        }
        println!(
            "{:24} {good} of {count} within 2 mm, worst {worst:.2} cm, {} characters",
            plan.id,
            map.to_text().len()
        );
        (all, within) = (all + count, within + good);
    }
    println!("{within} of {all}; {stepped} near steps");
    let share = within as f64 / all as f64;
    assert!(share > 0.99, "{share}");
}

fn visited(plan: &str) -> SavedCut {
    let mut visit = SavedCut::new("v1", "Invented", plan, "2026-09-01T10:00:00Z");
    visit.visit.day = "2026-09-01".to_owned();
    visit
}

/// A visit whose sections were all done, these of them measured so much longer than planned.
fn done(mut visit: SavedCut, longer: &[(&str, f64)]) -> SavedCut {
    let mut walk = Walk::start("2026-09-01T10:00:00Z");
    let ready = visit.ready().unwrap();
    let order = order(&ready.outcome(&Measured::new()).unwrap());
    let mut now = ready.outcome(&Measured::new()).unwrap();
    for key in &order {
        let section = now.section(key).unwrap();
        let target = section.cuts().then(|| section.long());
        let more = longer.iter().find(|(step, _)| *step == key.step);
        let measured = more.filter(|_| key.number == 1);
        let measured = measured.map(|(_, more)| Length::from_cm(section.long().cm() + more));
        if measured.is_some() {
            walk.put_down(key, measured, target, "2026-09-01T10:20:00Z");
            now = ready.outcome(&walk.measured()).unwrap();
        }
        walk.done(&order, target, "2026-09-01T10:30:00Z");
    }
    assert!(walk.finished_at.is_some());
    visit.walk = Some(walk);
    visit
}

fn usual() -> Rate {
    Rate::of(None, &Learned::default())
}

type Made = (SavedCut, Ready, Outcome);

fn again(visit: &SavedCut, day: &str, trim: bool) -> (Made, Made) {
    let ready = visit.ready().unwrap();
    let followed = ready.followed(visit.walk.as_ref().unwrap()).unwrap();
    let rate = usual();
    let when = (Day::read(day).unwrap(), &rate);
    let make = if trim { trim_back } else { repeat };
    let next = make(
        visit,
        &ready,
        &followed,
        when,
        ("v2", "2026-11-01T10:00:00Z"),
    )
    .unwrap();
    let next = SavedCut::from_json(&next.to_json()).unwrap();
    let next_ready = next.ready().unwrap();
    let outcome = next_ready.outcome(&Measured::new()).unwrap();
    (
        (visit.clone(), ready, followed),
        (next, next_ready, outcome),
    )
}

/// Half an inch a month (American Academy of Dermatology) over 61 days, by hand: 1.25 × 61 / 30.4375 = 2.505.
const GROWN: f64 = 2.505;

/// Where all of a section was cut to its line, what has grown comes off it again, and only that; the lengths
/// are those of the visit before.
#[test]
fn what_grew_comes_off_where_it_was_cut() {
    for plan in built_ins() {
        let visit = done(visited(&plan.id), &[]);
        let ((_, ready, followed), (next, next_ready, outcome)) = again(&visit, "2026-11-01", true);
        let start = before(&next_ready.job());
        let left = next.left.as_ref().unwrap();
        assert!(
            (left.grown.cm() - GROWN).abs() < 1e-3,
            "{}",
            left.grown.cm()
        );
        assert_eq!((left.of.as_str(), left.day.as_str()), ("v1", "2026-09-01"));
        let (mut looked, mut near, mut worst): (usize, usize, f64) = (0, 0, 0.0);
        for section in outcome.sections.iter().filter(|s| s.cuts()) {
            let was = followed.section(&section.key).unwrap();
            for (strand, was) in section.strands.iter().zip(&was.strands) {
                if !was.reaches() || !strand.reaches() {
                    continue;
                }
                // What a later step shortened again was shorter before this one.
                let left = followed.lengths.at(&ready.head, strand.root).unwrap();
                if (left - was.after).abs() > 0.01 {
                    continue;
                }
                if near_a_step(&ready.head, &followed, strand.root, left) {
                    continue;
                }
                looked += 1;
                let now = outcome.lengths.at(&ready.head, strand.root).unwrap();
                let before = start.lengths.at(&ready.head, strand.root).unwrap();
                let off = before - now;
                worst = worst.max((off - GROWN).abs());
                near += usize::from((off - GROWN).abs() <= 0.2);
            }
        }
        println!(
            "{:24} {near} of {looked} strands within 2 mm, worst {worst:.2} cm",
            plan.id
        );
        assert!(looked > 0, "{}", plan.id);
        assert!(worst < 0.5, "{}: {worst}", plan.id);
    }
}

/// A trim of the same amount would take a shape further than it was; taken back it takes what grew.
#[test]
fn a_trim_taken_back_takes_what_grew_and_a_repeated_one_its_own_amount() {
    let visit = done(visited("trim"), &[]);
    let off = |trim: bool| {
        let (_, (next, ready, outcome)) = again(&visit, "2026-11-01", trim);
        assert!(next.own.is_none(), "within what the plan takes");
        let off = outcome.sections[0].off().cm();
        let given = ready.choices.value(&ready.plan, "off").unwrap();
        let Value::Length(given) = given else {
            panic!("a length")
        };
        assert!((off - given.cm()).abs() < 1e-6);
        off
    };
    assert!((off(false) - 1.0).abs() < 1e-6);
    assert!((off(true) - GROWN).abs() < 0.006);
    // After half a year more has grown than the plan would take.
    let (_, (next, _, outcome)) = again(&visit, "2027-03-01", true);
    assert!(next.own.is_some());
    assert!((outcome.sections[0].off().cm() - 1.25 * 181.0 / 30.4375).abs() < 0.006);
    assert!(next.plan().unwrap().check().is_ok());
}

/// A guide that was really cut a centimetre longer is the shape that is taken back to.
#[test]
fn a_guide_that_came_out_longer_stays_longer() {
    for (plan, step) in [("one-length-long", "nape"), ("uniform-layers", "top")] {
        let plan_now = tautline::plan::built_in(plan).unwrap();
        let step = plan_now
            .steps
            .iter()
            .find(|s| s.id == step)
            .unwrap_or(&plan_now.steps[0]);
        let visit = done(visited(plan), &[(&step.id, 1.0)]);
        let ((_, ready, followed), (_, _, outcome)) = again(&visit, "2026-11-01", true);
        let planned = ready.outcome(&Measured::new()).unwrap();
        let first = |of: &Outcome| of.sections[1].long().cm();
        let (was, plain, now) = (first(&followed), first(&planned), first(&outcome));
        assert!((was - plain - 1.0).abs() < 0.2, "{plan}: {was} {plain}");
        assert!((now - was).abs() < 0.1, "{plan}: {now} {was}");
    }
}

#[test]
fn what_is_left_is_the_hair_before_and_both_sides_stay_alike() {
    let visit = done(visited("graduated-bob"), &[]);
    let ((_, ready, followed), (next, next_ready, outcome)) = again(&visit, "2026-11-01", false);
    assert!(outcome.is_even());
    let start = before(&next_ready.job());
    let mut chance = Chance(3);
    for _ in 0..200 {
        let root = ready.head.place(chance.spot());
        let then = followed.lengths.at(&ready.head, root).unwrap();
        if near_a_step(&ready.head, &followed, root, then) {
            continue;
        }
        let now = start.lengths.at(&ready.head, root).unwrap();
        assert!((now - then - GROWN).abs() < 0.6, "{now} {then}");
        let over = Vec3::new(-root.x, root.y, root.z);
        let twin = start.lengths.at(&ready.head, over).unwrap();
        assert!((now - twin).abs() < 1e-9, "{now} {twin}");
    }
    // Worked out step by step, and with one more measure, it comes to the same.
    let live = Live::new(&next_ready.job()).unwrap();
    let key = outcome.sections[3].key.clone();
    let mut measured = Measured::new();
    measured.insert(key, Length::from_cm(outcome.sections[3].long().cm() + 0.5));
    let whole = next_ready.outcome(&measured).unwrap();
    let on = cut_on(&next_ready.job(), &outcome, &measured).unwrap();
    for _ in 0..50 {
        let root = ready.head.place(chance.spot());
        let at = |of: &Outcome| of.lengths.at(&ready.head, root).unwrap();
        // The other side in a mirror is the same but for rounding.
        assert!((at(&outcome) - at(live.outcome())).abs() < 1e-9);
        assert!((at(&whole) - at(&on)).abs() < 1e-9);
    }
    // One that does not read is left aside, and the plan's question counts.
    let mut broken = next;
    broken.left.as_mut().unwrap().map = "18:1 2".to_owned();
    let kept = SavedCut::from_json(&broken.to_json()).unwrap();
    assert_eq!(kept, broken);
    assert!(kept.ready().unwrap().hair.left.is_none());
    for odd in [f64::NAN, -4.0, 1e300] {
        broken.left.as_mut().unwrap().grown = Length::from_cm(odd);
        assert!(broken.ready().is_ok());
    }
}

#[test]
fn a_rate_is_that_of_the_card_then_what_was_learned_then_the_usual() {
    let mut record = Record::new("c", Kind::Person, "Invented", "t0");
    let learned = Learned {
        growth: Some(Found {
            value: 1.1,
            count: 4,
            spread: (1.0, 1.2),
        }),
        ..Learned::default()
    };
    let rate = |record: &Record| Rate::of(Some(record), &learned);
    assert_eq!(rate(&record).cm_a_month(), Some(1.1));
    assert!(
        rate(&record)
            .said(Unit::Cm)
            .starts_with("1.1 cm a month, learned from 4")
    );
    record.growth = "1/2 in".to_owned();
    assert_eq!(rate(&record).cm_a_month(), Some(1.27));
    record.growth = "fast".to_owned();
    assert_eq!(rate(&record).cm_a_month(), Some(1.1));
    assert_eq!(usual().cm_a_month(), Some(1.25));
    record.kind = Kind::Practice;
    let day = |text| Day::read(text).unwrap();
    let year = (day("2026-01-01"), day("2027-01-01"));
    assert_eq!(rate(&record).between(year.0, year.1), Length::ZERO);
    // 15 cm a year, as the trade says.
    assert!((usual().between(year.0, year.1).cm() - 15.0).abs() < 0.02);
    assert_eq!(usual().between(year.1, year.0), Length::ZERO);
}

fn measure(visit: &mut SavedCut, place: Landmark, when: When, how: How, typed: &str) {
    visit.visit.put(Measure {
        place,
        side: Side::Centre,
        when,
        how,
        typed: typed.to_owned(),
        expected: None,
    });
}

/// By hand. Three visits, 61 and 91 days apart: 2.004 and 2.990 months. Crown: left at 20, then 22.2 before; nape: left at
/// 15, then 17.0 before; crown again left at 20, then 23.5 before. Together 7.7 cm in 6.998 months.
#[test]
fn growth_is_learned_from_what_was_left_and_what_is_there() {
    let (before, after) = (When::Before, When::After);
    let (crown, nape) = (Landmark::Crown, Landmark::Nape);
    let mut visits: Vec<SavedCut> = ["2026-09-01", "2026-11-01", "2027-01-31"]
        .iter()
        .map(|day| {
            let mut visit = visited("trim");
            visit.visit.day = (*day).to_owned();
            visit
        })
        .collect();
    measure(&mut visits[0], crown, after, How::Combed, "20");
    measure(&mut visits[0], nape, after, How::Combed, "15 cm");
    measure(&mut visits[1], crown, before, How::Combed, "22.2");
    measure(&mut visits[1], nape, before, How::Combed, "17");
    assert_eq!(learn(&visits).growth, None);
    assert_eq!(learn(&visits).grown, 2);
    measure(&mut visits[1], crown, after, How::Combed, "20");
    measure(&mut visits[2], crown, before, How::Combed, "23.5");
    // It was cut elsewhere.
    measure(&mut visits[1], nape, after, How::Combed, "15");
    measure(&mut visits[2], nape, before, How::Combed, "12");
    visits.reverse();
    let learned = learn(&visits);
    let growth = learned.growth.unwrap();
    let months = (61.0 + 61.0 + 91.0) / (365.25 / 12.0);
    assert!((growth.value - (2.2 + 2.0 + 3.5) / months).abs() < 1e-9);
    assert!((growth.value - 1.10).abs() < 0.005, "{}", growth.value);
    assert_eq!((growth.count, learned.left_out), (3, 1));
    assert!((growth.spread.0 - 2.0 / (61.0 / 30.4375)).abs() < 1e-9);
    assert!((growth.spread.1 - 3.5 / (91.0 / 30.4375)).abs() < 1e-9);
}

/// Where nothing was measured after, what was cut counts: the walk tells it.
#[test]
fn what_was_cut_stands_for_what_nobody_measured_after() {
    let first = done(visited("uniform-layers"), &[]);
    let mut second = visited("uniform-layers");
    second.visit.day = "2026-12-01".to_owned();
    // Ten centimetres everywhere, and 91 days at 1.1 cm a month: 3.29.
    for (place, typed) in [
        (Landmark::Crown, "13.3"),
        (Landmark::HighPoint, "13.3"),
        (Landmark::ParietalRidge, "13.2"),
    ] {
        measure(&mut second, place, When::Before, How::Combed, typed);
        second.visit.measures.last_mut().unwrap().side = Side::Left;
    }
    let growth = learn(&[second, first]).growth.unwrap();
    assert!((growth.value - 1.1).abs() < 0.05, "{growth:?}");
}

#[test]
fn a_hanging_ratio_is_learned_by_region_and_nothing_of_one_lock() {
    let mut visits = vec![visited("trim"), visited("trim")];
    let after = When::After;
    measure(&mut visits[0], Landmark::Nape, after, How::Combed, "20");
    measure(&mut visits[0], Landmark::Nape, after, How::Hanging, "16");
    measure(
        &mut visits[0],
        Landmark::FrontHairline,
        after,
        How::Combed,
        "10",
    );
    measure(
        &mut visits[0],
        Landmark::FrontHairline,
        after,
        How::Hanging,
        "5",
    );
    measure(&mut visits[1], Landmark::Nape, after, How::Combed, "30");
    measure(&mut visits[1], Landmark::Nape, after, How::Hanging, "23");
    let hanging = learn(&visits).hanging;
    assert_eq!(hanging.len(), 1);
    assert_eq!(hanging[0].region, Region::Nape);
    assert!((hanging[0].found.value - 39.0 / 50.0).abs() < 1e-12);
    assert_eq!(hanging[0].found.spread, (23.0 / 30.0, 0.8));
    let mut hair = Hair::default();
    let (hangs, combed) = hanging[0].lock();
    hair.measure_lock(Region::Nape, hangs, combed).unwrap();
    assert!((hair.hanging(Region::Nape) - 0.78).abs() < 1e-12);
    // Longer hanging than combed: mistyped.
    measure(&mut visits[1], Landmark::Nape, after, How::Hanging, "32");
    assert!(learn(&visits).hanging.is_empty());
}
