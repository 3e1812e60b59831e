//! Which screen lies in which part of the code.
//!
//! The first start, the frame around all screens and the store come first. A screen added here must be named
//! by nothing that comes first, or its code does too; `make size` shows it.

use super::later::{Coming, later};
use super::{
    aim, book, chair, client, compare, edit, judge, keep, learn, list, pass, prepare, see,
    settings, sheet,
};
use leptos::prelude::*;
use leptos::wasm_split::{SplitLoaderError, wasm_split};

/// The screens of a head and its plan.
#[derive(Clone, Copy)]
pub enum OfPlan {
    /// The tapes.
    Head,
    /// The library.
    Choose,
    /// The plan on this head.
    Plan,
    /// The consultation.
    Client,
    /// A plan changed.
    Edit,
    /// The holds looked for.
    Aim,
    /// Two plans.
    Compare,
    /// Pictures.
    See,
    /// On paper.
    Sheet,
    /// The ideas.
    Learn,
}

/// The screens at the chair and after it.
#[derive(Clone, Copy)]
pub enum AtChair {
    /// Section by section.
    Walk,
    /// Looked back.
    End,
    /// Checked oneself.
    Judge,
    /// For an assessor.
    Assess,
    /// Over many cuts.
    Trends,
}

/// The screens of the book and of all that is kept.
#[derive(Clone, Copy)]
pub enum OfBook {
    /// Clients and practice heads.
    Book,
    /// One of them.
    Card,
    /// What was done, as a visit.
    Visit,
    /// A plan handed on.
    Pass,
    /// A plan taken in.
    Take,
    /// Everything out and back.
    Keep,
    /// How the app behaves.
    Settings,
}

#[wasm_split(plan, wasm_split_path = ::leptos::wasm_split, preload(fetch_plan), fallible)]
fn show_plan(screen: OfPlan) -> Result<AnyView, SplitLoaderError> {
    Ok(match screen {
        OfPlan::Head => view! { <prepare::HeadScreen/> }.into_any(),
        OfPlan::Choose => view! { <prepare::ChooseScreen/> }.into_any(),
        OfPlan::Plan => view! { <prepare::PlanScreen/> }.into_any(),
        OfPlan::Client => view! { <client::ClientScreen/> }.into_any(),
        OfPlan::Edit => view! { <edit::EditScreen/> }.into_any(),
        OfPlan::Aim => view! { <aim::AimScreen/> }.into_any(),
        OfPlan::Compare => view! { <compare::CompareScreen/> }.into_any(),
        OfPlan::See => view! { <see::SeeScreen/> }.into_any(),
        OfPlan::Sheet => view! { <sheet::SheetScreen/> }.into_any(),
        OfPlan::Learn => view! { <learn::LearnScreen/> }.into_any(),
    })
}

#[wasm_split(chair, wasm_split_path = ::leptos::wasm_split, preload(fetch_chair), fallible)]
fn show_chair(screen: AtChair) -> Result<AnyView, SplitLoaderError> {
    Ok(match screen {
        AtChair::Walk => view! { <chair::WalkScreen/> }.into_any(),
        AtChair::End => view! { <chair::EndScreen/> }.into_any(),
        AtChair::Judge => view! { <judge::JudgeScreen/> }.into_any(),
        AtChair::Assess => view! { <judge::AssessScreen/> }.into_any(),
        AtChair::Trends => view! { <judge::TrendsScreen/> }.into_any(),
    })
}

#[wasm_split(book, wasm_split_path = ::leptos::wasm_split, preload(fetch_book), fallible)]
fn show_book(screen: OfBook) -> Result<AnyView, SplitLoaderError> {
    Ok(match screen {
        OfBook::Book => view! { <book::BookScreen/> }.into_any(),
        OfBook::Card => view! { <book::CardScreen/> }.into_any(),
        OfBook::Visit => view! { <book::VisitScreen/> }.into_any(),
        OfBook::Pass => view! { <pass::PassScreen/> }.into_any(),
        OfBook::Take => view! { <pass::TakeScreen/> }.into_any(),
        OfBook::Keep => view! { <keep::KeepScreen/> }.into_any(),
        OfBook::Settings => view! { <settings::SettingsScreen/> }.into_any(),
    })
}

#[wasm_split(list, wasm_split_path = ::leptos::wasm_split, preload(fetch_cuts), fallible)]
fn show_cuts(changed: RwSignal<u32>) -> Result<AnyView, SplitLoaderError> {
    Ok(view! { <list::Cuts changed/> }.into_any())
}

#[wasm_split(book, wasm_split_path = ::leptos::wasm_split, preload(fetch_lock), fallible)]
fn show_lock(locked: RwSignal<bool>) -> Result<AnyView, SplitLoaderError> {
    Ok(view! { <keep::LockScreen locked/> }.into_any())
}

/// A screen of a head and its plan, as a route shows it.
pub fn plan(screen: OfPlan) -> impl Fn() -> AnyView + Send + Sync + Clone + 'static {
    move || {
        later(
            || Box::pin(fetch_plan()),
            move || Box::pin(show_plan(screen)) as Coming<_>,
        )
    }
}

/// A screen at the chair or after it.
pub fn chair(screen: AtChair) -> impl Fn() -> AnyView + Send + Sync + Clone + 'static {
    move || {
        later(
            || Box::pin(fetch_chair()),
            move || Box::pin(show_chair(screen)) as Coming<_>,
        )
    }
}

/// A screen of the book.
pub fn book(screen: OfBook) -> impl Fn() -> AnyView + Send + Sync + Clone + 'static {
    move || {
        later(
            || Box::pin(fetch_book()),
            move || Box::pin(show_book(screen)) as Coming<_>,
        )
    }
}

/// The cuts that there are, within the first screen; `changed` is moved on when one is deleted.
pub fn cuts(changed: RwSignal<u32>) -> AnyView {
    later(
        || Box::pin(fetch_cuts()),
        move || Box::pin(show_cuts(changed)) as Coming<_>,
    )
}

/// The screen that asks for the PIN.
pub fn lock(locked: RwSignal<bool>) -> AnyView {
    later(
        || Box::pin(fetch_lock()),
        move || Box::pin(show_lock(locked)) as Coming<_>,
    )
}
