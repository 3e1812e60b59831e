//! The browser's local storage as a shelf, its journal beside it.

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

/// Local storage. Reaching for it never panics: where it is switched off every call says so.
#[derive(Clone, Copy, Debug, Default)]
pub struct LocalShelf;

thread_local! {
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

impl Shelf for LocalShelf {
    fn get(&self, key: &str) -> Result<Option<String>, ShelfError> {
        Self::raw()?.get_item(key).map_err(|_| ShelfError::Off)
    }

    fn length(&self, key: &str) -> Result<Option<usize>, ShelfError> {
        let raw = Self::raw()?;
        let text = raw.unchecked_ref::<Texts>().text(key);
        let text = text.map_err(|_| ShelfError::Off)?;
        Ok(text.map(|text| text.length() as usize))
    }

    fn put(&self, key: &str, text: &str) -> Result<(), ShelfError> {
        // The only fault a write can have once storage is there is the quota.
        Self::raw()?
            .set_item(key, text)
            .map_err(|_| ShelfError::Full)
    }

    fn remove(&self, key: &str) -> Result<(), ShelfError> {
        Self::raw()?.remove_item(key).map_err(|_| ShelfError::Off)
    }

    fn keys(&self) -> Result<Vec<String>, ShelfError> {
        let raw = Self::raw()?;
        let count = raw.length().map_err(|_| ShelfError::Off)?;
        Ok((0..count)
            .filter_map(|i| raw.key(i).ok().flatten())
            .collect())
    }

    fn journal(&self, id: &str, key: &str, text: &str) {
        super::browser_journal::put(id, key, text);
    }

    fn journal_many(&self, alone: bool, notes: &[Noted]) {
        super::browser_journal::put_many(alone, notes);
    }
}
