//! One step on paper: how its first section is held, what to do, and its sections.

use crate::book::Ready;
use crate::chart::{HeldHair, InHand, profile_in_hand, seen_from};
use crate::cut::{Outcome, Paired, SectionCut, Telling};
use crate::head::Side;
use crate::measure::Unit;
use crate::plan::Step;
use crate::ui::kept::kept;
use crate::ui::parts::{Html, left_on};
use crate::ui::words;
use crate::words::{first_up, is_foreign, tr, tr_in};

/// What every part of the sheet is told from.
pub struct Sheet<'a> {
    /// The cut, read.
    pub ready: &'a Ready,
    /// What it comes to.
    pub outcome: &'a Outcome,
    /// The unit lengths are shown in.
    pub unit: Unit,
    telling: Telling<'a>,
}

impl<'a> Sheet<'a> {
    /// A cut that was worked out.
    pub fn new(ready: &'a Ready, outcome: &'a Outcome, unit: Unit) -> Self {
        let telling = Telling::new(&ready.job(), &outcome.lengths);
        Self {
            ready,
            outcome,
            unit,
            telling,
        }
    }

    /// A step's title.
    pub fn title(&self, step: usize) -> &str {
        self.ready.plan.steps.get(step).map_or("", |s| &s.title)
    }

    /// A section's number in cutting order, and its twin's.
    pub fn numbers(&self, row: &Paired) -> String {
        let place = |section: &SectionCut| {
            let mut all = (1_usize..).zip(&self.outcome.sections);
            let place = all.find(|(_, other)| other.key == section.key);
            place.map_or(String::new(), |(place, _)| place.to_string())
        };
        let one = place(&row.one);
        match &row.twin {
            Some(twin) => [&one, "·", &place(twin)].concat(),
            None => one,
        }
    }

    fn span(&self, section: &SectionCut) -> String {
        words::span(section.short(), section.long(), self.unit)
    }

    /// Where the longest of a section falls to, in English without an article: `2 cm below chin`.
    fn falls(&self, section: &SectionCut) -> String {
        let told = self.telling.told(&section.strands);
        let level = told.level.place(self.unit);
        if is_foreign() {
            level
        } else {
            level.replacen("the ", "", 1)
        }
    }
}

/// One text where both sides read alike, else both.
fn both(one: String, twin: Option<String>) -> String {
    match twin {
        Some(twin) if twin != one => tr!("{one}; right {twin}", one, twin),
        _ => one,
    }
}

/// A step that cuts. Of a check: nothing; all checks stand together at the end.
pub fn write(html: &mut Html, sheet: &Sheet<'_>, place: usize) {
    let rows = sheet.outcome.paired(place);
    let step = &sheet.ready.plan.steps[place];
    let Some(first) = rows.first().filter(|row| row.one.cuts()) else {
        return;
    };
    html.within("<section class=\"sheet-step\"><h2>", &step.title, "</h2>");
    html.raw("<div class=\"sheet-picture\">");
    html.raw(&held(sheet, step, &first.one));
    html.raw("</div>");
    what_to_do(html, sheet, place, step, &rows);
    table(html, sheet, step, &rows);
    html.raw("</section>");
}

/// The first section as it is held, with the hands.
fn held(sheet: &Sheet<'_>, step: &Step, section: &SectionCut) -> String {
    let head = &sheet.ready.head;
    let how = InHand {
        hand: kept().settings_now().hand,
        technique: step.technique,
    };
    let marked = true;
    profile_in_hand(
        head,
        seen_from(head, section),
        &[HeldHair { section, marked }],
        how,
        &tr!("{name}, as it is held", name = section.section.name),
        tr("The first section's hair as taut lines to where it is cut."),
    )
}

/// What to do, a line each.
fn what_to_do(html: &mut Html, sheet: &Sheet<'_>, place: usize, step: &Step, rows: &[Paired]) {
    let Ready { plan, choices, .. } = sheet.ready;
    let brief = plan.brief_for(place, 1, choices, sheet.unit);
    let words = &step.words;
    let technique = if words.technique.trim().is_empty() {
        &brief.technique
    } else {
        &words.technique
    };
    // The guide of the first section has its measure, the words say how it goes on.
    let guide = [&brief.guide, ". ", &words.guide].concat();
    html.raw("<dl class=\"sheet-words\">");
    for (name, text) in [
        (tr("Elevation"), &brief.lift),
        (tr("Comb"), &words.comb),
        (tr("Fingers"), &words.fingers),
        (tr("Guide"), &guide),
        (tr_in("how to cut", "Cut"), technique),
        (tr("Tension"), &brief.tension),
        (tr("Stand"), &words.stance),
        (tr("Longer"), &longer(rows, sheet.unit)),
        (tr("Take care"), &brief.caution.join("; ")),
    ] {
        html.line(name, &first_up(&kept().said(text.trim())));
    }
    html.raw("</dl>");
}

/// What is left longer on purpose, each reason once: row by row it would fill the paper.
fn longer(rows: &[Paired], unit: Unit) -> String {
    let mut all: Vec<String> = Vec::new();
    for row in rows {
        for section in row.both() {
            if let Some(note) = left_on(section, unit)
                && !all.contains(&note)
            {
                all.push(note);
            }
        }
    }
    all.join(" ")
}

/// Opens a table under a name, its first column the sections' numbers. Wide ones are scrolled within.
pub fn open_table(html: &mut Html, name: &str) {
    html.within(
        "<div class=\"sheet-table\" role=\"region\" tabindex=\"0\" aria-label=\"",
        &tr!("Sections: {}", name),
        "\"><table><thead><tr>",
    );
    html.within(NUMBERS, tr("No."), HEADED);
}

/// Opens a row: the numbers, then the name, which [`NAMED`] ends. A row that is `noted` has a note below it.
pub fn open_row(html: &mut Html, sheet: &Sheet<'_>, row: &Paired, noted: bool) {
    html.raw(if noted {
        "<tr class=\"noted\">"
    } else {
        "<tr>"
    });
    html.within("<td class=\"number\">", &sheet.numbers(row), "</td>");
    html.within("<th scope=\"row\">", &row.one.section.name, "");
}

/// What opens the heading of a column.
pub const COLUMN: &str = "<th scope=\"col\">";
/// What opens the heading of a column of numbers.
pub const NUMBERS: &str = "<th scope=\"col\" class=\"number\">";
/// What ends the heading of a column.
pub const HEADED: &str = "</th>";
/// What ends the headings.
pub const ROWS: &str = "</tr></thead><tbody>";
/// What ends the name of a row.
pub const NAMED: &str = "</th>";
/// What opens and ends a cell with a number.
pub const NUMBER: &str = "<td class=\"number\">";
/// What ends a cell.
pub const CELL: &str = "</td>";
/// What ends a table.
pub const END: &str = "</tbody></table></div>";

/// The sections, left beside right.
fn table(html: &mut Html, sheet: &Sheet<'_>, step: &Step, rows: &[Paired]) {
    let unit = sheet.unit;
    let alike = rows.iter().all(|row| match &row.twin {
        Some(twin) => sheet.span(twin) == sheet.span(&row.one),
        None => true,
    });
    open_table(html, &step.title);
    html.within(COLUMN, tr("Section"), HEADED);
    if alike {
        html.within(NUMBERS, tr("Cut at"), HEADED);
    } else {
        html.within(NUMBERS, tr("Cut left"), HEADED);
        html.within(NUMBERS, tr("Right"), HEADED);
    }
    html.within(NUMBERS, tr_in("what comes off", "Off"), HEADED);
    html.within(COLUMN, tr("Falls to"), HEADED);
    html.raw(ROWS);
    for row in rows {
        let (one, twin) = (&row.one, row.twin.as_ref());
        let reach = words::reach(row.least_reaching());
        open_row(html, sheet, row, reach.is_some());
        if twin.is_none() && one.key.side == Side::Right {
            html.text(tr(", right"));
        }
        html.raw(NAMED);
        match twin.filter(|_| !alike) {
            Some(twin) => {
                html.within(NUMBER, &sheet.span(one), CELL);
                html.within(NUMBER, &sheet.span(twin), CELL);
            }
            None => {
                html.raw("<td class=\"number\" colspan=\"");
                html.within(if alike { "1" } else { "2" }, "", "\">");
                html.within("", &sheet.span(one), CELL);
            }
        }
        html.within(NUMBER, &row.off().number(unit), CELL);
        let falls = both(sheet.falls(one), twin.map(|twin| sheet.falls(twin)));
        html.within("<td>", &falls, "</td></tr>");
        if let Some(reach) = reach {
            html.within("<tr class=\"sheet-note\"><td colspan=\"6\">", &reach, CELL);
            html.raw("</tr>");
        }
    }
    html.raw(END);
}
