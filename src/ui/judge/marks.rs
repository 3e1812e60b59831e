//! The marks a person sets.

use crate::book::Marks;
use crate::measure::{Length, read_length};
use crate::ui::kept::kept;
use crate::ui::parts::{LengthField, Options, fault_said};
use crate::words::tr;
use leptos::prelude::*;

/// The shares that may be chosen, per cent.
const SHARES: [u8; 5] = [60, 70, 80, 90, 100];

/// The marks, each kept at once.
#[component]
pub fn MarksFields() -> impl IntoView {
    let kept = kept();
    let share = Signal::derive(move || {
        let found = kept.settings().marks.percent_of(&SHARES);
        found.map_or(String::new(), |percent| percent.to_string())
    });
    let set_share = Callback::new(move |percent: String| {
        if let Ok(percent) = percent.parse::<u8>() {
            kept.set(|settings| settings.marks.set_percent(percent));
        }
    });
    let options = SHARES.map(|percent| (percent.to_string(), format!("{percent} %")));
    view! {
        <p class="soft">{tr("Usual among students: half a centimetre, and half of that for merit. No public standard gives a number, so set your own. What is too short weighs more than what is too long: too long can be put right.")}</p>
        <MarkField id="mark-pass" label=tr("Pass: within") read=Marks::pass set=Marks::set_pass/>
        <MarkField id="mark-best" label=tr("Merit: within") read=Marks::best set=Marks::set_best/>
        <Options
            ask=tr("Share of the measured places that must be within")
            name="mark-share"
            options=options.into()
            chosen=share
            on_choose=set_share
        />
    }
}

/// One mark in centimetres.
#[component]
fn MarkField(
    id: &'static str,
    label: &'static str,
    read: fn(&Marks) -> f64,
    set: fn(&mut Marks, f64),
) -> impl IntoView {
    let kept = kept();
    let text = Signal::derive(move || {
        Length::from_cm(read(&kept.settings().marks)).as_measured(kept.unit())
    });
    let fault = RwSignal::new(None::<String>);
    let put = Callback::new(
        move |typed: String| match read_length(&typed, kept.unit_now()) {
            Ok(length) => {
                fault.set(None);
                kept.set(|settings| set(&mut settings.marks, length.cm()));
            }
            Err(why) => fault.set(Some(why.to_string())),
        },
    );
    view! {
        <LengthField id=id.to_owned() label text set=put measured=true small=true/>
        {fault_said(move || fault.get())}
    }
}
