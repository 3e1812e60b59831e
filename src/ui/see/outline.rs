//! The outline with the weight beside it, laid against the hair before, the plan, or its other side.

use super::ahead::ahead;
use super::made::{Made, Which};
use crate::chart::{Against, OutlineChart};
use crate::store::Settings;
use crate::ui::kept::{Kept, kept};
use crate::ui::parts::{Options, Outlined, outlined, view_of, views, wrong};
use crate::words::tr;
use leptos::prelude::*;
use std::sync::Arc;

/// What an outline shows: from where, against what, and how it is read.
#[derive(Clone, PartialEq)]
pub struct Seen {
    view: String,
    against: String,
    settings: Settings,
}

/// The picture for what was chosen; drawn the first time it is asked for.
fn look(made: &Made, kept: Kept, seen: Seen) -> Result<Arc<Outlined>, String> {
    let key = seen.clone();
    made.outlines.get(key, || draw(made, kept, &seen))
}

fn draw(made: &Made, kept: Kept, seen: &Seen) -> Result<Outlined, String> {
    let hair = made.draped(Which::Real)?;
    let name = if made.cut.is_some() {
        tr("As it was cut")
    } else {
        tr("As planned")
    };
    let (against, other) = match seen.against.as_str() {
        "before" => (
            Against::Other(made.draped(Which::Before)?),
            Some(if made.ready.hair.left.is_some() {
                tr("The hair before, as the last visit left it, grown")
            } else {
                tr("The hair before")
            }),
        ),
        "plan" => (
            Against::Other(made.draped(Which::Planned)?),
            Some(tr("As planned")),
        ),
        "side" => (Against::OtherSide, Some(tr("The other side, mirrored"))),
        _ => (Against::Nothing, None),
    };
    let chart = OutlineChart {
        view: view_of(&seen.view),
        hair,
        against,
        unit: seen.settings.unit,
    };
    Outlined::of(kept, &chart, name, other, "")
}

/// The outline of one cut.
#[component]
pub fn Outline(made: StoredValue<Made>) -> impl IntoView {
    let kept = kept();
    let view = RwSignal::new("left".to_owned());
    let against = RwSignal::new("before".to_owned());
    let option = |(value, words): (&str, &str)| (value.to_owned(), words.to_owned());
    let was_cut = made.with_value(|made| made.cut.is_some());
    let laid = [
        Some(("before", tr("Before"))),
        was_cut.then_some(("plan", tr("The plan"))),
        Some(("side", tr("Other side"))),
        Some(("nothing", tr("Nothing"))),
    ];
    let drawn = Memo::new(move |_| {
        let seen = Seen {
            view: view.get(),
            against: against.get(),
            settings: kept.settings(),
        };
        made.with_value(|made| look(made, kept, seen))
    });
    // The other views, while nobody waits for them.
    let next = move || {
        let (against, settings) = (against.get_untracked(), kept.settings_now());
        made.with_value(|made| {
            let mut all = views().into_iter().map(|(view, _)| Seen {
                view,
                against: against.clone(),
                settings,
            });
            let next = all.find(|seen| !made.outlines.has(seen));
            next.is_some_and(|seen| look(made, kept, seen).is_ok())
        })
    };
    let here = StoredValue::new(());
    Effect::new(move || {
        against.track();
        ahead(here, next);
    });
    let failed = Memo::new(move |_| drawn.with(|drawn| drawn.as_ref().err().cloned()));
    view! {
        <div class="outline-choices">
            <Options ask=tr("Seen from") name="view" options=views() chosen=view on_choose=Callback::new(move |v| view.set(v))/>
            <Options ask=tr("Laid against") name="against" options=laid.into_iter().flatten().map(option).collect() chosen=against on_choose=Callback::new(move |v| against.set(v))/>
        </div>
        {move || match failed.get() {
            Some(why) => wrong(why),
            None => outlined(Signal::derive(move || {
                drawn.with(|drawn| drawn.clone().unwrap_or_default())
            })),
        }}
    }
}
