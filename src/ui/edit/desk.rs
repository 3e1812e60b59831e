//! The plan on the desk: as it is kept, as a hand drags it, and what both come to.

use crate::book::{Ready, SavedCut};
use crate::chart::{Fallen, Stage, View, fallen};
use crate::cut::{CutError, Job, LetDown, Live, Measured, Outcome, PLACES, SectionCut};
use crate::head::Level;
use crate::measure::Length;
use crate::plan::{Fault, Field, Plan, Step, Words, built_in};
use crate::ui::kept::kept;
use leptos::prelude::*;
use std::sync::Arc;

/// Places of the scalp that are let down while a hand drags.
const DRAGGED: usize = 128;

/// What is shared by what stands on the desk.
#[derive(Clone, Copy)]
pub struct Desk {
    /// The cut whose plan it is.
    pub cut: RwSignal<SavedCut>,
    /// The place of the step that is open.
    pub at: RwSignal<usize>,
    /// From where the hair is seen.
    pub view: RwSignal<View>,
    /// The plan while a hand drags.
    dragged: RwSignal<Option<Plan>>,
    /// The plan as it stands, dragged or kept.
    plan: Memo<Plan>,
    /// The plan as it is kept, worked out.
    settled: Memo<Same>,
    /// What the plan comes to as it stands: worked out once a change, for all that show a part of it.
    pub seen: Memo<Result<Seen, Stopped>>,
    /// What its steps came to when it was laid on the desk.
    was: Memo<Option<Arc<Vec<StepSeen>>>>,
    /// Why it comes to nothing, if it does.
    pub stopped: Memo<Option<Stopped>>,
    /// What contradicts itself.
    pub faults: Memo<Vec<Fault>>,
}

/// Shared; two are alike only if they are one.
#[derive(Clone)]
struct Same(Arc<Settled>);

impl PartialEq for Same {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0)
    }
}

impl std::ops::Deref for Same {
    type Target = Settled;
    fn deref(&self) -> &Settled {
        &self.0
    }
}

/// The plan as it is kept, worked out.
struct Settled {
    /// Step by step, to go on from while dragging; none where it cannot be worked out.
    live: Option<(Ready, Live)>,
    /// What is seen of it.
    seen: Result<Seen, Stopped>,
    /// What the picture stands on, from each side.
    stages: Vec<(View, Stage)>,
}

/// Why nothing is seen.
#[derive(Clone, Debug, PartialEq)]
pub struct Stopped {
    /// The id of the step that can't be worked out; none if it is no step's doing.
    pub step: Option<String>,
    /// Why.
    pub words: String,
}

/// What a plan comes to, to be looked at.
#[derive(Clone, Debug, PartialEq)]
pub struct Seen {
    /// The hair let down, from the side and from the back.
    pub pictures: [Fallen; 2],
    /// The weight line's level and sharpness.
    pub weight: Option<(Level, f64)>,
    /// What each step comes to.
    pub steps: Vec<StepSeen>,
}

/// What a step comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct StepSeen {
    /// The step's id.
    pub id: String,
    /// Its shortest and longest; none if nothing is cut.
    pub spread: Option<(Length, Length)>,
    /// Its sections on the left, or where else it is cut: name, shortest and longest.
    pub sections: Vec<(String, Length, Length)>,
}

/// The views that are drawn, in order.
pub const VIEWS: [View; 2] = [View::Left, View::Back];

impl Desk {
    /// A cut's plan laid on the desk.
    pub fn of(cut: RwSignal<SavedCut>) -> Self {
        let dragged = RwSignal::new(None::<Plan>);
        let view = RwSignal::new(View::Left);
        let plan = Memo::new(move |_| {
            let kept = || cut.with(SavedCut::plan).unwrap_or_else(no_plan);
            dragged.get().unwrap_or_else(kept)
        });
        let settled = Memo::new(move |_| Same(Arc::new(cut.with(settle))));
        let seen = Memo::new(move |_| {
            let settled = settled.get();
            match (dragged.get(), &settled.live) {
                (Some(plan), Some(live)) => {
                    let view = view.get();
                    cut.with_untracked(|cut| self::dragged(cut, plan, live, &settled, view))
                }
                _ => settled.seen.clone(),
            }
        });
        Self {
            cut,
            at: RwSignal::new(0),
            view,
            dragged,
            plan,
            settled,
            seen,
            was: Memo::new(move |was: Option<&Option<Arc<Vec<StepSeen>>>>| {
                let now = || Some(Arc::new(settled.get().seen.as_ref().ok()?.steps.clone()));
                was.cloned().flatten().or_else(now)
            }),
            stopped: Memo::new(move |_| seen.with(|seen| seen.as_ref().err().cloned())),
            faults: Memo::new(move |_| plan.with(|plan| spoken(plan.clone()).faults())),
        }
    }

    /// The plan as it stands, dragged or kept.
    pub fn plan(self) -> Plan {
        self.plan.get()
    }

    /// What the open step's words would be, told from its hold.
    pub fn told(self, read: fn(Words) -> String) -> String {
        let at = self.at.get();
        self.plan
            .with(|plan| read(spoken(plan.clone()).words(at, kept().unit())))
    }

    /// The steps before the open one that cut, by id and title.
    pub fn earlier(self) -> Vec<(String, String)> {
        let at = self.at.get();
        self.plan.with(|plan| {
            let cutting = plan.steps.iter().take(at).filter(|s| s.held.cuts());
            cutting.map(|s| (s.id.clone(), s.name())).collect()
        })
    }

    /// Something of the open step; none if there is none.
    pub fn of_step<T>(self, read: impl Fn(&Plan, &Step) -> T) -> Option<T> {
        let at = self.at.get();
        self.plan
            .with(|plan| plan.steps.get(at).map(|step| read(plan, step)))
    }

    /// Moves the open step along while a hand drags: shown, not kept.
    pub fn drag(self, change: impl FnOnce(&mut Step)) {
        let at = self.at.get_untracked();
        if let Some(mut plan) = self.cut.with_untracked(SavedCut::plan)
            && let Some(step) = plan.steps.get_mut(at)
        {
            change(step);
            self.dragged.set(Some(plan));
        }
    }

    /// Changes the open step and keeps it.
    pub fn change_step(self, change: impl FnOnce(&mut Step)) {
        let at = self.at.get_untracked();
        self.change(|plan| {
            if let Some(step) = plan.steps.get_mut(at) {
                change(step);
            }
        });
    }

    /// Changes the plan and keeps it.
    pub fn change(self, change: impl FnOnce(&mut Plan)) {
        self.dragged.set(None);
        let at = self.at.get_untracked();
        kept().edit(self.cut, |cut| {
            if let Some(mut sketch) = cut.sketch() {
                change(&mut sketch.plan);
                if let Some(written) = built_in(&cut.plan) {
                    sketch.plan.forget_words(at, &written);
                }
                cut.take(sketch);
            }
        });
    }

    /// What is typed in a field and does not read.
    pub fn unread(self, field: &str) -> Option<String> {
        let key = self.key(field);
        self.cut.with(|cut| cut.unread.get(&key).cloned())
    }

    /// Keeps a text that does not read, or forgets it.
    pub fn set_unread(self, field: &str, text: Option<String>) {
        let key = self.key(field);
        let there = self.cut.with_untracked(|cut| cut.unread.contains_key(&key));
        if text.is_none() && !there {
            return;
        }
        kept().change(self.cut, |cut| {
            match text {
                Some(text) => cut.unread.insert(key, text),
                None => cut.unread.remove(&key),
            };
        });
    }

    fn key(self, field: &str) -> String {
        let at = self.at.get();
        let id = self.cut.with(|cut| {
            cut.plan()
                .and_then(|p| p.steps.get(at).map(|s| s.id.clone()))
        });
        format!("{}/{field}", id.unwrap_or_default())
    }

    /// What contradicts itself in a part of the open step.
    pub fn faults_of(self, field: Field) -> Vec<String> {
        let at = self.at.get();
        let here = |f: &&Fault| f.step == Some(at) && f.field == field;
        self.faults
            .with(|all| all.iter().filter(here).map(|f| f.words.clone()).collect())
    }

    /// What is seen of the plan as it is kept, while another is dragged.
    pub fn kept_picture(self, view: View) -> Option<Fallen> {
        self.dragged.get()?;
        let settled = self.settled.get();
        let seen = settled.seen.as_ref().ok()?;
        Some(seen.pictures[place(view)].clone())
    }

    /// What the open step came to when the plan was laid on the desk; none if it was not there, or could not
    /// be worked out.
    pub fn was(self) -> Option<StepSeen> {
        let id = self.of_step(|_, step| step.id.clone())?;
        let was = self.was.get()?;
        was.iter().find(|step| step.id == id).cloned()
    }

    /// What a picture stands on.
    pub fn stage(self, view: View) -> Option<Stage> {
        let settled = self.settled.get();
        let mut stages = settled.stages.iter();
        stages
            .find(|(of, _)| *of == view)
            .map(|(_, stage)| stage.clone())
    }
}

fn no_plan() -> Plan {
    Plan {
        steps: Vec::new(),
        ..crate::plan::built_ins().remove(0)
    }
}

/// A plan to be shown: our own texts in the person's usage.
fn spoken(plan: Plan) -> Plan {
    plan.said(kept().usage_now())
}

fn place(view: View) -> usize {
    VIEWS.iter().position(|v| *v == view).unwrap_or(0)
}

/// The kept plan, worked out whole.
fn settle(cut: &SavedCut) -> Settled {
    let stopped = |step: Option<String>, words: String| Settled {
        live: None,
        seen: Err(Stopped { step, words }),
        stages: Vec::new(),
    };
    let ready = match cut.ready() {
        Ok(ready) => Ready {
            plan: spoken(ready.plan),
            ..ready
        },
        Err(why) => return stopped(None, why.to_string()),
    };
    let job = ready.job();
    let live = match Live::new(&job) {
        Ok(live) => live,
        Err(stuck) => {
            let id = ready.plan.steps[stuck.step].id.clone();
            return stopped(Some(id), stuck.to_string());
        }
    };
    let exact = || -> Result<(Seen, Vec<(View, Stage)>), CutError> {
        let outcome = ready.outcome(&Measured::new())?;
        let down = outcome.let_down(&job, PLACES)?;
        let stages: Vec<(View, Stage)> = VIEWS
            .map(|view| (view, Stage::new(job.head, view, down.lowest())))
            .into();
        Ok((see(&job, &outcome, &down, &stages, &VIEWS), stages))
    };
    match exact() {
        Ok((seen, stages)) => Settled {
            seen: Ok(seen),
            stages,
            live: Some((ready, live)),
        },
        Err(why) => stopped(None, why.to_string()),
    }
}

/// A plan in the hand, worked out from where it differs.
fn dragged(
    cut: &SavedCut,
    plan: Plan,
    (ready, live): &(Ready, Live),
    settled: &Settled,
    view: View,
) -> Result<Seen, Stopped> {
    let stopped = |step: Option<String>, words: String| Stopped { step, words };
    let plan = cut
        .consultation
        .plan(plan)
        .map(spoken)
        .map_err(|why| stopped(None, why.to_string()))?;
    let job = Job {
        plan: &plan,
        ..ready.job()
    };
    let told = &ready.plan.steps;
    let from = plan.steps.iter().zip(told).take_while(|(a, b)| {
        // Words are told anew; what matters is what is cut.
        let words = b.words.clone();
        let a = Step {
            words,
            ..(*a).clone()
        };
        a == **b
    });
    let live = live.again(&job, from.count()).map_err(|stuck| {
        let id = plan.steps[stuck.step].id.clone();
        stopped(Some(id), stuck.to_string())
    })?;
    let outcome = live.outcome();
    let down = outcome
        .let_down(&job, DRAGGED)
        .map_err(|why| stopped(None, why.to_string()))?;
    Ok(see(&job, outcome, &down, &settled.stages, &[view]))
}

fn see(
    job: &Job<'_>,
    outcome: &Outcome,
    down: &LetDown,
    stages: &[(View, Stage)],
    views: &[View],
) -> Seen {
    let drawn = |view: View| {
        let wanted = views.contains(&view);
        let stage = stages.iter().find(|(of, _)| *of == view && wanted);
        stage.map_or_else(Fallen::default, |(_, stage)| fallen(down, view, stage))
    };
    let step = |(i, step): (usize, &Step)| {
        // The right side is told of only where it is cut alone.
        let told = outcome.paired(i).into_iter().map(|pair| pair.one);
        StepSeen {
            id: step.id.clone(),
            spread: outcome.spread(Some(i)),
            sections: told
                .filter(SectionCut::cuts)
                .map(|s| (s.section.name.clone(), s.short(), s.long()))
                .collect(),
        }
    };
    Seen {
        pictures: VIEWS.map(drawn),
        weight: down.weight_level(job.head),
        steps: job.plan.steps.iter().enumerate().map(step).collect(),
    }
}
