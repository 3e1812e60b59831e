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
        let share = kept.settings().marks.share() * 100.0;
        let near = |percent: &&u8| (f64::from(**percent) - share).abs() <= 5.0;
        let found = SHARES.iter().find(near);
        found.map_or(String::new(), u8::to_string)
    });
    let set_share = Callback::new(move |percent: String| {
        if let Ok(percent) = percent.parse::<u8>() {
            kept.set(|settings| settings.marks.share = f64::from(percent) / 100.0);
        }
    });
    let options = SHARES.map(|percent| (percent.to_string(), format!("{percent} %")));
    view! {
        <p class="soft">{tr("Usual among students: half a centimetre, and half of that for merit. No public standard gives a number, so set your own. What is too short weighs more than what is too long: too long can be put right.")}</p>
        <MarkField id="mark-pass" label=tr("Pass: within") read=|marks| marks.pass() set=|marks, cm| marks.pass = cm/>
        <MarkField id="mark-best" label=tr("Merit: within") read=|marks| marks.best() set=|marks, cm| marks.best = cm/>
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
                kept.set(|settings| {
                    let (least, most) = Marks::RANGE;
                    set(&mut settings.marks, length.cm().clamp(least, most));
                });
            }
            Err(why) => fault.set(Some(why.to_string())),
        },
    );
    view! {
        <LengthField id=id.to_owned() label text set=put measured=true small=true/>
        {fault_said(move || fault.get())}
    }
}
