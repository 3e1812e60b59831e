//! One choice of a plan, asked.

use super::{LengthField, Options, fault_said};
use crate::book::SavedCut;
use crate::hair::Before;
use crate::plan::{Choice, Kind, Parting, Plan, Value, landmark_word};
use crate::ui::kept::kept;
use crate::ui::words;
use crate::words::tr;
use leptos::prelude::*;

/// One choice of the plan. What does not read stays in its field, with a sentence.
#[component]
pub fn Question(
    /// The cut whose plan asks.
    cut: RwSignal<SavedCut>,
    /// Its plan.
    plan: StoredValue<Plan>,
    /// The choice.
    choice: Choice,
) -> impl IntoView {
    let kept = kept();
    let id = StoredValue::new(choice.id.clone());
    let field = StoredValue::new(format!("choice/{}", choice.id));
    let own = StoredValue::new(choice.clone());
    let set = Callback::new(move |text: String| {
        kept.edit(cut, |cut| {
            let set = plan.with_value(|plan| id.with_value(|id| cut.choices.set(plan, id, &text)));
            match set {
                Ok(()) => cut.unread.remove(&field.get_value()),
                Err(_) => cut.unread.insert(field.get_value(), text),
            };
        });
    });
    let unread = move || cut.with(|cut| field.with_value(|field| cut.unread.get(field).cloned()));
    let fault = move || {
        let text = unread()?;
        own.with_value(|choice| choice.read(&text).err().map(|why| why.to_string()))
    };
    let text = Signal::derive(move || {
        unread().unwrap_or_else(|| {
            cut.with(|cut| {
                let choices = plan.with_value(|plan| cut.consultation.choices(plan, &cut.choices));
                own.with_value(|choice| choices.text(choice).to_owned())
            })
        })
    });
    let word = |landmark| (landmark_word(landmark), landmark.name().to_owned());
    let partings = move |all: &[Parting]| -> Vec<(String, String)> {
        all.iter()
            .map(|&p| (p.word().to_owned(), kept.said(words::parting(p))))
            .collect()
    };
    let options = match &choice.kind {
        Kind::Landmark { options } | Kind::Before { options } => {
            options.iter().copied().map(word).collect()
        }
        Kind::Parting => partings(&Parting::ALL),
        Kind::SideParting => partings(&Parting::ASIDE),
        Kind::Length { .. } => Vec::new(),
    };
    let before = matches!(choice.kind, Kind::Before { .. });
    view! {
        {if options.is_empty() {
            view! { <LengthField id=choice.id.clone() label=choice.ask.clone() text set/> }.into_any()
        } else {
            let name = choice.id.clone();
            view! { <Options ask=choice.ask.clone() name options chosen=text on_choose=set/> }.into_any()
        }}
        {before.then(|| {
            let asked = choice.clone();
            // Where a landmark was chosen it stands in the answers above; all else that was typed stays here.
            let only_lengths = Signal::derive(move || {
                let text = text.get();
                match asked.read(&text) {
                    Ok(Value::Before(Before::EndsAt(_))) => String::new(),
                    _ => text,
                }
            });
            view! {
                <LengthField
                    id=format!("{}-length", choice.id)
                    label=tr("Or one length everywhere, as on a practice head")
                    text=only_lengths
                    set
                />
            }
        })}
        {fault_said(fault)}
    }
}
