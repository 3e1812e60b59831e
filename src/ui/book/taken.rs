//! Head and hair of one card, as they were taken last.

use crate::book::Record;
use crate::consult::Ask;
use crate::head::Tape;
use crate::ui::kept::kept;
use crate::ui::parts::told_line;
use crate::ui::words;
use crate::words::{tr, tr_in};
use leptos::prelude::*;

/// Head and hair as they were taken last.
#[component]
pub fn Taken(record: RwSignal<Record>) -> impl IntoView {
    let kept = kept();
    let told = move || {
        record.with(|record| {
            let tape = |tape: &Tape| {
                let typed = record.tapes.get(tape)?.trim();
                (!typed.is_empty()).then(|| format!("{} {typed}", kept.said(tape.name())))
            };
            let head: Vec<String> = Tape::ALL.iter().filter_map(tape).collect();
            let asked = &record.consultation;
            let answer = |ask: Ask| {
                let given = asked.answer(ask);
                let found = ask.answers().into_iter().find(|(word, _)| *word == given);
                found.map(|(_, said)| kept.said(said))
            };
            let mut hair: Vec<String> = Vec::new();
            hair.extend(answer(Ask::Curl));
            // Said after what it is of: an answer alone may mean either.
            let of = |ask: Ask, what: &str| Some(format!("{what} {}", answer(ask)?.to_lowercase()));
            hair.extend(of(Ask::Density, tr("how much:")));
            hair.extend(of(Ask::Texture, tr("one hair:")));
            if let Some((share, estimated)) = asked.hangs_at() {
                let share = format!("{:.0}", share * 100.0);
                hair.push(if estimated {
                    tr!("hangs at {share} % of its combed length, estimated", share)
                } else {
                    tr!("hangs at {share} % of its combed length, measured", share)
                });
            }
            let grows: Vec<String> = asked
                .marks
                .iter()
                .map(|mark| format!("{}: {}", mark.growth.name(), mark.place_name()))
                .collect();
            (record.taken_on.clone(), head, hair, grows)
        })
    };
    move || {
        let (day, head, hair, grows) = told();
        if head.is_empty() && hair.is_empty() && grows.is_empty() {
            return view! {
                <p class="soft">{tr("Head and hair are measured at the first visit, and stand here from then on.")}</p>
            }
            .into_any();
        }
        let when = (!day.is_empty()).then(|| tr!("As of {}.", words::day(&day)));
        view! {
            <dl class="instructions">
                {told_line(tr("Head"), head.join(", "))}
                {told_line(tr("Hair"), hair.join(", "))}
                {told_line(tr_in("how hair grows", "Grows"), grows.join(", "))}
            </dl>
            <p class="soft">{when}</p>
        }
        .into_any()
    }
}
