//! The page's own colours for what `plotters` draws.

use super::svg::escaped;
use plotters::prelude::RGBColor;

/// Stand-ins that plotters writes and [`inked`] turns into the page's own colours.
pub(super) const INK: RGBColor = RGBColor(1, 1, 1);
pub(super) const FAINT: RGBColor = RGBColor(2, 2, 2);
pub(super) const LEFT: RGBColor = RGBColor(3, 3, 3);
pub(super) const RIGHT: RGBColor = RGBColor(4, 4, 4);
pub(super) const CUT: RGBColor = RGBColor(5, 5, 5);
pub(super) const PAPER: RGBColor = RGBColor(6, 6, 6);
/// Ink of the hair before: soft, and dashed short.
pub(super) const BEFORE: RGBColor = RGBColor(7, 7, 7);
/// What a hand may be off.
pub(super) const BAND: RGBColor = RGBColor(8, 8, 8);
/// Its edges.
pub(super) const BAND_EDGE: RGBColor = RGBColor(11, 11, 11);
/// The right side's target and its cut hair: dashed long.
pub(super) const RIGHT_TARGET: RGBColor = RGBColor(9, 9, 9);
pub(super) const RIGHT_CUT: RGBColor = RGBColor(10, 10, 10);

/// What stands for each of them in the page.
const PAGE: [(&str, &str); 11] = [
    ("#010101", "var(--ink)"),
    ("#020202", "var(--line)"),
    ("#030303", "var(--left)"),
    ("#040404", "var(--right)"),
    ("#050505", "var(--accent)"),
    ("#060606", "var(--paper)"),
    ("#070707\"", "var(--soft)\" stroke-dasharray=\"5 9\""),
    ("#080808", "var(--left-wash)"),
    ("#0B0B0B", "var(--edge)"),
    ("#090909\"", "var(--right)\" stroke-dasharray=\"26 12\""),
    ("#0A0A0A\"", "var(--accent)\" stroke-dasharray=\"26 12\""),
];

/// Gives the stand-ins the page's colours, lets the picture of this size grow with its place, and says
/// what it is.
pub(super) fn inked(
    text: &str,
    (width, height): (u32, u32),
    title: &str,
    description: &str,
) -> String {
    let mut svg = text.to_owned();
    for (stand_in, ink) in PAGE {
        svg = svg.replace(stand_in, ink);
    }
    let own = format!(r#"width="{width}" height="{height}" "#);
    let said = format!(
        "<title>{}</title><desc>{}</desc>",
        escaped(title),
        escaped(description)
    );
    let svg = svg.replacen(&own, r#"class="chart" role="img" "#, 1);
    match svg
        .find("<svg")
        .and_then(|start| svg[start..].find('>').map(|end| start + end + 1))
    {
        Some(end) => format!("{}{said}{}", &svg[..end], &svg[end..]),
        None => svg,
    }
}
