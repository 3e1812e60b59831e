//! Clients and practice heads as a list: found, sorted, and those that are due for something.

use super::fold::fold;
use super::line::Line;
use super::record::Record;
use crate::head::Kind;
use crate::measure::Day;
use crate::words::tr;
use std::sync::Arc;

/// One client or practice head as it stands in the list.
#[derive(Clone, Debug, PartialEq)]
pub struct CardLine {
    /// Its id.
    pub id: String,
    /// Name or initials; never empty.
    pub name: String,
    /// A person, or a practice head.
    pub kind: Kind,
    /// Words to find it by.
    pub tags: Vec<String>,
    /// How many visits there are.
    pub visits: usize,
    /// The day of the last one.
    pub last: Option<Day>,
    /// The day agreed for the next one, at the last one.
    pub returns: Option<Day>,
    /// When the card was saved last.
    pub saved: Option<Day>,
    /// Whether it belongs to the invented salon.
    pub invented: bool,
    /// What is searched, folded.
    hay: String,
}

/// How cards are sorted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum CardOrder {
    /// By name.
    #[default]
    Name,
    /// The last visit first.
    LastVisit,
    /// Who is expected back soonest first; nobody expected, last.
    Return,
}

impl CardOrder {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Name, Self::LastVisit, Self::Return];

    /// Its word in a form.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Name => "name",
            Self::LastVisit => "last",
            Self::Return => "return",
        }
    }

    /// Its words on the screen.
    pub fn words(self) -> &'static str {
        match self {
            Self::Name => tr("Name"),
            Self::LastVisit => tr("Last visit"),
            Self::Return => tr("Expected back"),
        }
    }
}

impl Record {
    /// What it is called, also where nobody named it.
    pub fn called(&self) -> &str {
        match (self.name.trim(), self.kind) {
            ("", Kind::Person) => tr("A client without a name"),
            ("", Kind::Practice) => tr("A practice head without a name"),
            (name, _) => name,
        }
    }
}

/// The lines of the list, in no order that means anything. `visits` may be of anybody and in any order.
pub fn cards(records: &[Record], visits: &[Arc<Line>]) -> Vec<CardLine> {
    let mut lines: Vec<CardLine> = Vec::with_capacity(records.len());
    for record in records {
        let name = record.called().to_owned();
        let hay = [&name, &record.tags.join(" "), &record.notes];
        let hay = fold(&hay.map(String::as_str).join(" "));
        lines.push(CardLine {
            id: record.id.clone(),
            name,
            kind: record.kind,
            tags: record.tags.clone(),
            visits: 0,
            last: None,
            returns: None,
            saved: Day::read(&record.saved_at),
            invented: record.invented,
            hay,
        });
    }
    lines.sort_unstable_by(|a, b| a.id.cmp(&b.id));
    for visit in visits {
        let found = lines.binary_search_by(|line| line.id.cmp(&visit.of));
        let Some(line) = found.ok().and_then(|at| lines.get_mut(at)) else {
            continue;
        };
        line.visits += 1;
        let day = Day::read(&visit.day);
        if day >= line.last {
            line.last = day;
            line.returns = Day::read(&visit.return_on);
        }
    }
    lines
}

/// Sorts the lines; those alike by name.
pub fn sort_cards(lines: &mut [CardLine], order: CardOrder) {
    lines.sort_unstable_by(|a, b| {
        let by_name = || (&a.hay, &a.id).cmp(&(&b.hay, &b.id));
        match order {
            CardOrder::Name => by_name(),
            CardOrder::LastVisit => b.last.cmp(&a.last).then_with(by_name),
            CardOrder::Return => {
                let late = |line: &CardLine| (line.returns.is_none(), line.returns);
                late(a).cmp(&late(b)).then_with(by_name)
            }
        }
    });
}

impl CardLine {
    /// Whether every word of a folded query stands in it.
    pub fn is_found(&self, folded: &str) -> bool {
        folded
            .split_whitespace()
            .all(|word| self.hay.contains(word))
    }

    /// Whether it is expected back within so many days, or was and has not come.
    pub fn is_expected(&self, today: Day, within: i64) -> bool {
        self.returns.is_some_and(|day| today.until(day) <= within)
    }

    /// Whether a person was last seen, or the card saved where there was no visit, more than so many months
    /// ago: then it is time to ask whether the card is still needed. A practice head is nobody's data.
    pub fn is_long_gone(&self, today: Day, months: u32) -> bool {
        /// Days in a month of the year's mean length.
        const MONTH: f64 = 365.25 / 12.0;
        let seen = self.last.or(self.saved);
        let days = (f64::from(months) * MONTH).ceil() as i64;
        self.kind == Kind::Person && months > 0 && seen.is_some_and(|seen| seen.until(today) > days)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::SavedCut;

    fn lines() -> Vec<CardLine> {
        let record = |id: &str, name: &str, kind| Record {
            tags: vec![format!("tag{id}")],
            ..Record::new(id, kind, name, "2024-01-02T00:00:00Z")
        };
        let records = [
            record("c", "Zora", Kind::Person),
            record("a", "milo", Kind::Person),
            record("b", " ", Kind::Practice),
            record("d", "Anka", Kind::Person),
        ];
        let visits = [
            ("c", "2026-11-02", "2026-12-01"),
            ("c", "2026-09-02", "2026-10-01"),
            ("a", "2026-01-05", ""),
            ("b", "2026-11-20", "2026-11-27"),
            ("gone", "2026-01-01", "2026-01-01"),
            ("c", "no day", "2020-01-01"),
        ];
        let visits = visits.map(|(of, day, return_on)| {
            let mut cut = SavedCut::new("v", "", "trim", "no time");
            cut.visit.of = of.to_owned();
            cut.visit.day = day.to_owned();
            cut.visit.return_on = return_on.to_owned();
            Arc::new(Line::of(&cut, 0))
        });
        cards(&records, &visits)
    }

    fn ids(lines: &[CardLine]) -> String {
        lines.iter().map(|line| line.id.as_str()).collect()
    }

    #[test]
    fn cards_are_sorted_and_found() {
        let mut lines = lines();
        let sorted = |lines: &mut Vec<CardLine>, order| {
            sort_cards(lines, order);
            ids(lines)
        };
        assert_eq!(sorted(&mut lines, CardOrder::Name), "bdac");
        assert_eq!(sorted(&mut lines, CardOrder::LastVisit), "bcad");
        assert_eq!(sorted(&mut lines, CardOrder::Return), "bcda");
        let zora = &lines[1];
        assert_eq!((zora.visits, zora.name.as_str()), (3, "Zora"));
        assert_eq!(zora.returns, Day::read("2026-12-01"));
        assert!(zora.is_found("zo tagc") && zora.is_found("") && !zora.is_found("zo taga"));
    }

    #[test]
    fn who_is_due_and_who_is_long_gone() {
        let mut lines = lines();
        sort_cards(&mut lines, CardOrder::Name);
        let today = Day::read("2026-11-26").unwrap();
        let which = |is: &dyn Fn(&CardLine) -> bool| {
            let found: Vec<CardLine> = lines.iter().filter(|l| is(l)).cloned().collect();
            ids(&found)
        };
        assert_eq!(which(&|l| l.is_expected(today, 5)), "bc");
        assert_eq!(which(&|l| l.is_expected(today, 4)), "b");
        // Nobody has visits on d: its card is of January 2024, 34 months and more.
        assert_eq!(which(&|l| l.is_long_gone(today, 34)), "d");
        assert_eq!(which(&|l| l.is_long_gone(today, 10)), "da");
        assert_eq!(which(&|l| l.is_long_gone(today, 0)), "");
    }
}
