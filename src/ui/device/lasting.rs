//! Whether the browser clears what a page keeps when a device runs out of room (Storage standard,
//! `navigator.storage`), and the chance that sealing takes.

use super::{call, of};
use leptos::prelude::*;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// Whether the browser promised to clear nothing by itself; none where it can't say.
pub async fn lasts() -> Option<bool> {
    asked("persisted").await
}

/// Asks for that promise; none where it can't be asked.
pub async fn ask_to_last() -> Option<bool> {
    asked("persist").await
}

async fn asked(method: &str) -> Option<bool> {
    let storage = of(&window().navigator(), "storage")?;
    let answer = call(&storage, method, &JsValue::UNDEFINED)?;
    let answer = JsFuture::from(answer.dyn_into::<js_sys::Promise>().ok()?).await;
    answer.ok()?.as_bool()
}

/// So many bytes of chance fit for keys (Web Cryptography); none where the browser has no such source.
pub fn chance<const N: usize>() -> Option<[u8; N]> {
    let source = of(&window(), "crypto")?;
    let bytes = js_sys::Uint8Array::new_with_length(u32::try_from(N).ok()?);
    call(&source, "getRandomValues", &bytes)?;
    let mut all = [0; N];
    bytes.copy_to(&mut all);
    Some(all)
}
