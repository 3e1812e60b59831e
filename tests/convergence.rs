//! Targets stay put when a section is looked at more closely: its shortest and its longest hair against
//! those of 16 × 16 places. Half a millimetre is what is allowed, but where a test says why not.

mod common;

use common::{from_head, plan, run, step, surveyed_heads};
use tautline::cut::{Job, Measured, Outcome, SectionCut, cut};
use tautline::hair::Hair;
use tautline::head::{Head, Landmark, Side};
use tautline::plan::{
    Bound, Carried, Choices, Cut, End, Facing, Fall, FallLine, Fingers, Given, Held, Line, Over,
    Pattern, Plan, Plane, Rule, Start, Station, Travel, built_ins,
};

/// Half a millimetre.
const ALLOWED: f64 = 0.05;
/// Places each way.
const DENSE: usize = 16;

const RADIAL: Pattern = Pattern::Radial {
    spacing: 2.0,
    from: Start::Front,
};
const UPRIGHT: Pattern = Pattern::Vertical {
    spacing: 2.0,
    from: Start::Back,
};
const LEVEL: Pattern = Pattern::Horizontal {
    spacing: 1.5,
    from: End::Bottom,
};

fn nape() -> Vec<Bound> {
    let bone = Line::Level {
        at: Landmark::Occipital,
        up: 0.0,
    };
    vec![Bound::Behind(Line::EarToEar), Bound::Below(bone)]
}

fn travelling(degrees: f64, fingers: Fingers) -> Held {
    Held::Travelling(Travel {
        elevation: from_head(degrees),
        over: Over::None,
        fingers,
        guide: Carried::Neighbour,
        length: Rule::Length(Given::Fixed(10.0)),
    })
}

fn stationary(station: Station, fingers: Fingers) -> Held {
    Held::Stationary(Cut {
        station,
        elevation: from_head(90.0),
        over: Over::None,
        fingers,
        length: Rule::Length(Given::Fixed(14.0)),
    })
}

/// A plan of one step on hair of one length that reaches every line.
fn long(region: Vec<Bound>, pattern: Pattern, held: Held) -> Plan {
    plan("150", vec![step("a", region, pattern, held)])
}

/// Shortest and longest of the hair at so many places of a section, each way.
fn extremes(head: &Head, section: &SectionCut) -> (f64, f64) {
    let line = section.line.as_ref().unwrap();
    let share = |i: usize| 0.002 + 0.996 * i as f64 / (DENSE - 1) as f64;
    let (mut short, mut long) = (f64::INFINITY, 0.0_f64);
    for i in 0..DENSE * DENSE {
        let (across, along) = (share(i / DENSE), share(i % DENSE));
        let root = section.section.patch.at(head, across, along);
        let cut_at = line.cuts_at(head, &Hair::default(), root, 150.0).unwrap();
        (short, long) = (short.min(cut_at), long.max(cut_at));
    }
    (short, long)
}

/// The most by which a target misses hair that is shorter or longer, cm.
fn missed(head: &Head, plan: &Plan) -> (f64, f64) {
    let outcome = run(head, plan);
    let ours = outcome.sections.iter().filter(|s| s.key.side == Side::Left);
    ours.fold((0.0, 0.0), |(shorter, longer), section| {
        let (short, long) = extremes(head, section);
        (
            f64::max(shorter, section.short().cm() - short),
            f64::max(longer, long - section.long().cm()),
        )
    })
}

#[test]
fn more_places_change_no_target() {
    let parallel = Fingers::ParallelToHead;
    let occipital = Station::At(Landmark::Occipital);
    let plans = [
        (
            "graduation",
            long(nape(), LEVEL, travelling(45.0, parallel)),
        ),
        (
            "one length",
            long(vec![], RADIAL, travelling(90.0, parallel)),
        ),
        (
            "leaning fingers",
            long(nape(), UPRIGHT, travelling(90.0, Fingers::Leaning(20.0))),
        ),
        (
            "to the occipital bone",
            long(nape(), UPRIGHT, stationary(occipital, Fingers::Plumb)),
        ),
    ];
    for head in surveyed_heads() {
        for (name, plan) in &plans {
            let (shorter, longer) = missed(&head, plan);
            println!("{name}: {shorter:.3} and {longer:.3} cm missed");
            assert!(
                shorter < ALLOWED && longer < ALLOWED,
                "{name}: {shorter} {longer}"
            );
        }
    }
}

/// Hair straight below a line in the midst of a section is the shortest there is; the longest, or in its
/// fall the shortest, may grow where the hairline bends between two rows.
#[test]
fn the_shortest_hair_amid_a_section_is_found() {
    let crown = stationary(Station::At(Landmark::Crown), Fingers::Rounded);
    let fall = Held::Fall(Fall {
        to: Given::Fixed(Landmark::Shoulder),
        line: FallLine::Level,
        below: Given::Fixed(0.0),
    });
    let top = stationary(Station::At(Landmark::HighPoint), Fingers::ParallelToHead);
    let wall = Held::Plane(Plane {
        facing: Facing::Side,
        length: Rule::Length(Given::Fixed(9.0)),
    });
    let side = vec![Bound::Before(Line::EarToEar), Bound::Below(Line::Horseshoe)];
    for head in surveyed_heads() {
        for plan in [
            long(vec![], RADIAL, crown.clone()),
            long(side.clone(), UPRIGHT, wall.clone()),
            long(vec![], RADIAL, top.clone()),
            long(vec![], RADIAL, fall.clone()),
        ] {
            let (shorter, longer) = missed(&head, &plan);
            println!("{shorter:.3} and {longer:.3} cm missed");
            assert!(shorter < ALLOWED && longer < ALLOWED, "{shorter} {longer}");
        }
    }
}

/// Every built-in cut as it is by default: steps over steps, hair that reaches in part. Where all of a
/// section reaches, and no edge of an earlier step runs through it, targets are those of many places;
/// elsewhere the many places stand beside the edge that counts, by what lies between two of them.
#[test]
fn more_places_change_no_target_of_a_built_in_cut() {
    let head = common::mean_head();
    let hair = Hair::default();
    let choices = Choices::default();
    let (mut looked, mut edged) = (0, 0);
    for plan in built_ins() {
        for step in 0..plan.steps.len() {
            let up_to = |count: usize| {
                let mut plan = plan.clone();
                plan.steps.truncate(count);
                let job = Job {
                    head: &head,
                    hair: &hair,
                    plan: &plan,
                    choices: &choices,
                };
                cut(&job, &Measured::new()).unwrap()
            };
            let (before, after) = (up_to(step), up_to(step + 1));
            let ours = after.sections.iter().filter(|s| s.step == step);
            for section in ours.filter(|s| s.cuts() && s.key.side != Side::Right) {
                let Some(dense) = dense(&head, &before, section) else {
                    continue;
                };
                let (s, l) = (
                    section.short().cm() - dense.short,
                    section.long().cm() - dense.long,
                );
                // A taper follows the hairline, whose bend over the ear may lie between two rows: known, and
                // held to two millimetres.
                let allowed = if plan.id == "tapered-nape" {
                    0.2
                } else {
                    ALLOWED
                };
                let edge = allowed + dense.between * if dense.whole { 0.1 } else { 1.0 };
                looked += 1;
                edged += usize::from(!dense.whole);
                // What many places find, the target must not miss; it may know an edge better.
                let missed = if dense.whole { allowed } else { edge };
                let fine = s <= missed && l >= -allowed;
                let near = s >= -edge && l <= edge;
                assert!(
                    fine && near,
                    "{} {} {}: short {s:+.3}, long {l:+.3}, {dense:?}",
                    plan.id,
                    section.key.step,
                    section.key.number
                );
            }
        }
    }
    println!("{looked} sections, {edged} with an edge in them");
    assert!(looked > 200);
}

/// What many places of a section say.
#[derive(Debug)]
struct Dense {
    short: f64,
    long: f64,
    /// Whether all of them reach.
    whole: bool,
    /// The most by which two neighbours along a row differ, cm.
    between: f64,
}

/// Shortest and longest of the hair that reaches, at many places of a section.
fn dense(head: &Head, before: &Outcome, section: &SectionCut) -> Option<Dense> {
    const MANY: usize = 28;
    let line = section.line.as_ref()?;
    let share = |i: usize| 0.002 + 0.996 * i as f64 / (MANY - 1) as f64;
    let looks: Vec<(f64, f64)> = (0..MANY * MANY)
        .map(|i| {
            let (across, along) = (share(i / MANY), share(i % MANY));
            let root = section.section.patch.at(head, across, along);
            let long = before.lengths.at(head, root).unwrap();
            (
                long,
                line.cuts_at(head, &Hair::default(), root, long).unwrap(),
            )
        })
        .collect();
    let reached = || looks.iter().filter(|(b, d)| b >= d).map(|(_, d)| *d);
    let least = reached().reduce(f64::min)?;
    let rows = looks.windows(2).enumerate();
    let apart = rows.filter(|(i, _)| (i + 1) % MANY != 0);
    let apart = apart.map(|(_, w)| (w[1].1 - w[0].1).abs().max((w[1].0 - w[0].0).abs()));
    Some(Dense {
        short: least,
        long: reached().fold(0.0, f64::max),
        whole: reached().count() == looks.len(),
        between: apart.fold(0.0, f64::max),
    })
}
