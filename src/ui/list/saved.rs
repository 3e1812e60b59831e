//! One line of the list.

use crate::book::{Entry, State};
use crate::store::Aside;
use crate::ui::kept::kept;
use crate::ui::words;
use leptos::prelude::*;
use std::sync::Arc;

/// Where a tap on a cut leads, and how far it is.
fn where_it_stands(entry: &Entry) -> (&'static str, &'static str) {
    let state = entry.line.state;
    let screen = match state {
        State::Planned => "plan",
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

/// A cut that reads.
#[component]
pub fn CutRow(entry: Arc<Entry>, seen: bool, changed: RwSignal<u32>) -> impl IntoView {
    let line = &entry.line;
    let (screen, state) = where_it_stands(&entry);
    let invented = if line.invented { "Invented · " } else { "" };
    let day = words::day(&line.day);
    let tags = (!seen && !line.tags.is_empty()).then(|| {
        let tag = |tag: &String| view! { <span class="tag">{tag.clone()}</span> };
        let tags = line.tags.iter().map(tag).collect_view();
        view! { <span class="tags"><span class="visually-hidden">"Tags: "</span>{tags}</span> }
    });
    view! {
        <li>
            <a href=format!("/cut/{}/{screen}", line.id) class="open">
                <span class="title">{line.title.clone()}</span>
                {whose(&entry)}
                <span class="soft">{format!("{invented}{state} · {} · {day}", entry.plan)}</span>
                {tags}
            </a>
            <Delete id=line.id.clone() title=line.title.clone() changed/>
        </li>
    }
}

/// A cut that does not read: it is kept, can be saved as a file, and can be deleted.
#[component]
pub fn AsideRow(aside: Aside, changed: RwSignal<u32>) -> impl IntoView {
    let Aside { id, why, text } = aside;
    let href = format!(
        "data:application/json,{}",
        String::from(js_sys::encode_uri_component(&text))
    );
    view! {
        <li>
            <span class="open">
                <span class="title">"A cut that can't be read"</span>
                <span class="soft">{why.to_string()}</span>
            </span>
            <a class="button plain" href=href download=format!("tautline-{id}.json")>"Save as file"</a>
            <Delete id title="A cut that can't be read".to_owned() changed/>
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
                    "Delete" <span class="visually-hidden">{name.get_value()}</span>
                </button>
            }
        >
            <button on:click=delete>"Delete for good"</button>
            <button class="plain" on:click=move |_| asked.set(false)>"Keep"</button>
        </Show>
    }
}
