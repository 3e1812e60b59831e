//! How much is kept, and whether the browser keeps it.

use crate::store::Room;
use crate::ui::device::{ask_to_last, lasts};
use crate::ui::kept::kept;
use crate::ui::parts::wrong;
use crate::words::tr;
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
            Err(why) => wrong(why),
            Ok(room) => view! { <Meter room/> }.into_any(),
        }}
        <Lasting/>
    }
}

/// How many cuts and cards there are, in words.
pub fn counted(room: Room) -> String {
    let cuts = tr!("{n} cut" | "{n} cuts" % room.cuts);
    let cards = tr!("{n} card" | "{n} cards" % room.records);
    tr!("{cuts} and {cards}", cuts, cards)
}

#[component]
fn Meter(room: Room) -> impl IntoView {
    let kept = tr!(
        "{} are kept in this browser, on this device only.",
        counted(room)
    );
    let used = tr!(
        "About {} % of the room that a browser usually gives is used.",
        room.percent()
    );
    let little = tr(
        "There is little room left. Save everything as a file and put it away safely. Then delete cuts you no longer need.",
    );
    view! {
        <p>{kept}</p>
        {room.nearly_full().then(|| view! { <p class="note warn" role="status">{little}</p> })}
        <label for="room">{used}</label>
        <meter id="room" min="0" max=Room::MOST.to_string() value=room.used.to_string()>{room.percent()} " %"</meter>
    }
}

/// Whether the browser keeps it when the device runs out of room.
#[component]
fn Lasting() -> impl IntoView {
    let said = RwSignal::new("");
    let promised = RwSignal::new(false);
    let told = move |answer: Option<bool>| {
        promised.try_set(answer == Some(true));
        said.try_set(match answer {
            Some(true) => tr("The browser promised to clear nothing of Tautline by itself, also when the device is short of room. Only you can clear it."),
            Some(false) => tr("The browser has promised nothing: short of room, it may clear everything here. Putting Tautline on the home screen helps; a file saved now and then helps surely."),
            None => tr("This browser can't be asked whether it keeps what is here when the device is short of room. Save a file now and then."),
        });
    };
    spawn_local(async move { told(lasts().await) });
    let ask = move |_| {
        spawn_local(async move { told(ask_to_last().await) });
    };
    view! {
        {move || (!promised.get()).then(|| view! {
            <div class="actions"><button on:click=ask>{tr("Ask the browser to keep it")}</button></div>
        })}
        <p class="soft" role="status">{move || said.get()}</p>
    }
}
