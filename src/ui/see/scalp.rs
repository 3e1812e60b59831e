//! The whole scalp laid flat: lengths planned and cut, how they differ, left against right, the sections in
//! their order; a section that is touched is told.

use super::Made;
use super::ahead::ahead;
use crate::book::SavedCut;
use crate::chart::{ContourMap, Lines, scalp_map, section_parcels};
use crate::cut::PlaceLength;
use crate::measure::Unit;
use crate::ui::kept::kept;
use crate::ui::parts::{
    Column, ContourKeys, KeepPicture, Legend, Options, PlaceTable, SectionMap, go_to_chair, wrong,
};
use crate::ui::words;
use crate::words::{tr, tr_in};
use leptos::prelude::*;
use std::sync::Arc;

/// What the map shows.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Shown {
    Planned,
    Cut,
    Change,
    Sides,
    Order,
}

impl Shown {
    const ALL: [Self; 5] = [
        Self::Planned,
        Self::Cut,
        Self::Change,
        Self::Sides,
        Self::Order,
    ];

    const fn word(self) -> &'static str {
        match self {
            Self::Planned => "planned",
            Self::Cut => "cut",
            Self::Change => "change",
            Self::Sides => "sides",
            Self::Order => "order",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Planned => tr("Planned"),
            Self::Cut => tr_in("what was cut", "Cut"),
            Self::Change => tr("Off the plan"),
            Self::Sides => tr("Left against right"),
            Self::Order => tr("In order"),
        }
    }

    /// What its legend says of its lines.
    const fn legend(self) -> Legend {
        match self {
            Self::Change => Legend::Change,
            Self::Sides => Legend::Sides,
            _ => Legend::Lengths,
        }
    }

    /// Whether it is there only once something is cut.
    const fn of_cut(self) -> bool {
        matches!(self, Self::Cut | Self::Change)
    }

    /// Title and description.
    fn told(self) -> (&'static str, &'static str) {
        match self {
            Self::Planned => (
                tr("How long the hair is planned, everywhere on the scalp"),
                tr(
                    "The scalp from above, forehead up, the client\u{2019}s left on the left. Each line joins hair of one length and carries it. The lengths at the named places stand in the table below.",
                ),
            ),
            Self::Cut => (
                tr("How long the hair comes out, everywhere on the scalp"),
                tr(
                    "The scalp from above, forehead up, the client\u{2019}s left on the left. Each line joins hair of one length, as it was cut and as the rest follows of that, and carries it. The lengths at the named places stand in the table below.",
                ),
            ),
            Self::Change => (
                tr("What came out longer or shorter than planned, everywhere on the scalp"),
                tr(
                    "The scalp from above, forehead up, the client\u{2019}s left on the left. Each line joins hair that came out the same amount longer, with a plus, or shorter, with a minus, and carries it; within a section its own amount stands. The amounts at the named places stand in the table below.",
                ),
            ),
            Self::Sides => (
                tr("How much longer the left is than the right, everywhere on the scalp"),
                tr(
                    "The scalp from above, forehead up, the client\u{2019}s left on the left. Each line joins hair that is the same amount longer on the left, with a plus, or shorter, with a minus, than its twin on the right; within a section its own amount stands; both halves show the same. The lengths at the named places stand in the table below.",
                ),
            ),
            Self::Order => (
                tr("The sections in the order in which they are cut"),
                tr(
                    "The scalp from above, forehead up, the client\u{2019}s left on the left. Each section carries its place in the order.",
                ),
            ),
        }
    }
}

/// A map and what there is to say of it.
#[derive(PartialEq)]
pub struct Drawn {
    svg: String,
    /// Its lines, for the legend; none where it has none.
    lines: Option<ContourMap>,
    said: &'static str,
}

/// The scalp of one cut.
#[component]
pub fn Scalp(made: StoredValue<Made>, cut: RwSignal<SavedCut>) -> impl IntoView {
    let kept = kept();
    let has_cut = made.with_value(|made| made.cut.is_some());
    let first = if has_cut { Shown::Cut } else { Shown::Planned };
    let shown = RwSignal::new(first);
    let options = Shown::ALL
        .into_iter()
        .filter(|shown| has_cut || !shown.of_cut())
        .map(|shown| (shown.word().to_owned(), shown.name().to_owned()))
        .collect();
    let chosen = Signal::derive(move || shown.get().word().to_owned());
    let choose = Callback::new(move |word: String| {
        let found = Shown::ALL.into_iter().find(|shown| shown.word() == word);
        shown.set(found.unwrap_or(first));
    });
    let drawn = Memo::new(move |_| {
        let (shown, unit) = (shown.get(), kept.unit());
        made.with_value(|made| kept_map(made, shown, unit))
    });
    // The others, while nobody waits for them.
    let next = move || {
        let unit = kept.settings_now().unit;
        made.with_value(|made| {
            let mut all = Shown::ALL.into_iter();
            let next =
                all.find(|shown| (has_cut || !shown.of_cut()) && !made.maps.has(&(*shown, unit)));
            next.is_some_and(|shown| kept_map(made, shown, unit).is_ok())
        })
    };
    ahead(StoredValue::new(()), next);
    let svg = Signal::derive(move || {
        drawn.with(|drawn| drawn.as_ref().map_or(String::new(), |d| d.svg.clone()))
    });
    let legend = move || {
        drawn.with(|drawn| match drawn {
            Ok(drawn) => {
                let legend = shown.get_untracked().legend();
                let keys = drawn.lines.clone();
                view! {
                    {(!drawn.said.is_empty()).then(|| view! { <p>{drawn.said}</p> })}
                    {keys.map(|map| view! { <ContourKeys map legend/> })}
                }
                .into_any()
            }
            Err(why) => view! { <p class="note" role="alert">{why.clone()}</p> }.into_any(),
        })
    };
    let (id, of) = made.with_value(|made| {
        let of = (made.ready.clone(), made.real().clone());
        (made.id.clone(), StoredValue::new(of))
    });
    let walk = made.with_value(|made| made.cut.as_ref().map(|(walk, _)| walk.clone()));
    let at_chair = go_to_chair(cut);
    let below = (move || made.with_value(|made| table(made, kept.unit()))).into_any();
    view! {
        <h2>{tr("The whole scalp")}</h2>
        <Options ask=tr("Shown") name="scalp" options chosen on_choose=choose/>
        <SectionMap id of svg walk at_chair holder="scalp-picture" below>{legend}</SectionMap>
        <KeepPicture of="scalp-picture" name="scalp"/>
    }
}

/// The map of what is shown; drawn the first time it is asked for.
fn kept_map(made: &Made, shown: Shown, unit: Unit) -> Result<Arc<Drawn>, String> {
    made.maps.get((shown, unit), || draw(made, shown, unit))
}

/// The map of what is shown.
fn draw(made: &Made, shown: Shown, unit: Unit) -> Result<Drawn, String> {
    let head = &made.ready.head;
    let (title, description) = shown.told();
    let lines = match shown {
        Shown::Planned => Lines::Lengths(&made.planned),
        Shown::Cut => Lines::Lengths(made.real()),
        Shown::Change => Lines::Change {
            planned: &made.planned,
            cut: made.real(),
        },
        Shown::Sides => Lines::Sides(made.real()),
        Shown::Order => {
            return Ok(Drawn {
                svg: scalp_map(head, &section_parcels(made.real()), title, description),
                lines: None,
                said: "",
            });
        }
    };
    let wear = made.ready.job().wear();
    let map = ContourMap::new(head, lines, &wear, unit, (title, description))
        .map_err(|why| why.to_string())?;
    let said = match (shown, map.nothing) {
        (Shown::Sides, true) => tr("Both sides are alike."),
        (Shown::Change, true) => tr("All of it came out as planned."),
        (_, true) => tr("All of it is of one length, or nearly."),
        (Shown::Cut, _) if !made.all_cut() => {
            tr("What is not cut yet stands as it follows of what is.")
        }
        _ => "",
    };
    Ok(Drawn {
        svg: map.svg.clone(),
        lines: Some(map),
        said,
    })
}

/// The lengths at the named places: planned and, once something is cut, as it comes out.
fn table(made: &Made, unit: Unit) -> AnyView {
    let head = &made.ready.head;
    let (planned, real) = match (made.planned.at_places(head), made.real().at_places(head)) {
        (Ok(planned), Ok(real)) => (planned, real),
        (Err(why), _) | (_, Err(why)) => {
            return wrong(why);
        }
    };
    let number = |places: &[PlaceLength]| places.iter().map(|p| p.cut.0.number(unit)).collect();
    let mut columns = vec![Column {
        name: tr("Planned"),
        values: number(&planned),
    }];
    if made.cut.is_some() {
        let both = planned.iter().zip(&real);
        let differences = both.map(|(a, b)| words::difference(a.cut.0, b.cut.0, unit));
        columns.push(Column {
            name: tr_in("what was cut", "Cut"),
            values: number(&real),
        });
        columns.push(Column {
            name: tr("Difference"),
            values: differences.collect(),
        });
    }
    view! { <PlaceTable places=planned columns unit/> }.into_any()
}
