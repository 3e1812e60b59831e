//! The screens: one folder a flow, and the controls they share.
//!
//! `list` finds a cut, `prepare` takes the head and fits a plan from the library, `client` is the
//! consultation, `edit` changes the plan, `compare` lays two side by side, `aim` looks for the holds,
//! `see` shows it in pictures, `chair` walks through it and looks back, `sheet` is the same on paper. Screens hold no arithmetic: they ask the core and write
//! down what it says. Only this room and `store` know the browser.

mod aim;
mod chair;
mod client;
mod compare;
mod device;
mod edit;
mod frame;
mod kept;
mod list;
mod parts;
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
    view! {
        <div id="app">
            <Router>
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
                        <Route path=path!("/settings") view=settings::SettingsScreen/>
                        <Route path=path!("/cut/:id/choose") view=prepare::ChooseScreen/>
                        <Route path=path!("/cut/:id/plan") view=prepare::PlanScreen/>
                        <Route path=path!("/cut/:id/walk") view=chair::WalkScreen/>
                        <Route path=path!("/cut/:id/end") view=chair::EndScreen/>
                    </Routes>
                </main>
            </Router>
        </div>
    }
}
