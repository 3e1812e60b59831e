//! The profile with its handles.

use super::{Aimer, levels};
use crate::chart::{AimFrame, aim_picture};
use crate::cut::{Height, What};
use crate::ui::kept::kept;
use crate::words::tr;
use leptos::ev::{KeyboardEvent, PointerEvent};
use leptos::html;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;

/// The profile as the plan stands, and a handle for each thing that lies at one height.
#[component]
pub(super) fn AimPicture(aimer: Aimer) -> impl IntoView {
    let standing = aimer.standing();
    let (svg, frame) = aim_picture(
        &standing.ready.head,
        &standing.silhouette,
        None,
        &levels(),
        tr("The hair from the left as the plan stands"),
        tr(
            "The outline of hair and body from the client's left, as the hair falls by the plan. The heights stand in the list.",
        ),
    );
    let area = NodeRef::<html::Div>::new();
    // Each in a column of its own, beside the names: handles at one height never cover each other.
    let columns = ["35%", "54%", "73%", "91%"];
    let handle =
        |(what, column): (What, &'static str)| view! { <Handle aimer frame area what column/> };
    view! {
        <figure class="figure">
            <div class="aim-picture" node_ref=area>
                <div inner_html=svg></div>
                {What::LEVELS.into_iter().zip(columns).map(handle).collect_view()}
            </div>
            <figcaption>
                {tr("Drag a name up or down, or move it with the arrow keys. Dashed ones do not count yet.")}
            </figcaption>
        </figure>
    }
}

#[component]
fn Handle(
    aimer: Aimer,
    frame: AimFrame,
    area: NodeRef<html::Div>,
    what: What,
    column: &'static str,
) -> impl IntoView {
    let kept = kept();
    let dragged = RwSignal::new(false);
    let z = move || {
        let (height, _) = aimer.at(what);
        height.z(&aimer.standing().ready.head)
    };
    let on = move || aimer.at(what).1;
    let top = move || format!("{:.2}%", frame.percent(z()));
    let text = move || {
        let (height, on) = aimer.at(what);
        let said = height.said(kept.unit());
        if on {
            said
        } else {
            tr!("{said}, does not count", said)
        }
    };
    let down = move |ev: PointerEvent| {
        if let Some(own) = ev.current_target()
            && let Ok(own) = own.dyn_into::<web_sys::Element>()
        {
            let _ = own.set_pointer_capture(ev.pointer_id());
        }
        dragged.set(true);
    };
    let moved = move |ev: PointerEvent| {
        let Some(area) = area.get_untracked().filter(|_| dragged.get_untracked()) else {
            return;
        };
        let place = area.get_bounding_client_rect();
        let z = frame.height(f64::from(ev.client_y()), place.top(), place.height());
        let standing = aimer.standing();
        aimer.lay(
            what,
            Height::snapped(&standing.ready.head, what.landmarks(), z),
        );
    };
    let up = move |_: PointerEvent| {
        if dragged.get_untracked() {
            dragged.set(false);
            aimer.keep();
        }
    };
    let key = move |ev: KeyboardEvent| {
        let standing = aimer.standing();
        let (head, among) = (&standing.ready.head, what.landmarks());
        let (height, _) = untrack(|| aimer.at(what));
        let unit = kept.unit_now();
        let next = match ev.key().as_str() {
            "ArrowUp" | "ArrowRight" => height.stepped(head, among, 1, unit),
            "ArrowDown" | "ArrowLeft" => height.stepped(head, among, -1, unit),
            "PageUp" => height.next(head, among, true),
            "PageDown" => height.next(head, among, false),
            "Home" => Height::near(head, among, frame.low),
            "End" => Height::near(head, among, frame.high),
            _ => return,
        };
        ev.prevent_default();
        aimer.lay(what, next);
        aimer.keep();
    };
    view! {
        <div class="aim-line" class:on=on style:top=top></div>
        <div
            class="aim-handle"
            class:on=on
            role="slider"
            tabindex="0"
            aria-orientation="vertical"
            aria-label=tr!("{}, height", what.name())
            aria-valuemin=format!("{:.1}", frame.low)
            aria-valuemax=format!("{:.1}", frame.high)
            aria-valuenow=move || format!("{:.1}", z())
            aria-valuetext=text
            style:top=top
            style:left=column
            on:pointerdown=down
            on:pointermove=moved
            on:pointerup=up
            on:pointercancel=up
            on:keydown=key
        >
            <span aria-hidden="true">{what.short()}</span>
        </div>
    }
}
