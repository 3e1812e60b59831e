//! The lock: the screen that asks for the PIN, and where it is switched on and off.

use crate::book::State;
use crate::store::{Forgotten, LOCK_CHANCE, LocalShelf, Lock, Store, Tried, asks_again};
use crate::ui::device::chance;
use crate::ui::frame::titled;
use crate::ui::parts::soon;
use crate::words::{noted, tr};
use leptos::prelude::*;

const HONEST: &str = noted(
    "It keeps eyes off the screen, no more: nothing is encrypted, and who can open this browser's storage can read it. A sealed file is encrypted.",
);

fn store() -> Store<LocalShelf> {
    Store::new(LocalShelf)
}

fn keep(lock: Option<&Lock>) -> Result<(), String> {
    store().set_lock(lock).map_err(|e| e.to_string())
}

/// Whether a cut is at the chair: then nobody waits long.
fn at_chair() -> bool {
    let lines = store().lines(&[]).unwrap_or_default();
    lines
        .cuts
        .iter()
        .any(|line| line.state == State::AtTheChair)
}

/// Whether the app is locked: at the start if there is a lock, and again when it was out of sight for five
/// minutes, but not at the chair.
pub fn locked() -> RwSignal<bool> {
    let locked = RwSignal::new(store().has_lock());
    let hidden = StoredValue::new(None::<f64>);
    window_event_listener_untyped("visibilitychange", move |_| {
        if document().hidden() {
            return hidden.set_value(Some(js_sys::Date::now()));
        }
        let since = hidden.get_value();
        hidden.set_value(None);
        let walking = window()
            .location()
            .pathname()
            .is_ok_and(|path| path.ends_with("/walk"));
        let long = since.is_some_and(|since| asks_again(since, js_sys::Date::now()));
        if long && !walking && store().has_lock() {
            locked.set(true);
        }
    });
    locked
}

/// Asks for the PIN and shows nothing else.
#[component]
pub fn LockScreen(locked: RwSignal<bool>) -> impl IntoView {
    titled(tr("Locked"));
    let typed = RwSignal::new(String::new());
    let said = RwSignal::new(String::new());
    if store().lock().is_none() {
        // It does not read, and locks nobody out.
        locked.set(false);
    }
    let open = move || {
        let Some(mut lock) = store().lock() else {
            return locked.set(false);
        };
        let tried = lock.try_pin(&typed.get_untracked(), at_chair(), js_sys::Date::now());
        // Where it can't be kept the tries are not counted; the lock holds all the same.
        let _ = keep(Some(&lock));
        typed.set(String::new());
        match tried {
            Tried::Open => locked.set(false),
            Tried::Wrong => said.set(tr("That is not the PIN.").to_owned()),
            Tried::Wait(seconds) => said.set(tr!("Try again in {seconds} seconds.", seconds)),
        }
    };
    let submit = move |ev: leptos::ev::SubmitEvent| {
        ev.prevent_default();
        said.set(tr("Looking…").to_owned());
        soon(said, open);
    };
    view! {
        <main class="locked">
            <h1>{tr("Tautline is locked")}</h1>
            <form on:submit=submit>
                <label for="pin">{tr("PIN")}</label>
                <input type="password" id="pin" inputmode="numeric" autocomplete="off" maxlength="12"
                    prop:value=move || typed.get() on:input=move |ev| typed.set(event_target_value(&ev))/>
                <div class="actions"><button class="main" type="submit">{tr("Open")}</button></div>
            </form>
            <p class="note" role="status">{move || said.get()}</p>
            <Forgot locked/>
        </main>
    }
}

/// What is done about a forgotten PIN.
#[component]
fn Forgot(locked: RwSignal<bool>) -> impl IntoView {
    let turned = RwSignal::new(0_u32);
    let now = js_sys::Date::now;
    let stands = move || {
        turned.track();
        store()
            .lock()
            .map_or(Forgotten::No, |lock| lock.forgotten(now()))
    };
    let forget = move |_| {
        if let Some(mut lock) = store().lock() {
            lock.forget(now());
            let _ = keep(Some(&lock));
            turned.update(|n| *n += 1);
        }
    };
    let off = move |_| {
        if keep(None).is_ok() {
            locked.set(false);
        }
    };
    view! {
        <details class="group keep-part">
            <summary>{tr("I forgot it")}</summary>
            <p>{tr("Then the lock can be taken off, but not at once: a day after it was asked for. Nothing that is kept is lost. The PIN still opens it meanwhile.")}</p>
            {move || match stands() {
                Forgotten::No => view! { <button on:click=forget>{tr("Ask for the lock to be taken off")}</button> }.into_any(),
                Forgotten::Wait(hours) => view! {
                    <p role="status">{tr!("Asked for. It can be taken off in about {hours} hours, here.", hours)}</p>
                }
                .into_any(),
                Forgotten::Over => view! { <button on:click=off>{tr("Take the lock off now")}</button> }.into_any(),
            }}
        </details>
    }
}

/// Switching the lock on and off.
#[component]
pub fn LockPart() -> impl IntoView {
    let on = RwSignal::new(store().lock().is_some());
    let typed = RwSignal::new(String::new());
    let said = RwSignal::new(String::new());
    let switch_on = move || {
        let Some(chance) = chance::<LOCK_CHANCE>() else {
            return Err(
                tr("This browser has no source of chance, so the lock stays off.").to_owned(),
            );
        };
        let lock = Lock::new(&typed.get_untracked(), &chance).map_err(|e| e.to_string())?;
        keep(Some(&lock))?;
        on.set(true);
        Ok(tr("The lock is on. It asks at the next start.").to_owned())
    };
    let switch_off = move || {
        let Some(mut lock) = store().lock() else {
            on.set(false);
            return Ok(tr("The lock is off.").to_owned());
        };
        let tried = lock.try_pin(&typed.get_untracked(), at_chair(), js_sys::Date::now());
        keep(Some(&lock).filter(|_| tried != Tried::Open))?;
        on.set(tried != Tried::Open);
        Ok(match tried {
            Tried::Open => tr("The lock is off.").to_owned(),
            Tried::Wrong => tr("That is not the PIN. The lock is still on.").to_owned(),
            Tried::Wait(seconds) => tr!("Try again in {seconds} seconds.", seconds),
        })
    };
    let pressed = move |_| {
        said.set(tr("A moment…").to_owned());
        let work = move || {
            let done = if on.get_untracked() {
                switch_off()
            } else {
                switch_on()
            };
            said.set(done.unwrap_or_else(|why| why));
            typed.set(String::new());
        };
        soon(said, work);
    };
    view! {
        <h2>{tr("The lock")}</h2>
        <p>{move || if on.get() { tr("It is on: a PIN is asked for at the start, and after five minutes out of sight. At the chair those five minutes do not run.") } else { tr("It is off. Switched on, it asks for a PIN at the start, and after five minutes out of sight. At the chair those five minutes do not run.") }}</p>
        <p class="soft">{tr(HONEST)}</p>
        <label for="lock-pin">{move || if on.get() { tr("The PIN") } else { tr("A PIN of 4 to 12 digits") }}</label>
        <input type="password" id="lock-pin" inputmode="numeric" autocomplete="off" maxlength="12"
            prop:value=move || typed.get() on:input=move |ev| typed.set(event_target_value(&ev))/>
        <div class="actions">
            <button on:click=pressed>{move || if on.get() { tr("Switch the lock off") } else { tr("Switch the lock on") }}</button>
        </div>
        <p class="soft" role="status">{move || said.get()}</p>
    }
}
