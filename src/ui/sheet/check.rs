//! What is looked at and measured at the end, with room to write it down.

use super::step::{
    CELL, COLUMN, END, HEADED, NAMED, NUMBER, NUMBERS, ROWS, Sheet, open_row, open_table,
};
use crate::cut::Paired;
use crate::head::Side;
use crate::ui::parts::Html;
use crate::words::{tr, tr_in};

/// The checks: what to look at, each with a box to tick; places to measure, each with boxes to write in.
pub fn write(html: &mut Html, sheet: &Sheet<'_>) {
    let plan = &sheet.ready.plan;
    let checks = || (0..).zip(&plan.steps).filter(|(_, step)| !step.held.cuts());
    let rows: Vec<Paired> = checks()
        .flat_map(|(place, _)| sheet.outcome.paired(place))
        .collect();
    if rows.is_empty() && plan.checks.is_empty() {
        return;
    }
    html.within(
        "<section class=\"sheet-step sheet-check\"><h2>",
        tr_in("what is looked at in the end", "Check"),
        "</h2><div>",
    );
    for (_, step) in checks() {
        html.within("<p>", &step.words.comb, " ");
        html.within("", &step.words.technique, "</p>");
    }
    html.raw("<ul class=\"sheet-ticks\">");
    for text in &plan.checks {
        html.within("<li>", text, "</li>");
    }
    html.raw("</ul></div>");
    if !rows.is_empty() {
        table(html, sheet, &rows);
    }
    html.raw("</section>");
}

fn table(html: &mut Html, sheet: &Sheet<'_>, rows: &[Paired]) {
    let unit = sheet.unit;
    open_table(html, tr("to measure"));
    html.within(COLUMN, tr("Place"), HEADED);
    html.within(NUMBERS, &tr!("Should be, {}", unit.mark()), HEADED);
    for side in [tr("Left"), tr("Right")] {
        html.within("<th scope=\"col\" class=\"sheet-box\">", side, HEADED);
    }
    html.raw(ROWS);
    for row in rows {
        open_row(html, sheet, row, false);
        html.raw(NAMED);
        let expect = row.one.long().number(unit);
        html.within(NUMBER, &expect, "");
        let twin = row.twin.as_ref().map(|twin| twin.long().number(unit));
        if let Some(twin) = twin.filter(|twin| *twin != expect) {
            html.within(" · ", &twin, "");
        }
        html.raw(CELL);
        // What lies across the middle is measured once.
        html.raw(if row.one.key.side == Side::Centre {
            "<td class=\"sheet-box\" colspan=\"2\"></td></tr>"
        } else {
            "<td class=\"sheet-box\"></td><td class=\"sheet-box\"></td></tr>"
        });
    }
    html.raw(END);
}
