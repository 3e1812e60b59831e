//! Fields that read and write one thing of the open step.

use super::desk::Desk;
use crate::measure::{Length, read_change, read_degrees, read_length};
use crate::plan::Step;
use crate::ui::kept::kept;
use crate::ui::parts::{Dial, LengthField, Pick, Scale, fault_said};
use crate::words::tr;
use leptos::prelude::*;

/// One of many; `read` and `write` speak of its place among the options.
pub fn pick(
    desk: Desk,
    id: &'static str,
    label: &'static str,
    options: Vec<String>,
    read: fn(&Step) -> Option<usize>,
    write: fn(&mut Step, usize),
) -> AnyView {
    let chosen = Signal::derive(move || desk.of_step(|_, step| read(step)).flatten());
    let choose = Callback::new(move |i| desk.change_step(|step| write(step, i)));
    view! { <Pick id label options chosen on_choose=choose/> }.into_any()
}

/// Degrees, dragged, stepped or typed.
pub fn degrees(
    desk: Desk,
    id: &'static str,
    label: &'static str,
    ends: (i32, i32),
    read: fn(&Step) -> Option<f64>,
    write: fn(&mut Step, f64),
) -> AnyView {
    let now = Signal::derive(move || desk.of_step(|_, step| read(step)).flatten().unwrap_or(0.0));
    let unread = Signal::derive(move || desk.unread(id));
    let fault = move || {
        read_degrees(&unread.get()?, ends)
            .err()
            .map(|why| why.to_string())
    };
    let drag = Callback::new(move |value: f64| desk.drag(|step| write(step, value)));
    let set = Callback::new(move |text: String| match read_degrees(&text, ends) {
        Ok(value) => {
            desk.set_unread(id, None);
            desk.change_step(|step| write(step, value));
        }
        Err(_) => desk.set_unread(id, Some(text)),
    });
    let scale = Scale {
        least: f64::from(ends.0),
        most: f64::from(ends.1),
        tap: 5.0,
        mark: "°",
    };
    view! {
        <Dial id label scale now unread on_drag=drag on_set=set/>
        {fault_said(fault)}
    }
    .into_any()
}

/// A length in cm, stepped or typed; `signed` if it is a difference.
pub fn length(
    desk: Desk,
    id: &'static str,
    label: &'static str,
    signed: bool,
    read: fn(&Step) -> Option<f64>,
    write: fn(&mut Step, f64),
) -> AnyView {
    let kept = kept();
    let reader = if signed { read_change } else { read_length };
    let text = Signal::derive(move || {
        desk.unread(id).unwrap_or_else(|| {
            let cm = desk.of_step(|_, step| read(step)).flatten().unwrap_or(0.0);
            Length::from_cm(cm).shown(kept.unit())
        })
    });
    let fault = move || {
        reader(&desk.unread(id)?, kept.unit())
            .err()
            .map(|why| why.to_string())
    };
    let set = Callback::new(move |text: String| match reader(&text, kept.unit_now()) {
        Ok(length) => {
            desk.set_unread(id, None);
            desk.change_step(|step| write(step, length.cm()));
        }
        Err(_) => desk.set_unread(id, Some(text)),
    });
    view! {
        <LengthField id=id.to_owned() label text set signed/>
        {fault_said(fault)}
    }
    .into_any()
}

/// A line or some lines of text. One of ours is shown in the language in force; what is typed is kept as it
/// is.
pub fn text(
    desk: Desk,
    id: &'static str,
    label: &'static str,
    hint: fn(Desk) -> String,
    read: fn(&Step) -> &String,
    write: fn(&mut Step, String),
) -> AnyView {
    let now = move || {
        desk.of_step(|_, step| tr(read(step)).to_owned())
            .unwrap_or_default()
    };
    view! {
        <div class="text-field">
            <label for=id>{label}</label>
            <textarea
                id=id
                rows="2"
                autocomplete="off"
                placeholder=move || hint(desk)
                prop:value=now
                on:change=move |ev| {
                    let text = event_target_value(&ev);
                    desk.change_step(|step| write(step, text));
                }
            ></textarea>
        </div>
    }
    .into_any()
}

/// Shows a field only while the open step has what it is about.
pub fn only(
    desk: Desk,
    there: fn(&Step) -> bool,
    field: impl Fn() -> AnyView + Send + Sync + 'static,
) -> AnyView {
    let there = Memo::new(move |_| desk.of_step(|_, step| there(step)).unwrap_or(false));
    view! { {move || there.get().then(&field)} }.into_any()
}
