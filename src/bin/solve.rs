//! `solve`: how long plans take to be worked out whole, the shortest of many times, as JSON:
//! `{"large": ms, …}`: a plan that takes the whole scalp once in 24 sections a side, then the built-in ones.
//!
//! Built for the browser it exports `solve(plan, rounds)` and `plans()`, so that the same work can be timed
//! there (`make trust`).

use std::hint::black_box;
use std::sync::OnceLock;
use tautline::cut::{Job, Measured, cut};
use tautline::hair::Hair;
use tautline::head::{Head, Tapes};
use tautline::plan::{Choices, Plan, built_ins};

/// The large plan.
const LARGE: &str = include_str!("../../tests/data/large_plan.json");

/// What is worked out: read once.
fn work() -> &'static (Option<Head>, Vec<Plan>) {
    static WORK: OnceLock<(Option<Head>, Vec<Plan>)> = OnceLock::new();
    WORK.get_or_init(|| {
        let plans = Plan::from_json(LARGE).into_iter().chain(built_ins());
        (Head::from_tapes(&Tapes::default()).ok(), plans.collect())
    })
}

/// How many plans there are.
#[unsafe(no_mangle)]
pub extern "C" fn plans() -> u32 {
    u32::try_from(work().1.len()).unwrap_or(0)
}

/// Works the plan of this number out, so many times; gives how many sections it came to in all, 0 if it
/// can't be worked out.
#[unsafe(no_mangle)]
pub extern "C" fn solve(plan: u32, rounds: u32) -> u32 {
    let (head, plans) = work();
    let (Some(head), Some(plan)) = (head, plans.get(plan as usize)) else {
        return 0;
    };
    let job = Job {
        head,
        hair: &Hair::default(),
        plan,
        choices: &Choices::default(),
    };
    let once =
        || cut(black_box(&job), &Measured::new()).map_or(0, |outcome| outcome.sections.len());
    (0..rounds).map(|_| once() as u32).sum()
}

#[cfg(target_arch = "wasm32")]
fn main() {}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    const ROUNDS: usize = 31;
    let names = work().1.iter().map(|plan| plan.id.as_str());
    let told: Vec<String> = names
        .zip(0_u32..)
        .map(|(name, plan)| {
            let times = (0..ROUNDS).map(|_| {
                let from = std::time::Instant::now();
                black_box(solve(plan, 1));
                from.elapsed().as_secs_f64() * 1e3
            });
            format!("  \"{name}\": {:.3}", times.fold(f64::MAX, f64::min))
        })
        .collect();
    println!("{{\n{}\n}}", told.join(",\n"));
}
