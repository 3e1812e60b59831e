//! What a phone can do besides showing a page: keep its screen on, speak, buzz, pass things on
//! and take files in.
//!
//! One ability a file. Each says what happens where the browser lacks it: the walk goes on without,
//! and the screen says so in words. Nothing here knows of hair.

mod alone;
mod awake;
mod buzz;
mod lasting;
mod pass_on;
mod taken;
mod voice;

pub use awake::{Awake, keep_awake};
pub use buzz::{buzz, can_buzz};
pub use lasting::{ask_to_last, chance, lasts};
pub use pass_on::{
    Left, can_pass_links_on, copy, pass_link_on, pass_picture_on, pass_text_on, save_picture,
    save_text,
};
pub use taken::Taken;
pub use voice::{hush, say, voice};

use wasm_bindgen::JsValue;

/// Whether this browser can keep the app itself, to open it with no network (W3C Service Workers). It
/// can't in some private windows, nor where the page came over an unsafe connection.
pub fn can_open_offline() -> bool {
    of(&leptos::prelude::window().navigator(), "serviceWorker").is_some()
}

/// A property of a browser's object; none where the browser does not have it.
fn of(object: &JsValue, name: &str) -> Option<JsValue> {
    let value = js_sys::Reflect::get(object, &JsValue::from_str(name)).ok()?;
    (!value.is_undefined() && !value.is_null()).then_some(value)
}

/// Calls a method of a browser's object; none where there is no such method or it throws.
fn call(object: &JsValue, name: &str, argument: &JsValue) -> Option<JsValue> {
    let method: js_sys::Function = wasm_bindgen::JsCast::dyn_into(of(object, name)?).ok()?;
    method.call1(object, argument).ok()
}
