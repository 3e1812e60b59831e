//! The whole cut in pictures: the sections on the scalp, and the hair let down.

use super::step::Sheet;
use crate::chart::{View, numbered_map, numbered_maps};
use crate::fall::sharpness;
use crate::head::Level;
use crate::ui::edit::Letting;
use crate::ui::parts::Html;
use crate::words::tr;

/// More maps than this would have to be too small to be read.
const MOST: usize = 5;

/// Every section on the scalp, and the hair let down.
pub fn write(html: &mut Html, sheet: &Sheet<'_>) {
    let ready = sheet.ready;
    let maps = numbered_maps(&ready.head, sheet.outcome, MOST);
    // One map has room for small letters; several are drawn smaller.
    let (class, letters) = match maps.len() {
        0 | 1 => ("few", 14.0),
        _ => ("many", 20.0),
    };
    html.within("<div class=\"sheet-maps ", class, "\">");
    for map in &maps {
        let steps: Vec<&str> = map.steps.iter().map(|&step| sheet.title(step)).collect();
        let svg = numbered_map(
            &ready.head,
            map,
            letters,
            tr("The sections in cutting order, forehead up"),
            tr(
                "The scalp from above. Each section carries its number; the tables below name them.",
            ),
        );
        figure(html, &svg, &steps.join("; "));
    }
    if let Ok(letting) = Letting::of(&ready.job(), sheet.outcome) {
        let down = letting.down();
        let weight = down.weight_level(&ready.head);
        let caption = match weight {
            Some((level, sharp)) => let_down(&level, sharp, sheet),
            None => tr("Let down, dry").to_owned(),
        };
        let svg = letting.picture(
            View::Left,
            down.lowest(),
            tr("The hair let down, from the left"),
        );
        figure(html, &svg, &caption);
    }
    html.raw("</div>");
}

fn let_down(level: &Level, sharp: f64, sheet: &Sheet<'_>) -> String {
    tr!(
        "Let down, dry. Thick line: weight {}, {}. Bars: ends at each height",
        level.said(sheet.unit),
        sharpness(sharp)
    )
}

/// A picture of our own making, with a caption.
fn figure(html: &mut Html, svg: &str, caption: &str) {
    html.raw("<figure>");
    html.raw(svg);
    html.within("<figcaption>", caption, "</figcaption></figure>");
}
