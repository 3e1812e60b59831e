//! The whole cut in pictures: the sections on the scalp, and the hair let down.

use super::step::Sheet;
use crate::chart::{View, numbered_maps, scalp_map};
use crate::ui::edit::Letting;
use leptos::prelude::*;

/// More maps than this would have to be too small to be read.
const MOST: usize = 3;

/// Every section on the scalp, and the hair let down.
pub fn maps(sheet: &Sheet<'_>) -> AnyView {
    let ready = sheet.ready;
    let maps = numbered_maps(&ready.head, sheet.outcome, MOST);
    let alone = maps.len() == 1;
    let class = match maps.len() {
        0 | 1 => "sheet-maps few",
        2 => "sheet-maps",
        _ => "sheet-maps many",
    };
    let map = |map: &crate::chart::NumberedMap| {
        let steps: Vec<&str> = map.steps.iter().map(|&s| sheet.title(s)).collect();
        let steps = steps.join("; ");
        let svg = scalp_map(
            &ready.head,
            &map.parcels,
            "The sections in cutting order, forehead up",
            "The scalp from above. Each section carries its number; the tables below name them.",
        );
        figure(svg, if alone { String::new() } else { steps })
    };
    let down = Letting::of(&ready.job(), sheet.outcome).map(|letting| {
        let lowest = letting.down().lowest();
        letting.picture(View::Left, lowest, "The hair let down, from the left")
    });
    view! {
        <div class=class>
            {maps.iter().map(map).collect_view()}
            {down.ok().map(|svg| figure(svg, String::new()))}
        </div>
    }
    .into_any()
}

/// A picture of our own making, with a caption.
fn figure(svg: String, caption: String) -> AnyView {
    let caption = (!caption.is_empty()).then(|| view! { <figcaption>{caption}</figcaption> });
    view! { <figure><div inner_html=svg></div>{caption}</figure> }.into_any()
}
