//! The screens: one folder a flow, and the controls they share.
//!
//! `list` finds a cut, `prepare` takes the head and fits a plan from the library, `client` is the
//! consultation, `edit` changes the plan, `compare` lays two side by side, `aim` looks for the holds,
//! `see` shows it in pictures, `chair` walks through it and looks back, `sheet` is the same on paper. Screens hold no arithmetic: they ask the core and write
//! down what it says. `book` has clients, practice heads and visits, `grow` what becomes of a cut in
//! weeks, `judge` how well it came out, `pass` hands plans on, `keep` everything out and back. Only this room and `store` know the browser.

mod aim;
mod book;
mod chair;
mod client;
mod compare;
mod device;
mod edit;
mod frame;
mod grow;
mod judge;
mod keep;
mod kept;
mod list;
mod parts;
mod pass;
mod prepare;
mod see;
mod settings;
mod sheet;
mod start;
mod words;

pub use start::start;

use leptos::prelude::*;
use leptos_router::components::{Route, Router, Routes};
use leptos_router::path;

/// The whole app.
#[component]
pub fn App() -> impl IntoView {
    kept::provide();
    let locked = keep::locked();
    view! {
        <div id="app">
            {move || if locked.get() {
                view! { <keep::LockScreen locked/> }.into_any()
            } else {
                view! { <Screens/> }.into_any()
            }}
        </div>
    }
}

/// All screens by their addresses.
#[component]
fn Screens() -> impl IntoView {
    view! {
        <Router base=frame::folder()>
            <frame::Top/>
            <main>
                <Routes fallback=frame::NowhereScreen>
                    <Route path=path!("/") view=list::ListScreen/>
                    <Route path=path!("/cut/:id/head") view=prepare::HeadScreen/>
                    <Route path=path!("/cut/:id/client") view=client::ClientScreen/>
                    <Route path=path!("/cut/:id/edit") view=edit::EditScreen/>
                    <Route path=path!("/cut/:id/aim") view=aim::AimScreen/>
                    <Route path=path!("/cut/:id/compare") view=compare::CompareScreen/>
                    <Route path=path!("/cut/:id/see/:part?") view=see::SeeScreen/>
                    <Route path=path!("/cut/:id/sheet") view=sheet::SheetScreen/>
                    <Route path=path!("/cut/:id/visit") view=book::VisitScreen/>
                    <Route path=path!("/cut/:id/judge") view=judge::JudgeScreen/>
                    <Route path=path!("/cut/:id/assess") view=judge::AssessScreen/>
                    <Route path=path!("/cut/:id/pass") view=pass::PassScreen/>
                    <Route path=path!("/book") view=book::BookScreen/>
                    <Route path=path!("/book/:id") view=book::CardScreen/>
                    <Route path=path!("/trends") view=judge::TrendsScreen/>
                    <Route path=path!("/take") view=pass::TakeScreen/>
                    <Route path=path!("/keep") view=keep::KeepScreen/>
                    <Route path=path!("/settings") view=settings::SettingsScreen/>
                    <Route path=path!("/cut/:id/choose") view=prepare::ChooseScreen/>
                    <Route path=path!("/cut/:id/plan") view=prepare::PlanScreen/>
                    <Route path=path!("/cut/:id/walk") view=chair::WalkScreen/>
                    <Route path=path!("/cut/:id/end") view=chair::EndScreen/>
                </Routes>
            </main>
        </Router>
    }
}
