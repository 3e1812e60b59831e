//! What comes back in several cuts.

use super::places::signed;
use super::reading::read;
use crate::book::{Group, LEAST, MOST, RULER, Trend, Trends, Which};
use crate::chart::{Lane, trend_chart};
use crate::measure::{Length, Unit};
use crate::ui::frame::{HOME, titled};
use crate::ui::kept::kept;
use crate::ui::parts::{Options, Picture};
use crate::ui::words;
use crate::words::{tr, tr_in};
use leptos::prelude::*;
use leptos_router::components::A;
use leptos_router::hooks::use_query_map;

/// What comes back in all cuts, or in those of one client or practice head (`?of=ID`).
#[component]
pub fn TrendsScreen() -> impl IntoView {
    titled(tr("What comes back"));
    let kept = kept();
    kept.opened_none();
    let query = use_query_map();
    let of = Memo::new(move |_| query.read().get("of").unwrap_or_default());
    let chosen = RwSignal::new(String::new());
    let which = Memo::new(move |_| match (of.get(), chosen.get().as_str()) {
        (_, "practice") => Which::Practice,
        (_, "all") => Which::All,
        (of, _) if of.is_empty() => Which::All,
        (of, _) => Which::Of(of),
    });
    let seen = move || kept.settings().seen;
    view! {
        <h1>{tr("What comes back")}</h1>
        {move || {
            if seen() {
                return view! { <p class="note">{tr("Hidden while the client looks on.")}</p> }.into_any();
            }
            view! {
                <WhichCuts of which chosen/>
                {move || {
                    let trends = read(which.get());
                    view! { <All trends/> }
                }}
            }
            .into_any()
        }}
        <div class="actions">
            {move || {
                let of = of.get();
                let to = if of.is_empty() { "/book".to_owned() } else { format!("/book/{of}") };
                view! { <A href=to attr:class="button main">{if of.is_empty() { tr("The book") } else { tr("Back to the card") }}</A> }
            }}
            <A href=HOME exact=true attr:class="button">{tr("Your cuts")}</A>
        </div>
    }
}

/// Which cuts are looked at.
#[component]
fn WhichCuts(of: Memo<String>, which: Memo<Which>, chosen: RwSignal<String>) -> impl IntoView {
    let one = move || {
        let id = of.get();
        let record = kept().store().record(&id).ok()?;
        Some(record.name.trim().to_owned()).filter(|name| !name.is_empty())
    };
    let options = move || {
        let mut all = vec![
            ("all".to_owned(), tr("All cuts").to_owned()),
            ("practice".to_owned(), tr("Practice heads").to_owned()),
        ];
        if !of.get().is_empty() {
            let name = one().unwrap_or(tr("This card").to_owned());
            all.insert(0, ("of".to_owned(), name));
        }
        all
    };
    let now = Signal::derive(move || {
        let word = match which.get() {
            Which::All => "all",
            Which::Practice => "practice",
            Which::Of(_) => "of",
        };
        word.to_owned()
    });
    let choose = Callback::new(move |word: String| chosen.set(word));
    move || {
        view! {
            <Options ask=tr("Which cuts") name="which" options=options() chosen=now on_choose=choose/>
        }
    }
}

/// The sentences, the picture and the table, once they are read.
#[component]
fn All(trends: RwSignal<Option<Trends>>) -> impl IntoView {
    let kept = kept();
    let by = RwSignal::new("sides".to_owned());
    view! {
        <div role="status">
            {move || trends.with(|trends| sentences(trends.as_ref(), kept.unit()))}
        </div>
        {move || {
            let any = trends.with(|t| t.as_ref().is_some_and(|t| !t.all.is_empty()));
            any.then(|| view! { <Figures trends by/> })
        }}
        <details class="knowing">
            <summary>{tr("How this is told")}</summary>
            <p>{tr!("Looked at are finished cuts in which something was measured, the last {MOST} at the most; the invented salon only from its own cards. Each cut counts once, as the mean of what was measured in a group, at the chair and after it.", MOST)}</p>
            <p>{tr("A sentence stands where most of three cuts or more came out off the same way, and their mean too, each by more than 2.5 mm, which is what a ruler leaves open. Of both sides together only where each does it. These rules are judgement.")}</p>
            <p>{tr("Whether chance may have done it is told by the sign test (Dixon and Mood, 1946), at the usual 5 %: five cuts are never enough for it, six of six are. Many groups are looked at, so now and then one stands out by chance all the same.")}</p>
        </details>
    }
}

/// What is told, in sentences.
fn sentences(trends: Option<&Trends>, unit: Unit) -> AnyView {
    let Some(trends) = trends else {
        return view! { <p class="soft">{tr("Reading the cuts…")}</p> }.into_any();
    };
    let count = trends.cuts.len();
    if count == 0 {
        return view! {
            <p class="note">{tr("Nothing was measured in a finished cut yet. Put down what sections come out at, or check a finished cut yourself.")}</p>
        }
        .into_any();
    }
    let told = trends.told();
    let quiet = told.is_empty().then(|| {
        let text = if count < LEAST {
            tr("Too few cuts yet to tell a habit: three at least.")
        } else {
            tr("Nothing comes back that a ruler can tell.")
        };
        view! { <p class="note">{text}</p> }
    });
    let line = |trend: &Trend| view! { <p class="note told">{trend.said(unit)}</p> };
    let looked = tr!("One cut looked at." | "{n} cuts looked at." % count);
    view! {
        {told.into_iter().map(line).collect_view()}
        {quiet}
        <p class="soft">{looked}</p>
    }
    .into_any()
}

/// How groups are laid side by side.
fn ways() -> [(&'static str, &'static str); 3] {
    [
        ("sides", tr_in("left and right", "Sides")),
        ("regions", tr("Regions")),
        ("lift", tr("Elevation")),
    ]
}

/// Whether a group stands in the picture of this choice.
fn shown(group: Group, by: &str) -> bool {
    match group {
        Group::All | Group::Side(_) | Group::RightLessLeft => by == "sides",
        Group::Region(_) => by == "regions",
        Group::Lift(_) => by == "lift",
        Group::Part(..) => false,
    }
}

#[component]
fn Figures(trends: RwSignal<Option<Trends>>, by: RwSignal<String>) -> impl IntoView {
    let kept = kept();
    let choose = Callback::new(move |word: String| by.set(word));
    let options = ways().map(|(value, words)| (value.to_owned(), words.to_owned()));
    let picture = Signal::derive(move || {
        let by = by.get();
        let unit = kept.unit();
        trends.with(|trends| {
            let trends = trends.as_ref()?;
            let ours = trends.all.iter().filter(|t| shown(t.group, &by));
            let lanes: Vec<Lane> = ours
                .map(|t| Lane {
                    name: t.group.name(),
                    cuts: t.cuts.clone(),
                    mean: t.mean,
                })
                .collect();
            (!lanes.is_empty()).then(|| {
                trend_chart(
                    &lanes,
                    trends.cuts.len(),
                    RULER,
                    unit,
                    tr("What cuts came to, in time order"),
                    tr("A lane for each group. Each dot is a cut: above the line it came out longer than planned, below shorter. The band is what a ruler leaves open, the dashed line the mean. The same numbers stand in the table."),
                )
            })
        })
    });
    view! {
        <Options ask=tr("Show by") name="trends-by" options=options.into() chosen=by on_choose=choose/>
        {move || {
            if picture.with(Option::is_none) {
                return view! { <p class="soft">{tr("Nothing measured tells this.")}</p> }.into_any();
            }
            let svg = Signal::derive(move || picture.get().unwrap_or_default());
            view! {
                <Picture svg caption=tr("Above the line longer, below shorter than planned") keep="what-comes-back"/>
            }
            .into_any()
        }}
        {move || trends.with(|trends| trends.as_ref().map(|t| table(t, kept.unit())))}
    }
}

fn table(trends: &Trends, unit: Unit) -> AnyView {
    let line = |t: &Trend| {
        let spread = Length::from_cm(t.spread).measured_number(unit);
        view! {
            <tr>
                <th scope="row">{t.group.name()}</th>
                <td class="number">{t.cuts.len()}</td>
                <td class="number">{t.short}</td>
                <td class="number">{t.long}</td>
                <td class="number">{signed(t.mean, unit)}</td>
                <td class="number">{spread}</td>
                <td class="number">{chance(t.chance)}</td>
            </tr>
        }
    };
    let cuts = trends.cuts.iter().zip(1..);
    let days: Vec<AnyView> = cuts
        .map(|((day, title), number)| {
            let title = title.clone();
            view! { <li value=number.to_string()>{words::day(day)} " · " {title}</li> }.into_any()
        })
        .collect();
    let pass = Length::from_cm(kept().settings().marks.pass()).as_measured(unit);
    view! {
        <div class="wide-table" role="region" tabindex="0" aria-label=tr("What cuts came to, in numbers")>
            <table>
                <caption>{tr!("Short and long: cuts off by more than {pass}. Mean and spread in {}.", unit.word(), pass)}</caption>
                <thead>
                    <tr>
                        <th scope="col">{tr("Group")}</th>
                        <th scope="col" class="number">{tr("Cuts")}</th>
                        <th scope="col" class="number">{tr_in("how many cuts", "Short")}</th>
                        <th scope="col" class="number">{tr_in("how many cuts", "Long")}</th>
                        <th scope="col" class="number">{tr("Mean")}</th>
                        <th scope="col" class="number">{tr("Spread")}</th>
                        <th scope="col" class="number">{tr("By chance")}</th>
                    </tr>
                </thead>
                <tbody>{trends.all.iter().map(line).collect_view()}</tbody>
            </table>
        </div>
        <details class="knowing">
            <summary>{tr("The cuts, the first to the last")}</summary>
            <ol>{days}</ol>
        </details>
    }
    .into_any()
}

/// A chance as it is read: `38 %`, `below 1 %`.
fn chance(share: f64) -> String {
    if share < 0.01 {
        tr("below 1 %").to_owned()
    } else {
        format!("{:.0} %", share * 100.0)
    }
}

/// What comes back in the cuts of one client or practice head, in sentences, for their card. Nothing while the
/// client looks on.
#[component]
pub fn TrendsOf(record_id: String) -> impl IntoView {
    let kept = kept();
    let to = format!("/trends?of={record_id}");
    let trends = read(Which::Of(record_id));
    let told = move || {
        let unit = kept.unit();
        let line = |trend: &Trend| view! { <p>{trend.said(unit)}</p> };
        trends.with(|trends| {
            let told = trends.as_ref().map(Trends::told).unwrap_or_default();
            told.into_iter().map(line).collect_view()
        })
    };
    move || {
        let hidden = kept.settings().seen;
        (!hidden).then(|| {
            let to = to.clone();
            view! { {told} <p><A href=to attr:class="button plain">{tr("What comes back in these cuts")}</A></p> }
        })
    }
}
