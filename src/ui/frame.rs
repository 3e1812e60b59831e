//! What stands around every screen, and where the app lies on its host.

mod focus;

pub use focus::focus_if_lost;

use super::kept::kept;
use crate::book::{Record, SavedCut};
use crate::words::tr;
use leptos::prelude::*;
use leptos_router::components::A;
use leptos_router::hooks::{use_location, use_params_map};
use std::cell::RefCell;
use std::sync::OnceLock;

/// Where the list is, for `A` and `navigate`. The dot keeps the slash at the end below a folder, which
/// the router would drop: without it the address is outside what the offline worker answers.
pub const HOME: &str = "/./";

/// The folder that the app lies in on its host, without a slash at its end: "" at the top. The same build
/// runs in any; `public/boot.js` or the offline worker has told the page which it is.
pub fn folder() -> &'static str {
    static FOLDER: OnceLock<String> = OnceLock::new();
    FOLDER.get_or_init(|| {
        let told = document().query_selector("base").ok().flatten();
        let address = told.and_then(|base| base.base_uri().ok().flatten());
        let path = address.and_then(|address| Some(web_sys::Url::new(&address).ok()?.pathname()));
        let path = path.unwrap_or_default();
        path.trim_end_matches('/').to_owned()
    })
}

/// An address of the app, given as from its top, for a link that is not made by `A`.
pub fn address(path: &str) -> String {
    [folder(), path].concat()
}

/// Where the ideas are.
const LEARN: &str = "/learn";

thread_local! {
    static LEFT: RefCell<Option<String>> = const { RefCell::new(None) };
}

/// Keeps in mind which screen somebody left to learn something.
fn look_after_way_back() {
    let at = use_location().pathname;
    Effect::new(move |_| {
        let path = at.get();
        let path = path.strip_prefix(folder()).unwrap_or(&path);
        if !path.starts_with(LEARN) {
            LEFT.set(Some(path.to_owned()));
        }
    });
}

/// The screen that was left to learn something; none where that was the list, or nothing.
pub fn way_back() -> Option<String> {
    let left = LEFT.with_borrow(Option::clone);
    left.filter(|path| !path.trim_matches(['/', '.']).is_empty())
}

/// The app's name, which leads home, and the sentence that says what went wrong.
#[component]
pub fn Top() -> impl IntoView {
    let kept = kept();
    focus::look_after_focus();
    look_after_way_back();
    view! {
        <header class="top">
            <A href=HOME exact=true attr:class="name button plain">"Tautline"</A>
            <A href=LEARN attr:class="button plain">{tr("Learn")}</A>
            <A href="/book" attr:class="button plain">{tr("Book")}</A>
            <A href="/settings" attr:class="button plain">{tr("Settings")}</A>
        </header>
        {move || {
            kept.trouble().map(|why| view! {
                <div class="trouble note warn" role="alert">
                    <p>{why}</p>
                    {move || (kept.waiting() > 0).then(|| view! { <Waiting/> })}
                </div>
            })
        }}
        {move || {
            kept.gone().then(|| view! {
                <div class="trouble note warn" role="alert">
                    <p>{tr("This cut was deleted in another window. What you see is kept on this screen only.")}</p>
                    <button on:click=move |_| kept.keep_again()>{tr("Keep it again")}</button>
                </div>
            })
        }}
    }
}

/// What can be done while something could not be kept.
#[component]
fn Waiting() -> impl IntoView {
    let kept = kept();
    view! {
        <p>{tr("Leave this page open: what you did since is on it. A file keeps it too.")}</p>
        <div class="actions">
            <A href="/keep" attr:class="button">{tr("Save a file")}</A>
            <button on:click=move |_| kept.try_again()>{tr("Try again")}</button>
        </div>
    }
}

/// A page for an address that is none.
#[component]
pub fn NowhereScreen() -> impl IntoView {
    titled(tr("Not here"));
    view! {
        <h1>{tr("There is nothing here")}</h1>
        <p>{tr("The address may be mistyped. Your cuts are where they were.")}</p>
        <A href=HOME exact=true attr:class="button main">{tr("Your cuts")}</A>
    }
}

/// Where a cut stands: its head, the client, its plan, the chair, or its page in the book.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Stage {
    /// The head.
    Head,
    /// What the client wants and the hair shows.
    Client,
    /// The plan.
    Plan,
    /// The chair.
    Chair,
    /// What is put down of it as a visit.
    Visit,
}

/// The way through a cut, each stage one tap away.
#[component]
pub fn Stages(id: String, here: Stage) -> impl IntoView {
    let stage = |stage, name: &'static str, path: &'static str| {
        let current = (stage == here).then_some("page");
        view! { <li><a href=address(&format!("/cut/{id}/{path}")) aria-current=current>{name}</a></li> }
    };
    view! {
        <nav aria-label=tr("Stages of this cut")>
            <ol class="stages">
                {stage(Stage::Head, tr("Head"), "head")}
                {stage(Stage::Client, tr("Client"), "client")}
                {stage(Stage::Plan, tr("Plan"), "plan")}
                {stage(Stage::Chair, tr("Chair"), "walk")}
                {stage(Stage::Visit, tr("Visit"), "visit")}
            </ol>
        </nav>
    }
}

/// Shows a screen for the cut that the address names, or says why it can't.
pub fn with_cut<V: IntoView + 'static>(
    screen: impl Fn(RwSignal<SavedCut>) -> V + Send + 'static,
) -> impl IntoView {
    let params = use_params_map();
    // What else the address names does not build the screen anew.
    let id = Memo::new(move |_| params.read().get("id").unwrap_or_default());
    move || {
        let id = id.get();
        kept().follow_others();
        match kept().store().load(&id) {
            Ok(cut) => {
                let cut = RwSignal::new(cut);
                kept().opened(cut);
                screen(cut).into_any()
            }
            Err(why) => {
                titled(tr("Can't open this cut"));
                view! {
                    <h1>{tr("This cut can't be opened")}</h1>
                    <p>{why.to_string()}</p>
                    <A href=HOME exact=true attr:class="button main">{tr("Your cuts")}</A>
                }
                .into_any()
            }
        }
    }
}

/// Shows a screen for the client or practice head that the address names, or says why it can't.
pub fn with_record<V: IntoView + 'static>(
    screen: impl Fn(RwSignal<Record>) -> V + Send + 'static,
) -> impl IntoView {
    let params = use_params_map();
    let id = Memo::new(move |_| params.read().get("id").unwrap_or_default());
    move || {
        kept().follow_others();
        kept().opened_none();
        match kept().store().record(&id.get()) {
            Ok(record) => {
                let record = RwSignal::new(record);
                kept().opened_card(record);
                screen(record).into_any()
            }
            Err(why) => {
                titled(tr("Can't open this card"));
                view! {
                    <h1>{tr("This card can't be opened")}</h1>
                    <p>{why.to_string()}</p>
                    <A href="/book" attr:class="button main">{tr("The book")}</A>
                }
                .into_any()
            }
        }
    }
}

/// Names the page in the browser's own bar and history.
pub fn titled(name: &str) {
    document().set_title(&format!("{name} · Tautline"));
}
