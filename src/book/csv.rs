//! Visits as a table for other programs: CSV (RFC 4180).
//!
//! A cell that a spreadsheet would take for a formula gets an apostrophe in front, as OWASP's page "CSV
//! Injection" advises: those that begin with `= + - @`, a tab or a line's end.

use super::saved::SavedCut;
use crate::walk::{Row, Spent, compare, furthest, order};
use csv_core::{WriteResult, Writer};

/// The columns.
const HEAD: [&str; 10] = [
    "day",
    "whose",
    "title",
    "plan",
    "minutes",
    "sections done",
    "largest deviation cm",
    "return day",
    "tags",
    "notes",
];

/// Visits as a table in the making: one line of names, then a line each.
#[derive(Debug)]
pub struct VisitTable(Table);

impl Default for VisitTable {
    fn default() -> Self {
        let mut table = Table::default();
        table.line(&HEAD);
        Self(table)
    }
}

impl VisitTable {
    /// Adds a visit of somebody of this name, or of nobody. Its private note stays here. A visit with a
    /// walk is worked out, which takes its time: a page adds one after the other.
    pub fn add(&mut self, cut: &SavedCut, whose: &str) {
        let plan = cut.plan().map_or(String::new(), |plan| plan.name);
        let [minutes, done, deviation] = walked(cut).unwrap_or_default();
        let texts = [whose, &cut.title, &plan].map(harmless);
        let more = [
            &cut.visit.return_on,
            &cut.visit.tags.join(", "),
            &cut.visit.notes,
        ];
        let [whose, title, plan] = texts;
        let [returns, tags, notes] = more.map(|text| harmless(text));
        let day = cut.day();
        let cells = [
            &day, &whose, &title, &plan, &minutes, &done, &deviation, &returns, &tags, &notes,
        ];
        self.0.line(&cells.map(String::as_str));
    }

    /// The table as the text of a file.
    pub fn text(self) -> String {
        // Whole texts went in.
        String::from_utf8(self.0.bytes).unwrap_or_default()
    }
}

/// Of a walk: whole minutes, sections done of all, and the largest deviation in cm, if any was measured;
/// none where it can't be worked out.
fn walked(cut: &SavedCut) -> Option<[String; 3]> {
    let walk = cut.walk.as_ref()?;
    let ready = cut.ready().ok()?;
    let planned = ready.outcome(&crate::cut::Measured::new()).ok()?;
    let real = ready.followed(walk).ok()?;
    let keys = order(&real);
    let done = format!("{} of {}", walk.count_done(&keys), keys.len());
    let end = walk.finished_at.as_deref();
    let minutes = end.map_or(String::new(), |end| {
        let spent = Spent::of(walk, &ready.plan, &real, end);
        ((spent.total + 30) / 60).to_string()
    });
    let mut rows = compare(&planned, &real, walk);
    rows.retain(|row| row.measured);
    let off = furthest(&rows).and_then(Row::difference);
    let off = off.map_or(String::new(), |cm| format!("{cm:.1}"));
    Some([minutes, done, off])
}

/// A table in the making.
#[derive(Debug, Default)]
struct Table {
    bytes: Vec<u8>,
}

impl Table {
    fn line(&mut self, cells: &[&str]) {
        let mut writer = csv_core::WriterBuilder::new()
            .terminator(csv_core::Terminator::CRLF)
            .build();
        for (i, cell) in cells.iter().enumerate() {
            if i > 0 {
                self.write(|out| writer.delimiter(out));
            }
            self.cell(&mut writer, cell.as_bytes());
        }
        self.write(|out| writer.terminator(out));
    }

    fn cell(&mut self, writer: &mut Writer, mut input: &[u8]) {
        let mut out = [0; 256];
        loop {
            let (result, read, written) = writer.field(input, &mut out);
            self.bytes.extend(out.iter().take(written));
            input = input.get(read..).unwrap_or_default();
            if result == WriteResult::InputEmpty {
                return;
            }
        }
    }

    fn write(&mut self, mut work: impl FnMut(&mut [u8]) -> (WriteResult, usize)) {
        let mut out = [0; 16];
        let (_, written) = work(&mut out);
        self.bytes.extend(out.iter().take(written));
    }
}

/// A cell that no spreadsheet takes for a formula.
fn harmless(cell: &str) -> String {
    let formula = cell.starts_with(['=', '+', '-', '@', '\t', '\r', '\n']);
    [if formula { "'" } else { "" }, cell].concat()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::walk::{Done, Walk};

    fn table(cuts: &[(SavedCut, &str)]) -> String {
        let mut table = VisitTable::default();
        for (cut, whose) in cuts {
            table.add(cut, whose);
        }
        table.text()
    }

    #[test]
    fn cells_are_quoted_as_the_standard_has_it() {
        // RFC 4180, section 2: 5 to 7, and lines that end in CRLF (1).
        let mut out = Table::default();
        out.line(&["aaa", "b\r\nbb", "c\"c", "d,d", "", "é"]);
        assert_eq!(
            String::from_utf8(out.bytes).unwrap(),
            "aaa,\"b\r\nbb\",\"c\"\"c\",\"d,d\",,é\r\n"
        );
        let long = "\"".repeat(1000);
        let mut out = Table::default();
        out.line(&[&long]);
        assert_eq!(out.bytes.len(), 2 * 1000 + 2 + 2);
    }

    #[test]
    fn no_cell_is_a_formula() {
        let mut cut = SavedCut::new("a", "=1+1", "trim", "2026-11-26T10:00:00.000Z");
        cut.visit.notes = "@SUM(A1)".to_owned();
        cut.visit.tags = vec!["-2".to_owned(), "b".to_owned()];
        let text = table(&[
            (cut, "+cmd|' /C calc'!A0"),
            (SavedCut::new("b", "\tx", "none", ""), ""),
        ]);
        let lines: Vec<&str> = text.split("\r\n").collect();
        assert_eq!(lines.len(), 4);
        assert_eq!(
            lines[1],
            "2026-11-26,'+cmd|' /C calc'!A0,'=1+1,Trim that keeps the shape,,,,,\"'-2, b\",'@SUM(A1)"
        );
        assert_eq!(lines[2], ",,'\tx,,,,,,,");
    }

    #[test]
    fn a_walk_tells_its_minutes_and_how_far_off_it_came_out() {
        let mut cut = SavedCut::new("a", "x", "soft-layers-face-frame", "2026-11-26");
        let outcome = cut
            .ready()
            .unwrap()
            .outcome(&crate::cut::Measured::new())
            .unwrap();
        let keys = order(&outcome);
        let planned = outcome.sections.iter().find(|s| s.key == keys[0]).unwrap();
        let mut walk = Walk::start("2026-11-26T09:00:00.000Z");
        walk.done.push(Done {
            key: keys[0].clone(),
            came_out_at: Some(crate::measure::Length::from_cm(planned.long().cm() - 1.5)),
            at: "2026-11-26T09:10:40.000Z".to_owned(),
            target: Some(planned.long()),
            open: false,
            plan_kept: false,
            only_measured: false,
        });
        walk.finished_at = Some("2026-11-26T09:12:40.000Z".to_owned());
        cut.walk = Some(walk);
        let text = table(&[(cut, "Nobody")]);
        let cells: Vec<&str> = text.split("\r\n").nth(1).unwrap().split(',').collect();
        assert_eq!(cells[5], format!("1 of {}", keys.len()));
        assert_eq!((cells[6], cells[4]), ("-1.5", "11"));
    }
}
