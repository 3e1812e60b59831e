//! The screens: one folder a flow, and the controls they share.
//!
//! `list` finds a cut, `prepare` takes the head and fits a plan from the library, `client` is the
//! consultation, `edit` changes the plan, `compare` lays two side by side, `aim` looks for the holds,
//! `see` shows it in pictures, `chair` walks through it and looks back, `sheet` is the same on paper. Screens hold no arithmetic: they ask the core and write
//! down what it says. `book` has clients, practice heads and visits, `grow` what becomes of a cut in
//! weeks, `judge` how well it came out, `pass` hands plans on, `keep` everything out and back, `learn` explains the ideas. Only this room and `store` know the browser.

mod aim;
mod book;
mod chair;
mod client;
mod compare;
mod deeds;
mod device;
mod edit;
mod frame;
mod grow;
mod judge;
mod keep;
mod kept;
mod later;
mod learn;
mod list;
mod parts;
mod pass;
mod prepare;
mod screens;
mod see;
mod settings;
mod sheet;
mod start;
mod words;

pub use start::start;

use leptos::prelude::*;
use leptos_router::components::{FlatRoutes, Route, Router};
use leptos_router::path;
use screens::{AtChair, OfBook, OfPlan};
use std::time::Duration;

/// The whole app.
#[component]
pub fn App() -> impl IntoView {
    kept::provide();
    deeds::ahead(kept::kept());
    let locked = keep::locked();
    view! {
        <div id="app">
            {move || if locked.get() {
                screens::lock(locked)
            } else {
                view! { <Page/> }.into_any()
            }}
        </div>
    }
}

/// What stands on every screen, and the screen.
#[component]
fn Page() -> impl IntoView {
    // The frame first, then in a turn of its own the screen: together they are a long stretch for a phone.
    let begun = RwSignal::new(false);
    set_timeout(move || _ = begun.try_set(true), Duration::ZERO);
    view! {
        <Router base=frame::folder()>
            <frame::Top/>
            <main>
                {move || begun.get().then(|| view! { <Screens/> })}
            </main>
        </Router>
    }
}

/// All screens by their addresses.
#[component]
fn Screens() -> impl IntoView {
    view! {
        <FlatRoutes fallback=frame::NowhereScreen>
            <Route path=path!("/") view=list::ListScreen/>
            <Route path=path!("/cut/:id/head") view=screens::plan(OfPlan::Head)/>
            <Route path=path!("/cut/:id/client") view=screens::plan(OfPlan::Client)/>
            <Route path=path!("/cut/:id/edit") view=screens::plan(OfPlan::Edit)/>
            <Route path=path!("/cut/:id/aim") view=screens::plan(OfPlan::Aim)/>
            <Route path=path!("/cut/:id/compare") view=screens::plan(OfPlan::Compare)/>
            <Route path=path!("/cut/:id/see/:part?") view=screens::plan(OfPlan::See)/>
            <Route path=path!("/cut/:id/sheet") view=screens::plan(OfPlan::Sheet)/>
            <Route path=path!("/cut/:id/visit") view=screens::book(OfBook::Visit)/>
            <Route path=path!("/cut/:id/judge") view=screens::chair(AtChair::Judge)/>
            <Route path=path!("/cut/:id/assess") view=screens::chair(AtChair::Assess)/>
            <Route path=path!("/cut/:id/pass") view=screens::book(OfBook::Pass)/>
            <Route path=path!("/book") view=screens::book(OfBook::Book)/>
            <Route path=path!("/book/:id") view=screens::book(OfBook::Card)/>
            <Route path=path!("/trends") view=screens::chair(AtChair::Trends)/>
            <Route path=path!("/learn/:idea?") view=screens::plan(OfPlan::Learn)/>
            <Route path=path!("/take") view=screens::book(OfBook::Take)/>
            <Route path=path!("/keep") view=screens::book(OfBook::Keep)/>
            <Route path=path!("/settings") view=screens::book(OfBook::Settings)/>
            <Route path=path!("/cut/:id/choose") view=screens::plan(OfPlan::Choose)/>
            <Route path=path!("/cut/:id/plan") view=screens::plan(OfPlan::Plan)/>
            <Route path=path!("/cut/:id/walk") view=screens::chair(AtChair::Walk)/>
            <Route path=path!("/cut/:id/end") view=screens::chair(AtChair::End)/>
        </FlatRoutes>
    }
}
