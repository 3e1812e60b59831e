//! Aiming backwards: where things should end in, how they must be held out.

mod answer;
mod picture;
mod search;
mod wishes;

use self::answer::AnswerView;
use self::picture::AimPicture;
use self::search::{Searching, Work};
use self::wishes::{MeansList, WishList};
use super::frame::{Stage, Stages, titled, with_cut};
use super::kept::kept;
use crate::book::{Ready, SavedCut};
use crate::cut::{Aims, Falls, Height, Measured, Outcome, PLACES, What};
use crate::fall::{Silhouette, View};
use crate::head::Landmark;
use crate::measure::Unit;
use crate::plan::Plan;
use crate::ui::parts::wrong;
use crate::words::tr;
use leptos::prelude::*;
use leptos_router::components::A;
use std::sync::Arc;

/// Height of a band of the silhouette, cm.
const BAND: f64 = 0.5;

/// The plan as it stands, worked out: what an aim is held against.
pub(super) struct Standing {
    ready: Ready,
    /// The plan as it is kept: what an answer is put into.
    plan: Plan,
    falls: Falls,
    silhouette: Silhouette,
}

/// How the hair of an outcome falls, from the left.
fn silhouette(ready: &Ready, outcome: &Outcome) -> Result<Silhouette, String> {
    let down = outcome.let_down(&ready.job(), PLACES);
    let down = down.map_err(|e| e.to_string())?;
    Ok(down.hair_silhouette(View::LeftSide, BAND))
}

fn stands(cut: &SavedCut) -> Result<Standing, String> {
    let mut ready = cut.ready().map_err(|e| e.to_string())?;
    // Titles of steps stand in what is said.
    ready.plan = ready.plan.said(kept().usage_now());
    let plan = cut.plan().unwrap_or_else(|| ready.plan.clone());
    let outcome = ready.outcome(&Measured::new()).map_err(|e| e.to_string())?;
    let falls = Falls::of(&ready.job(), &outcome).map_err(|e| e.to_string())?;
    Ok(Standing {
        silhouette: silhouette(&ready, &outcome)?,
        falls,
        plan,
        ready,
    })
}

/// What an aim begins with: what was aimed at before; else what the client wishes; where nothing is
/// wished, where things fall now, off.
fn begin(cut: &SavedCut, standing: &Standing) -> Aims {
    let mut aims = cut.aims.clone();
    if aims.wishes.is_empty() {
        aims.wishes = cut.consultation.wishes();
    }
    aims.filled(&standing.ready.job(), &standing.falls)
}

/// What the parts of the screen share.
#[derive(Clone, Copy)]
pub(super) struct Aimer {
    cut: RwSignal<SavedCut>,
    standing: StoredValue<Arc<Standing>>,
    aims: RwSignal<Aims>,
    work: RwSignal<Work>,
}

impl Aimer {
    fn standing(self) -> Arc<Standing> {
        self.standing.get_value()
    }

    /// Changes the aims without keeping them yet. An answer to other aims is none to these.
    fn turn(self, change: impl FnOnce(&mut Aims)) {
        self.aims.update(change);
        if !self.work.with_untracked(Work::is_idle) {
            self.work.set(Work::Idle);
        }
    }

    /// Keeps them as they are.
    fn keep(self) {
        let aims = self.aims.get_untracked();
        kept().change(self.cut, |cut| cut.aims = aims);
    }

    /// Changes them and keeps them.
    fn set(self, change: impl FnOnce(&mut Aims)) {
        self.turn(change);
        self.keep();
    }

    /// Changes a height and lets it count.
    fn lay(self, what: What, height: Height) {
        self.turn(|aims| {
            if let Some(wish) = aims.wishes.iter_mut().find(|wish| wish.what == what) {
                (wish.at, wish.on) = (height, true);
            }
        });
    }

    /// The height of a thing, and whether it counts.
    fn at(self, what: What) -> (Height, bool) {
        let wish = self.aims.with(|aims| aims.wish(what).copied());
        wish.map_or((Landmark::Chin.into(), false), |wish| (wish.at, wish.on))
    }
}

/// Aims for one cut.
#[component]
pub fn AimScreen() -> impl IntoView {
    titled(tr("Aim backwards"));
    with_cut(|cut| {
        let id = cut.with_untracked(|cut| cut.id.clone());
        let back = format!("/cut/{id}/plan");
        view! {
            <Stages id here=Stage::Plan/>
            <h1>{tr("Aim backwards")}</h1>
            {match cut.with_untracked(stands) {
                Ok(standing) => view! { <AimForm cut standing/> }.into_any(),
                Err(why) => wrong(why),
            }}
            <div class="actions">
                <A href=back attr:class="button">{tr("Leave the plan as it is")}</A>
            </div>
        }
    })
}

#[component]
fn AimForm(cut: RwSignal<SavedCut>, standing: Standing) -> impl IntoView {
    let aims = cut.with_untracked(|cut| begin(cut, &standing));
    let begun = cut.with_untracked(|cut| cut.walk.is_some());
    let aimer = Aimer {
        cut,
        standing: StoredValue::new(Arc::new(standing)),
        aims: RwSignal::new(aims),
        work: RwSignal::new(Work::Idle),
    };
    view! {
        <p>
            {tr("Say where things should end. The engine looks for the lengths and holds that do it, and says what gives way.")}
        </p>
        {begun.then(|| view! {
            <p class="note">{tr("This cut has begun: if you take an answer, sections that are done are held against it from now on.")}</p>
        })}
        <div class="side-by-side aim">
            <AimPicture aimer/>
            <div>
                <h2>{tr("What you want")}</h2>
                <p class="soft">{tr("The most important first. What is higher in the list is kept before what is lower.")}</p>
                <WishList aimer/>
                <MeansList aimer/>
                <Searching aimer/>
            </div>
        </div>
        {move || {
            let answer = aimer.work.with(Work::answer);
            answer.map(|answer| view! { <AnswerView aimer answer/> })
        }}
    }
}

/// A height as it stands in a table: `2.5 cm below the chin`.
fn height(aimer: Aimer, what: What, z: Option<f64>, unit: Unit) -> String {
    let standing = aimer.standing();
    let near = |z| Height::near(&standing.ready.head, what.landmarks(), z).said(unit);
    z.map_or_else(|| tr("nowhere").to_owned(), near)
}

/// Landmarks whose levels are drawn, with their names.
fn levels() -> Vec<(Landmark, &'static str)> {
    let named = |landmark: Landmark| (landmark, landmark.name());
    Landmark::LEVELS.into_iter().map(named).collect()
}
