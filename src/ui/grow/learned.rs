//! What a client's visits taught.

use crate::book::{Found, Hangs, Learned as Taught, NEEDED_GROWTH, Record, a_month, learn};
use crate::consult::Ask;
use crate::head::Kind;
use crate::measure::Length;
use crate::ui::kept::kept;
use crate::ui::words;
use crate::words::{decimal, tr};
use leptos::prelude::*;

/// How fast a client's hair grows and how far it hangs, learned from visits and offered. Shows nothing
/// while there is nothing to learn from.
#[component]
pub fn Learned(record: RwSignal<Record>) -> impl IntoView {
    let kept = kept();
    let person = record.with_untracked(|record| record.kind == Kind::Person);
    let taught = if person {
        let visits = record.with_untracked(|record| kept.visits_of(&record.id));
        learn(&visits)
    } else {
        Taught::default()
    };
    let any = taught.grown > 0 || taught.left_out > 0 || !taught.hanging.is_empty();
    any.then(|| {
        let Taught {
            growth,
            grown,
            left_out,
            hanging,
        } = taught;
        view! {
            <section class="learned" aria-labelledby="learned-head">
                <h3 id="learned-head">{tr("Learned from visits")}</h3>
                <ul>
                    {growth.map(|found| view! { <Grows record found/> })}
                    {growth.is_none().then(|| view! {
                        <li class="soft">{tr!("Growth: {grown} of {NEEDED_GROWTH} measures so far.", grown, NEEDED_GROWTH)}</li>
                    })}
                    {(left_out > 0).then(|| view! {
                        <li class="soft">
                            {tr!("Left out: {left_out}, shorter than the visit before left it, or longer than hair grows.", left_out)}
                        </li>
                    })}
                    {hanging.into_iter().map(|hangs| view! { <HangsSo record hangs/> }).collect_view()}
                </ul>
            </section>
        }
    })
}

/// How fast it grows.
#[component]
fn Grows(record: RwSignal<Record>, found: Found) -> impl IntoView {
    let kept = kept();
    let said = move || {
        let unit = kept.unit();
        let (least, most) = found.spread;
        let (least, most) = (a_month(least, unit), a_month(most, unit));
        let (rate, count) = (a_month(found.value, unit), found.count);
        tr!(
            "Grows {rate}, from {count} measures between {least} and {most}.",
            rate,
            count,
            least,
            most
        )
    };
    // As a person would type it, to the millimetre.
    let typed = Length::from_cm(found.value).as_measured(crate::measure::Unit::Cm);
    let offered = typed.clone();
    let taken = Memo::new(move |_| record.with(|record| record.growth == offered));
    view! {
        <li>
            <p>{said}</p>
            {move || {
                let typed = typed.clone();
                if taken.get() {
                    view! { <p class="soft" role="status">{tr("It stands on the card.")}</p> }.into_any()
                } else {
                    let label = tr!("Use {typed} a month", typed);
                    view! {
                        <button on:click=move |_| {
                            let typed = typed.clone();
                            kept.change_record(record, move |record| record.growth = typed);
                        }>{label}</button>
                    }
                    .into_any()
                }
            }}
        </li>
    }
}

/// How far it hangs in a region.
#[component]
fn HangsSo(record: RwSignal<Record>, hangs: Hangs) -> impl IntoView {
    let kept = kept();
    let region = hangs.region;
    let name = words::region(region);
    let ratio = |ratio: f64| decimal(format!("{ratio:.2}"));
    let said = tr!(
        "{name}: hangs at {} of its combed length, from {} measures between {} and {}.",
        ratio(hangs.found.value),
        hangs.found.count,
        ratio(hangs.found.spread.0),
        ratio(hangs.found.spread.1),
        name
    );
    let (hanging, combed) = hangs.lock();
    let unit = crate::measure::Unit::Cm;
    let typed = StoredValue::new((hanging.as_measured(unit), combed.as_measured(unit)));
    let taken = Memo::new(move |_| {
        let (hanging, combed) = typed.get_value();
        record.with(|record| {
            record.consultation.answer(Ask::LockHangs(Some(region))) == hanging
                && record.consultation.answer(Ask::LockCombed(Some(region))) == combed
        })
    });
    let take = move |_| {
        let (hanging, combed) = typed.get_value();
        kept.change_record(record, move |record| {
            record
                .consultation
                .put(Ask::LockHangs(Some(region)), &hanging);
            record
                .consultation
                .put(Ask::LockCombed(Some(region)), &combed);
        });
    };
    view! {
        <li>
            <p>{said}</p>
            {move || if taken.get() {
                view! { <p class="soft" role="status">{tr("It stands on the card.")}</p> }.into_any()
            } else {
                view! { <button on:click=take>{tr!("Use it for {}", name.to_lowercase())}</button> }.into_any()
            }}
        </li>
    }
}
