//! Lines of a description list that stand only where there is something to say.

use leptos::prelude::*;

/// A name and a text.
pub fn told_line(name: &'static str, text: String) -> AnyView {
    (!text.is_empty())
        .then(|| view! { <div><dt>{name}</dt><dd>{text}</dd></div> })
        .into_any()
}

/// A name and some texts.
pub fn told_list(name: &'static str, all: Vec<String>) -> AnyView {
    (!all.is_empty())
        .then(|| {
            let items = all.into_iter().map(|text| view! { <li>{text}</li> });
            view! { <div><dt>{name}</dt><dd><ul>{items.collect_view()}</ul></dd></div> }
        })
        .into_any()
}
