//! The outline with the weight beside it, laid against the hair before, the plan, or its other side.

use super::Made;
use crate::chart::{Against, Draped, OutlineChart};
use crate::cut::Outcome;
use crate::store::Ready;
use crate::ui::kept::kept;
use crate::ui::parts::{Options, outlined, view_of, views};
use leptos::prelude::*;
use std::sync::OnceLock;

/// What was let down already.
#[derive(Default)]
struct Hung {
    before: Once,
    planned: Once,
    cut: Once,
}

type Once = OnceLock<Result<Draped, String>>;

/// Lets an outcome down the first time it is asked for.
fn hang<'a>(once: &'a Once, ready: &Ready, outcome: &Outcome) -> Result<&'a Draped, String> {
    let drape = || Draped::of(&ready.job(), outcome).map_err(|e| e.to_string());
    once.get_or_init(drape).as_ref().map_err(Clone::clone)
}

/// The picture for what was chosen.
fn look(made: &Made, hung: &Hung, view: &str, against: &str) -> Result<AnyView, String> {
    let planned = || hang(&hung.planned, &made.ready, &made.planned);
    let (hair, name) = match &made.cut {
        Some((_, cut)) => (hang(&hung.cut, &made.ready, cut)?, "As it was cut"),
        None => (planned()?, "As planned"),
    };
    let (against, other) = match against {
        "before" => {
            let before = hang(&hung.before, &made.ready, &made.before)?;
            (Against::Other(before), Some("The hair before"))
        }
        "plan" => (Against::Other(planned()?), Some("As planned")),
        "side" => (Against::OtherSide, Some("The other side, mirrored")),
        _ => (Against::Nothing, None),
    };
    let chart = OutlineChart {
        view: view_of(view),
        hair,
        against,
        unit: kept().unit(),
    };
    outlined(&chart, name, other, "")
}

/// The outline of one cut.
#[component]
pub fn Outline(made: StoredValue<Made>) -> impl IntoView {
    let hung = StoredValue::new(Hung::default());
    let view = RwSignal::new("left".to_owned());
    let against = RwSignal::new("before".to_owned());
    let option = |(value, words): (&str, &str)| (value.to_owned(), words.to_owned());
    let was_cut = made.with_value(|made| made.cut.is_some());
    let laid = [
        Some(("before", "Before")),
        was_cut.then_some(("plan", "The plan")),
        Some(("side", "Other side")),
        Some(("nothing", "Nothing")),
    ];
    view! {
        <div class="outline-choices">
            <Options ask="Seen from" name="view" options=views() chosen=view on_choose=Callback::new(move |v| view.set(v))/>
            <Options ask="Laid against" name="against" options=laid.into_iter().flatten().map(option).collect() chosen=against on_choose=Callback::new(move |v| against.set(v))/>
        </div>
        {move || {
            let seen = made.with_value(|made| {
                hung.with_value(|hung| look(made, hung, &view.read(), &against.read()))
            });
            seen.unwrap_or_else(|why| view! { <p class="note warn" role="alert">{why}</p> }.into_any())
        }}
    }
}
