//! One step on paper: how its first section is held, what to do, and its sections.

use crate::chart::{HeldHair, InHand, profile_in_hand, seen_from};
use crate::cut::{Outcome, SectionCut, Telling};
use crate::head::Side;
use crate::measure::{Length, Unit};
use crate::plan::Step;
use crate::store::Ready;
use crate::ui::kept::kept;
use crate::ui::parts::{CutRow, left_on, told_line, twins};
use crate::ui::words;
use leptos::prelude::*;

/// What every part of the sheet is told from.
pub struct Sheet<'a> {
    /// The cut, read.
    pub ready: &'a Ready,
    /// What it comes to.
    pub outcome: &'a Outcome,
    /// The unit lengths are shown in.
    pub unit: Unit,
    telling: Telling<'a>,
}

impl<'a> Sheet<'a> {
    /// A cut that was worked out.
    pub fn new(ready: &'a Ready, outcome: &'a Outcome, unit: Unit) -> Self {
        let telling = Telling::new(&ready.job(), &outcome.lengths);
        Self {
            ready,
            outcome,
            unit,
            telling,
        }
    }

    /// A step's title.
    pub fn title(&self, step: usize) -> &str {
        self.ready.plan.steps.get(step).map_or("", |s| &s.title)
    }

    /// A section's number in cutting order, and its twin's.
    pub fn numbers(&self, row: &CutRow) -> String {
        let place = |section: &SectionCut| {
            let mut all = self.outcome.sections.iter();
            let place = all.position(|other| other.key == section.key);
            // People count from one.
            place.map_or(String::new(), |place| (place + 1).to_string())
        };
        let one = place(&row.one);
        match &row.twin {
            Some(twin) => [&one, " · ", &place(twin)].concat(),
            None => one,
        }
    }

    fn span(&self, section: &SectionCut) -> String {
        words::span(section.short(), section.long(), self.unit)
    }

    /// Where the longest of a section falls to, without an article: `2 cm below chin`.
    fn falls(&self, section: &SectionCut) -> String {
        let told = self.telling.told(&section.strands);
        words::level((told.landmark, told.below), self.unit).replacen("the ", "", 1)
    }
}

/// One text where both sides read alike, else both.
fn both(one: String, twin: Option<String>) -> String {
    match twin {
        Some(twin) if twin != one => [&one, "; right ", &twin].concat(),
        _ => one,
    }
}

/// A step that cuts. Of a check: nothing; all checks stand together at the end.
pub fn step(sheet: &Sheet<'_>, place: usize) -> AnyView {
    let rows = twins(sheet.outcome, place);
    let step = &sheet.ready.plan.steps[place];
    let Some(first) = rows.first().filter(|row| row.one.cuts()) else {
        return ().into_any();
    };
    view! {
        <section class="sheet-step">
            <h2>{step.title.clone()}</h2>
            <div class="sheet-picture" inner_html=held(sheet, step, &first.one)></div>
            {what_to_do(sheet, place, step)}
            {table(sheet, step, &rows)}
        </section>
    }
    .into_any()
}

/// The first section as it is held, with the hands.
fn held(sheet: &Sheet<'_>, step: &Step, section: &SectionCut) -> String {
    let head = &sheet.ready.head;
    let how = InHand {
        hand: kept().settings_now().hand,
        technique: step.technique,
    };
    profile_in_hand(
        head,
        seen_from(head, section),
        &[HeldHair {
            section,
            marked: true,
        }],
        how,
        &format!("{}, as it is held", section.section.name),
        "The first section's hair as taut lines to where it is cut.",
    )
}

/// What to do, a line each.
fn what_to_do(sheet: &Sheet<'_>, place: usize, step: &Step) -> AnyView {
    let Ready { plan, choices, .. } = sheet.ready;
    let kept = kept();
    let brief = plan.brief_for(place, 1, choices, sheet.unit);
    let said = |text: &str| kept.said(text.trim());
    let words = &step.words;
    let technique = if words.technique.trim().is_empty() {
        brief.technique
    } else {
        words.technique.clone()
    };
    // The guide of the first section has its measure, the words say how it goes on.
    let guide = [&brief.guide, ". ", words.guide.trim()].concat();
    view! {
        <dl class="sheet-words">
            {told_line("Lift", said(&brief.lift))}
            {told_line("Comb", said(&words.comb))}
            {told_line("Fingers", said(&words.fingers))}
            {told_line("Guide", first_up(&said(&guide)))}
            {told_line("Cut", said(&technique))}
            {told_line("Tension", said(&brief.tension))}
            {told_line("Stand", said(&words.stance))}
            {told_line("Care", said(&brief.caution.join("; ")))}
        </dl>
    }
    .into_any()
}

fn first_up(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| c.to_ascii_uppercase());
    first.into_iter().chain(letters).collect()
}

/// The sections, left beside right.
fn table(sheet: &Sheet<'_>, step: &Step, rows: &[CutRow]) -> AnyView {
    let unit = sheet.unit;
    let alike = rows.iter().all(|row| match &row.twin {
        Some(twin) => sheet.span(twin) == sheet.span(&row.one),
        None => true,
    });
    let cell = |text: String| view! { <td class="number">{text}</td> }.into_any();
    let row = |row: &CutRow| {
        let (one, twin) = (&row.one, row.twin.as_ref());
        let mut name = one.section.name.clone();
        if twin.is_none() && one.key.side == Side::Right {
            name.push_str(", right");
        }
        let notes = [words::reach(one), left_on(one, unit)];
        let notes = notes.into_iter().flatten().map(|note| {
            view! { " " <span class="soft">{kept().said(&note)}</span> }
        });
        let spans = if alike {
            cell(sheet.span(one))
        } else if let Some(twin) = twin {
            (cell(sheet.span(one)), cell(sheet.span(twin))).into_any()
        } else {
            let span = sheet.span(one);
            view! { <td class="number" colspan="2">{span}</td> }.into_any()
        };
        let off = twin.map_or(Length::ZERO, SectionCut::off).cm();
        let off = Length::from_cm(one.off().cm().max(off));
        let falls = both(sheet.falls(one), twin.map(|twin| sheet.falls(twin)));
        view! {
            <tr>
                <td class="number">{sheet.numbers(row)}</td>
                <th scope="row">{name} {notes.collect_view()}</th>
                {spans}
                <td class="number">{off.number(unit)}</td>
                <td>{falls}</td>
            </tr>
        }
    };
    let column = |name: &'static str| view! { <th scope="col" class="number">{name}</th> };
    view! {
        <div class="sheet-table" role="region" tabindex="0" aria-label=format!("Sections: {}", step.title)>
            <table>
                <thead>
                    <tr>
                        {column("No.")}
                        <th scope="col">"Section"</th>
                        {if alike {
                            column("Cut at").into_any()
                        } else {
                            (column("Cut left"), column("Right")).into_any()
                        }}
                        {column("Off")}
                        <th scope="col">"Falls to"</th>
                    </tr>
                </thead>
                <tbody>{rows.iter().map(row).collect_view()}</tbody>
            </table>
        </div>
    }
    .into_any()
}
