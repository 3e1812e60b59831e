mod common;
use common::*;
use tautline::cut::*;
use tautline::hair::*;
use tautline::head::*;
use tautline::plan::*;
fn dense(
    head: &Head,
    o: &Outcome,
    i: usize,
    s: &SectionCut,
    n: usize,
    before: &Lengths,
) -> (f64, f64) {
    let _ = (o, i);
    let line = s.line.as_ref().unwrap();
    let mut lo = f64::INFINITY;
    let mut hi = 0.0f64;
    let mut all = (f64::INFINITY, 0.0f64);
    let mut any = false;
    for a in 0..n {
        for b in 0..n {
            let across = if n == 1 {
                0.5
            } else {
                0.004 + 0.992 * (a as f64) / (n as f64 - 1.0)
            };
            let along = 0.004 + 0.992 * (b as f64) / (n as f64 - 1.0);
            let root = s.section.patch.at(head, across, along);
            let bf = before.at(head, root).unwrap();
            let c = line.cuts_at(head, &Hair::default(), root, bf).unwrap();
            let after = bf.min(c);
            all = (all.0.min(after), all.1.max(after));
            if bf >= c - 1e-4 {
                any = true;
                lo = lo.min(after);
                hi = hi.max(after);
            }
        }
    }
    if any { (lo, hi) } else { all }
}
#[test]
fn table() {
    let head = mean_head();
    let back = vec![
        Bound::Behind(Line::EarToEar),
        Bound::Below(Line::Level {
            at: Landmark::Occipital,
            up: 0.0,
        }),
    ];
    let hor = Pattern::Horizontal {
        spacing: 1.5,
        from: End::Bottom,
    };
    let rad = Pattern::Radial {
        spacing: 2.0,
        from: Start::Front,
    };
    let ver = Pattern::Vertical {
        spacing: 2.0,
        from: Start::Back,
    };
    let tr = |d: f64, f| {
        Held::Travelling(Travel {
            elevation: from_head(d),
            over: Over::None,
            fingers: f,
            guide: Carried::Neighbour,
            length: Rule::Length(Given::Fixed(10.0)),
        })
    };
    let stn = |s, d: f64, f| {
        Held::Stationary(Cut {
            station: s,
            elevation: from_head(d),
            over: Over::None,
            fingers: f,
            length: Rule::Length(Given::Fixed(14.0)),
        })
    };
    let side = vec![Bound::Before(Line::EarToEar), Bound::Below(Line::Horseshoe)];
    let cases = vec![
        (
            "graduation 45 horizontal",
            plan(
                "60",
                vec![step(
                    "a",
                    back.clone(),
                    hor,
                    tr(45.0, Fingers::ParallelToHead),
                )],
            ),
        ),
        (
            "uniform radial",
            plan(
                "60",
                vec![step("a", vec![], rad, tr(90.0, Fingers::ParallelToHead))],
            ),
        ),
        (
            "stationary at high point, radial",
            plan(
                "90",
                vec![step(
                    "a",
                    vec![],
                    rad,
                    stn(
                        Station::At(Landmark::HighPoint),
                        90.0,
                        Fingers::ParallelToHead,
                    ),
                )],
            ),
        ),
        (
            "stationary at crown rounded, radial",
            plan(
                "90",
                vec![step(
                    "a",
                    vec![],
                    rad,
                    stn(Station::At(Landmark::Crown), 90.0, Fingers::Rounded),
                )],
            ),
        ),
        (
            "stationary occipital, vertical",
            plan(
                "90",
                vec![step(
                    "a",
                    back.clone(),
                    ver,
                    stn(Station::At(Landmark::Occipital), 90.0, Fingers::Plumb),
                )],
            ),
        ),
        (
            "level fall",
            plan(
                "waist",
                vec![step(
                    "a",
                    vec![],
                    rad,
                    Held::Fall(Fall {
                        to: Given::Fixed(Landmark::Shoulder),
                        line: FallLine::Level,
                        below: 0.0,
                    }),
                )],
            ),
        ),
        (
            "wall",
            plan(
                "60",
                vec![step(
                    "a",
                    side.clone(),
                    ver,
                    Held::Plane(Plane {
                        facing: Facing::Side,
                        length: Rule::Length(Given::Fixed(9.0)),
                    }),
                )],
            ),
        ),
        (
            "leaning vertical",
            plan(
                "60",
                vec![step(
                    "a",
                    back.clone(),
                    ver,
                    tr(90.0, Fingers::Leaning(20.0)),
                )],
            ),
        ),
        (
            "stationary parting, does not reach",
            plan(
                "25",
                vec![step(
                    "a",
                    vec![],
                    rad,
                    stn(Station::Parting, 90.0, Fingers::ParallelToHead),
                )],
            ),
        ),
        ("built-in", built_in("soft-layers-face-frame").unwrap()),
    ];
    for (name, p) in cases {
        let o = run(&head, &p);
        // hair before each step: run the plan cut short
        let mut worst = [[0.0f64; 2]; 3];
        let mut at = [[0usize; 2]; 3];
        for (i, _) in p.steps.iter().enumerate() {
            let mut q = p.clone();
            q.steps.truncate(i);
            let before = run(&head, &q).lengths;
            for s in o
                .sections
                .iter()
                .filter(|s| s.step == i && s.cuts() && s.key.side == Side::Left)
            {
                for (k, n) in [3usize, 6, 12].into_iter().enumerate() {
                    let (lo, hi) = dense(&head, &o, i, s, if n == 12 { 24 } else { n }, &before);
                    let e = [s.short().cm() - lo, hi - s.long().cm()];
                    for j in 0..2 {
                        if e[j].abs() > worst[k][j].abs() {
                            worst[k][j] = e[j];
                            at[k][j] = s.key.number;
                        }
                    }
                }
            }
        }
        println!(
            "{name}: short too long by / long too short by, cm: 3 rows {:.3?} 6 {:.3?} 24 {:.3?} at {:?}",
            worst[0], worst[1], worst[2], at[2]
        );
    }
}
