//! All clients and practice heads.

use super::due::Due;
use super::salon::InventedSalon;
use crate::book::{CardLine, CardOrder, Record, cards, fold, sort_cards};
use crate::head::Kind;
use crate::store::ListedRecord;
use crate::ui::frame::{HOME, titled};
use crate::ui::kept::{Kept, kept, new_id, now, today};
use crate::ui::parts::{Options, SaveUnread, Switch, wrong};
use crate::ui::words;
use crate::words::tr;
use leptos::prelude::*;
use leptos_router::components::A;
use leptos_router::hooks::use_navigate;

/// So many cards are shown at first, and more with each press. Judgement: three screens of a phone.
const AT_ONCE: usize = 30;

/// All clients and practice heads.
#[component]
pub fn BookScreen() -> impl IntoView {
    titled(tr("The book"));
    let kept = kept();
    kept.opened_none();
    let seen = Memo::new(move |_| kept.settings().seen);
    view! {
        <h1>{tr("The book")}</h1>
        {move || if seen.get() {
            view! { <Hidden/> }.into_any()
        } else {
            view! { <Cards/> }.into_any()
        }}
        <div class="actions">
            <A href=HOME exact=true attr:class="button">{tr("Your cuts")}</A>
            <A href="/trends" attr:class="button">{tr("What comes back")}</A>
            <A href="/take" attr:class="button">{tr("Open a plan from a file or link")}</A>
            <A href="/keep" attr:class="button">{tr("Everything out and back")}</A>
        </div>
    }
}

/// What stands in the place of names while the client looks on.
#[component]
fn Hidden() -> impl IntoView {
    let kept = kept();
    view! {
        <p class="note">{tr("The client looks on, so no names are shown here.")}</p>
        <Switch
            label=tr("The client looks on")
            on=Signal::derive(move || kept.settings().seen)
            set=Callback::new(move |on| kept.set(|settings| settings.seen = on))
        />
    }
}

/// The book as it is kept.
#[derive(Clone, Default)]
struct Book {
    lines: Vec<CardLine>,
    aside: Vec<(String, String, String)>,
}

fn read(kept: Kept) -> Result<Book, String> {
    let mut book = Book::default();
    let mut records: Vec<Record> = Vec::new();
    for listed in kept.records().map_err(|e| e.to_string())? {
        match listed {
            ListedRecord::Record(record) => records.push(*record),
            ListedRecord::Aside { id, why, text } => book.aside.push((id, why.to_string(), text)),
        }
    }
    let visits = kept.lines().map_err(|e| e.to_string())?;
    book.lines = cards(&records, &visits);
    Ok(book)
}

#[component]
fn Cards() -> impl IntoView {
    let kept = kept();
    let again = RwSignal::new(0_u32);
    let changed = Callback::new(move |()| again.update(|n| *n += 1));
    move || {
        again.track();
        all_of(kept, changed)
    }
}

/// All that the book has now.
fn all_of(kept: Kept, changed: Callback<()>) -> AnyView {
    match read(kept) {
        Err(why) => wrong(why),
        Ok(book) => {
            let none = book.lines.is_empty();
            let there = book.lines.iter().any(|line| line.invented);
            let aside = book.aside.into_iter().map(|(id, why, text)| {
                view! { <AsideCard id why text/> }
            });
            let aside: Vec<_> = aside.collect();
            let aside = (!aside.is_empty()).then(|| view! { <ul class="cuts">{aside}</ul> });
            view! {
                {none.then(|| view! {
                    <p class="lede">{tr("Clients and practice heads, with what was cut on each, so that the same cut can come back.")}</p>
                })}
                <NewCard open=none/>
                {(!none).then(|| view! { <Found lines=book.lines/> })}
                {aside}
                <InventedSalon there changed/>
            }
            .into_any()
        }
    }
}

/// The cards that are looked for.
#[component]
fn Found(lines: Vec<CardLine>) -> impl IntoView {
    let kept = kept();
    let all = StoredValue::new(lines);
    let query = RwSignal::new(String::new());
    let order = RwSignal::new(CardOrder::Name);
    let most = RwSignal::new(AT_ONCE);
    let found = Memo::new(move |_| {
        let query = fold(&query.get());
        let mut found = all.with_value(|all| {
            let is = |line: &&CardLine| line.is_found(&query);
            all.iter().filter(is).cloned().collect::<Vec<_>>()
        });
        sort_cards(&mut found, order.get());
        found
    });
    let count = move || match found.with(Vec::len) {
        0 => tr("Nobody found").to_owned(),
        count => tr!("1 card" | "{n} cards" % count),
    };
    let rows = move || {
        let most = most.get();
        found.with(|found| found.iter().take(most).map(row).collect_view())
    };
    let more = move || {
        let left = found.with(Vec::len).saturating_sub(most.get());
        (left > 0).then(|| {
            view! {
                <button on:click=move |_| most.update(|most| *most += AT_ONCE)>
                    {tr!("Show more ({left} left)", left)}
                </button>
            }
        })
    };
    let orders = CardOrder::ALL
        .map(|order| (order.word().to_owned(), order.words().to_owned()))
        .to_vec();
    let sort = Callback::new(move |word: String| {
        if let Some(chosen) = CardOrder::ALL.into_iter().find(|o| o.word() == word) {
            order.set(chosen);
        }
    });
    let months = kept.settings_now().keep_months;
    let due = all.with_value(|all| view! { <Due lines=all.clone() months today=today()/> });
    view! {
        {due}
        <div class="words">
            <label for="find-card">{tr("Find a client or a practice head")}</label>
            <input
                id="find-card"
                type="search"
                autocomplete="off"
                placeholder=tr("Name, tag, note")
                on:input=move |ev| {
                    most.set(AT_ONCE);
                    query.set(event_target_value(&ev));
                }
            />
        </div>
        <Options
            ask=tr("Sorted by")
            name="card-order"
            options=orders
            chosen=Signal::derive(move || order.get().word().to_owned())
            on_choose=sort
        />
        <p class="soft" role="status">{count}</p>
        <ul class="cuts">{rows}</ul>
        <div class="actions">{more}</div>
    }
}

/// So many visits.
pub(super) fn visits(count: usize) -> String {
    tr!("1 visit" | "{n} visits" % count)
}

/// One line of the list.
pub(super) fn row(line: &CardLine) -> AnyView {
    let mut said: Vec<String> = Vec::new();
    if line.kind == Kind::Practice {
        said.push(tr("Practice head").to_owned());
    }
    match line.last {
        Some(day) => {
            let (visits, day) = (visits(line.visits), words::day(&day.to_string()));
            said.push(tr!("{visits}, last on {day}", visits, day));
        }
        None => said.push(tr("No visit yet").to_owned()),
    }
    if let Some(day) = line.returns {
        said.push(tr!("expected on {}", words::day(&day.to_string())));
    }
    said.extend(line.tags.iter().cloned());
    let (name, said) = (line.name.clone(), said.join(" · "));
    view! {
        <li>
            <A href=format!("/book/{}", line.id) attr:class="open">
                <span class="title">{name}</span>
                <span class="soft">{said}</span>
            </A>
        </li>
    }
    .into_any()
}

/// A card that does not read: it is kept, and can be saved as a file.
#[component]
fn AsideCard(id: String, why: String, text: String) -> impl IntoView {
    view! {
        <li>
            <span class="open">
                <span class="title">{tr("A card that can't be read")}</span>
                <span class="soft">{why}</span>
            </span>
            <SaveUnread id text/>
        </li>
    }
}

/// A new client or practice head.
#[component]
fn NewCard(
    /// Whether it stands open.
    open: bool,
) -> impl IntoView {
    let kept = kept();
    let navigate = use_navigate();
    let name = RwSignal::new(String::new());
    let kind = RwSignal::new(Kind::Person);
    let agreed = RwSignal::new(false);
    let make = move || {
        let mut record = Record::new(
            &new_id(),
            kind.get_untracked(),
            name.get_untracked().trim(),
            &now(),
        );
        if kind.get_untracked() == Kind::Person && agreed.get_untracked() {
            record.consent.card = today();
        }
        if kept.save_record(&mut record) {
            navigate(&format!("/book/{}", record.id), Default::default());
        }
    };
    let person = move || kind.get() == Kind::Person;
    view! {
        <details class="group" open=open>
            <summary>{tr("New client or practice head")}</summary>
            <form on:submit=move |ev| {
                ev.prevent_default();
                make();
            }>
                <Options
                    ask=tr("It is")
                    name="card-kind"
                    options=vec![
                        ("person".to_owned(), tr("A client").to_owned()),
                        ("practice".to_owned(), tr("A practice head").to_owned()),
                    ]
                    chosen=Signal::derive(move || if person() { "person" } else { "practice" }.to_owned())
                    on_choose=Callback::new(move |word: String| {
                        kind.set(if word == "practice" { Kind::Practice } else { Kind::Person });
                    })
                />
                <label for="card-name">{move || if person() { tr("Name or initials") } else { tr("What you call it") }}</label>
                <input
                    id="card-name"
                    type="text"
                    autocomplete="off"
                    prop:value=name
                    on:input=move |ev| name.set(event_target_value(&ev))
                />
                {move || person().then(|| view! {
                    <Switch
                        label=tr("They know that this card is kept on this device, and agreed")
                        on=agreed
                        set=Callback::new(move |on| agreed.set(on))
                    />
                    <p class="soft">{tr("Initials are enough. There is no field for an address or a date of birth, because nothing here needs them.")}</p>
                })}
                <div class="actions"><button class="main" type="submit">{tr("Make the card")}</button></div>
            </form>
        </details>
    }
}
