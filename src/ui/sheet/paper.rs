//! What every printed sheet has around it: the buttons that do not go on paper, the heading, the rest.

use crate::book::SavedCut;
use crate::plan::Plan;
use crate::ui::frame::{Stage, Stages};
use crate::ui::kept::kept;
use crate::ui::parts::{Html, wrong};
use crate::ui::words;
use crate::words::tr;
use leptos::prelude::*;
use leptos_router::components::A;

/// A screen whose `sheet`, written as HTML, is for paper; or why it can't be written.
#[component]
pub fn OnPaper(
    /// The id of the cut.
    id: String,
    /// Where the screen belongs to.
    here: Stage,
    /// What it is called.
    title: &'static str,
    /// Its class in the style sheet.
    class: &'static str,
    /// The part of the cut that it goes back to, and what the way there is called.
    back: (&'static str, &'static str),
    /// The sheet.
    sheet: Result<String, String>,
) -> impl IntoView {
    let (part, back) = back;
    let part = format!("/cut/{id}/{part}");
    let sheet = match sheet {
        Ok(sheet) => view! { <article class=class inner_html=sheet></article> }.into_any(),
        Err(why) => view! { <h1>{title}</h1> {wrong(why)} }.into_any(),
    };
    view! {
        <div class="no-print">
            <Stages id here/>
            <div class="sheet-doings">
                <button class="main" on:click=print>{tr("Print")}</button>
                <A href=part attr:class="button">{back}</A>
                <p class="soft">{tr("A4 or Letter, upright, black ink is enough. If nothing opens, print from the browser\u{2019}s own menu.")}</p>
            </div>
        </div>
        {sheet}
    }
}

/// What stands at the foot of every sheet: what to take care of, what its numbers are worth, and where its
/// name comes from.
pub fn foot(html: &mut Html, plan: &Plan, said: &str, title_is_name: bool) {
    let cautions: Vec<String> = plan.cautions().map(|c| kept().said(c.sentence())).collect();
    lines(html, tr("Take care"), &cautions);
    html.raw("<footer><p>");
    html.text(said);
    if title_is_name {
        html.raw(" ");
        html.text(tr(
            "The name is only what was typed as this cut\u{2019}s title.",
        ));
    }
    html.raw(" Tautline.</p></footer>");
}

/// Sentences under a heading, where there are any.
pub fn lines(html: &mut Html, name: &str, all: &[String]) {
    if all.is_empty() {
        return;
    }
    html.within("<section class=\"sheet-lines\"><h2>", name, "</h2><ul>");
    for text in all {
        html.within("<li>", text, "</li>");
    }
    html.raw("</ul></section>");
}

/// Opens the browser's own way to print.
fn print(_: leptos::ev::MouseEvent) {
    // A browser that can't print from a page has it in its menu, as the page says.
    let _ = window().print();
}

/// The head of a sheet: the cut's title with its plan, or, before the client, the plan alone; and a day.
/// Says whether names may stand on the sheet.
pub fn heading(html: &mut Html, cut: &SavedCut, plan: &str, day: &str) -> bool {
    let named = !kept().settings_now().seen && !cut.title.trim().is_empty();
    let title = if named { &cut.title } else { plan };
    html.within("<header class=\"sheet-head\"><h1>", title, "</h1><p>");
    if named {
        html.within("", plan, " · ");
    }
    html.within("", &words::day(day), "</p></header>");
    named
}
