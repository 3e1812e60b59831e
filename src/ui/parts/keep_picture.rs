//! A picture kept as a file or passed on.

use crate::ui::device::{Left, pass_picture_on, save_picture};
use crate::words::tr;
use leptos::prelude::*;
use leptos::task::spawn_local;

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
    let left = RwSignal::new(None::<Left>);
    let picture = StoredValue::new((of, name));
    let save = move |_| {
        left.set(Some(
            picture.with_value(|(of, name)| save_picture(of, name)),
        ));
    };
    let pass_on = move |_| {
        let (of, name) = picture.get_value();
        spawn_local(async move {
            let became = pass_picture_on(&of, &name).await;
            // The screen may be left by then.
            left.try_set(Some(became));
        });
    };
    view! {
        <div class="keep-picture">
            <button on:click=pass_on>{tr("Share picture")}</button>
            <button on:click=save>{tr("Save drawing")}</button>
            <p class="soft" role="status">{move || left.get().map(Left::sentence)}</p>
        </div>
    }
}
