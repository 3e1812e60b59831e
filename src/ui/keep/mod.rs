//! Everything out and back: the file of all that is kept, sealed or plain, and the lock.
//!
//! `room` says how much is kept, `out` saves it, `bring` takes a file in, `lock` asks for a PIN.

mod bring;
mod lock;
mod out;
mod room;

pub use lock::{LockScreen, locked};
pub use out::save_card;

use crate::ui::frame::titled;
use crate::ui::kept::kept;
use crate::words::tr;
use leptos::prelude::*;

/// Everything out and back.
#[component]
pub fn KeepScreen() -> impl IntoView {
    titled(tr("Out and back"));
    kept().opened_none();
    let changed = RwSignal::new(0_u32);
    view! {
        <h1>{tr("Everything out and back")}</h1>
        <room::RoomHere changed/>
        <out::Out/>
        <bring::In changed/>
        <lock::LockPart/>
    }
}
