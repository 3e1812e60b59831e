//! One cut as a visit.

use crate::book::SavedCut;
use crate::consult::{Ask, Zone};
use crate::cut::Measured;
use crate::measure::Length;
use crate::store::ListedRecord;
use crate::ui::frame::{HOME, Stage, Stages, titled, with_cut};
use crate::ui::grow::{Outlook, Repeat};
use crate::ui::kept::{Kept, kept, now};
use crate::ui::parts::{Line, Pick, Tags, Words, told_line};
use crate::ui::words;
use crate::walk::{Spent, clock, compare, furthest, order};
use crate::words::{tr, tr_in};
use leptos::prelude::*;
use leptos_router::components::A;

/// What is put down of one cut beside plan and walk.
#[component]
pub fn VisitScreen() -> impl IntoView {
    titled(tr("Visit"));
    with_cut(|cut| view! { <Visit cut/> })
}

#[component]
fn Visit(cut: RwSignal<SavedCut>) -> impl IntoView {
    let kept = kept();
    let id = cut.with_untracked(|cut| cut.id.clone());
    let to = |screen: &str| format!("/cut/{id}/{screen}");
    let was_cut = cut.with_untracked(|cut| cut.walk.is_some());
    let seen = Memo::new(move |_| kept.settings().seen);
    let tags = Signal::derive(move || cut.with(|cut| cut.visit.tags.clone()));
    let set_tags = Callback::new(move |tags| kept.change(cut, |cut| cut.visit.tags = tags));
    let notes = Signal::derive(move || cut.with(|cut| cut.visit.notes.clone()));
    let set_notes = Callback::new(move |text| kept.change(cut, |cut| cut.visit.notes = text));
    let title = Signal::derive(move || cut.with(|cut| cut.title.clone()));
    let set_title = Callback::new(move |text| kept.change(cut, |cut| cut.title = text));
    let day = Signal::derive(move || cut.with(SavedCut::day));
    let set_day = Callback::new(move |day| kept.change(cut, |cut| cut.visit.day = day));
    let private =
        Signal::derive(move || cut.with(|cut| cut.consultation.answer(Ask::Note).to_owned()));
    let set_private = Callback::new(move |text: String| {
        kept.change(cut, |cut| cut.consultation.put(Ask::Note, &text));
    });
    view! {
        <Stages id=id.clone() here=Stage::Visit/>
        <h1>{tr("Visit")}</h1>
        {move || (!seen.get()).then(|| view! { <Whose cut/> })}
        <Facts cut/>
        <Outlook cut/>
        <Repeat cut=cut.get_untracked()/>
        <div class="side-by-side">
            <Line id="visit-day" label=tr("Day") kind="date" text=day set=set_day/>
            {move || (!seen.get()).then(|| view! {
                <Line id="visit-title" label=tr("Name of this cut") text=title set=set_title/>
            })}
        </div>
        <Words id="visit-notes" label=tr("Notes") text=notes set=set_notes/>
        {move || (!seen.get()).then(|| view! {
            <Tags id="visit-tags" tags set=set_tags/>
            <Words
                id="visit-private"
                label=tr("Private note, hidden while the client looks on")
                text=private
                set=set_private
            />
        })}
        <div class="actions">
            {was_cut.then(|| view! {
                <A href=to("end") attr:class="button">{tr("Planned and cut")}</A>
                <A href=to("judge") attr:class="button">{tr("Check it yourself")}</A>
            })}
            <A href=to("pass") attr:class="button">{tr("Pass the plan on")}</A>
            <A href=HOME exact=true attr:class="button">{tr("Your cuts")}</A>
        </div>
    }
}

/// Whose visit it is.
#[component]
fn Whose(cut: RwSignal<SavedCut>) -> impl IntoView {
    let kept = kept();
    let mut cards: Vec<(String, String)> = Vec::new();
    for listed in kept.records().unwrap_or_default() {
        if let ListedRecord::Record(record) = listed {
            let name = record.called().to_owned();
            let place = cards.partition_point(|(other, _)| *other <= name);
            cards.insert(place, (name, record.id));
        }
    }
    let mut options = vec![tr("Nobody\u{2019}s").to_owned()];
    options.extend(cards.iter().map(|(name, _)| name.clone()));
    let ids: Vec<String> = cards.into_iter().map(|(_, id)| id).collect();
    let ids = StoredValue::new(ids);
    let chosen = Signal::derive(move || {
        let of = cut.with(|cut| cut.visit.of.clone());
        if of.is_empty() {
            return Some(0);
        }
        let place = ids.with_value(|ids| ids.iter().position(|id| *id == of))?;
        Some(place + 1)
    });
    let choose = Callback::new(move |place: usize| {
        let of = place.checked_sub(1);
        let of = of.and_then(|place| ids.with_value(|ids| ids.get(place).cloned()));
        kept.change(cut, |cut| cut.visit.of = of.unwrap_or_default());
    });
    let card = move || {
        let of = cut.with(|cut| cut.visit.of.clone());
        (!of.is_empty()).then(|| {
            view! { <A href=format!("/book/{of}") attr:class="button">{tr("Open the card")}</A> }
        })
    };
    let nobodys = move || cut.with(|cut| cut.visit.of.is_empty());
    let book = move || {
        if nobodys() {
            tr("Make a card in the book")
        } else {
            tr("The book")
        }
    };
    view! {
        <Pick id="visit-of" label=tr("Whose visit") options own=true chosen on_choose=choose none=tr("A card that is not here")/>
        <div class="actions">
            {card}
            <A href="/book" attr:class="button plain">{book}</A>
        </div>
    }
}

/// What was asked, planned and cut.
#[component]
fn Facts(cut: RwSignal<SavedCut>) -> impl IntoView {
    let kept = kept();
    let told = cut.with_untracked(|cut| facts(kept, cut));
    let line = |(name, said): (&'static str, String)| told_line(name, said);
    view! { <dl class="instructions">{told.into_iter().map(line).collect_view()}</dl> }
}

fn facts(kept: Kept, cut: &SavedCut) -> Vec<(&'static str, String)> {
    let asked = &cut.consultation;
    let wish = |zone: Zone| {
        let landmark = asked.landmark(Ask::EndsAt(zone))?;
        let by = landmark.the();
        Some(tr!("{} to {by}", zone.name().to_lowercase(), by))
    };
    let wishes: Vec<String> = Zone::ALL.into_iter().filter_map(wish).collect();
    let mut told = vec![(tr("Asked"), wishes.join(", "))];
    let plan = match kept.plan(cut) {
        _ if !cut.is_chosen() => tr("Nothing is chosen yet").to_owned(),
        Some(plan) => cut.plan_said(&plan.name),
        None => tr("Unknown plan").to_owned(),
    };
    told.push((tr("Plan"), plan));
    told.extend(what_was_cut(kept, cut).unwrap_or_default());
    told
}

/// What a walk came to; none before there is one.
fn what_was_cut(kept: Kept, cut: &SavedCut) -> Option<Vec<(&'static str, String)>> {
    let walk = cut.walk.as_ref()?;
    let ready = kept.ready(cut).ok()?;
    let planned = ready.outcome(&Measured::new()).ok()?;
    let real = ready.followed(walk).ok()?;
    let until = walk.finished_at.clone().unwrap_or_else(now);
    let spent = Spent::of(walk, &ready.plan, &real, &until);
    let keys = order(&real);
    let done = tr!(
        "{} of {} sections in {}",
        walk.count_done(&keys),
        keys.len(),
        clock(spent.total)
    );
    let rows = compare(&planned, &real, walk);
    let most = furthest(&rows).and_then(|row| {
        let cut = row.cut?;
        let unit = kept.unit_now();
        if row.planned.change_shown(cut, unit) == Length::ZERO {
            return Some(tr("All of it as planned").to_owned());
        }
        let difference = words::difference(row.planned, cut, unit);
        Some(tr!(
            "{difference} {} at most: {}, {side}",
            unit.mark(),
            row.name,
            difference,
            side = kept.said(row.key.side.said())
        ))
    });
    Some(vec![
        (tr_in("what was done", "Cut"), done),
        (tr("Off the plan"), most.unwrap_or_default()),
    ])
}
