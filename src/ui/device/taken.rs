//! Files that a person hands to the page.

use leptos::web_sys::{File, HtmlInputElement};
use wasm_bindgen_futures::JsFuture;

/// What became of a file that was chosen.
#[derive(Clone, Debug, PartialEq)]
pub enum Taken {
    /// None was chosen.
    Nothing,
    /// Its text.
    Text(String),
    /// It is larger than it may be, and was not read; its size in bytes.
    TooLarge(f64),
    /// The browser would not read it.
    Unread,
}

impl Taken {
    /// Reads the file that was chosen in a field, if it has no more than `most` bytes: its size is known
    /// before anything of it is read. The field is empty afterwards, so that the same file can be chosen
    /// again.
    pub async fn from(field: &HtmlInputElement, most: f64) -> Self {
        let Some(file) = field.files().and_then(|files| files.get(0)) else {
            return Self::Nothing;
        };
        let taken = Self::read(&file, most).await;
        field.set_value("");
        taken
    }

    async fn read(file: &File, most: f64) -> Self {
        if file.size() > most {
            return Self::TooLarge(file.size());
        }
        let text = JsFuture::from(file.text()).await.ok();
        let text = text.and_then(|text| text.as_string());
        text.map_or(Self::Unread, Self::Text)
    }
}
