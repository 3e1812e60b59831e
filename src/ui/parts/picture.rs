//! Pictures from the chart room, set into the page.

use crate::measure::Length;
use crate::ui::kept::kept;
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
) -> impl IntoView {
    view! {
        <figure class="figure">
            <div inner_html=move || svg.get()></div>
            {caption.map(|caption| view! { <figcaption>{caption}</figcaption> })}
        </figure>
    }
}

/// What the marks of the contour map mean.
#[component]
pub fn ContourKeys(
    /// From one line to the next.
    interval: Length,
    /// Whether some line met a step.
    steps: bool,
    /// Whether they are differences from a plan.
    changes: bool,
) -> impl IntoView {
    let kept = kept();
    let apart = move || {
        let interval = interval.as_measured(kept.unit());
        if changes {
            format!("So much longer (+) or shorter (−) than planned, a line every {interval}")
        } else {
            format!("One length, a line every {interval}")
        }
    };
    let heavy = if changes { "As planned" } else { "Every fifth" };
    let line = |class: &'static str| {
        view! { <svg class="line" viewBox="0 0 26 12" aria-hidden="true"><path class=class d="M1 9 Q13 1 25 5"/></svg> }
    };
    view! {
        <ul class="key" aria-label="What the lines mean">
            <li>{line("c-line")}{apart}</li>
            <li>{line("c-line c-heavy")}{heavy}</li>
            {steps.then(|| view! { <li>{line("c-step")}"A step between two sections"</li> })}
            <li>{line("c-part")}"Parting"</li>
            <li>
                <svg class="line" viewBox="0 0 26 12" aria-hidden="true"><path class="c-guide" d="M3 1 H23 V11 H3 Z"/></svg>
                "Cut first"
            </li>
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
        <ul class="key" aria-label="What the marks mean">
            <li><span class="swatch"></span>"Left, shortest to longest"</li>
            <li><span class="swatch hollow"></span>"Right"</li>
            {cut.then(|| view! { <li><span class="swatch dot"></span>"Cut, longest"</li> })}
        </ul>
    }
}
