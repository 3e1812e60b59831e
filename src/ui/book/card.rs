//! One client or practice head.

use super::consent::Agreement;
use super::list::visits;
use super::taken::Taken;
use crate::book::{Record, SavedCut, State};
use crate::head::Kind;
use crate::ui::deeds::FIRST_PLAN;
use crate::ui::frame::{HOME, titled, with_record};
use crate::ui::grow::{HeadLedger, Learned, Repeat, begin_with_what_is_left};
use crate::ui::judge::TrendsOf;
use crate::ui::keep::save_card;
use crate::ui::kept::{kept, new_id, now};
use crate::ui::parts::{LengthField, Line, Tags, Words, fault_said, length_fault};
use crate::ui::words;
use crate::words::tr;
use leptos::prelude::*;
use leptos_router::components::A;
use leptos_router::hooks::use_navigate;

/// The card of one client or practice head.
#[component]
pub fn CardScreen() -> impl IntoView {
    titled(tr("Card"));
    let kept = kept();
    let seen = Memo::new(move |_| kept.settings().seen);
    with_record(move |record| {
        move || {
            if seen.get() {
                return view! {
                    <h1>{tr("A card")}</h1>
                    <p class="note">{tr("The client looks on, so no names and notes are shown. The settings say so; change it there.")}</p>
                    <div class="actions">
                        <A href=HOME exact=true attr:class="button main">{tr("Your cuts")}</A>
                        <A href="/settings" attr:class="button">{tr("Settings")}</A>
                    </div>
                }
                .into_any();
            }
            view! { <Card record/> }.into_any()
        }
    })
}

/// A change of one field of a card.
fn field(
    record: RwSignal<Record>,
    of: fn(&mut Record) -> &mut String,
) -> (Signal<String>, Callback<String>) {
    let kept = kept();
    // Cloned, because only a way to change a field leads to it.
    let text = Signal::derive(move || record.with(|record| of(&mut record.clone()).clone()));
    let set = Callback::new(move |text: String| {
        kept.change_record(record, |record| *of(record) = text);
    });
    (text, set)
}

#[component]
fn Card(record: RwSignal<Record>) -> impl IntoView {
    let kept = kept();
    let person = record.with_untracked(|record| record.kind == Kind::Person);
    let invented = record.with_untracked(|record| record.invented);
    let visits = record.with_untracked(|record| kept.visits_of(&record.id));
    let count = visits.len();
    let id = record.with_untracked(|record| record.id.clone());
    let own_id = id.clone();
    let tags = Signal::derive(move || record.with(|record| record.tags.clone()));
    let set_tags = Callback::new(move |tags| {
        kept.change_record(record, |record| record.tags = tags);
    });
    let (name, set_name) = field(record, |record| &mut record.name);
    let (notes, set_notes) = field(record, |record| &mut record.notes);
    let (private, set_private) = field(record, |record| &mut record.private);
    let finished = |cut: &&SavedCut| State::of(cut) == State::Finished;
    let last = visits.iter().find(finished).cloned();
    let rows = visits.into_iter().map(|cut| view! { <VisitRow cut/> });
    let rows = (count > 0).then(|| view! { <ul class="cuts">{rows.collect_view()}</ul> });
    view! {
        <h1>{move || record.with(|record| record.called().to_owned())}</h1>
        {invented.then(|| view! { <p class="note">{tr("Of the invented salon: nobody is meant.")}</p> })}
        {last.map(|cut| view! { <Repeat cut/> })}
        <NewVisit record/>
        <h2>{tr("Visits")}</h2>
        {(count == 0).then(|| view! { <p class="soft">{tr("None yet.")}</p> })}
        {rows}
        <h2>{if person { tr("Head and hair") } else { tr("The head") }}</h2>
        <Taken record/>
        <Grows record person/>
        {if person {
            view! { <Learned record/> }.into_any()
        } else {
            view! { <HeadLedger record/> }.into_any()
        }}
        <TrendsOf record_id=id/>
        <h2>{tr("The card")}</h2>
        {person.then(|| view! { <Agreement record/> })}
        <details class="group">
            <summary>{tr("Name, tags and notes")}</summary>
            <Line
                id="card-name"
                label=if person { tr("Name or initials") } else { tr("What you call it") }
                text=name
                set=set_name
            />
            <Tags id="card-tags" tags set=set_tags/>
            <Words id="card-notes" label=tr("Notes") text=notes set=set_notes/>
            <Words id="card-private" label=tr("Private note, hidden while the client looks on") text=private set=set_private/>
        </details>
        <SaveCard id=own_id/>
        <DeleteAll record count/>
        <div class="actions">
            <A href="/book" attr:class="button">{tr("The book")}</A>
        </div>
    }
}

/// How fast a client's hair grows, or how long a practice head's was.
#[component]
fn Grows(record: RwSignal<Record>, person: bool) -> impl IntoView {
    let of: fn(&mut Record) -> &mut String = if person {
        |record| &mut record.growth
    } else {
        |record| &mut record.new_length
    };
    let (text, set) = field(record, of);
    let fault = length_fault(text);
    let (label, said) = if person {
        (
            tr("Grows in a month, if you know it"),
            tr("Left empty, the usual is taken: 1.25 cm, half an inch."),
        )
    } else {
        (
            tr("Hair when it was new"),
            tr("A practice head\u{2019}s hair does not grow: what is cut is gone."),
        )
    };
    view! {
        <LengthField id="card-length".to_owned() label text set measured=true small=person/>
        {fault_said(move || fault.get())}
        <p class="soft">{said}</p>
    }
}

/// One visit of the card.
#[component]
fn VisitRow(cut: SavedCut) -> impl IntoView {
    let state = State::of(&cut);
    let plan = match kept().plan(&cut) {
        _ if state == State::Open => cut.title.clone(),
        Some(plan) => cut.plan_said(&plan.name),
        None => tr("Unknown plan").to_owned(),
    };
    let day = words::day(&cut.day());
    let said = match state {
        State::Open => state.words().to_owned(),
        _ => [state.words(), &cut.title].join(" · "),
    };
    view! {
        <li>
            <A href=format!("/cut/{}/visit", cut.id) attr:class="open">
                <span class="title">{plan}</span>
                <span class="soft">{format!("{day} · {said}")}</span>
            </A>
        </li>
    }
}

/// Begins a new visit.
#[component]
fn NewVisit(record: RwSignal<Record>) -> impl IntoView {
    let kept = kept();
    let navigate = use_navigate();
    let begin = move |_| {
        let at = now();
        let title = tr!("Cut of {}", words::day(&at));
        let cut = record.with_untracked(|record| {
            let mut cut = record.new_cut(&new_id(), &title, FIRST_PLAN, &at);
            cut.unchosen = true;
            begin_with_what_is_left(kept, record, &mut cut);
            cut
        });
        let known = cut.tapes.values().any(|typed| !typed.trim().is_empty());
        if kept.keep_new(&cut) {
            // What is known of the head needs no second measuring.
            let next = if known { "client" } else { "head" };
            navigate(&format!("/cut/{}/{next}", cut.id), Default::default());
        }
    };
    view! {
        <div class="actions">
            <button class="main" on:click=begin>{tr("New visit")}</button>
        </div>
    }
}

/// Saves a card and all its visits as a file, for the client or another device.
#[component]
fn SaveCard(id: String) -> impl IntoView {
    let kept = kept();
    let said = RwSignal::new(String::new());
    view! {
        <div class="actions">
            <button on:click=move |_| said.set(save_card(kept, &id))>{tr("Save this card and its visits as a file")}</button>
        </div>
        <p class="soft" role="status">{said}</p>
    }
}

/// Deletes a card and all its visits after a second tap.
#[component]
fn DeleteAll(record: RwSignal<Record>, count: usize) -> impl IntoView {
    let kept = kept();
    let navigate = use_navigate();
    let asked = RwSignal::new(false);
    let delete = Callback::new(move |()| {
        let id = record.with_untracked(|record| record.id.clone());
        // The visits first: should one fail, the card still leads to it.
        let all = kept.visits_of(&id);
        let gone = all
            .iter()
            .try_for_each(|cut| kept.store().delete(&cut.id))
            .and_then(|()| kept.store().delete_record(&id));
        let there = gone.is_ok();
        kept.note(gone.map_err(|e| e.to_string()));
        if there {
            navigate("/book", Default::default());
        }
    });
    let said = move || {
        let (name, visits) = (
            record.with(|record| record.called().to_owned()),
            visits(count),
        );
        tr!("Delete {name} and {visits} for good", name, visits)
    };
    view! {
        <div class="actions" aria-live="polite">
            {move || if asked.get() {
                view! {
                    <button on:click=move |_| delete.run(())>{said}</button>
                    <button class="main" data-escape="" on:click=move |_| asked.set(false)>{tr("Keep all of it")}</button>
                }
                .into_any()
            } else {
                view! {
                    <button class="plain" on:click=move |_| asked.set(true)>{tr("Delete this card and its visits")}</button>
                }
                .into_any()
            }}
        </div>
    }
}
