//! What a phone can do besides showing a page: keep its screen on, speak, buzz, pass a picture on.
//!
//! One ability a file. Each says what happens where the browser lacks it: the walk goes on without,
//! and the screen says so in words. Nothing here knows of hair.

mod alone;
mod awake;
mod buzz;
mod pass_on;
mod voice;

pub use awake::{Awake, keep_awake};
pub use buzz::{buzz, can_buzz};
pub use pass_on::{Left, pass_picture_on, save_picture, save_text};
pub use voice::{hush, say, voice};

use wasm_bindgen::JsValue;

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
