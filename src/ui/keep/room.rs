//! How much is kept, and whether the browser keeps it.

use crate::store::Room;
use crate::ui::device::{ask_to_last, lasts};
use crate::ui::kept::kept;
use leptos::prelude::*;
use leptos::task::spawn_local;

/// How much is kept here.
#[component]
pub fn RoomHere(changed: RwSignal<u32>) -> impl IntoView {
    let kept = kept();
    let room = move || {
        changed.track();
        kept.store().room()
    };
    view! {
        {move || match room() {
            Err(why) => view! { <p class="note warn" role="alert">{why.to_string()}</p> }.into_any(),
            Ok(room) => view! { <Meter room/> }.into_any(),
        }}
        <Lasting/>
    }
}

/// How many cuts and cards there are, in words.
pub fn counted(room: Room) -> String {
    let many = |n: usize, one: &str| format!("{n} {one}{}", if n == 1 { "" } else { "s" });
    [many(room.cuts, "cut"), many(room.records, "card")].join(" and ")
}

#[component]
fn Meter(room: Room) -> impl IntoView {
    let kept = format!(
        "{} are kept in this browser, on this device only.",
        counted(room)
    );
    let used = format!(
        "About {} % of the room that a browser gives is used.",
        room.percent()
    );
    view! {
        <p>{kept}</p>
        <label for="room">{used}</label>
        <meter id="room" min="0" max=Room::MOST.to_string() value=room.used.to_string()>{room.percent()} " %"</meter>
    }
}

/// Whether the browser keeps it when the device runs out of room.
#[component]
fn Lasting() -> impl IntoView {
    let said = RwSignal::new("");
    let promised = RwSignal::new(false);
    const KEEPS: &str = "The browser promised to clear nothing of Tautline by itself.";
    spawn_local(async move {
        if lasts().await == Some(true) {
            promised.try_set(true);
            said.try_set(KEEPS);
        }
    });
    let ask = move |_| {
        spawn_local(async move {
            let answer = ask_to_last().await;
            promised.try_set(answer == Some(true));
            said.try_set(match answer {
                Some(true) => KEEPS,
                Some(false) => "The browser promised nothing: short of room, it may clear everything. Putting Tautline on the home screen helps; a file saved now and then helps surely.",
                None => "This browser can't be asked. Save a file now and then.",
            });
        });
    };
    view! {
        {move || (!promised.get()).then(|| view! {
            <div class="actions"><button on:click=ask>"Ask the browser to keep it"</button></div>
        })}
        <p class="soft" role="status">{move || said.get()}</p>
    }
}
