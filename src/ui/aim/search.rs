//! The search, slice by slice between frames.

use super::{Aimer, silhouette};
use crate::cut::{Aimed, Aiming, Falls, Means, What, means_of};
use crate::fall::Silhouette;
use crate::words::tr;
use leptos::prelude::*;
use std::sync::Arc;
use std::time::Duration;

/// How long the search keeps the page waiting at a stretch, ms.
const AT_A_STRETCH: f64 = 60.0;

/// An answer and what it looks like.
pub(super) struct Answer {
    pub aimed: Aimed,
    /// The thing that each goal is for.
    pub whats: Vec<What>,
    pub falls: Falls,
    pub silhouette: Silhouette,
}

/// Where the search stands.
#[derive(Clone)]
pub(super) enum Work {
    /// Nothing is asked.
    Idle,
    /// So many ways were tried.
    Running(usize),
    /// There is an answer.
    Done(Arc<Answer>),
    /// There is none, and why.
    Failed(String),
}

impl Work {
    pub const fn is_idle(&self) -> bool {
        matches!(self, Self::Idle)
    }

    pub fn answer(&self) -> Option<Arc<Answer>> {
        match self {
            Self::Done(answer) => Some(Arc::clone(answer)),
            _ => None,
        }
    }
}

/// Everything that may be changed and is not held fast.
fn free(aimer: Aimer) -> Vec<Means> {
    let all = means_of(&aimer.standing().plan).into_iter();
    let free = all.filter(|means| aimer.aims.with_untracked(|aims| !aims.is_fixed(means)));
    free.collect()
}

type Running = StoredValue<Option<Aiming>, LocalStorage>;

fn start(aimer: Aimer, running: Running) {
    let standing = aimer.standing();
    let job = standing.ready.job();
    let goals = aimer.aims.with_untracked(|aims| aims.goals(&job));
    if goals.is_empty() {
        let why = tr("Nothing counts yet. Tick what you want, or drag its name in the picture.");
        aimer.work.set(Work::Failed(why.to_owned()));
        return;
    }
    let (whats, goals): (Vec<_>, Vec<_>) = goals.into_iter().unzip();
    match Aiming::start(&job, &goals, &free(aimer)) {
        Ok(aiming) => {
            running.set_value(Some(aiming));
            aimer.work.set(Work::Running(0));
            go_on(aimer, running, whats);
        }
        Err(why) => aimer.work.set(Work::Failed(why.to_string())),
    }
}

/// One stretch after the next frame. Ends by itself when the screen is left or the aims were changed.
fn go_on(aimer: Aimer, running: Running, whats: Vec<What>) {
    set_timeout(
        move || {
            let runs = aimer
                .work
                .try_with_untracked(|work| matches!(work, Work::Running(_)));
            if runs != Some(true) {
                return;
            }
            let standing = aimer.standing();
            let job = standing.ready.job();
            let until = js_sys::Date::now() + AT_A_STRETCH;
            let mut found = None;
            running.update_value(|aiming| {
                let Some(aiming) = aiming else { return };
                loop {
                    if aiming.advance(&job) {
                        found = Some(aiming.answer(&job));
                        break;
                    }
                    if js_sys::Date::now() > until {
                        aimer.work.set(Work::Running(aiming.tries()));
                        break;
                    }
                }
            });
            let Some(found) = found else {
                return go_on(aimer, running, whats);
            };
            running.set_value(None);
            let answer = found.map_err(|e| e.to_string()).and_then(|aimed| {
                Ok(Answer {
                    falls: Falls::of(&job, &aimed.outcome).map_err(|e| e.to_string())?,
                    silhouette: silhouette(&standing.ready, &aimed.outcome)?,
                    whats,
                    aimed,
                })
            });
            aimer.work.set(match answer {
                Ok(answer) => Work::Done(Arc::new(answer)),
                Err(why) => Work::Failed(why),
            });
        },
        Duration::ZERO,
    );
}

/// The button that asks, and what comes of it.
#[component]
pub(super) fn Searching(aimer: Aimer) -> impl IntoView {
    let running: Running = StoredValue::new_local(None);
    let stop = move |_| {
        running.set_value(None);
        aimer.work.set(Work::Idle);
    };
    let runs = Memo::new(move |_| aimer.work.with(|work| matches!(work, Work::Running(_))));
    let tried = move || {
        aimer.work.with(|work| match work {
            Work::Running(tries) => tr!("{tries} ways tried.", tries),
            _ => String::new(),
        })
    };
    view! {
        <div class="actions">
            {move || {
                if runs.get() {
                    view! { <button type="button" on:click=stop>{tr("Stop")}</button> }.into_any()
                } else {
                    view! {
                        <button type="button" class="main" on:click=move |_| start(aimer, running)>
                            {tr("Find the holds")}
                        </button>
                    }
                    .into_any()
                }
            }}
        </div>
        <div role="status">
            {move || runs.get().then(|| view! { <p>{tr("Working it out…")}</p> })}
            {move || {
                aimer.work.with(|work| match work {
                    Work::Failed(why) => Some(view! { <p class="note warn">{why.clone()}</p> }),
                    _ => None,
                })
            }}
            {move || aimer.work.with(|w| matches!(w, Work::Done(_))).then(|| view! {
                <p class="visually-hidden">{tr("The answer stands below.")}</p>
            })}
        </div>
        <p class="soft" aria-hidden="true">{tried}</p>
    }
}
