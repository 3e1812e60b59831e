//! The invented salon, loaded and taken away again.

use crate::book::Salon;
use crate::measure::Day;
use crate::ui::kept::{Kept, kept, today};
use crate::words::tr;
use leptos::prelude::*;
use std::time::Duration;

/// Loads the invented salon, or takes it away where it is there.
#[component]
pub fn InventedSalon(
    /// Whether any of it is there.
    there: bool,
    /// Told when something changed.
    changed: Callback<()>,
) -> impl IntoView {
    let kept = kept();
    let loading = RwSignal::new(None::<usize>);
    let load = move |_| {
        if loading.get_untracked().is_none()
            && let Some(today) = Day::read(&today())
        {
            loading.set(Some(0));
            load_next(kept, Salon::new(today), 0, loading, changed);
        }
    };
    let take_away = move |_| {
        let gone = kept.store().take_invented_away();
        kept.note(gone.map_err(|e| e.to_string()));
        changed.run(());
    };
    let said = move || {
        let done = loading.get()?;
        Some(tr!("{done} cards made …", done))
    };
    view! {
        <details class="group">
            <summary>{tr("An invented salon to look at")}</summary>
            <p class="soft">{tr("Some clients and practice heads with visits, all made up and marked so. They go away again in one press, and nothing of yours with them.")}</p>
            <div class="actions">
                {if there {
                    view! { <button on:click=take_away>{tr("Take the invented salon away")}</button> }.into_any()
                } else {
                    view! { <button on:click=load>{tr("Load the invented salon")}</button> }.into_any()
                }}
            </div>
            <p role="status" class="soft">{said}</p>
        </details>
    }
}

/// Makes one card after the other, so that the screen never waits for all of them.
fn load_next(
    kept: Kept,
    salon: Salon,
    place: usize,
    loading: RwSignal<Option<usize>>,
    changed: Callback<()>,
) {
    let next = move || {
        let Some((mut record, visits)) = salon.card(place) else {
            loading.try_set(None);
            changed.try_run(());
            return;
        };
        for visit in visits {
            let saved = kept.store().save(&visit);
            if let Err(why) = saved {
                kept.note(Err(why.to_string()));
                loading.try_set(None);
                changed.try_run(());
                return;
            }
        }
        // The screen may have been left meanwhile: what is loaded then stays.
        if kept.save_record(&mut record) && loading.try_set(Some(place + 1)).is_none() {
            load_next(kept, salon, place + 1, loading, changed);
        }
    };
    set_timeout(next, Duration::ZERO);
}
