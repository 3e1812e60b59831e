//! An outline with its weight beside it, what its lines mean, and its numbers in tables.

use super::KeepPicture;
use crate::chart::{Against, OutlineChart, View, WeightRow};
use crate::cut::{EndAt, Level, What};
use crate::fall::Profile;
use crate::head::Side;
use crate::measure::Unit;
use crate::ui::kept::kept;
use crate::ui::words;
use leptos::prelude::*;

/// From where it may be seen: the value, the words, the view.
const VIEWS: [(&str, &str, View); 4] = [
    ("left", "Left", View::Left),
    ("right", "Right", View::Right),
    ("front", "Front", View::Front),
    ("back", "Back", View::Back),
];

/// What stands in a table of ends: a letter of the picture, a name, and one or two levels.
struct EndRow {
    letter: &'static str,
    name: String,
    own: String,
    other: Option<String>,
}

/// The picture of a chart, its key and its tables. `name` is what the filled hair is called, `other` the
/// dashed, `more` a sentence for the caption.
pub fn outlined(
    chart: &OutlineChart<'_>,
    name: &str,
    other: Option<&str>,
    more: &str,
) -> Result<AnyView, String> {
    let kept = kept();
    let unit = chart.unit;
    let (name, other) = (kept.said(name), other.map(|other| kept.said(other)));
    let ends = ends(chart);
    let title = format!("The outline {}: {name}", from(chart.view));
    let told: Vec<String> = ends
        .iter()
        .map(|row| format!("{} {}", row.name, row.own))
        .collect();
    let description = kept.said(&format!(
        "The head with its hair let down, and beside it, on the same heights, the share of all hair that ends there. {}.",
        told.join("; ")
    ));
    let svg = chart.svg(&title, &description)?;
    let line = |class: &'static str, words: String| {
        view! {
            <li>
                <svg class="line" viewBox="0 0 30 12" aria-hidden="true"><path class=class d="M1 6 H29"/></svg>
                {words}
            </li>
        }
    };
    let dashed = other.clone().map(|other| line("o-dashed", other));
    let caption = format!(
        "Heights in {} down from the top of the head. {more}",
        unit.mark()
    );
    let head = |name: Option<String>| name.map(|name| view! { <th scope="col">{name}</th> });
    let row = |row: EndRow| {
        view! {
            <tr>
                <th scope="row"><span class="letter">{row.letter}</span>{row.name}</th>
                <td>{row.own}</td>
                {row.other.map(|other| view! { <td>{other}</td> })}
            </tr>
        }
    };
    Ok(view! {
        <div class="outlined">
            <div>
                <figure class="figure">
                    <div id="outline-picture" inner_html=svg></div>
                    <figcaption>{caption}</figcaption>
                    <ul class="key" aria-label="What the lines mean">
                        {line("o-edge", name.clone())}
                        {dashed}
                        {line("o-weight", "Where most ends lie".to_owned())}
                    </ul>
                </figure>
                <KeepPicture of="outline-picture" name="outline"/>
            </div>
            <div>
                <table class="ends">
                    <caption>"Where it ends, let down and dry"</caption>
                    <thead><tr><th scope="col">"Place"</th>{head(Some(name.clone()))}{head(other.clone())}</tr></thead>
                    <tbody>{ends.into_iter().map(row).collect_view()}</tbody>
                </table>
                {by_height(&chart.table(), unit, &name, other.as_deref())}
            </div>
        </div>
    }
    .into_any())
}

/// From where an outline may be seen, as the answers of a question.
pub fn views() -> Vec<(String, String)> {
    VIEWS
        .map(|(value, words, _)| (value.to_owned(), words.to_owned()))
        .into()
}

/// The view of an answer; the left if it is none.
pub fn view_of(answer: &str) -> View {
    let found = VIEWS.iter().find(|(value, ..)| *value == answer);
    found.map_or(View::Left, |(_, _, view)| *view)
}

/// `from the left`.
const fn from(view: View) -> &'static str {
    match view {
        View::Left => "from the left",
        View::Right => "from the right",
        View::Front => "from the front",
        View::Back => "from the back",
    }
}

/// The rows of the table of ends. Left and right stand apart only where they read otherwise.
fn ends(chart: &OutlineChart<'_>) -> Vec<EndRow> {
    let unit = chart.unit;
    let level = |end: &EndAt| words::lies(&end.level, unit);
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
                let right = row(format!("{name}, right"), Side::Right, other(Side::Right));
                if left.own == right.own && left.other == right.other {
                    rows.push(left);
                } else {
                    rows.push(EndRow {
                        name: format!("{name}, left"),
                        ..left
                    });
                    rows.push(right);
                }
            }
        }
    }
    let weight = |profile: &Profile| {
        let line = profile.line.map(|line| {
            let at = words::lies(&Level::of(&chart.hair.head, line.z), unit);
            format!("{at}, {}", words::sharpness(line.sharpness))
        });
        line.unwrap_or_default()
    };
    let (own, other) = chart.weights();
    rows.push(EndRow {
        letter: "",
        name: "Weight".to_owned(),
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
        share if share < 0.5 => "under 1 %".to_owned(),
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
            <summary>"The weight by height"</summary>
            <table class="heights">
                <caption>{format!("The share of all hair that ends so far below the top of the head, in {}.", unit.mark())}</caption>
                <thead><tr><th scope="col">"Down"</th>{head(name)}{other.map(head)}</tr></thead>
                <tbody>{lines}</tbody>
            </table>
        </details>
    }
}
