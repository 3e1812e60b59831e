//! What leaves the page: files, saved among the phone's downloads or passed on through its own share sheet
//! (W3C Web Share, level 2), and links. Where a browser can't pass files on, they are saved instead.

use super::alone::{Alone, alone};
use super::{call, of};
use crate::words::tr;
use leptos::prelude::*;
use leptos::web_sys::{
    Blob, BlobPropertyBag, CanvasRenderingContext2d, File, FilePropertyBag, HtmlAnchorElement,
    HtmlCanvasElement, HtmlImageElement, Url,
};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// How wide an image is at least, in pixels: sharp on any phone, and on half a page of paper.
const WIDE: f64 = 1600.0;
const SVG: &str = "image/svg+xml";
const PNG: &str = "image/png";

/// What became of something that was to leave the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Left {
    /// It is among the downloads.
    Saved,
    /// It is among the downloads, for this browser can't pass files on.
    SavedInstead,
    /// It was handed to the phone's share sheet.
    Passed,
    /// The person closed the share sheet.
    Stayed,
    /// It can be pasted somewhere else.
    Copied,
    /// It was not copied, for this browser can't or would not.
    NotCopied,
    /// The browser refused.
    Refused,
}

impl Left {
    /// It in a sentence.
    pub fn sentence(self) -> &'static str {
        match self {
            Self::Saved => tr("Saved among the downloads."),
            Self::SavedInstead => {
                tr("This browser can't share files: it is saved among the downloads instead.")
            }
            Self::Passed => tr("Shared."),
            Self::Stayed => tr("Not shared."),
            Self::Copied => tr("Copied."),
            Self::NotCopied => tr(
                "This browser would not copy it. Hold a finger on the link, or mark it, and copy it yourself.",
            ),
            Self::Refused => tr("This browser would not do it."),
        }
    }
}

/// Saves the picture inside the element of this `id` as a file.
pub fn save_picture(id: &str, name: &str) -> Left {
    let saved = alone(id).and_then(|alone| {
        let blob = blob(&JsValue::from_str(&alone.svg), SVG)?;
        save(&blob, &[name, ".svg"].concat())
    });
    saved.map_or(Left::Refused, |()| Left::Saved)
}

/// Passes the picture inside the element of this `id` on as an image.
pub async fn pass_picture_on(id: &str, name: &str) -> Left {
    let Some(alone) = alone(id) else {
        return Left::Refused;
    };
    let Some(image) = painted(&alone).await else {
        return Left::Refused;
    };
    let name = [name, ".png"].concat();
    match shared(&image, &name, PNG).await {
        Some(left) => left,
        None => save(&image, &name).map_or(Left::Refused, |()| Left::SavedInstead),
    }
}

/// Saves a text as a file of this name.
pub fn save_text(text: &str, name: &str, kind: &str) -> Left {
    let saved = blob(&JsValue::from_str(text), kind).and_then(|blob| save(&blob, name));
    saved.map_or(Left::Refused, |()| Left::Saved)
}

/// Passes a text on as a file of this name.
pub async fn pass_text_on(text: &str, name: &str, kind: &str) -> Left {
    let Some(file) = blob(&JsValue::from_str(text), kind) else {
        return Left::Refused;
    };
    match shared(&file, name, kind).await {
        Some(left) => left,
        None => save(&file, name).map_or(Left::Refused, |()| Left::SavedInstead),
    }
}

/// Whether this browser has a share sheet for links.
pub fn can_pass_links_on() -> bool {
    of(&window().navigator(), "share").is_some()
}

/// Hands a link to the share sheet.
pub async fn pass_link_on(title: &str, link: &str) -> Left {
    let what = js_sys::Object::new();
    for (name, value) in [("title", title), ("url", link)] {
        let _ = js_sys::Reflect::set(&what, &name.into(), &value.into());
    }
    asked_to_share(&what).await.unwrap_or(Left::Refused)
}

/// Copies a text, to be pasted somewhere else.
pub async fn copy(text: &str) -> Left {
    let copied = async {
        let board = of(&window().navigator(), "clipboard")?;
        let asked = call(&board, "writeText", &text.into())?;
        let asked = asked.dyn_into::<js_sys::Promise>().ok()?;
        JsFuture::from(asked).await.ok()
    };
    copied.await.map_or(Left::NotCopied, |_| Left::Copied)
}

fn blob(part: &JsValue, kind: &str) -> Option<Blob> {
    let kept = BlobPropertyBag::new();
    kept.set_type(kind);
    Blob::new_with_str_sequence_and_options(&js_sys::Array::of1(part), &kept).ok()
}

/// Presses a link to it.
fn save(blob: &Blob, name: &str) -> Option<()> {
    let url = Url::create_object_url_with_blob(blob).ok()?;
    let link: HtmlAnchorElement = document().create_element("a").ok()?.dyn_into().ok()?;
    link.set_href(&url);
    link.set_download(name);
    link.click();
    // The browser has it by then.
    set_timeout(
        move || {
            let _ = Url::revoke_object_url(&url);
        },
        std::time::Duration::from_secs(20),
    );
    Some(())
}

/// The picture as an image.
async fn painted(alone: &Alone) -> Option<Blob> {
    let url = Url::create_object_url_with_blob(&blob(&JsValue::from_str(&alone.svg), SVG)?).ok()?;
    let image = HtmlImageElement::new().ok()?;
    image.set_src(&url);
    let read = JsFuture::from(image.decode()).await;
    let _ = Url::revoke_object_url(&url);
    read.ok()?;
    let canvas: HtmlCanvasElement = document().create_element("canvas").ok()?.dyn_into().ok()?;
    let times = (WIDE / alone.size.0).max(1.0);
    let (width, height) = (alone.size.0 * times, alone.size.1 * times);
    canvas.set_width(width.ceil() as u32);
    canvas.set_height(height.ceil() as u32);
    let ground: CanvasRenderingContext2d = canvas.get_context("2d").ok()??.dyn_into().ok()?;
    ground
        .draw_image_with_html_image_element_and_dw_and_dh(&image, 0.0, 0.0, width, height)
        .ok()?;
    let made = js_sys::Promise::new(&mut |done, failed| {
        let ready = Closure::once_into_js(move |blob: JsValue| {
            let _ = done.call1(&JsValue::UNDEFINED, &blob);
        });
        if canvas
            .to_blob_with_type(ready.unchecked_ref(), PNG)
            .is_err()
        {
            let _ = failed.call0(&JsValue::UNDEFINED);
        }
    });
    JsFuture::from(made).await.ok()?.dyn_into().ok()
}

/// Hands a file to the share sheet; none if there is none for it.
async fn shared(image: &Blob, name: &str, kind: &str) -> Option<Left> {
    let navigator = window().navigator();
    of(&navigator, "canShare")?;
    let kept = FilePropertyBag::new();
    kept.set_type(kind);
    let parts = js_sys::Array::of1(image);
    let file = File::new_with_blob_sequence_and_options(&parts, name, &kept).ok()?;
    let what = js_sys::Object::new();
    let files = js_sys::Array::of1(&file);
    js_sys::Reflect::set(&what, &JsValue::from_str("files"), &files).ok()?;
    call(&navigator, "canShare", &what)?
        .is_truthy()
        .then_some(())?;
    asked_to_share(&what).await
}

async fn asked_to_share(what: &JsValue) -> Option<Left> {
    let asked = call(&window().navigator(), "share", what)?;
    match JsFuture::from(asked.dyn_into::<js_sys::Promise>().ok()?).await {
        Ok(_) => Some(Left::Passed),
        // Closing the sheet is no fault; whatever else it was, a file is saved.
        Err(why) => {
            let closed = of(&why, "name").is_some_and(|name| name == "AbortError");
            closed.then_some(Left::Stayed)
        }
    }
}
