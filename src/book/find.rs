//! Finding a cut among many.

use super::fold::fold;
use super::line::{Line, State};
use crate::measure::Day;
use std::cmp::Ordering;
use std::sync::Arc;

/// In which order cuts are listed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Sort {
    /// The latest day first.
    #[default]
    Day,
    /// By whose they are, then by day; those that are nobody's at the end.
    Name,
    /// By the plan's name, then by day.
    Plan,
}

/// What is looked for.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Query {
    /// Words; each has to occur.
    pub words: String,
    /// In which order.
    pub sort: Sort,
    /// The tag that all must have; empty for any.
    pub tag: String,
}

/// A cut with everything that it is found by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// Its line.
    pub line: Arc<Line>,
    /// The name of whose it is; empty if nobody's.
    pub name: String,
    /// The name of its plan as it is shown.
    pub plan: String,
    /// Name and plan folded, to sort by.
    flat_name: String,
    flat_plan: String,
    /// All that is searched, folded.
    hay: String,
}

impl Entry {
    /// What it is called. Before the client by its plan alone: a title may be somebody's name.
    pub fn called(&self, seen: bool) -> &str {
        match self.line.state {
            _ if !seen => &self.line.title,
            State::Open => State::Open.words(),
            _ => &self.plan,
        }
    }
}

/// All cuts, ready to be searched.
///
/// ```
/// use std::sync::Arc;
/// use tautline::book::{Catalogue, Line, Query, SavedCut};
/// let cut = SavedCut::new("a", "First visit", "trim", "2026-11-25T09:00:00.000Z");
/// let lines = [Arc::new(Line::of(&cut, 100))];
/// let all = Catalogue::of(&lines, &Catalogue::default(), &|_| "Zoë".into(), &|_| "A trim".into());
/// let query = Query { words: "zoe november".into(), ..Query::default() };
/// assert_eq!(all.find(&query).len(), 1);
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Catalogue {
    /// By id.
    entries: Vec<Arc<Entry>>,
}

impl Entry {
    fn of(line: &Arc<Line>, name: String, plan: String) -> Self {
        let (flat_name, flat_plan) = (fold(&name), fold(&plan));
        let day = Day::read(&line.day).map_or(String::new(), |day| fold(&day.said()));
        // Parts of two lines don't make a word together.
        let hay = [
            &fold(&line.title),
            &flat_name,
            &flat_plan,
            &fold(&line.tags.join("\n")),
            &line.notes,
            &line.day,
            &day,
        ]
        .map(String::as_str)
        .join("\n");
        Self {
            line: line.clone(),
            name,
            plan,
            flat_name,
            flat_plan,
            hay,
        }
    }
}

impl Catalogue {
    /// Of lines in the order of their ids. What was made before of the same lines is taken over. `name_of`
    /// gives the name of whose a cut is, by id, empty if nobody's; `plan_of` the name of a line's plan.
    pub fn of(
        lines: &[Arc<Line>],
        before: &Self,
        name_of: &dyn Fn(&str) -> String,
        plan_of: &dyn Fn(&Line) -> String,
    ) -> Self {
        let entry = |line: &Arc<Line>| {
            let (name, plan) = (name_of(&line.of), plan_of(line));
            let by_id = |entry: &Arc<Entry>| entry.line.id.as_str().cmp(&line.id);
            let made = before.entries.binary_search_by(by_id).ok();
            let made = made.and_then(|at| before.entries.get(at)).filter(|made| {
                Arc::ptr_eq(&made.line, line) && made.name == name && made.plan == plan
            });
            made.map_or_else(|| Arc::new(Entry::of(line, name, plan)), Arc::clone)
        };
        Self {
            entries: lines.iter().map(entry).collect(),
        }
    }

    /// Whether there is no cut.
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }

    /// Those at the chair, the last saved first.
    pub fn at_the_chair(&self) -> Vec<Arc<Entry>> {
        let open = |entry: &&Arc<Entry>| entry.line.state == State::AtTheChair;
        let mut all: Vec<_> = self.entries.iter().filter(open).cloned().collect();
        sort(&mut all, &|a, b| b.line.saved_at.cmp(&a.line.saved_at));
        all
    }

    /// How many are not at the chair.
    pub fn others(&self) -> usize {
        let others = self.entries.iter();
        others.filter(|e| e.line.state != State::AtTheChair).count()
    }

    /// All tags, each once, by the alphabet.
    pub fn tags(&self) -> Vec<String> {
        let mut all: Vec<(String, &String)> = Vec::new();
        for tag in self.entries.iter().flat_map(|entry| &entry.line.tags) {
            let flat = fold(tag.trim());
            if flat.is_empty() {
                continue;
            }
            let place = all.partition_point(|(other, _)| *other < flat);
            if all.get(place).is_none_or(|(other, _)| *other != flat) {
                all.insert(place, (flat, tag));
            }
        }
        let tags = all.into_iter().map(|(_, tag)| tag.trim().to_owned());
        tags.collect()
    }

    /// Those not at the chair in which every word occurs and that have the tag.
    pub fn find(&self, query: &Query) -> Vec<Arc<Entry>> {
        let flat = fold(&query.words);
        let words: Vec<&str> = flat.split_whitespace().collect();
        let tag = fold(query.tag.trim());
        let fits = |entry: &&Arc<Entry>| {
            let line = &entry.line;
            line.state != State::AtTheChair
                && words.iter().all(|word| entry.hay.contains(word))
                && (tag.is_empty() || line.tags.iter().any(|t| fold(t.trim()) == tag))
        };
        let mut found: Vec<_> = self.entries.iter().filter(fits).cloned().collect();
        let by_day = |a: &Entry, b: &Entry| {
            let (a, b) = (&a.line, &b.line);
            let days = b.day.cmp(&a.day);
            days.then_with(|| b.saved_at.cmp(&a.saved_at))
        };
        match query.sort {
            Sort::Day => sort(&mut found, &by_day),
            Sort::Name => sort(&mut found, &|a, b| {
                let nobody = a.flat_name.is_empty().cmp(&b.flat_name.is_empty());
                let names = nobody.then_with(|| a.flat_name.cmp(&b.flat_name));
                names.then_with(|| by_day(a, b))
            }),
            Sort::Plan => sort(&mut found, &|a, b| {
                let plans = a.flat_plan.cmp(&b.flat_plan);
                plans.then_with(|| by_day(a, b))
            }),
        }
        found
    }
}

/// Not generic, so that it is built once.
fn sort(entries: &mut [Arc<Entry>], order: &dyn Fn(&Entry, &Entry) -> Ordering) {
    entries.sort_by(|a, b| order(a, b));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::SavedCut;
    use crate::walk::Walk;

    fn line(id: &str, title: &str, of: &str, day: &str, tags: &[&str]) -> Arc<Line> {
        let mut cut = SavedCut::new(id, title, id, "2026-11-26T10:00:00.000Z");
        cut.visit.of = of.to_owned();
        cut.visit.day = day.to_owned();
        cut.visit.tags = tags.iter().map(|&tag| tag.to_owned()).collect();
        cut.visit.notes = format!("Likes it {id}");
        Arc::new(Line::of(&cut, 1))
    }

    fn catalogue(lines: &[Arc<Line>]) -> Catalogue {
        let name = |id: &str| match id {
            "z" => "Zoë Ågren".to_owned(),
            "b" => "Bob".to_owned(),
            _ => String::new(),
        };
        let plan = |line: &Line| match line.id.as_str() {
            "1" => "Trim".to_owned(),
            "3" => "Épaule".to_owned(),
            _ => "One-length bob".to_owned(),
        };
        Catalogue::of(lines, &Catalogue::default(), &name, &plan)
    }

    fn four() -> Vec<Arc<Line>> {
        vec![
            line("1", "First visit", "z", "2026-11-03", &["Wet"]),
            line("2", "Second", "b", "2026-10-30", &[" wet", "Été"]),
            line("3", "Head on the shelf", "", "2026-11-20", &[]),
            line("4", "Third", "z", "2025-05-01", &["exam"]),
        ]
    }

    fn ids(found: &[Arc<Entry>]) -> String {
        found.iter().map(|e| e.line.id.as_str()).collect()
    }

    #[test]
    fn every_word_has_to_occur_somewhere() {
        let all = catalogue(&four());
        for (words, expected) in [
            ("", "3124"),
            ("zoe", "14"),
            ("ZOË agren", "14"),
            ("bob", "24"),
            ("one-length bob third", "4"),
            ("november", "31"),
            ("2026-11", "31"),
            ("2026-11-20", "3"),
            ("20 november", "31"),
            ("may 2025", "4"),
            ("ete", "2"),
            ("likes first", "1"),
            ("nobody", ""),
            ("first second", ""),
            ("   ", "3124"),
            ("visitzoe", ""),
        ] {
            let query = Query {
                words: words.to_owned(),
                ..Query::default()
            };
            assert_eq!(ids(&all.find(&query)), expected, "{words}");
        }
    }

    #[test]
    fn they_are_sorted_and_kept_to_a_tag() {
        let all = catalogue(&four());
        let by = |sort, tag: &str| {
            let tag = tag.to_owned();
            let words = String::new();
            ids(&all.find(&Query { words, sort, tag }))
        };
        assert_eq!(by(Sort::Day, ""), "3124");
        assert_eq!(by(Sort::Name, ""), "2143");
        assert_eq!(by(Sort::Plan, ""), "3241");
        assert_eq!(by(Sort::Day, "WET"), "12");
        assert_eq!(by(Sort::Day, "none such"), "");
        assert_eq!(all.tags(), ["Été", "exam", "Wet"]);
    }

    #[test]
    fn those_at_the_chair_stand_apart() {
        let mut lines = four();
        let mut cut = SavedCut::new("5", "Now", "trim", "2026-11-26T11:00:00.000Z");
        cut.walk = Some(Walk::start("2026-11-26T11:00:00.000Z"));
        lines.push(Arc::new(Line::of(&cut, 1)));
        let all = catalogue(&lines);
        assert_eq!(ids(&all.at_the_chair()), "5");
        assert_eq!(all.others(), 4);
        assert_eq!(ids(&all.find(&Query::default())), "3124");
    }

    #[test]
    fn only_what_changed_is_made_anew() {
        let mut lines = four();
        let before = catalogue(&lines);
        lines[1] = line("2", "Renamed", "b", "2026-10-30", &[]);
        lines.remove(3);
        let name = |id: &str| if id == "z" { "Zoë Ågren" } else { "" }.to_owned();
        let plan = |line: &Line| match line.id.as_str() {
            "1" => "Trim".to_owned(),
            "3" => "Another".to_owned(),
            _ => "One-length bob".to_owned(),
        };
        let after = Catalogue::of(&lines, &before, &name, &plan);
        let fresh = Catalogue::of(&lines, &Catalogue::default(), &name, &plan);
        assert_eq!(after, fresh);
        let kept = |at: usize| Arc::ptr_eq(&after.entries[at], &before.entries[at]);
        assert!(kept(0) && !kept(1) && !kept(2));
    }
}
