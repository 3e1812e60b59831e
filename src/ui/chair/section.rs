//! One section on the screen: its length, how it is held, what guides it, what it came out at.

use super::at::{AtChair, Face};
use super::checked::CheckedView;
use super::drawing::Drawing;
use super::result::ResultView;
use crate::cut::{Outcome, SectionCut, Telling, Told};
use crate::head::Side;
use crate::plan::{Brief, Caution, Step};
use crate::ui::device::say;
use crate::ui::kept::kept;
use crate::ui::parts::{left_on, marked, soon};
use crate::ui::words;
use crate::walk::spoken;
use crate::words::{tr, tr_in};
use leptos::prelude::*;
use std::sync::Arc;

/// The section at `place` of the outcome.
#[component]
pub fn SectionView(at: AtChair, outcome: Arc<Outcome>, place: usize) -> impl IntoView {
    let section = outcome.sections[place].clone();
    let follows = outcome.follows(&section);
    let kept = kept();
    let (step, brief, estimated) = at.ready.with_value(|ready| {
        let number = section.key.number;
        let unit = kept.unit_now();
        let brief = ready
            .plan
            .brief_for(section.step, number, &ready.choices, unit);
        let step = ready.plan.steps[section.step].clone();
        (step, brief, ready.hair.estimated)
    });
    // It falls as it was really cut.
    let key = section.key.clone();
    let measured = Memo::new(move |_| at.of(|walk| walk.came_out_at(&key)).flatten());
    let falling = section.clone();
    let fallen = Arc::clone(&outcome);
    let told = Memo::new(move |_| {
        let strands = match measured.get() {
            Some(measured) => falling.as_cut(measured),
            None => falling.strands.clone(),
        };
        falling.cuts().then(|| {
            at.ready
                .with_value(|ready| Telling::new(&ready.job(), &fallen.lengths).told(&strands))
        })
    });
    // Told once the number is painted: it may take a slow phone a while.
    let since = RwSignal::new(None::<String>);
    let of = section.key.clone();
    soon(since, move || since.set(at.since(&of)));
    read_aloud(at, &outcome, place, &step, &brief, told.get_untracked());
    let result = if section.cuts() {
        view! { <ResultView at section=section.clone()/> }.into_any()
    } else {
        view! { <CheckedView at outcome=Arc::clone(&outcome) section=section.clone()/> }.into_any()
    };
    view! {
        <div class="c-where" aria-live="polite">
            <Where
                outcome=Arc::clone(&outcome)
                section=section.clone()
                careful=!brief.caution.is_empty()
            />
        </div>
        <div class="c-number"><Target at section=section.clone()/></div>
        <div class="c-drawing">
            <Drawing at outcome section=section.clone() technique=step.technique/>
        </div>
        {section.cuts().then(|| view! {
            <div class="c-falls">
                <p class="near since" aria-live="polite">{move || since.get()}</p>
                {(!follows).then_some(view! {
                    <p class="near">{tr("Too little is left to go on from what was cut: told as planned.")}</p>
                })}
                <Falls told estimated/>
            </div>
        })}
        <dl class="c-hold far-lines">
            {far_line(tr("Hold"), held(&brief))}
        </dl>
        <dl class="c-fingers far-lines">
            {far_line(tr("Fingers"), brief.fingers.clone())}
        </dl>
        <Cautions brief=brief.clone()/>
        <div class="c-how"><How brief step section/></div>
        <div class="c-result">{result}</div>
    }
}

/// How high it is held and where it is combed to, in one line.
fn held(brief: &Brief) -> String {
    let (lift, comb) = (brief.lift.as_str(), brief.comb.as_str());
    if lift == comb || comb.is_empty() {
        return lift.to_owned();
    }
    format!("{lift}, {comb}")
}

/// Where on the head: the side and the section's number there, large; its names beside.
#[component]
fn Where(outcome: Arc<Outcome>, section: SectionCut, careful: bool) -> impl IntoView {
    let ours =
        |other: &&SectionCut| other.step == section.step && other.key.side == section.key.side;
    let count = outcome.sections.iter().filter(ours).count();
    let side = match section.key.side {
        Side::Left => tr("Left"),
        Side::Centre => tr("Middle"),
        Side::Right => tr("Right"),
    };
    let number = section.key.number;
    view! {
        <h1 class="section-name">
            <span class="far">
                {tr!("{} {number} of {count}", kept().said(side), number, count)}
                // Where the caution itself has no room, it stands under How.
                {careful.then(|| view! {
                    <span class="caution-mark">
                        <span aria-hidden="true">
                            " ▲" <span class="caution-word">" " {tr_in("a caution stands elsewhere", "care")}</span>
                        </span>
                        <span class="visually-hidden">{tr(", with care: see How")}</span>
                    </span>
                })}
            </span>
            <span class="near">{section.section.name}</span>
        </h1>
    }
}

/// The number: the longest hair of the section large, the shortest beside it. The unit is read once, here
/// and below: nobody changes it with scissors in hand, and the next section shows a new one.
#[component]
fn Target(at: AtChair, section: SectionCut) -> impl IntoView {
    let unit = kept().unit_now();
    let check = !section.cuts();
    let planned = section.long();
    let (shortest, longest) = (section.short().number(unit), planned.number(unit));
    let off = section.off().shown(unit);
    let matched = Memo::new(move |_| at.of(|walk| walk.matches(&section)).flatten());
    let what = move || match (check, matched.get().is_some()) {
        (true, _) => tr("Both sides should be"),
        (false, true) => tr("Cut at, to match"),
        (false, false) => tr("Cut at, longest hair"),
    };
    let beside = (shortest != longest).then_some(shortest);
    let beside = move || match (matched.get().is_some(), &beside) {
        (true, _) => Some((tr("plan {}"), planned.shown(unit))),
        (false, Some(shortest)) => Some((tr("shortest {}"), format!("{shortest} {}", unit.mark()))),
        (false, None) => None,
    };
    view! {
        <div class="target">
            <p class="target-what near">{what}</p>
            <p class="target-number number">
                {move || matched.get().unwrap_or(planned).number(unit)}
                <span class="target-unit">{unit.mark()}</span>
            </p>
            <p class="target-short near">
                {move || {
                    beside().map(|(text, length)| view! { <span>{marked(text, length)}</span> })
                }}
                {(!check).then(|| view! {
                    <span class="target-off">{marked(tr("up to {} off"), off)}</span>
                })}
            </p>
        </div>
    }
}

/// Where it falls to.
#[component]
fn Falls(told: Memo<Option<Told>>, estimated: bool) -> impl IntoView {
    let unit = kept().unit_now();
    let level = move || told.get().map(|told| told.level.place(unit));
    view! {
        <dl class="far-lines">
            <div>
                <dt>
                    {if estimated {
                        tr("Falls to, dry (estimated from the curl: measure one lock)")
                    } else {
                        tr("Falls to, dry")
                    }}
                </dt>
                <dd class="far">{level}</dd>
            </div>
        </dl>
    }
}

/// A line that is read from where the stylist stands: a small name, large words.
fn far_line(name: &'static str, text: String) -> AnyView {
    (!text.is_empty())
        .then(|| view! { <div><dt>{name}</dt><dd class="far">{kept().said(&text)}</dd></div> })
        .into_any()
}

/// What to take care of, in few words.
#[component]
fn Cautions(brief: Brief) -> impl IntoView {
    (!brief.caution.is_empty()).then(|| {
        let lines = brief.caution.into_iter();
        view! {
            <ul class="c-caution">
                {lines.map(|caution| view! { <li class="far">{kept().said(caution)}</li> }).collect_view()}
            </ul>
        }
    })
}

/// What guides it, how it is cut, how tight: large; then the same in full sentences.
#[component]
fn How(brief: Brief, step: Step, section: SectionCut) -> impl IntoView {
    let kept = kept();
    let unit = kept.unit_now();
    let cuts = section.cuts();
    let lengths = tr!(
        "Longest {}, shortest {}; up to {} comes off.",
        section.long().shown(unit),
        section.short().shown(unit),
        section.off().shown(unit)
    );
    let technique = step
        .technique
        .map(|technique| kept.said(technique.sentence()));
    let words = step.words;
    let full = [
        words.comb,
        words.fingers,
        words.guide,
        words.technique,
        words.stance,
    ];
    view! {
        <dl class="far-lines">
            {far_line(tr("Guide"), brief.guide)}
            {far_line(if cuts { tr_in("how it is cut", "Cut") } else { tr_in("for what", "Look") }, brief.technique)}
            {far_line(tr("Tension"), brief.tension)}
        </dl>
        {words::reach(&section).map(|reach| view! { <p class="note">{reach}</p> })}
        {left_on(&section, unit).map(|said| view! { <p class="note">{said}</p> })}
        <div class="in-full">
            <h2 class="near">{tr("In full")}</h2>
            {cuts.then(|| view! { <p>{lengths}</p> })}
            {full
                .into_iter()
                .filter(|text| !text.is_empty())
                .map(|text| view! { <p>{text}</p> })
                .collect_view()}
            {technique.map(|text| view! { <p class="soft">{text}</p> })}
            {step
                .cautions
                .into_iter()
                .map(|caution: Caution| view! { <p class="note warn">{caution.sentence()}</p> })
                .collect_view()}
        </div>
    }
}

/// Reads the section out, where the person asked for that.
fn read_aloud(
    at: AtChair,
    outcome: &Outcome,
    place: usize,
    step: &Step,
    brief: &Brief,
    told: Option<Told>,
) {
    let kept = kept();
    let section = &outcome.sections[place];
    let unit = kept.unit_now();
    let falls = told.map(|told| told.level.place(unit));
    let text = spoken(
        section,
        place,
        outcome.sections.len(),
        step,
        brief,
        at.target(section),
        falls.as_deref(),
        unit,
    );
    let text = kept.said(&text);
    if kept.settings_now().aloud {
        say(&text, kept.usage_now().language());
    }
    at.spoken.set_value(text);
}

/// The face of a section that a small screen shows, by four buttons; a wide one shows all.
#[component]
pub fn Faces(at: AtChair) -> impl IntoView {
    let button = move |face: Face| {
        let pressed = move || (at.face.get() == face).to_string();
        view! {
            <button class="face" aria-pressed=pressed on:click=move |_| at.face.set(face)>
                {face.name()}
            </button>
        }
    };
    view! {
        <div class="faces" role="group" aria-label=tr("What is shown of this section")>
            {Face::ALL.map(button).collect_view()}
        </div>
    }
}
