//! The hair that is left on a practice head.

use crate::book::{Attempt, Ledger, Possible, Record, Still};
use crate::head::Kind;
use crate::ui::frame::address;
use crate::ui::kept::{Kept, kept};
use crate::ui::parts::soon;
use crate::ui::words;
use crate::words::{tr, tr_in};
use leptos::prelude::*;

/// What is left on a practice head, zone by zone, and what can still be cut on it. Shows nothing of a
/// client.
#[component]
pub fn HeadLedger(record: RwSignal<Record>) -> impl IntoView {
    let kept = kept();
    let practice = record.with_untracked(|record| record.kind == Kind::Practice);
    // Only what it is worked out from.
    let of = Memo::new(move |_| {
        record.with(|r| {
            (
                r.id.clone(),
                r.new_length.clone(),
                r.tapes.clone(),
                r.shape,
                r.consultation.clone(),
            )
        })
    });
    let ledger = move || {
        // Read, not only tracked: a memo that nobody ever read follows nothing.
        of.with(|_| ());
        record.with_untracked(|record| Ledger::of(record, &kept.visits_of(&record.id)))
    };
    practice.then(|| {
        view! {
            <section class="head-ledger" aria-labelledby="ledger-head">
                <h2 id="ledger-head">{tr("Hair that is left")}</h2>
                {move || match ledger() {
                    Some(ledger) => remaining(kept, ledger),
                    None => view! { <p class="note">{tr("The tapes of this head contradict each other: nothing can be reckoned.")}</p> }.into_any(),
                }}
            </section>
        }
    })
}

fn remaining(kept: Kept, ledger: Ledger) -> AnyView {
    let ledger = StoredValue::new(ledger);
    let new = move || {
        let unit = kept.unit();
        ledger.with_value(|ledger| {
            let new = ledger.new.as_measured(unit);
            if ledger.said {
                tr!("New it was {new} all over. Nothing grows back.", new)
            } else {
                tr!(
                    "Nobody said how long it was when it was new: {new} all over is taken.",
                    new
                )
            }
        })
    };
    let rows = move || {
        let unit = kept.unit();
        ledger.with_value(|ledger| {
            let row = |zone: &crate::book::Zoned| {
                let share = ledger.percent(zone);
                view! {
                    <tr>
                        <th scope="row">{words::region(zone.region)}</th>
                        <td class="bar-cell" aria-hidden="true">
                            <svg class="left-bar" viewBox="0 0 100 10" preserveAspectRatio="none">
                                <rect class="left-new" width="100" height="10"></rect>
                                <rect class="left-now" width=share.to_string() height="10"></rect>
                            </svg>
                        </td>
                        <td class="number">{zone.mean.measured_number(unit)}</td>
                        <td class="number">{zone.shortest.measured_number(unit)}</td>
                        <td class="number">{format!("{share} %")}</td>
                    </tr>
                }
            };
            ledger.remaining.iter().map(row).collect_view()
        })
    };
    let attempts = ledger.with_value(|ledger| ledger.attempts.clone());
    let unread = ledger.with_value(|ledger| ledger.unread.clone());
    view! {
        <p class="soft">{new}</p>
        <table class="left-table">
            <caption>{move || tr!("Hair that is left, in {}", kept.unit().word())}</caption>
            <thead>
                <tr>
                    <th scope="col">{tr("Zone")}</th>
                    <td aria-hidden="true"></td>
                    <th scope="col" class="number">{tr("Mean")}</th>
                    <th scope="col" class="number">{tr("Shortest")}</th>
                    <th scope="col" class="number">{tr("Of new")}</th>
                </tr>
            </thead>
            <tbody>{rows}</tbody>
        </table>
        <Attempts kept attempts/>
        {(!unread.is_empty()).then(|| view! {
            <p class="note">{tr!("Not counted, because they can\u{2019}t be worked out: {}.", unread.join(", "))}</p>
        })}
        <StillPossible kept ledger/>
    }
    .into_any()
}

/// Every attempt, and the shortest and the mean that it left.
#[component]
fn Attempts(kept: Kept, attempts: Vec<Attempt>) -> impl IntoView {
    (!attempts.is_empty()).then(|| {
        let row = move |attempt: Attempt| {
            let said = move || {
                let unit = kept.unit();
                let zone = |z: &crate::book::Zoned| {
                    format!(
                        "{} {}",
                        words::region(z.region).to_lowercase(),
                        z.mean.measured_number(unit)
                    )
                };
                let all: Vec<String> = attempt.left.iter().map(zone).collect();
                format!("{} {}", all.join(", "), unit.mark())
            };
            view! {
                <li>
                    <a href=address(&format!("/cut/{}/visit", attempt.id))>{attempt.title.clone()}</a>
                    " " <span class="soft">{words::day(&attempt.day)}</span>
                    <p class="soft">{move || tr!("Left, mean: {}", said())}</p>
                </li>
            }
        };
        view! {
            <details class="group">
                <summary>{tr!("Attempts: {}", attempts.len())}</summary>
                <ol>{attempts.into_iter().map(row).collect_view()}</ol>
            </details>
        }
    })
}

/// What can still be cut, and in which order; worked out when it is asked for.
#[component]
fn StillPossible(kept: Kept, ledger: StoredValue<Ledger>) -> impl IntoView {
    let told = RwSignal::new(None::<Still>);
    let working = RwSignal::new(false);
    let work = move |_| {
        working.set(true);
        soon(told, move || {
            told.set(Some(ledger.with_value(Ledger::still)));
            working.set(false);
        });
    };
    let line = move |cut: &Possible| view! { <li>{kept.said(&cut.name)}</li> };
    let row = move |cut: &Possible| {
        let can = if cut.can_be_made() {
            tr("✓ Yes")
        } else {
            tr("✗ No")
        };
        view! {
            <tr>
                <th scope="row">{kept.said(&cut.name)}</th>
                <td>{can}</td>
                <td class="number">{format!("{} %", cut.percent())}</td>
            </tr>
        }
    };
    view! {
        <h3>{tr("What can still be cut")}</h3>
        <div class="actions">
            <button on:click=work prop:disabled=move || working.get()>{tr("Work it out")}</button>
        </div>
        <div aria-live="polite">
            {move || working.get().then(|| view! { <p class="soft">{tr("Trying every cut…")}</p> })}
            {move || told.with(|told| told.as_ref().map(|Still { each, order }| view! {
                {if order.is_empty() {
                    view! { <p>{tr("None of the built-in cuts can be made as it should.")}</p> }.into_any()
                } else {
                    view! {
                        <p>{tr("In this order the most of them can still be made, each on what the one before leaves:")}</p>
                        <ol class="order">{order.iter().map(line).collect_view()}</ol>
                    }
                    .into_any()
                }}
                <details class="group">
                    <summary>{tr("Every cut by itself")}</summary>
                    <table>
                        <caption>{tr("Sections whose hair still reaches the line")}</caption>
                        <thead>
                            <tr>
                                <th scope="col">{tr_in("a haircut", "Cut")}</th>
                                <th scope="col">{tr("As it should")}</th>
                                <th scope="col" class="number">{tr_in("sections that do", "Reach")}</th>
                            </tr>
                        </thead>
                        <tbody>{each.iter().map(row).collect_view()}</tbody>
                    </table>
                </details>
            }))}
        </div>
    }
}
