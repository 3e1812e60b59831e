//! The outline with the weight beside it, laid against the hair before, the plan, or its other side.

use super::made::{Made, Which};
use crate::chart::{Against, OutlineChart};
use crate::ui::kept::kept;
use crate::ui::parts::{Options, outlined, view_of, views};
use leptos::prelude::*;

/// The picture for what was chosen.
fn look(made: &Made, view: &str, against: &str) -> Result<AnyView, String> {
    let hair = made.draped(Which::Real)?;
    let name = if made.cut.is_some() {
        "As it was cut"
    } else {
        "As planned"
    };
    let (against, other) = match against {
        "before" => (
            Against::Other(made.draped(Which::Before)?),
            Some("The hair before"),
        ),
        "plan" => (
            Against::Other(made.draped(Which::Planned)?),
            Some("As planned"),
        ),
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
            let seen = made.with_value(|made| look(made, &view.read(), &against.read()));
            seen.unwrap_or_else(|why| view! { <p class="note warn" role="alert">{why}</p> }.into_any())
        }}
    }
}
