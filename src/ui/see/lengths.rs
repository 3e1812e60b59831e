//! The lengths along a line of the head: before, as planned, as cut; the left over the right.

use super::Made;
use crate::chart::{Along, AlongHalf, AlongLine, AlongOf, along_chart, along_said};
use crate::head::Side;
use crate::measure::{Length, Unit};
use crate::ui::kept::kept;
use crate::ui::parts::{KeepPicture, Options, Picture, wrong};
use crate::words::{tr, tr_in};
use leptos::prelude::*;

/// The lengths of one cut along a line.
#[component]
pub fn Lengths(made: StoredValue<Made>) -> impl IntoView {
    let kept = kept();
    let line = RwSignal::new(AlongLine::default());
    let side = RwSignal::new(None::<Side>);
    let lines = AlongLine::ALL.map(|line| (line.word().to_owned(), kept.said(line.name())));
    let chosen = Signal::derive(move || line.get().word().to_owned());
    let choose = Callback::new(move |word: String| {
        let found = AlongLine::ALL.into_iter().find(|line| line.word() == word);
        line.set(found.unwrap_or_default());
    });
    let sides = [
        ("both", tr("Both")),
        (Side::Left.word(), tr("Left")),
        (Side::Right.word(), tr("Right")),
    ];
    let sides = sides.map(|(word, name)| (word.to_owned(), name.to_owned()));
    let side_chosen = Signal::derive(move || side.get().map_or("both", Side::word).to_owned());
    let choose_side = Callback::new(move |word: String| {
        let both = [Side::Left, Side::Right].into_iter();
        side.set(both.into_iter().find(|side| side.word() == word));
    });
    let along = move || {
        let (line, settings) = (line.get(), kept.settings());
        made.with_value(|made| {
            let of = AlongOf {
                job: &made.ready.job(),
                before: &made.before,
                planned: &made.planned,
                cut: made.cut.as_ref().map(|(walk, cut)| (walk, cut)),
                tolerances: &settings.tolerances,
            };
            Along::new(&of, line).map_err(|why| why.to_string())
        })
    };
    view! {
        <h2>{tr("Lengths along the head")}</h2>
        <Options ask=tr("Along") name="along" options=lines.to_vec() chosen on_choose=choose/>
        {move || match along() {
            Ok(along) => {
                let sides = sides.to_vec();
                let uneven = along.halves.len() > 1;
                let along = StoredValue::new(along);
                view! {
                    {uneven.then(|| view! {
                        <Options ask=tr_in("left or right", "Side") name="side" options=sides chosen=side_chosen on_choose=choose_side/>
                    })}
                    {move || along.with_value(|along| shown(along, side.get(), kept.unit()))}
                }
                .into_any()
            }
            Err(why) => wrong(why),
        }}
    }
}

/// Chart, legend, words and table of a line.
fn shown(along: &Along, side: Option<Side>, unit: Unit) -> AnyView {
    let kept = kept();
    let said = kept.said(&along_said(along, unit));
    let title = tr!("{}: lengths before, planned and cut", along.line.name());
    let description = tr!(
        "How long the hair is {}, as cut, in {}. {said} The numbers stand in the table below.",
        along.line.runs(),
        unit.word(),
        said
    );
    let chart = match along_chart(along, side, unit, &title, &description) {
        Ok(chart) => chart,
        Err(why) => return wrong(why),
    };
    let caption = tr!("Length in {} {}", unit.word(), along.line.runs());
    view! {
        <div class="side-by-side along">
            <div>
                <div id="along-picture"><Picture svg=chart.svg caption/></div>
                <AlongKeys along=along.clone() side above=chart.above unit/>
                <KeepPicture of="along-picture" name="lengths"/>
            </div>
            <div>
                <p>{said}</p>
                {table(along, unit)}
            </div>
        </div>
    }
    .into_any()
}

/// What the lines of the chart mean: only those that are on it.
#[component]
fn AlongKeys(along: Along, side: Option<Side>, above: Option<Length>, unit: Unit) -> impl IntoView {
    let line = |class: &'static str, dot: Option<&'static str>, words: String| {
        view! {
            <li>
                <svg class="line" viewBox="0 0 40 12" aria-hidden="true">
                    <path class=class d="M1 6 H39"/>
                    {dot.map(|class| view! { <circle class=class cx="20" cy="6" r="4"/> })}
                </svg>
                {words}
            </li>
        }
    };
    let on = |wanted: Side| {
        along.halves.iter().any(|half| half.side == wanted)
            && side.is_none_or(|side| side == wanted)
    };
    let alike = along.halves.iter().any(|half| half.side == Side::Centre);
    let (left, right) = (alike || on(Side::Left), on(Side::Right));
    let has_cut = |right: bool| {
        let mut ours = along
            .halves
            .iter()
            .filter(|half| (half.side == Side::Right) == right);
        ours.any(|half| !half.cut.is_empty())
    };
    let of = |what: &str, whose: &str| {
        if alike {
            what.to_owned()
        } else {
            format!("{what}, {whose}")
        }
    };
    let cut = tr_in("what was cut", "Cut");
    let before = match above {
        Some(most) => tr!("Before: up to {}, above the chart", most.shown(unit)),
        None => tr("Before").to_owned(),
    };
    view! {
        <ul class="key" aria-label=tr("What the lines mean")>
            {left.then(|| line("a-target", None, of(tr("Planned"), whose(Side::Left))))}
            {right.then(|| line("a-target a-right", None, of(tr("Planned"), whose(Side::Right))))}
            <li><span class="swatch band"></span>{tr("What may be off")}</li>
            {(left && has_cut(false)).then(|| line("a-cut", Some("a-dot"), of(cut, whose(Side::Left))))}
            {(right && has_cut(true)).then(|| line("a-cut a-right", Some("a-dot a-hollow"), of(cut, whose(Side::Right))))}
            {line("l-before", None, before)}
        </ul>
    }
}

/// A side, after what is told of it.
fn whose(side: Side) -> &'static str {
    match side {
        Side::Left => tr_in("after a place or a line", "left"),
        Side::Centre => tr_in("after a place or a line", "centre"),
        Side::Right => tr_in("after a place or a line", "right"),
    }
}

/// The lengths at the named places; the right has a line of its own where it reads otherwise.
fn table(along: &Along, unit: Unit) -> AnyView {
    let number = |cm: f64| Length::from_cm(cm).number(unit);
    let has_cut = along.halves.iter().any(|half| !half.cut.is_empty());
    let cells = |half: &AlongHalf, row: usize| -> Option<Vec<String>> {
        let mark = half.marks.get(row)?;
        let mut cells = vec![number(mark.before), number(mark.planned)];
        if has_cut {
            let none = if mark.cuts {
                tr("not yet")
            } else {
                tr("not cut")
            };
            cells.push(mark.cut.map_or(none.to_owned(), number));
        }
        Some(cells)
    };
    let mut rows = Vec::new();
    for (row, mark) in along
        .halves
        .iter()
        .take(1)
        .flat_map(|h| h.marks.iter().enumerate())
    {
        let mut all: Vec<(Side, Vec<String>)> = Vec::new();
        for half in &along.halves {
            let Some(cells) = cells(half, row) else {
                continue;
            };
            if all.first().is_none_or(|(_, first)| *first != cells) {
                all.push((half.side, cells));
            }
        }
        let differ = all.len() > 1;
        for (side, cells) in all {
            let side = if differ {
                format!(", {}", whose(side))
            } else {
                String::new()
            };
            let cells = cells
                .into_iter()
                .map(|cell| view! { <td class="number">{cell}</td> });
            rows.push(view! {
                <tr>
                    <th scope="row">{mark.place.name()}{side}</th>
                    {cells.collect_view()}
                </tr>
            });
        }
    }
    view! {
        <table>
            <caption>{tr!("As cut, in {}. The middle is looked at just beside it.", unit.word())}</caption>
            <thead>
                <tr>
                    <th scope="col">{tr("Place")}</th>
                    <th scope="col" class="number">{tr("Before")}</th>
                    <th scope="col" class="number">{tr("Planned")}</th>
                    {has_cut.then(|| view! { <th scope="col" class="number">{tr_in("what was cut", "Cut")}</th> })}
                </tr>
            </thead>
            <tbody>{rows}</tbody>
        </table>
    }
    .into_any()
}
