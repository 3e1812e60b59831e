//! The next cut out of one that was made.

use super::known::{rate_of, this_day};
use crate::book::{A_TRIM, SavedCut, repeat, trim_back};
use crate::measure::{Day, Length};
use crate::ui::kept::{kept, new_id, now};
use crate::ui::words;
use crate::words::tr;
use leptos::prelude::*;
use leptos_router::hooks::use_navigate;

/// Makes the next cut of a finished one and goes to its plan. Shows nothing of a cut that is not finished.
#[component]
pub fn Repeat(cut: SavedCut) -> impl IntoView {
    cut.finished().then(|| view! { <Next cut/> })
}

/// The next cut of one that is finished.
#[component]
fn Next(cut: SavedCut) -> impl IntoView {
    let kept = kept();
    let (_, rate) = rate_of(kept, &cut);
    let since = Day::read(&cut.day()).zip(this_day());
    let grown = since.map_or(Length::ZERO, |(from, today)| rate.between(from, today));
    let day = words::day(&cut.day());
    let fault = RwSignal::new(None::<String>);
    let navigate = use_navigate();
    let cut = StoredValue::new(cut);
    let make = Callback::new(move |trim: bool| {
        let made = cut.with_value(|cut| {
            let today = this_day().ok_or_else(|| tr("This device knows no day.").to_owned())?;
            let ready = cut.ready().map_err(|e| e.to_string())?;
            let walk = cut.walk.clone().unwrap_or_default();
            let followed = ready.followed(&walk).map_err(|e| e.to_string())?;
            let (id, at) = (new_id(), now());
            let make = if trim { trim_back } else { repeat };
            make(cut, &ready, &followed, (today, &rate), (&id, &at)).map_err(|e| e.to_string())
        });
        match made {
            Ok(next) if kept.keep_new(&next) => {
                navigate(&format!("/cut/{}/plan", next.id), Default::default());
            }
            Ok(_) => {}
            Err(why) => fault.set(Some(why)),
        }
    });
    let said = move || {
        if grown.cm() < A_TRIM {
            tr!(
                "Begins with the hair as it was left on {day}; nothing has grown since.",
                day
            )
        } else {
            tr!(
                "Begins with the hair as it was left on {day}, grown {} since, at {}.",
                grown.as_measured(kept.unit()),
                rate.said(kept.unit()),
                day
            )
        }
    };
    view! {
        <section class="repeat" aria-label=tr("The next cut out of this one")>
            <div class="actions">
                <button on:click=move |_| make.run(false)>{tr("Cut it again")}</button>
                {(grown.cm() >= A_TRIM).then(|| view! {
                    <button on:click=move |_| make.run(true)>{tr("Trim back to this shape")}</button>
                })}
            </div>
            <p class="soft">{said}</p>
            <div role="alert">{move || fault.get().map(|why| view! { <p class="fault">{why}</p> })}</div>
        </section>
    }
}
