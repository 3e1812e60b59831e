//! Pictures from the chart room, set into the page.

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
