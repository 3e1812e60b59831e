//! Screens whose code comes when it is asked for.
//!
//! The first screen must stand quickly on a slow line, so only its code is in the part of the app that
//! is loaded first. The others lie in parts of their own: the offline worker fetches them all once the
//! first screen stands, so that later, with no network, each is there. `screens` says what lies where.

use crate::words::tr;
use leptos::prelude::*;
use leptos::wasm_split::SplitLoaderError;
use std::future::Future;
use std::pin::Pin;
use std::task::{Context, Poll, Waker};
use std::time::Duration;
use wasm_bindgen_futures::spawn_local;

/// Code on its way, or what it gave.
pub type Coming<T> = Pin<Box<dyn Future<Output = Result<T, SplitLoaderError>>>>;

/// How far a part is.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Stand {
    /// It is being fetched.
    OnItsWay,
    /// It can be used.
    Here,
    /// It could not be fetched.
    Failed,
}

/// What is there already, without waiting.
fn at_once<T>(coming: &mut Coming<T>) -> Option<Result<T, SplitLoaderError>> {
    match coming
        .as_mut()
        .poll(&mut Context::from_waker(Waker::noop()))
    {
        Poll::Ready(came) => Some(came),
        Poll::Pending => None,
    }
}

/// Shows what `show` gives once `fetch` has brought its code: at once if it is here already.
pub fn later<F, S>(fetch: F, show: S) -> AnyView
where
    F: Fn() -> Coming<()> + Copy + Send + 'static,
    S: Fn() -> Coming<AnyView> + Send + 'static,
{
    let stand = RwSignal::new(Stand::OnItsWay);
    let ask = move || {
        let mut coming = fetch();
        let stands = |came: &Result<(), _>| match came {
            Ok(()) => Stand::Here,
            Err(_) => Stand::Failed,
        };
        if let Some(came) = at_once(&mut coming) {
            stand.set(stands(&came));
            return;
        }
        stand.set(Stand::OnItsWay);
        spawn_local(async move {
            let stands = stands(&coming.await);
            // In a turn of its own: building a screen takes a while, and so did this. The screen may have
            // been left meanwhile.
            set_timeout(move || _ = stand.try_set(stands), Duration::ZERO);
        });
    };
    ask();
    let stand_now = Memo::new(move |_| stand.get());
    (move || match stand_now.get() {
        Stand::OnItsWay => {
            view! { <p class="soft coming" role="status">{tr("Opening…")}</p> }.into_any()
        }
        // Built here, so that it belongs to this place and goes with it.
        Stand::Here => match at_once(&mut show()) {
            Some(Ok(screen)) => screen,
            _ => failed(ask),
        },
        Stand::Failed => failed(ask),
    })
    .into_any()
}

/// What is said when a part can't be fetched.
fn failed(ask: impl Fn() + 'static) -> AnyView {
    view! {
        <h1>{tr("This screen could not be fetched")}</h1>
        <p role="alert">
            {tr("Tautline was not yet on this device as a whole, and the network did not answer. What you saved is safe. Look whether there is a network, then try again.")}
        </p>
        <div class="actions"><button class="main" on:click=move |_| ask()>{tr("Try again")}</button></div>
    }
    .into_any()
}
