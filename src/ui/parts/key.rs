//! One line of a legend: a stroke as it is drawn in the picture, and what it means.

use crate::ui::kept::kept;
use leptos::prelude::*;

/// A line of a legend: the class that a stroke is drawn with, its path within 40 by 16 units, the words.
pub fn key_line(class: &'static str, data: &'static str, words: &str) -> impl IntoView + use<> {
    view! {
        <li>
            <svg class="line" viewBox="0 0 40 16" aria-hidden="true"><path class=class d=data/></svg>
            {kept().said(words)}
        </li>
    }
}
