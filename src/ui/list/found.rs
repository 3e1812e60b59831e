//! Finding a cut among many: what is looked for, how many there are, and the first of them.

use super::saved::row;
use crate::book::{Catalogue, Query, Sort};
use crate::ui::kept::{Kept, kept};
use crate::ui::parts::Html;
use crate::ui::parts::Pick;
use crate::words::{noted, tr};
use leptos::prelude::*;
use std::sync::Arc;
use wasm_bindgen::JsCast;

/// So many rows are shown at first: a screen of a phone and a half, so that the list stands soon. Judgement.
const FIRST: usize = 10;
/// So many more each time. Judgement: some screens of a phone.
const ROWS: usize = 30;
/// With no more cuts than these, nothing has to be found. Judgement: they fit one screen of a phone.
const FEW: usize = 5;

/// The orders, in the words of the list.
const SORTS: [(Sort, &str); 3] = [
    (Sort::Day, noted("Day, latest first")),
    (Sort::Name, noted("Name")),
    (Sort::Plan, noted("Plan")),
];

/// `1,234 cuts`.
fn cuts(count: usize) -> String {
    let digits = count.to_string();
    let split = digits.len().saturating_sub(3);
    let count = match digits.split_at_checked(split) {
        Some((thousands, rest)) if split > 0 => {
            tr!("thousands" => "{thousands},{rest}", thousands, rest)
        }
        _ => digits,
    };
    if count == "1" {
        return tr("1 cut").to_owned();
    }
    tr!("{count} cuts", count)
}

/// All cuts that are not at the chair, those first that are looked for.
#[component]
pub fn Found(
    /// All cuts.
    all: Arc<Catalogue>,
    /// Whether the client looks on: then nothing is searched, as names and tags would show.
    seen: bool,
    /// Moved on when a cut is deleted.
    changed: RwSignal<u32>,
) -> impl IntoView {
    let kept = kept();
    let searched = !seen && all.others() > FEW;
    let (count, tags) = (all.others(), all.tags());
    let asked = kept.asked();
    let most = RwSignal::new(FIRST);
    let found = Memo::new(move |_| {
        let query = if searched {
            asked.get()
        } else {
            Query::default()
        };
        all.find(&query)
    });
    let said = move || {
        let found = found.with(Vec::len);
        match found {
            0 => {
                tr("No cut has all of this. Fewer letters, or another tag, may find it.").to_owned()
            }
            _ if found == count => cuts(count),
            _ => tr!("{found} of {}", cuts(count), found),
        }
    };
    let to_delete = RwSignal::new(String::new());
    let rows = move || {
        let to_delete = to_delete.get();
        let mut html = Html::default();
        found.with(|found| {
            for entry in found.iter().take(most.get()) {
                row(&mut html, entry, seen, entry.line.id == to_delete);
            }
        });
        html.done()
    };
    let more = move || found.with(Vec::len).saturating_sub(most.get());
    view! {
        {searched.then(|| view! { <Asked tags most/> })}
        {searched.then(|| view! { <p class="found-count soft" role="status">{said}</p> })}
        {(count > 0).then(|| view! {
            <ul class="cuts found" inner_html=rows on:click=move |ev| pressed(kept, &ev, to_delete, changed)></ul>
        })}
        {move || {
            let more = more();
            (more > 0).then(|| view! {
                <button class="more-cuts" on:click=move |_| show_more(most)>
                    {tr!("Show {} more", more.min(ROWS))}
                </button>
            })
        }}
    }
}

/// A press in the rows: a cut is deleted after a second one.
fn pressed(
    kept: Kept,
    ev: &leptos::ev::MouseEvent,
    to_delete: RwSignal<String>,
    changed: RwSignal<u32>,
) {
    let at = ev.target().map(JsCast::unchecked_into::<web_sys::Element>);
    let button = at.and_then(|at| at.closest("button").ok().flatten());
    let Some(button) = button else { return };
    let of = |name: &str| button.get_attribute(name);
    if let Some(id) = of("data-delete") {
        to_delete.set(id);
        go_to("[data-keep]".to_owned());
    } else if let Some(id) = of("data-keep") {
        to_delete.set(String::new());
        go_to(format!("[data-delete=\"{id}\"]"));
    } else if let Some(id) = of("data-for-good") {
        let deleted = kept.store().delete(&id);
        kept.note(deleted.map_err(|e| e.to_string()));
        changed.update(|n| *n += 1);
    }
}

/// Puts the focus there once it is drawn: what had it may be gone.
fn go_to(there: String) {
    request_animation_frame(move || {
        let there = document().query_selector(&there).ok().flatten();
        if let Some(there) = there {
            let _ = there.unchecked_into::<web_sys::HtmlElement>().focus();
        }
    });
}

/// Shows more rows, and goes to the first of them: the button may be gone then.
fn show_more(most: RwSignal<usize>) {
    let before = most.get_untracked();
    most.set(before.saturating_add(ROWS));
    go_to(format!(
        ".cuts.found > li:nth-child({}) a",
        before.saturating_add(1)
    ));
}

/// What is looked for.
#[component]
fn Asked(tags: Vec<String>, most: RwSignal<usize>) -> impl IntoView {
    let asked = kept().asked();
    let ask = Callback::new(move |change: Query| {
        most.set(FIRST);
        asked.set(change);
    });
    let field = NodeRef::<leptos::html::Input>::new();
    let with_words = move |words: String| {
        let query = asked.get_untracked();
        ask.run(Query { words, ..query });
    };
    let clear = move |_| {
        with_words(String::new());
        if let Some(field) = field.get_untracked() {
            let _ = field.focus();
        }
    };
    let words = move || asked.with(|query| query.words.clone());
    let sort = move || {
        let sort = asked.with(|query| query.sort);
        SORTS.iter().position(|(of, _)| *of == sort)
    };
    let by = Callback::new(move |at: usize| {
        if let Some((sort, _)) = SORTS.get(at) {
            let query = asked.get_untracked();
            ask.run(Query {
                sort: *sort,
                ..query
            });
        }
    });
    let sorts = SORTS.map(|(_, words)| tr(words).to_owned()).into();
    let tags = StoredValue::new(tags);
    // A tag that nothing has any more must not hide everything.
    let there = asked.with_untracked(|query| tags.with_value(|tags| tags.contains(&query.tag)));
    if !there && asked.with_untracked(|query| !query.tag.is_empty()) {
        asked.update(|query| query.tag.clear());
    }
    let tag = move || {
        let tag = asked.with(|query| query.tag.clone());
        let place = tags.with_value(|tags| tags.iter().position(|t| *t == tag));
        Some(place.map_or(0, |at| at + 1))
    };
    let keep_to = Callback::new(move |at: usize| {
        let tag = at.checked_sub(1);
        let tag = tag.and_then(|at| tags.with_value(|tags| tags.get(at).cloned()));
        let query = asked.get_untracked();
        ask.run(Query {
            tag: tag.unwrap_or_default(),
            ..query
        });
    });
    let with_tags = tags.with_value(|tags| !tags.is_empty()).then(|| {
        let all = std::iter::once(tr("All tags").to_owned());
        let options = all.chain(tags.get_value()).collect();
        view! {
            <Pick id="tag" label=tr("Tag") options own=true chosen=Signal::derive(tag) on_choose=keep_to/>
        }
    });
    view! {
        <search class="asked">
            <label for="find">{tr("Find a cut")}</label>
            <div class="find">
                <input
                    node_ref=field
                    id="find"
                    type="search"
                    autocomplete="off"
                    autocapitalize="off"
                    spellcheck="false"
                    enterkeyhint="search"
                    aria-describedby="find-by"
                    prop:value=words
                    on:input=move |ev| with_words(event_target_value(&ev))
                />
                <button class:none=move || asked.with(|query| query.words.is_empty()) on:click=clear>
                    {tr("Clear")}
                </button>
            </div>
            <p id="find-by" class="soft">{tr("By title, name, plan, tag, note, day or month.")}</p>
            <div class="picks">
                <Pick id="sort" label=tr("Sorted by") options=sorts chosen=Signal::derive(sort) on_choose=by/>
                {with_tags}
            </div>
        </search>
    }
}
