//! The browser's local storage as a shelf, its journal beside it.

use super::held::Held;
use super::shelf::{Noted, Shelf, ShelfError};
use gloo_storage::{LocalStorage, Storage};
use js_sys::JsString;
use std::cell::OnceCell;
use wasm_bindgen::prelude::wasm_bindgen;
use wasm_bindgen::{JsCast, JsValue};

#[wasm_bindgen]
extern "C" {
    /// Local storage again, to look at a text without taking it over.
    #[wasm_bindgen(js_name = Storage)]
    type Texts;
    #[wasm_bindgen(method, catch, js_name = getItem)]
    fn text(this: &Texts, key: &str) -> Result<Option<JsString>, JsValue>;
}

/// Local storage. Reaching for it never panics: where it is switched off nothing is there, and every write
/// says so.
#[derive(Clone, Copy, Debug, Default)]
pub struct LocalShelf;

thread_local! {
    /// What waits is one for all stores of this page.
    static HELD: &'static Held = Box::leak(Box::default());
    /// Local storage, once it was there: asking the window for it anew for each of some thousand texts
    /// takes as long as reading them.
    static RAW: OnceCell<web_sys::Storage> = const { OnceCell::new() };
}

impl LocalShelf {
    fn raw() -> Result<web_sys::Storage, ShelfError> {
        if let Some(raw) = RAW.with(|raw| raw.get().cloned()) {
            return Ok(raw);
        }
        let raw = Self::look()?;
        // Whatever it does from now on, its own calls say.
        let _ = RAW.with(|kept| kept.set(raw.clone()));
        Ok(raw)
    }

    fn look() -> Result<web_sys::Storage, ShelfError> {
        // `LocalStorage::raw` panics where storage is switched off, so look first.
        let there = web_sys::window().and_then(|w| w.local_storage().ok().flatten());
        there.map(|_| LocalStorage::raw()).ok_or(ShelfError::Off)
    }
}

impl LocalShelf {
    /// Whether anything can be kept at all, apart from room.
    pub fn is_there(self) -> bool {
        const PROBE: &str = "tautline.probe";
        let Ok(raw) = Self::raw() else { return false };
        let tried = raw.set_item(PROBE, "");
        let _ = raw.remove_item(PROBE);
        tried.map_err(|why| fault(&why)) != Err(ShelfError::Off)
    }
}

/// What a write that failed says: the quota has a name of its own (Web storage, `setItem`; older browsers
/// call it otherwise, with the same word in it).
fn fault(why: &JsValue) -> ShelfError {
    let name = js_sys::Reflect::get(why, &"name".into()).ok();
    let name = name.and_then(|name| name.as_string()).unwrap_or_default();
    if name.to_ascii_lowercase().contains("quota") {
        ShelfError::Full
    } else {
        ShelfError::Off
    }
}

impl Shelf for LocalShelf {
    fn get(&self, key: &str) -> Result<Option<String>, ShelfError> {
        let Ok(raw) = Self::raw() else {
            return Ok(None);
        };
        raw.get_item(key).map_err(|_| ShelfError::Off)
    }

    fn length(&self, key: &str) -> Result<Option<usize>, ShelfError> {
        let Ok(raw) = Self::raw() else {
            return Ok(None);
        };
        let text = raw.unchecked_ref::<Texts>().text(key);
        let text = text.map_err(|_| ShelfError::Off)?;
        Ok(text.map(|text| text.length() as usize))
    }

    fn put(&self, key: &str, text: &str) -> Result<(), ShelfError> {
        Self::raw()?.set_item(key, text).map_err(|why| fault(&why))
    }

    fn remove(&self, key: &str) -> Result<(), ShelfError> {
        let Ok(raw) = Self::raw() else {
            return Ok(());
        };
        raw.remove_item(key).map_err(|_| ShelfError::Off)
    }

    fn keys(&self) -> Result<Vec<String>, ShelfError> {
        let Ok(raw) = Self::raw() else {
            return Ok(Vec::new());
        };
        let count = raw.length().map_err(|_| ShelfError::Off)?;
        Ok((0..count)
            .filter_map(|i| raw.key(i).ok().flatten())
            .collect())
    }

    fn held(&self) -> &Held {
        HELD.with(|held| *held)
    }

    fn journal(&self, id: &str, key: &str, text: &str) {
        super::browser_journal::put(id, key, text);
    }

    fn journal_many(&self, alone: bool, notes: &[Noted]) {
        super::browser_journal::put_many(alone, notes);
    }
}
