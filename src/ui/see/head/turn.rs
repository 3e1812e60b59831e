//! The picture, turned by drag, by keys, and to the views that have a name.

use super::looked::Looked;
use crate::chart::{Drawn, Eye, turned_picture};
use crate::ui::kept::kept;
use crate::words::tr;
use leptos::ev::{KeyboardEvent, PointerEvent};
use leptos::html;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;

/// The `id` of what holds the picture.
pub const HOLDER: &str = "head-picture";

/// Whether things that move by themselves are welcome.
pub fn moves() -> bool {
    let query = "(prefers-reduced-motion: reduce)";
    let asked = window().match_media(query).ok().flatten();
    !asked.is_some_and(|list| list.matches())
}

/// The head, and from where it is seen.
#[component]
pub fn TurnedPicture(looked: Looked) -> impl IntoView {
    let holder = NodeRef::<html::Div>::new();
    let title = Memo::new(move |_| {
        let name = looked.section(|section| section.section.name.clone());
        let name = name.unwrap_or_default();
        kept().said(&if looked.down.get() {
            tr!("{name}, the hair let down", name)
        } else {
            tr!("{name}, as it is held", name)
        })
    });
    // It changes far less often than the eye moves; what stays is not written again.
    let from = Memo::new(move |_| looked.eye.get().words());
    let told = Memo::new(move |_| {
        let hair = if looked.down.get() {
            tr("The hair as it falls once this section is cut; the section’s parting is marked.")
        } else {
            tr(
                "The hair of this section as taut lines to the fingers’ line; what is hidden is dashed.",
            )
        };
        kept().said(&format!("{}. {hair}", from.get()))
    });
    let svg = move || holder.get().and_then(|holder| holder.first_element_child());
    let window = Memo::new(move |_| looked.window());
    Effect::new(move || {
        let window = window.get();
        if let Some(svg) = svg() {
            let _ = svg.set_attribute("viewBox", &window);
        }
    });
    Effect::new(move || {
        let mut part = svg().and_then(|svg| svg.first_element_child());
        for text in [title.get(), told.get()] {
            if let Some(own) = part {
                own.set_text_content(Some(&text));
                part = own.next_element_sibling();
            }
        }
    });
    // Only what changed is written, into elements that stand there already.
    Effect::new(move |before: Option<Drawn>| {
        let drawn = looked.drawn(looked.eye.get());
        let Some(svg) = svg() else {
            return Drawn::default();
        };
        let mut part = svg.first_element_child();
        // Title and description come first.
        for _ in 0..2 {
            part = part.and_then(|own| own.next_element_sibling());
        }
        for (i, data) in drawn.iter().enumerate() {
            let Some(own) = part else { break };
            if before.as_ref().is_none_or(|before| before[i] != *data) {
                let _ = own.set_attribute("d", data);
            }
            part = own.next_element_sibling();
        }
        drawn
    });
    view! {
        <figure class="figure">
            <Handle looked>
                <div id=HOLDER node_ref=holder inner_html=turned_picture(&Drawn::default(), "0 0 1 1", "", "")></div>
            </Handle>
            <figcaption>
                <span aria-live="polite">{move || kept().said(&from.get())}</span>
                <span class="soft">{tr(" · Drag to turn it, or use the arrow keys.")}</span>
            </figcaption>
        </figure>
    }
}

/// What is taken hold of: it follows a finger and the arrow keys.
#[component]
fn Handle(looked: Looked, children: Children) -> impl IntoView {
    let eye = looked.eye;
    // Where the finger was last; none while it does not hold the head.
    let last = StoredValue::new(None::<(f64, f64)>);
    // What is to be shown in the next frame; none if no frame is asked for.
    let next = StoredValue::new(None::<Eye>);
    let show = move |to: Eye| {
        let waits = next.with_value(Option::is_some);
        next.set_value(Some(to));
        if !waits {
            request_animation_frame(move || {
                if let Some(to) = next.try_update_value(Option::take).flatten() {
                    eye.try_set(to);
                }
            });
        }
    };
    let place = |ev: &PointerEvent| (f64::from(ev.client_x()), f64::from(ev.client_y()));
    let down = move |ev: PointerEvent| {
        if ev.button() == 0 {
            if let Some(own) = own(&ev) {
                let _ = own.set_pointer_capture(ev.pointer_id());
            }
            last.set_value(Some(place(&ev)));
            looked.held();
        }
    };
    let moved = move |ev: PointerEvent| {
        let (Some(from), Some(own)) = (last.get_value(), own(&ev)) else {
            return;
        };
        let to = place(&ev);
        last.set_value(Some(to));
        let now = next.get_value().unwrap_or_else(|| eye.get_untracked());
        // A finger moves the page up and down.
        let upright = ev.pointer_type() != "touch";
        looked.moving.set(true);
        show(now.dragged(from, to, upright, f64::from(own.client_width())));
    };
    let up = move |_: PointerEvent| {
        last.set_value(None);
        looked.moving.set(false);
    };
    let key = move |ev: KeyboardEvent| {
        let (round, up) = match ev.key().as_str() {
            "ArrowLeft" => (-1.0, 0.0),
            "ArrowRight" => (1.0, 0.0),
            "ArrowUp" => (0.0, 1.0),
            "ArrowDown" => (0.0, -1.0),
            "Home" => (0.0, 0.0),
            _ => return,
        };
        ev.prevent_default();
        looked.held();
        if ev.key() == "Home" {
            eye.set(Eye::FRONT);
        } else {
            eye.update(|eye| *eye = eye.pressed(round, up));
        }
    };
    view! {
        <div
            class="head-handle"
            role="group"
            tabindex="0"
            aria-label=tr("The head. The arrow keys turn it.")
            on:pointerdown=down
            on:pointermove=moved
            on:pointerup=up
            on:pointercancel=up
            on:keydown=key
        >
            {children()}
        </div>
    }
}

fn own(ev: &PointerEvent) -> Option<web_sys::Element> {
    ev.current_target()?.dyn_into().ok()
}

/// Buttons for the named views, and for a little to each side.
#[component]
pub fn Views(looked: Looked) -> impl IntoView {
    let eye = looked.eye;
    let turn_to = move |to: Eye| {
        looked.held();
        looked.turn_to(to);
    };
    let here = Memo::new(move |_| {
        let eye = eye.get();
        Eye::NAMED.iter().position(|(_, named)| eye.is(*named))
    });
    let named = move |(i, (name, to)): (usize, (&'static str, Eye))| {
        let pressed = move || (here.get() == Some(i)).to_string();
        view! {
            <button type="button" aria-pressed=pressed on:click=move |_| turn_to(to)>
                {kept().said(name)}
            </button>
        }
    };
    let nudged = move |mark: &'static str, name: &'static str, round: f64, up: f64| {
        let press = move |_| turn_to(eye.get_untracked().pressed(round, up));
        view! {
            <button type="button" class="nudge" aria-label=kept().said(name) title=kept().said(name) on:click=press>
                <span aria-hidden="true">{mark}</span>
            </button>
        }
    };
    view! {
        <div class="head-views" role="group" aria-label=tr("See it from")>
            {Eye::NAMED.into_iter().enumerate().map(named).collect_view()}
            {nudged("↰", tr("Turn it to the left"), 1.0, 0.0)}
            {nudged("↱", tr("Turn it to the right"), -1.0, 0.0)}
            {nudged("↑", tr("From higher up"), 0.0, 1.0)}
            {nudged("↓", tr("From lower down"), 0.0, -1.0)}
        </div>
    }
}
