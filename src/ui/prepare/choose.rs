//! The library: which of the built-in cuts, or of those changed before, it is to be, each on this head.

use crate::book::{Line, SavedCut};
use crate::cut::Measured;
use crate::measure::graduation;
use crate::plan::{Choices, Group, Plan, built_ins};
use crate::ui::frame::{Stage, Stages, titled, with_cut};
use crate::ui::kept::{Kept, kept};
use crate::ui::parts::{fallen_shape, told_line, told_list};
use crate::words::tr;
use leptos::prelude::*;
use leptos_router::components::A;
use leptos_router::hooks::use_navigate;
use std::sync::Arc;
use std::time::Duration;

/// The built-in cuts, one of which this cut takes.
#[component]
pub fn ChooseScreen() -> impl IntoView {
    titled(tr("Choose a cut"));
    with_cut(|cut| {
        let id = cut.with_untracked(|cut| cut.id.clone());
        let begun = cut.with_untracked(|cut| cut.walk.is_some());
        let back = format!("/cut/{id}/plan");
        view! {
            <Stages id here=Stage::Plan/>
            <h1>{tr("Choose a cut")}</h1>
            {if begun {
                view! {
                    <p class="note">
                        {tr("This one is being cut, so its plan stays. Make a new cut for another plan.")}
                    </p>
                    <A href=back attr:class="button main">{tr("Back to the plan")}</A>
                }
                .into_any()
            } else {
                view! { <Library cut/> }.into_any()
            }}
        }
    })
}

/// What a built-in cut comes to on this head, once it was worked out.
#[derive(Clone, Default)]
struct Shape {
    /// Its picture; empty until then, or where it can't be worked out.
    picture: String,
    /// Where its ends lie.
    said: String,
}

/// A plan on offer.
#[derive(Clone)]
struct Offered {
    /// As it is kept.
    plan: Plan,
    /// What was chosen in it; as it comes if nothing is said.
    choices: Option<Choices>,
    /// The title of the saved cut that it was changed for; none of a built-in one.
    from: Option<String>,
}

impl Offered {
    /// Puts it into a cut.
    fn put(self, cut: &mut SavedCut) {
        cut.plan.clone_from(&self.plan.id);
        cut.unchosen = false;
        cut.own = self.from.is_some().then(|| Box::new(self.plan));
        if let Some(choices) = self.choices {
            cut.choices = choices;
        }
    }
}

/// So many plans of other saved cuts are read and drawn at once. Judgement.
const YOURS: usize = 12;

/// The saved cuts whose plans were changed for them, the last saved first.
fn changed_before(cut: &SavedCut) -> Vec<Arc<Line>> {
    let mut others: Vec<Arc<Line>> = Vec::new();
    for line in kept().lines().unwrap_or_default() {
        if line.own.is_some() && line.id != cut.id {
            let place = others.partition_point(|other| other.saved_at >= line.saved_at);
            others.insert(place, line);
        }
    }
    others
}

/// The plan of a saved cut.
fn of_line(line: &Line) -> Option<Offered> {
    let other = kept().store().load(&line.id).ok()?;
    Some(Offered {
        plan: *other.own?,
        choices: Some(other.choices),
        from: Some(other.title),
    })
}

type Waiting = (Offered, RwSignal<Shape>);

/// All cuts, sorted by kind.
#[component]
fn Library(cut: RwSignal<SavedCut>) -> impl IntoView {
    let kept = kept();
    let usage = kept.usage_now();
    let built_in = |plan| Offered {
        plan,
        choices: None,
        from: None,
    };
    let all: Vec<Offered> = built_ins().into_iter().map(built_in).collect();
    let mut waiting = Vec::new();
    let mut row = |offered: Offered| {
        let shape = RwSignal::new(Shape::default());
        waiting.push((offered.clone(), shape));
        view! { <Offer cut offered shape/> }
    };
    let mut group = |title: String, ours: Vec<Offered>| {
        let rows = ours.into_iter().map(&mut row).collect_view();
        view! {
            <h2>{title}</h2>
            <ul class="offers">{rows}</ul>
        }
    };
    let yours = cut.with_untracked(changed_before);
    let yours = (!yours.is_empty()).then(|| view! { <Yours cut lines=yours/> });
    let groups = Group::ALL.map(|of| {
        let here = |offered: &&Offered| offered.plan.clone().said(usage).group() == of;
        let ours = all.iter().filter(here).cloned().collect();
        group(kept.said(of.title()), ours)
    });
    let groups = groups.collect_view();
    draw_next(kept, cut.get_untracked(), waiting.into_iter());
    view! {
        <p class="soft">{tr("Each as it would fall on this head, seen from the left. Open one to read about it.")}</p>
        <p class="note soft">{graduation(usage)}</p>
        {yours}
        {groups}
    }
}

/// Plans that were changed for other saved cuts.
#[component]
fn Yours(cut: RwSignal<SavedCut>, lines: Vec<Arc<Line>>) -> impl IntoView {
    let kept = kept();
    let rest = StoredValue::new(lines.into_iter());
    let shown = RwSignal::new(Vec::<Waiting>::new());
    let left = RwSignal::new(true);
    let more = move || {
        let mut next = Vec::new();
        rest.update_value(|rest| {
            let offered = rest.by_ref().filter_map(|line| of_line(&line)).take(YOURS);
            next.extend(offered.map(|offered| (offered, RwSignal::new(Shape::default()))));
            left.set(rest.len() > 0);
        });
        shown.update(|shown| shown.extend(next.iter().cloned()));
        draw_next(kept, cut.get_untracked(), next.into_iter());
    };
    more();
    let rows = move || {
        let rows = shown.get().into_iter();
        let rows = rows.map(|(offered, shape)| view! { <Offer cut offered shape/> });
        rows.collect_view()
    };
    view! {
        <h2>{tr("Your own")}</h2>
        <ul class="offers">{rows}</ul>
        {move || left.get().then(|| view! {
            <button on:click=move |_| more()>{tr("Show more of your own")}</button>
        })}
    }
}

/// Works out one picture after the other, so that the screen never waits for them; stops once the
/// screen is left.
fn draw_next(kept: Kept, cut: SavedCut, mut waiting: std::vec::IntoIter<Waiting>) {
    let Some((offered, shape)) = waiting.next() else {
        return;
    };
    let next = move || {
        if shape.try_set(on_this_head(kept, &cut, offered)).is_none() {
            draw_next(kept, cut, waiting);
        }
    };
    set_timeout(next, Duration::ZERO);
}

/// A plan on offer on the head of this cut.
fn on_this_head(kept: Kept, cut: &SavedCut, offered: Offered) -> Shape {
    let mut cut = cut.clone();
    offered.put(&mut cut);
    let worked_out = || {
        let ready = kept.ready(&cut).ok()?;
        let outcome = ready.outcome(&Measured::new()).ok()?;
        let (picture, said) = fallen_shape(kept, &ready, &outcome)?;
        Some(Shape { picture, said })
    };
    worked_out().unwrap_or_default()
}

/// One cut on offer: a line, and all that is worth knowing once it is opened.
#[component]
fn Offer(cut: RwSignal<SavedCut>, offered: Offered, shape: RwSignal<Shape>) -> impl IntoView {
    let kept = kept();
    let plan = offered.plan.clone().said(kept.usage_now());
    let built_in = offered.from.is_none();
    let taken = built_in && cut.with_untracked(|cut| cut.plan == plan.id && cut.own.is_none());
    let picture = move || shape.with(|shape| shape.picture.clone());
    let said = move || shape.with(|shape| shape.said.clone());
    let cautions: Vec<String> = plan.cautions().map(|c| kept.said(c.sentence())).collect();
    let short = match &offered.from {
        // A title may be somebody's name.
        Some(_) if kept.settings_now().seen => tr("Changed for another cut").to_owned(),
        Some(title) => tr!("Changed for “{title}”", title),
        None if plan.minutes == 0 => plan.in_short().to_owned(),
        None => tr!("{} minutes · {}", plan.minutes, plan.in_short()),
    };
    let step = |step: &crate::plan::Step| {
        view! { <li>{step.title.clone()} ": " <span class="soft">{step.words.comb.clone()}</span></li> }
    };
    let steps = plan.steps.iter().map(step).collect_view();
    let time = plan.time_said();
    view! {
        <li>
            <details class="offer">
                <summary>
                    <span class="thumb" aria-hidden="true" inner_html=picture></span>
                    <span class="offer-words">
                        <span class="title">{taken.then_some("✓ ")} {plan.name.clone()}</span>
                        <span class="soft">{short}</span>
                    </span>
                </summary>
                <p>{plan.about.clone()}</p>
                <div class="offer-shape" inner_html=picture></div>
                <dl class="instructions">
                    {move || told_line(tr("Falls"), said())}
                    {told_line(tr("Suits"), plan.suits.clone())}
                    {told_line(tr("Not for"), plan.not_for.clone())}
                    {told_line(tr("Weight"), plan.weight.clone())}
                    {told_list(tr("Mistakes"), plan.mistakes.clone())}
                    {told_list(tr("Checks"), plan.checks.clone())}
                    {told_list(tr("Take care"), cautions)}
                    {time.map(|time| told_line(tr("Time"), time))}
                    <div><dt>{tr("Steps")}</dt><dd><ol>{steps}</ol></dd></div>
                </dl>
                <Take cut offered name=plan.name/>
            </details>
        </li>
    }
}

/// Takes a cut; asks first if changes to the plan would go.
#[component]
fn Take(cut: RwSignal<SavedCut>, offered: Offered, name: String) -> impl IntoView {
    let kept = kept();
    let navigate = use_navigate();
    let asked = RwSignal::new(false);
    let take = Callback::new(move |()| {
        let offered = offered.clone();
        kept.edit(cut, |cut| offered.put(cut));
        let back = cut.with_untracked(|cut| format!("/cut/{}/plan", cut.id));
        navigate(&back, Default::default());
    });
    let pressed = move |_| {
        if cut.with_untracked(|cut| cut.own.is_some()) {
            asked.set(true);
        } else {
            take.run(());
        }
    };
    let changed = move || {
        cut.with_untracked(|cut| kept.plan(cut))
            .map(|plan| plan.name)
    };
    view! {
        <div class="actions onward" aria-live="polite">
            {move || if asked.get() {
                let changed = changed().unwrap_or_default();
                view! {
                    <p class="note warn">{tr!("Your changes to “{changed}” would go.", changed)}</p>
                    <button on:click=move |_| take.run(())>{tr("Take it all the same")}</button>
                    <button class="main" data-escape="" on:click=move |_| asked.set(false)>{tr("Keep my changes")}</button>
                }
                .into_any()
            } else {
                view! {
                    <button class="main" on:click=pressed>
                        {tr("Take this cut")} <span class="visually-hidden">{format!(": {name}")}</span>
                    </button>
                }
                .into_any()
            }}
        </div>
    }
}
