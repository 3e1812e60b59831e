//! A picture kept as a file or passed on.

use leptos::prelude::*;

/// Two buttons: the picture inside an element of the page saved as a file, or passed on as an image.
#[component]
pub fn KeepPicture(
    /// The `id` of the element that holds the `<svg>`.
    #[prop(into)]
    of: String,
    /// The file's name, without an ending.
    #[prop(into)]
    name: String,
) -> impl IntoView {
    view! { <div class="keep-picture" data-of=of data-name=name></div> }
}
