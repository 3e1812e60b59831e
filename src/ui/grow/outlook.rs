//! When a cut is outgrown, and the day to return.

use super::known::rate_of;
use crate::book::{
    Known, LookedAt, Outgrown, Outlook as Told, Ready, Record, SavedCut, WornAs, calendar,
};
use crate::measure::{Day, Unit};
use crate::ui::device::{Left, save_text};
use crate::ui::kept::{Kept, kept, now};
use crate::ui::parts::{LengthField, fault_said, marked, soon, wrong};
use crate::ui::words;
use crate::words::tr;
use leptos::prelude::*;
use std::sync::Arc;

/// What a calendar's file is.
const CALENDAR: &str = "text/calendar";
/// Weeks whose levels are in the table.
const SHOWN: [usize; 2] = [4, 8];

/// What was looked at.
struct Seen {
    ready: Ready,
    told: Told,
    record: Option<Record>,
}

/// Where the ends lie in weeks to come, and the day to return. Shows nothing of a cut that is not cut, or of
/// hair that does not grow.
#[component]
pub fn Outlook(cut: RwSignal<SavedCut>) -> impl IntoView {
    let kept = kept();
    let finished = Memo::new(move |_| cut.with(SavedCut::finished));
    // Worked out once what is on the screen is painted, and again when patience changes.
    let seen = RwSignal::new(None::<Result<Arc<Seen>, String>>);
    let look = move || {
        soon(seen, move || {
            let there = cut.with_untracked(|cut| look(kept, cut));
            seen.set(Some(there.map(Arc::new)));
        });
    };
    Effect::new(move || {
        if finished.get() {
            look();
        }
    });
    move || {
        finished.get().then(|| {
            seen.with(|seen| match seen {
                None => {
                    view! { <p class="soft" role="status">{tr("Reckoning when to return…")}</p> }
                        .into_any()
                }
                Some(Err(why)) => wrong(why),
                Some(Ok(seen)) => shown(cut, Arc::clone(seen), Callback::new(move |()| look())),
            })
        })
    }
}

fn look(kept: Kept, cut: &SavedCut) -> Result<Seen, String> {
    let ready = kept.ready(cut).map_err(|e| e.to_string())?;
    let walk = cut.walk.clone().unwrap_or_default();
    let followed = ready.followed(&walk).map_err(|e| e.to_string())?;
    let (record, rate) = rate_of(kept, cut);
    let day = cut.day();
    let from = Day::read(&day).ok_or_else(|| tr("Nobody knows the day of this cut.").to_owned())?;
    let told = Told::of(cut, &ready, &followed, from, rate, record.as_ref());
    Ok(Seen {
        told: told.map_err(|e| e.to_string())?,
        ready,
        record,
    })
}

fn shown(cut: RwSignal<SavedCut>, seen: Arc<Seen>, again: Callback<()>) -> AnyView {
    let kept = kept();
    let seen = StoredValue::new(seen);
    let grows = seen.with_value(|seen| seen.told.rate.known != Known::Never);
    if !grows {
        return ().into_any();
    }
    let soonest = seen.with_value(|seen| seen.told.soonest().cloned());
    let day = soonest.as_ref().and_then(|place| place.day);
    let rate = move || {
        let rate = seen.with_value(|seen| seen.told.rate.said(kept.unit()));
        tr!("Reckoned at {rate}.", rate)
    };
    let said = move || {
        soonest
            .as_ref()
            .map(|place| kept.said(&reason(place, kept.unit())))
    };
    view! {
        <section class="outlook" aria-labelledby="outlook-head">
            <h2 id="outlook-head">{tr("When to return")}</h2>
            {match day {
                Some(day) => view! {
                    <p class="return-day">{marked(tr("By {}"), words::day(&day.to_string()))}</p>
                    <p>{said}</p>
                }
                .into_any(),
                None => view! { <p>{tr("Not outgrown within half a year.")}</p> }.into_any(),
            }}
            <p class="soft">{rate}</p>
            <Agreed cut seen suggested=day/>
            <details class="group">
                <summary>{tr("Where the ends lie, week by week")}</summary>
                {move || seen.with_value(|seen| table(kept, seen, kept.unit()))}
            </details>
            <Patience seen again/>
        </section>
    }
    .into_any()
}

/// The name of a place.
fn name(place: &Outgrown) -> &'static str {
    match place.spot {
        LookedAt::Place(landmark) => landmark.name(),
        LookedAt::Zone(zone) => place.name().unwrap_or(zone.name()),
    }
}

/// Why it is outgrown then, and what the trade says.
fn reason(place: &Outgrown, unit: Unit) -> String {
    let slack = place.slack.as_measured(unit);
    let past = match place.at {
        Some(landmark) => landmark.the().to_owned(),
        None => tr("where it ends now").to_owned(),
    };
    let (from, to) = place.worn.trade();
    let weeks = place.weeks.unwrap_or_default().floor();
    tr!(
        "{}: {slack} past {past} by then, in {weeks} weeks. Common practice is {from} to {to}.",
        name(place),
        slack,
        past,
        weeks,
        from,
        to
    )
}

/// The day that was agreed, and the file for a calendar.
#[component]
fn Agreed(
    cut: RwSignal<SavedCut>,
    seen: StoredValue<Arc<Seen>>,
    suggested: Option<Day>,
) -> impl IntoView {
    let kept = kept();
    let with_name = RwSignal::new(false);
    let became = RwSignal::new(None::<Left>);
    let agreed = Memo::new(move |_| cut.with(|cut| cut.visit.returns()));
    let set = move |text: String| {
        became.set(None);
        kept.change(cut, |cut| cut.visit.return_on = text);
    };
    let put = move |_| {
        let Some(day) = agreed.get_untracked() else {
            return;
        };
        let name = with_name
            .get_untracked()
            .then(|| cut.with_untracked(|cut| kept.name_of(cut)));
        let title = seen.with_value(|seen| match name.flatten() {
            Some(name) => tr!("Haircut: {}, {name}", seen.ready.plan.name, name),
            None => tr!("Haircut: {}", seen.ready.plan.name),
        });
        let id = cut.with_untracked(|cut| cut.id.clone());
        let text = calendar(&id, day, &title, &now());
        let left = save_text(&text, &format!("haircut-{day}.ics"), CALENDAR);
        became.set(Some(left));
    };
    let named = move || {
        cut.with(|cut| kept.name_of(cut))
            .filter(|_| !kept.settings().seen)
    };
    view! {
        <div class="return-agreed">
            <label for="return-on">{tr("Agreed for")}</label>
            <input
                type="date"
                id="return-on"
                prop:value=move || cut.with(|cut| cut.visit.return_on.clone())
                on:change=move |ev| set(event_target_value(&ev))
            />
            {move || match (agreed.get(), suggested) {
                (None, Some(day)) => view! {
                    <button class="main" on:click=move |_| set(day.to_string())>
                        {tr!("Agree on {}", words::day(&day.to_string()))}
                    </button>
                }
                .into_any(),
                (None, None) => ().into_any(),
                (Some(_), _) => view! {
                    {named().map(|name| view! {
                        <label class="tick">
                            <input
                                type="checkbox"
                                prop:checked=move || with_name.get()
                                on:change=move |ev| with_name.set(event_target_checked(&ev))
                            />
                            {tr!("With the name, {name}", name)}
                        </label>
                    })}
                    <button on:click=put>{tr("Put it in the calendar")}</button>
                }
                .into_any(),
            }}
            <p role="status" class="soft">{move || became.get().map(Left::sentence)}</p>
        </div>
    }
}

/// Every place now, in weeks to come, and when it is outgrown.
fn table(kept: Kept, seen: &Seen, unit: Unit) -> AnyView {
    let row = |place: &Outgrown| {
        let at = |weeks: usize| {
            let level = place.level(&seen.ready, weeks);
            level.map_or(String::new(), |level| level.place(unit))
        };
        let later = SHOWN.map(|weeks| view! { <td>{at(weeks)}</td> });
        let due = place
            .day
            .map_or(tr("later").to_owned(), |day| words::day(&day.to_string()));
        let (from, to) = place.worn.trade();
        view! {
            <tr>
                <th scope="row">{kept.said(name(place))}</th>
                <td>{at(0)}</td>
                {later.into_iter().collect_view()}
                <td>{due}</td>
                <td class="number">{tr!("{from} to {to}", from, to)}</td>
            </tr>
        }
    };
    let heads = SHOWN.map(|weeks| view! { <th scope="col">{tr!("In {weeks} weeks", weeks)}</th> });
    view! {
        <div class="scrolls" tabindex="0" role="region" aria-label=tr("Where the ends lie, week by week")>
            <table class="weeks">
                <caption>{tr("Where the ends lie, dry. The last column is common practice, in weeks.")}</caption>
                <thead>
                    <tr>
                        <th scope="col">{tr("Place")}</th>
                        <th scope="col">{tr("Now")}</th>
                        {heads.into_iter().collect_view()}
                        <th scope="col">{tr("Outgrown")}</th>
                        <th scope="col" class="number">{tr("Usual")}</th>
                    </tr>
                </thead>
                <tbody>{seen.told.places.iter().map(row).collect_view()}</tbody>
            </table>
        </div>
    }
    .into_any()
}

/// How much lower ends may hang, kept on the card; nothing for a cut that is nobody's.
#[component]
fn Patience(seen: StoredValue<Arc<Seen>>, again: Callback<()>) -> impl IntoView {
    let kept = kept();
    let record = seen.with_value(|seen| seen.record.clone());
    record.map(|record| {
        let there = |worn: &WornAs| {
            seen.with_value(|seen| seen.told.places.iter().any(|place| place.worn == *worn))
        };
        let kinds: Vec<WornAs> = WornAs::ALL.into_iter().filter(there).collect();
        let record = RwSignal::new(record);
        let field = move |worn: WornAs| {
            let text = Signal::derive(move || {
                record.with(|record| match record.outgrown.get(worn.word()) {
                    Some(typed) => typed.clone(),
                    None => worn.slack(None).as_measured(Unit::Cm),
                })
            });
            let set = Callback::new(move |typed: String| {
                kept.change_record(record, |record| {
                    record.outgrown.insert(worn.word().to_owned(), typed);
                });
                again.run(());
            });
            view! {
                <LengthField
                    id=format!("outgrown-{}", worn.word())
                    label=worn.name()
                    text
                    set
                    measured=true
                />
                {fault_said(move || WornAs::read(&text.get()).err())}
            }
        };
        view! {
            <details class="group">
                <summary>{tr("When it counts as outgrown")}</summary>
                <p class="soft">
                    {tr("How much lower the ends may hang than they were agreed to. Judgement; it is kept on this card.")}
                </p>
                {kinds.into_iter().map(field).collect_view()}
            </details>
        }
    })
}
