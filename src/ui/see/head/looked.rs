//! What is looked at, and from where.

use super::super::Made;
use super::turn::moves;
use crate::book::Ready;
use crate::chart::{Drawn, Eye, Scene, Turned, Turning, facing, seen_best};
use crate::cut::{Outcome, SectionCut, SectionKey};
use crate::measure::Length;
use leptos::prelude::*;
use leptos_router::hooks::use_query_map;
use std::sync::Arc;

/// Shared by the parts of the screen.
#[derive(Clone, Copy)]
pub struct Looked {
    made: StoredValue<Made>,
    /// The place of the section that is shown, among all in the order in which they are cut.
    pub place: RwSignal<usize>,
    /// How many there are.
    pub count: Signal<usize>,
    /// Whether the hair is let down.
    pub down: RwSignal<bool>,
    /// Whether what was really cut is shown, not the plan.
    pub real: RwSignal<bool>,
    /// From where.
    pub eye: RwSignal<Eye>,
    /// The turn that goes on by itself; another one ends it, and so does a hand.
    turning: StoredValue<Option<Turning>>,
    /// Whether the head was turned by hand since the plan's step began: then it is left so.
    by_hand: StoredValue<bool>,
    /// Whether the eye is on its way, by hand or by itself: then fewer hairs do.
    pub moving: RwSignal<bool>,
    /// What lies on the head.
    scene: Memo<Same<Scene>>,
    /// The head, with as much of the body as the hair needs.
    head: Memo<Same<Turned>>,
}

/// A section is seen if so much of its roots is, as a share. Judgement.
const MOSTLY: f64 = 0.5;

/// Shared; two are alike only if they are one.
pub struct Same<T>(Arc<T>);

impl<T> Clone for Same<T> {
    fn clone(&self) -> Self {
        Self(Arc::clone(&self.0))
    }
}

impl<T> PartialEq for Same<T> {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0)
    }
}

impl Looked {
    /// The sections of a cut, at the one that the address names, or else where `last` one was, or at the
    /// first; seen from where that one is seen.
    pub fn at(made: StoredValue<Made>, last: StoredValue<Option<usize>>) -> Self {
        let named = use_query_map().read_untracked().get("at");
        let first = made.with_value(|made| named.and_then(|at| find(&made.planned, &at)));
        let at = first.or_else(|| last.get_value()).unwrap_or(0);
        let place = RwSignal::new(at);
        let start = with(made, false, |ready, outcome| {
            let section = outcome.sections.get(at)?;
            let hidden = facing(&ready.head, section, Eye::THREE_QUARTER) < MOSTLY;
            (hidden || first.is_some()).then(|| seen_best(&ready.head, section))
        });
        let down = RwSignal::new(false);
        let real = RwSignal::new(false);
        let count = move || with(made, real.get(), |_, outcome| outcome.sections.len());
        // Hair let down takes a while, so it is worked out once a section.
        let fallen = StoredValue::new(Vec::<((bool, usize), Same<Scene>)>::new());
        let scene = Memo::new(move |_| {
            let key = (real.get(), place.get());
            if !down.get() {
                let held =
                    |ready: &Ready, outcome: &Outcome| Scene::held(&ready.head, outcome, key.1);
                return Same(Arc::new(with(made, key.0, held)));
            }
            let there = |all: &Vec<((bool, usize), Same<Scene>)>| {
                all.iter()
                    .find(|(of, _)| *of == key)
                    .map(|(_, scene)| scene.clone())
            };
            if let Some(scene) = fallen.with_value(there) {
                return scene;
            }
            let let_down = |ready: &Ready, outcome: &Outcome| {
                Scene::let_down(&ready.job(), outcome, key.1).unwrap_or_default()
            };
            let scene = Same(Arc::new(with(made, key.0, let_down)));
            fallen.update_value(|all| all.push((key, scene.clone())));
            scene
        });
        let head = Memo::new(move |_| Same(made.with_value(|made| made.turned(down.get()))));
        Self {
            made,
            place,
            count: Signal::derive(count),
            down,
            real,
            eye: RwSignal::new(start.unwrap_or(Eye::THREE_QUARTER)),
            turning: StoredValue::new(None),
            by_hand: StoredValue::new(false),
            moving: RwSignal::new(false),
            scene,
            head,
        }
    }

    /// What is seen from an eye.
    pub fn drawn(self, eye: Eye) -> Drawn {
        let (head, scene) = (self.head.get(), self.scene.get());
        if self.moving.get() && self.down.get() {
            head.0.sketched(eye, &scene.0)
        } else {
            head.0.drawn(eye, &scene.0)
        }
    }

    /// The measures of the picture.
    pub fn window(self) -> String {
        if self.down.get() {
            return self
                .made
                .with_value(|made| Scene::fallen_window(&made.ready.head, made.lowest()));
        }
        let step = self.section(|section| section.step).unwrap_or_default();
        self.with(|ready, outcome| Scene::held_window(&ready.head, outcome, step))
    }

    /// Something of the plan and of what it came to.
    pub fn with<T>(self, read: impl Fn(&Ready, &Outcome) -> T) -> T {
        with(self.made, self.real.get(), read)
    }

    /// What the long end of the section that is shown was cut at, if what was cut is looked at; none of a
    /// section that is not cut yet, and in the plan.
    pub fn was_cut_at(self) -> Option<Length> {
        let (real, place) = (self.real.get(), self.place.get());
        self.made.with_value(|made| {
            let (walk, outcome) = made.cut.as_ref().filter(|_| real)?;
            let section = outcome.sections.get(place)?;
            walk.cut_at(&section.key, Some(section.long()))
        })
    }

    /// Something of the section that is shown; none if there is none.
    pub fn section<T>(self, read: impl Fn(&SectionCut) -> T) -> Option<T> {
        let place = self.place.get();
        self.with(|_, outcome| outcome.sections.get(place).map(&read))
    }

    /// The lowest end of the hair that is let down; none if it is held.
    pub fn lowest_end(self) -> Option<f64> {
        self.scene.get().0.lowest()
    }

    /// Something of what lies on the head.
    pub fn scene<T>(self, read: impl Fn(&Scene) -> T) -> T {
        read(&self.scene.get().0)
    }

    /// A hand is on the head: no turn goes on by itself.
    pub fn held(self) {
        self.by_hand.set_value(true);
        if self
            .turning
            .try_update_value(Option::take)
            .flatten()
            .is_some()
        {
            self.moving.set(false);
        }
    }

    /// Turns the head to a view, at once where things that move by themselves are not welcome.
    pub fn turn_to(self, to: Eye) {
        self.turning.set_value(None);
        if !moves() {
            return self.eye.set(to);
        }
        let turn = Turning {
            from: self.eye.get_untracked(),
            to,
            began: js_sys::Date::now(),
        };
        self.turning.set_value(Some(turn));
        self.moving.set(true);
        self.go_on(turn);
    }

    /// One frame after the other until the turn is over.
    fn go_on(self, turn: Turning) {
        request_animation_frame(move || {
            // Left, or turned elsewhere since.
            if self.turning.try_get_value().flatten() != Some(turn) {
                return;
            }
            let (at, over) = turn.at(js_sys::Date::now());
            self.eye.set(at);
            if over {
                self.turning.set_value(None);
                self.moving.set(false);
            } else {
                self.go_on(turn);
            }
        });
    }

    /// Whenever another section is shown: turns to where it is seen, if most of it is hidden from here and
    /// nobody turned the head by hand within this step of the plan, and tells `each` its place.
    pub fn follow(self, each: impl Fn(usize) + 'static) {
        Effect::new(move |before: Option<(usize, usize)>| {
            let at = self.place.get();
            let step = self.section(|section| section.step).unwrap_or_default();
            let Some((place, last)) = before else {
                return (at, step);
            };
            if last != step {
                self.by_hand.set_value(false);
            }
            if place != at {
                each(at);
                let here = self
                    .turning
                    .get_value()
                    .map_or_else(|| self.eye.get_untracked(), |turn| turn.to);
                let elsewhere = untrack(|| {
                    self.with(|ready, outcome| {
                        let section = outcome.sections.get(at)?;
                        let hidden = facing(&ready.head, section, here) < MOSTLY;
                        hidden.then(|| seen_best(&ready.head, section))
                    })
                });
                if let (Some(to), false) = (elsewhere, self.by_hand.get_value()) {
                    self.turn_to(to);
                }
            }
            (at, step)
        });
    }

    /// Shows the section so many further on, as far as there are any.
    pub fn go(self, on: isize) {
        let last = self.count.get_untracked().saturating_sub(1);
        self.place
            .update(|place| *place = place.saturating_add_signed(on).min(last));
    }
}

fn with<T>(made: StoredValue<Made>, real: bool, read: impl Fn(&Ready, &Outcome) -> T) -> T {
    made.with_value(|made| match (&made.cut, real) {
        (Some((_, outcome)), true) => read(&made.ready, outcome),
        _ => read(&made.ready, &made.planned),
    })
}

/// The place of the section that an address names, by its key or by its number from 1.
fn find(outcome: &Outcome, at: &str) -> Option<usize> {
    let all = &outcome.sections;
    if let Some(key) = SectionKey::from_address(at) {
        return all.iter().position(|section| section.key == key);
    }
    let number: usize = at.parse().ok()?;
    number.checked_sub(1).filter(|place| *place < all.len())
}
