//! One line of the list.

use crate::book::{Entry, State};
use crate::store::Aside;
use crate::ui::frame::folder;
use crate::ui::kept::kept;
use crate::ui::parts::{Html, SaveUnread};
use crate::ui::words;
use crate::words::tr;
use leptos::prelude::*;

/// Where a tap on a cut leads, and how far it is.
fn where_it_stands(entry: &Entry) -> (&'static str, &'static str) {
    let state = entry.line.state;
    let screen = match state {
        State::Open | State::Planned => "plan",
        State::Finished => "end",
        State::AtTheChair => "walk",
    };
    (screen, state.words())
}

/// Whose it is, if that may be shown.
pub fn whose(entry: &Entry) -> Option<impl IntoView + use<>> {
    let name = entry.name.clone();
    (!name.is_empty()).then(|| view! { <span class="whose">{name}</span> })
}

/// A cut that reads, as text: thirty of them are drawn anew at each letter of a search. `asked` if it is
/// asked whether to delete it.
pub fn row(html: &mut Html, entry: &Entry, seen: bool, asked: bool) {
    let line = &entry.line;
    let (screen, state) = where_it_stands(entry);
    html.within("<li><a class=\"open\" href=\"", folder(), "/cut/");
    html.within("", &line.id, "/");
    html.raw(screen);
    let called = entry.called(seen);
    html.within("\"><span class=\"title\">", called, "</span>");
    if !entry.name.is_empty() {
        html.within("<span class=\"whose\">", &entry.name, "</span>");
    }
    html.raw("<span class=\"soft\">");
    if line.invented {
        html.text(tr("Invented · "));
    }
    for told in [state, &entry.plan] {
        if told != called && (told == state || line.state != State::Open) {
            html.within("", told, " · ");
        }
    }
    html.within("", &words::day(&line.day), "</span>");
    if !seen && !line.tags.is_empty() {
        html.raw("<span class=\"tags\">");
        html.within("<span class=\"visually-hidden\">", tr("Tags: "), "</span>");
        for tag in &line.tags {
            html.within("<span class=\"tag\">", tag, "</span> ");
        }
        html.raw("</span>");
    }
    html.raw("</a>");
    if asked {
        html.within("<button data-for-good=\"", &line.id, "\">");
        html.within("", tr("Delete for good"), "</button>");
        html.raw("<button class=\"plain\" data-escape=\"\" data-keep=\"");
        html.within("", &line.id, "\">");
        html.within("", tr("Keep"), "</button>");
    } else {
        html.within("<button class=\"plain\" data-delete=\"", &line.id, "\">");
        html.within("", tr("Delete"), " ");
        html.within(
            "<span class=\"visually-hidden\">",
            called,
            "</span></button>",
        );
    }
    html.raw("</li>");
}

/// A cut that does not read: it is kept, can be saved as a file, and can be deleted.
#[component]
pub fn AsideRow(aside: Aside, changed: RwSignal<u32>) -> impl IntoView {
    let Aside { id, why, text } = aside;
    view! {
        <li>
            <span class="open">
                <span class="title">{tr("A cut that can't be read")}</span>
                <span class="soft">{why.to_string()}</span>
            </span>
            <SaveUnread id=id.clone() text/>
            <Delete id title=tr("A cut that can't be read").to_owned() changed/>
        </li>
    }
}

/// Deletes a cut after a second tap.
#[component]
pub fn Delete(id: String, title: String, changed: RwSignal<u32>) -> impl IntoView {
    let asked = RwSignal::new(false);
    let kept = kept();
    let id = StoredValue::new(id);
    let delete = move |_| {
        let deleted = id.with_value(|id| kept.store().delete(id));
        kept.note(deleted.map_err(|e| e.to_string()));
        changed.update(|n| *n += 1);
    };
    let name = StoredValue::new(title);
    view! {
        <Show
            when=move || asked.get()
            fallback=move || view! {
                <button class="plain" on:click=move |_| asked.set(true)>
                    {tr("Delete")} <span class="visually-hidden">{name.get_value()}</span>
                </button>
            }
        >
            <button on:click=delete>{tr("Delete for good")}</button>
            <button class="plain" data-escape="" on:click=move |_| asked.set(false)>{tr("Keep")}</button>
        </Show>
    }
}
