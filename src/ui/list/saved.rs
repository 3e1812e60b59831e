//! One line of the list.

use crate::book::SavedCut;
use crate::ui::kept::kept;
use crate::ui::words;
use leptos::prelude::*;
use leptos_router::components::A;

/// How far a cut is.
pub const fn state_of(cut: &SavedCut) -> &'static str {
    match &cut.walk {
        None => "Planned",
        Some(walk) if walk.finished_at.is_some() => "Finished",
        Some(_) => "At the chair",
    }
}

/// Where a tap on a cut leads, and how far it is.
fn where_it_stands(cut: &SavedCut) -> (String, &'static str) {
    let screen = match &cut.walk {
        None => "plan",
        Some(walk) if walk.finished_at.is_some() => "end",
        Some(_) => "walk",
    };
    (format!("/cut/{}/{screen}", cut.id), state_of(cut))
}

/// A cut that reads.
#[component]
pub fn CutRow(cut: SavedCut, changed: RwSignal<u32>) -> impl IntoView {
    let (href, state) = where_it_stands(&cut);
    let (title, delete_title) = (cut.title.clone(), cut.title.clone());
    let plan = kept()
        .plan(&cut)
        .map_or("Unknown plan".to_owned(), |plan| plan.name);
    let day = words::day(&cut.saved_at);
    view! {
        <li>
            <A href=href attr:class="open">
                <span class="title">{title}</span>
                <span class="soft">{format!("{state} · {plan} · {day}")}</span>
            </A>
            <Delete id=cut.id title=delete_title changed/>
        </li>
    }
}

/// A cut that does not read: it is kept, can be saved as a file, and can be deleted.
#[component]
pub fn AsideRow(id: String, why: String, text: String, changed: RwSignal<u32>) -> impl IntoView {
    let href = format!(
        "data:application/json,{}",
        String::from(js_sys::encode_uri_component(&text))
    );
    view! {
        <li>
            <span class="open">
                <span class="title">"A cut that can't be read"</span>
                <span class="soft">{why}</span>
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
