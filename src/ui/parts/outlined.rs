//! An outline with its weight beside it, what its lines mean, and its numbers in tables.

use super::{InPlace, KeepPicture};
use crate::chart::{Against, OutlineChart, View, WeightRow};
use crate::cut::{EndAt, What};
use crate::fall::{Profile, sharpness};
use crate::head::{Level, Side};
use crate::measure::Unit;
use crate::ui::kept::Kept;
use crate::words::{tr, tr_in};
use leptos::prelude::*;
use std::sync::Arc;

/// From where it may be seen: the value, the view.
const VIEWS: [(&str, View); 4] = [
    ("left", View::Left),
    ("right", View::Right),
    ("front", View::Front),
    ("back", View::Back),
];

/// What stands in a table of ends: a letter of the picture, a name, and one or two levels.
#[derive(Clone, PartialEq)]
struct EndRow {
    letter: &'static str,
    name: String,
    own: String,
    other: Option<String>,
}

/// An outline drawn, with all that is said of it.
#[derive(Default, PartialEq)]
pub struct Outlined {
    svg: String,
    caption: String,
    name: String,
    other: Option<String>,
    /// What the key calls the two: laid against its own other side, hair has a side in the tables alone.
    keys: (String, Option<String>),
    /// Whether hair that hangs behind the body is drawn, and the weight line of the other.
    drawn: (bool, bool),
    ends: Vec<EndRow>,
    heights: Vec<WeightRow>,
    unit: Unit,
}

impl Outlined {
    /// Draws a chart. `name` is what the filled hair is called, `other` the dashed, `more` a sentence for the
    /// caption.
    ///
    /// # Errors
    /// A sentence when it could not be drawn.
    pub fn of(
        kept: Kept,
        chart: &OutlineChart<'_>,
        name: &str,
        other: Option<&str>,
        more: &str,
    ) -> Result<Self, String> {
        let unit = chart.unit;
        let (mut name, mut other) = (kept.said(name), other.map(|other| kept.said(other)));
        let mut keys = (name.clone(), other.clone());
        if let Against::OtherSide = chart.against {
            let (own, over) = match chart.view {
                View::Right => (tr("Right"), tr("Left")),
                _ => (tr("Left"), tr("Right")),
            };
            // From the front and the back both sides are filled, and both are dashed in the mirror.
            if matches!(chart.view, View::Left | View::Right) {
                keys = (
                    tr!("{own}, filled: {name}", own, name),
                    Some(tr!("{over}, mirrored", over)),
                );
            }
            (name, other) = (own.to_owned(), Some(over.to_owned()));
        }
        let ends = ends(chart);
        let title = tr!("The outline {}: {}", from(chart.view), keys.0);
        let told: Vec<String> = ends
            .iter()
            .map(|row| format!("{} {}", row.name, row.own))
            .collect();
        let description = kept.said(&tr!("The head with its hair let down, and beside it, on the same heights, the share of all hair that ends there. {}.", told.join("; ")));
        let svg = chart.svg(&title, &description)?;
        Ok(Self {
            drawn: (
                svg.contains("\"o-behind\""),
                svg.contains("\"o-weight-other\""),
            ),
            svg,
            caption: tr!(
                "Heights in {} down from the top of the head. {more}",
                unit.word(),
                more
            ),
            name,
            other,
            keys,
            ends,
            heights: chart.table(),
            unit,
        })
    }

    /// Whether key and tables read the same.
    fn says_the_same(&self, other: &Self) -> bool {
        self.unit == other.unit
            && (&self.name, &self.other) == (&other.name, &other.other)
            && (&self.keys, self.drawn) == (&other.keys, other.drawn)
            && self.ends == other.ends
            && self.heights == other.heights
    }
}

/// An outline that stays as it is; see [`outlined`].
pub fn one_outlined(shown: Outlined) -> AnyView {
    outlined(Signal::stored(Arc::new(shown)))
}

/// The picture of an outline, its key and its tables; what reads the same as before is left alone.
pub fn outlined(shown: Signal<Arc<Outlined>>) -> AnyView {
    let svg = Signal::derive(move || shown.with(|shown| shown.svg.clone()));
    let caption = Memo::new(move |_| shown.with(|shown| shown.caption.clone()));
    let differs = |one: Option<&Arc<Outlined>>, next: Option<&Arc<Outlined>>| {
        one.zip(next)
            .is_none_or(|(one, next)| !one.says_the_same(next))
    };
    let said = Memo::new_with_compare(move |_| shown.get(), differs);
    view! {
        <div class="outlined">
            <div>
                <figure class="figure">
                    <InPlace id=Some("outline-picture".to_owned()) svg/>
                    <figcaption>{caption}</figcaption>
                    {move || said.with(|shown| keys(shown))}
                </figure>
                <KeepPicture of="outline-picture" name="outline"/>
            </div>
            <div>{move || said.with(|shown| tables(shown))}</div>
        </div>
    }
    .into_any()
}

fn keys(shown: &Outlined) -> AnyView {
    let line = |class: &'static str, words: String| {
        view! {
            <li>
                <svg class="line" viewBox="0 0 30 12" aria-hidden="true"><path class=class d="M1 6 H29"/></svg>
                {words}
            </li>
        }
    };
    view! {
        <ul class="key" aria-label=tr("What the lines mean")>
            {line("o-edge", shown.keys.0.clone())}
            {shown.drawn.0.then(|| line("o-behind", tr("Hangs behind the body").to_owned()))}
            {shown.keys.1.clone().map(|other| line("o-dashed", other))}
            {line("o-weight", tr("Where most ends lie").to_owned())}
            {shown.drawn.1.then(|| line("o-weight-other", tr("The same of the dashed").to_owned()))}
        </ul>
    }
    .into_any()
}

fn tables(shown: &Outlined) -> AnyView {
    let head = |name: Option<String>| name.map(|name| view! { <th scope="col">{name}</th> });
    let row = |row: &EndRow| {
        view! {
            <tr>
                <th scope="row"><span class="letter">{row.letter}</span>{row.name.clone()}</th>
                <td>{row.own.clone()}</td>
                {row.other.clone().map(|other| view! { <td>{other}</td> })}
            </tr>
        }
    };
    view! {
        <table class="ends">
            <caption>{tr("Where it ends, let down and dry")}</caption>
            <thead><tr><th scope="col">{tr("Place")}</th>{head(Some(shown.name.clone()))}{head(shown.other.clone())}</tr></thead>
            <tbody>{shown.ends.iter().map(row).collect_view()}</tbody>
        </table>
        {by_height(&shown.heights, shown.unit, &shown.name, shown.other.as_deref())}
    }
    .into_any()
}

/// From where an outline may be seen, as the answers of a question.
pub fn views() -> Vec<(String, String)> {
    let words = |view| match view {
        View::Left => tr("Left"),
        View::Right => tr("Right"),
        View::Front => tr_in("seen from", "Front"),
        View::Back => tr_in("seen from", "Back"),
    };
    VIEWS
        .map(|(value, view)| (value.to_owned(), words(view).to_owned()))
        .into()
}

/// The view of an answer; the left if it is none.
pub fn view_of(answer: &str) -> View {
    let found = VIEWS.iter().find(|(value, _)| *value == answer);
    found.map_or(View::Left, |(_, view)| *view)
}

/// `from the left`.
fn from(view: View) -> &'static str {
    match view {
        View::Left => tr("from the left"),
        View::Right => tr("from the right"),
        View::Front => tr("from the front"),
        View::Back => tr("from the back"),
    }
}

/// The rows of the table of ends. Left and right stand apart only where they read otherwise.
fn ends(chart: &OutlineChart<'_>) -> Vec<EndRow> {
    let unit = chart.unit;
    let level = |end: &EndAt| end.level.said(unit);
    let find = |ends: &[EndAt], what: What, side: Side| {
        let found = ends.iter().find(|end| end.what == what && end.side == side);
        found.map(level).unwrap_or_default()
    };
    let mut rows = Vec::new();
    let own = &chart.hair.ends;
    for (what, letter) in [(What::Front, "F"), (What::Sides, "S"), (What::Back, "B")] {
        let row = |name: String, side: Side, other: Option<String>| EndRow {
            letter,
            name,
            own: find(own, what, side),
            other,
        };
        let name = what.name();
        let other = |side: Side| match chart.against {
            Against::Other(other) => Some(find(&other.ends, what, side)),
            _ => None,
        };
        match chart.against {
            Against::OtherSide => {
                let (side, over) = match chart.view {
                    View::Right => (Side::Right, Side::Left),
                    _ => (Side::Left, Side::Right),
                };
                if what != What::Back {
                    rows.push(row(name.to_owned(), side, Some(find(own, what, over))));
                }
            }
            _ if what == What::Back => {
                rows.push(row(name.to_owned(), Side::Centre, other(Side::Centre)));
            }
            _ => {
                let left = row(name.to_owned(), Side::Left, other(Side::Left));
                let right = row(tr!("{name}, right", name), Side::Right, other(Side::Right));
                if left.own == right.own && left.other == right.other {
                    rows.push(left);
                } else {
                    rows.push(EndRow {
                        name: tr!("{name}, left", name),
                        ..left
                    });
                    rows.push(right);
                }
            }
        }
    }
    let weight = |profile: &Profile| {
        let line = profile.line.map(|line| {
            let at = Level::of(&chart.hair.head, line.z).said(unit);
            format!("{at}, {}", sharpness(line.sharpness))
        });
        line.unwrap_or_default()
    };
    let (own, other) = chart.weights();
    rows.push(EndRow {
        letter: "",
        name: tr("Weight").to_owned(),
        own: weight(own),
        other: other.map(weight),
    });
    rows
}

/// The weight, height by height.
fn by_height(
    rows: &[WeightRow],
    unit: Unit,
    name: &str,
    other: Option<&str>,
) -> impl IntoView + use<> {
    let percent = |share: f64| match share {
        0.0 => "–".to_owned(),
        share if share < 0.5 => tr("under 1 %").to_owned(),
        share => format!("{share:.0} %"),
    };
    let lines: Vec<_> = rows
        .iter()
        .map(|row| {
            let heights = format!(
                "{}–{}",
                row.from.measured_number(unit),
                row.to.measured_number(unit)
            );
            view! {
                <tr>
                    <th scope="row">{heights}</th>
                    <td class="number">{percent(row.percent)}</td>
                    {row.other.map(|share| view! { <td class="number">{percent(share)}</td> })}
                </tr>
            }
        })
        .collect();
    let head = |name: &str| view! { <th scope="col" class="number">{name.to_owned()}</th> };
    view! {
        <details class="knowing">
            <summary>{tr("The weight by height")}</summary>
            <table class="heights">
                <caption>{tr!("The share of all hair that ends so far below the top of the head, in {}.", unit.word())}</caption>
                <thead><tr><th scope="col">{tr_in("below the top of the head", "Down")}</th>{head(name)}{other.map(head)}</tr></thead>
                <tbody>{lines}</tbody>
            </table>
        </details>
    }
}
