//! Pictures from the chart room, set into the page.

use super::{InPlace, KeepPicture};
use crate::chart::ContourMap;
use crate::ui::kept::kept;
use crate::words::tr;
use leptos::prelude::*;

/// A picture made by the chart room, with a caption.
#[component]
pub fn Picture(
    /// The SVG, made by our own code from the model; nothing typed goes into it unescaped.
    #[prop(into)]
    svg: Signal<String>,
    /// What is seen, in a few words.
    #[prop(into, optional)]
    caption: Option<String>,
    /// A name under which it can be kept or passed on, unlike any other on the screen.
    #[prop(optional)]
    keep: Option<&'static str>,
    /// What its marks mean.
    #[prop(optional)]
    children: Option<Children>,
) -> impl IntoView {
    let id = keep.map(|name| ["picture-", name].concat());
    let doings = id
        .clone()
        .zip(keep)
        .map(|(of, name)| view! { <KeepPicture of name/> });
    view! {
        <figure class="figure">
            <InPlace id svg/>
            {caption.map(|caption| view! { <figcaption>{caption}</figcaption> })}
        </figure>
        {children.map(|keys| keys())}
        {doings}
    }
}

/// What the lines of a contour map stand for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Legend {
    /// Lengths.
    Lengths,
    /// Differences of what was cut from what was planned.
    Change,
    /// Differences of the left from the right.
    Sides,
}

/// What the marks of a contour map mean: only those that are on it.
#[component]
pub fn ContourKeys(
    /// The map.
    map: ContourMap,
    /// What its lines stand for.
    legend: Legend,
) -> impl IntoView {
    let unit = kept().unit();
    let changes = legend != Legend::Lengths;
    let line = |class: &'static str, words: String| {
        view! {
            <li>
                <svg class="line" viewBox="0 0 26 12" aria-hidden="true"><path class=class d="M1 9 Q13 1 25 5"/></svg>
                {words}
            </li>
        }
    };
    let drawn = |class: &str| map.svg.contains(&["\"", class, "\""].concat());
    let every = tr!("A line every {}", map.interval.as_measured(unit));
    let lines = (!map.contours.is_empty()).then(|| line("c-line", every));
    let heavy = if changes {
        (
            "c-line c-zero",
            if legend == Legend::Sides {
                tr("Alike")
            } else {
                tr("As planned")
            },
        )
    } else {
        ("c-line c-heavy", tr("Every fifth"))
    };
    let heavy = (map.contours.iter().any(|c| c.heavy)).then(|| line(heavy.0, heavy.1.to_owned()));
    let than = if legend == Legend::Sides {
        tr("Left longer (+) or shorter (−) than right")
    } else {
        tr("Longer (+) or shorter (−) than planned")
    };
    let step = (!map.steps.is_empty())
        .then(|| line("c-step", tr("A step between two sections").to_owned()));
    view! {
        <ul class="key" aria-label=tr("What the lines mean")>
            {(changes && !map.nothing).then(|| view! {
                <li><span class="amount" aria-hidden="true">"±"</span>{tr!("{than}, in {}", unit.word(), than)}</li>
            })}
            {lines}
            {heavy}
            {step}
            {drawn("c-part").then(|| line("c-part", tr("Parting").to_owned()))}
            {drawn("c-guide").then(|| view! {
                <li>
                    <svg class="line" viewBox="0 0 26 12" aria-hidden="true"><path class="c-guide" d="M3 1 H23 V11 H3 Z"/></svg>
                    {tr("Cut first")}
                </li>
            })}
        </ul>
    }
}

/// What the marks of the section chart mean.
#[component]
pub fn SectionKeys(
    /// Whether anything was cut yet.
    cut: bool,
) -> impl IntoView {
    view! {
        <ul class="key" aria-label=tr("What the marks mean")>
            <li><span class="swatch"></span>{tr("Left, shortest to longest")}</li>
            <li><span class="swatch hollow"></span>{tr("Right")}</li>
            {cut.then(|| view! {
                <li><span class="swatch dot"></span>{tr("Cut, longest")}</li>
                <li><span class="swatch dot hollow"></span>{tr("Cut, longest, right")}</li>
            })}
        </ul>
    }
}
