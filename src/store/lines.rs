//! The lines of lists: one small text beside each cut, made from its document.
//!
//! A line says which revision of the document it was made from and how long that is. Where it is missing,
//! or the document is another one, it is made anew: so a crash, an older version of the app in another
//! window, or hands that change a document leave no list wrong for long.

use super::index::{Store, StoreError};
use super::shelf::{Shelf, units};
use super::shelved::CUTS;
use crate::book::{DocumentError, Line, SavedCut, State, plain};
use std::sync::Arc;

const LINE: &str = "tautline.line.";

/// A cut that does not read, as it stands in the list.
#[derive(Clone, Debug, PartialEq)]
pub struct Aside {
    /// Its id.
    pub id: String,
    /// Why it does not read.
    pub why: DocumentError,
    /// Its whole text, unpacked if it unpacks, to be saved as a file.
    pub text: String,
}

/// What a list of all cuts needs.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Lines {
    /// One of each cut that reads, by id.
    pub cuts: Vec<Arc<Line>>,
    /// Those that do not.
    pub aside: Vec<Aside>,
    /// How many have no line that holds and were not read, as there was nothing to make one with.
    pub missing: usize,
}

/// What makes the line of a cut from its id, its revision, and its text as it is kept.
pub type Anew = fn(String, u64, String) -> Result<Line, Aside>;

/// The line of a cut, made from its text.
///
/// # Errors
/// The cut as it is set aside, if its text does not read.
pub fn line_anew(id: String, revision: u64, text: String) -> Result<Line, Aside> {
    match SavedCut::from_json(&text) {
        Ok(cut) => {
            // It is what it is kept as, whatever it says of itself.
            let cut = SavedCut {
                id,
                revision,
                ..cut
            };
            Ok(Line::of(&cut, units(&text)))
        }
        Err(why) => Err(Aside {
            id,
            why,
            text: readable(text),
        }),
    }
}

impl Lines {
    /// Puts down the line of a cut that was read; none if its document does not read.
    fn add(&mut self, made: Result<Line, Aside>) -> Option<Arc<Line>> {
        match made {
            Ok(line) => {
                let line = Arc::new(line);
                self.cuts.push(line.clone());
                Some(line)
            }
            Err(aside) => {
                self.aside.push(aside);
                None
            }
        }
    }
}

/// The text of a document as a person may read it: unpacked, if it unpacks.
pub(super) fn readable(kept: String) -> String {
    plain(&kept)
        .ok()
        .map_or_else(|| kept.clone(), std::borrow::Cow::into_owned)
}

impl<S: Shelf> Store<S> {
    /// The lines of all cuts. `known` are those that were read before, in the same order: those that still
    /// hold are taken over.
    ///
    /// # Errors
    /// [`StoreError::Shelf`] when the shelf cannot be reached.
    pub fn lines(&self, known: &[Arc<Line>]) -> Result<Lines, StoreError> {
        self.lines_by(known, Some(line_anew))
    }

    /// Whether there is any cut, readable or not.
    ///
    /// # Errors
    /// As [`Store::lines`].
    pub fn any_cut(&self) -> Result<bool, StoreError> {
        Ok(!self.index(CUTS)?.cuts.is_empty())
    }

    /// The same with what makes a line anew where it is missing; without it they are counted.
    ///
    /// # Errors
    /// As [`Store::lines`].
    pub fn lines_by(&self, known: &[Arc<Line>], anew: Option<Anew>) -> Result<Lines, StoreError> {
        let mut lines = Lines::default();
        let mut index = self.index(CUTS)?.cuts;
        let mut healed = false;
        while let Some((id, revision)) = index.pop_first() {
            let key = CUTS.key(&id, revision);
            if let Some((text, _)) = self.held_of(&CUTS.journal_id(&id)) {
                // It waits: a line of it is not kept, and one read before may be of another text.
                match anew {
                    Some(anew) => _ = lines.add(anew(id, revision, text)),
                    None => lines.missing += 1,
                }
                continue;
            }
            let Some(length) = self.shelf.length(&key)? else {
                if !healed && self.heal(CUTS)? {
                    // From the beginning, by what is there.
                    (index, healed) = (self.index(CUTS)?.cuts, true);
                    lines = Lines::default();
                }
                continue;
            };
            let holds = |line: &Line| (line.revision, line.length) == (revision, length);
            let at = known.binary_search_by(|line| line.id.as_str().cmp(&id));
            let before = at.ok().and_then(|at| known.get(at));
            if let Some(line) = before.filter(|line| holds(line)) {
                lines.cuts.push(line.clone());
                continue;
            }
            let kept = self.shelf.get(&format!("{LINE}{id}"))?;
            let kept = kept.and_then(|text| Line::from_text(&id, &text));
            if let Some(line) = kept.filter(holds) {
                lines.cuts.push(Arc::new(line));
                continue;
            }
            let Some(anew) = anew else {
                lines.missing += 1;
                continue;
            };
            let Some(text) = self.shelf.get(&key)? else {
                continue;
            };
            if let Some(line) = lines.add(anew(id, revision, text)) {
                self.write_line(&line);
            }
        }
        Ok(lines)
    }

    /// Keeps the line of a cut that was just kept as this text.
    pub(super) fn line_of(&self, cut: &SavedCut, revision: u64, text: &str) {
        self.write_line(&Line {
            revision,
            ..Line::of(cut, units(text))
        });
    }

    fn write_line(&self, line: &Line) {
        let key = format!("{LINE}{}", line.id);
        // Where there is no room it is made anew whenever it is needed.
        let _ = self.shelf.put(&key, &line.to_text());
    }

    /// The key of the line of a cut.
    pub(super) fn line_key(id: &str) -> String {
        format!("{LINE}{id}")
    }

    pub(super) fn forget_line(&self, id: &str) {
        let _ = self.shelf.remove(&Self::line_key(id));
    }

    /// The visits of a client or a practice head that read, the latest day first; `lines` are those of all
    /// cuts.
    pub fn visits_among(&self, lines: &[Arc<Line>], id: &str) -> Vec<SavedCut> {
        let mut all: Vec<SavedCut> = Vec::new();
        for line in lines.iter().filter(|line| line.of == id) {
            let Ok(cut) = self.load(&line.id) else {
                continue;
            };
            let day = cut.day();
            let place = all.partition_point(|other| other.day() >= day);
            all.insert(place, cut);
        }
        all
    }
}

/// The cut whose walk the app was left in: the only one that is open, last saved no longer ago than
/// `since`, an ISO 8601 time. With two open walks the person says which.
pub fn walk_to_go_on<'a>(lines: &'a [Arc<Line>], since: &str) -> Option<&'a Line> {
    let mut open = lines.iter().filter(|line| line.state == State::AtTheChair);
    let first = open.next()?;
    (open.next().is_none() && first.saved_at.as_str() >= since).then_some(first)
}

#[cfg(test)]
mod tests {
    use super::super::MemoryShelf;
    use super::*;
    use crate::walk::Walk;

    fn cut(id: &str, at: &str, walk: Option<Walk>) -> Arc<Line> {
        let cut = SavedCut::new(id, id, "trim", at);
        Arc::new(Line::of(&SavedCut { walk, ..cut }, 1))
    }

    #[test]
    fn the_app_goes_on_with_the_only_open_walk_of_the_day() {
        let open = || Some(Walk::start("2026-11-25T08:00:00.000Z"));
        let finished = Walk {
            finished_at: Some("2026-11-25T09:00:00.000Z".to_owned()),
            ..Walk::default()
        };
        let morning = "2026-11-25T09:00:00.000Z";
        let went_on =
            |cuts: &[Arc<Line>], since| walk_to_go_on(cuts, since).map(|line| line.id.clone());
        let mut cuts = vec![
            cut("planned", morning, None),
            cut("finished", morning, Some(finished)),
        ];
        assert_eq!(went_on(&cuts, "2026"), None);
        cuts.push(cut("open", morning, open()));
        assert_eq!(
            went_on(&cuts, "2026-11-24T22:00:00.000Z").as_deref(),
            Some("open")
        );
        assert_eq!(went_on(&cuts, "2026-11-25T09:00:00.001Z"), None);
        cuts.push(cut("other", "2026-11-20", open()));
        assert_eq!(went_on(&cuts, "2026-11-24T22:00:00.000Z"), None);
    }

    #[test]
    fn an_index_that_names_what_is_gone_stops_no_list_where_there_is_no_room_to_mend_it() {
        let shelf = MemoryShelf::default();
        let store = Store::new(&shelf);
        for id in ["a", "b"] {
            store.save(&SavedCut::new(id, id, "trim", "t")).unwrap();
        }
        let mut texts = shelf.texts();
        texts.remove("tautline.cut.a.1").unwrap();
        shelf.set_texts(texts);
        shelf.fail_after(0);
        let ids = |lines: Lines| lines.cuts.iter().map(|l| l.id.clone()).collect::<Vec<_>>();
        assert_eq!(ids(store.lines(&[]).unwrap()), ["b"]);
        assert_eq!(store.list().unwrap().len(), 1);
        assert!(matches!(store.load("a"), Err(StoreError::NotFound)));
        shelf.mend();
        assert_eq!(ids(store.lines(&[]).unwrap()), ["b"]);
        assert!(!shelf.texts()["tautline.index"].contains("\"a\""));
    }

    #[test]
    fn a_line_is_made_anew_when_it_is_missing_or_its_document_is_another() {
        let shelf = MemoryShelf::default();
        let store = Store::new(&shelf);
        let mut saved = SavedCut::new("a", "one", "trim", "2026-01-01");
        saved.revision = store.save(&saved).unwrap();
        let first = store.lines(&[]).unwrap();
        assert_eq!(first.cuts[0].title, "one");
        assert_eq!(first.cuts[0].revision, saved.revision);
        // What was read before is taken over.
        let again = store.lines(&first.cuts).unwrap();
        assert!(Arc::ptr_eq(&again.cuts[0], &first.cuts[0]));
        let key = format!("tautline.cut.a.{}", saved.revision);
        for (broken, line) in [("", false), ("[1,1,1,4]", true), ("{oh", true)] {
            shelf.remove("tautline.line.a").unwrap();
            if line {
                shelf.put("tautline.line.a", broken).unwrap();
            }
            assert_eq!(store.lines(&[]).unwrap(), first);
            assert_ne!(
                shelf.get("tautline.line.a").unwrap().as_deref(),
                Some(broken)
            );
        }
        // Changed by other hands.
        let other = SavedCut::new("b", "another title", "trim", "2026-01-01").to_json();
        shelf.put(&key, &other).unwrap();
        let seen = store.lines(&first.cuts).unwrap();
        assert_eq!(seen.cuts[0].title, "another title");
        assert_eq!(seen.cuts[0].id, "a");
        shelf.put(&key, "~oh").unwrap();
        let seen = store.lines(&seen.cuts).unwrap();
        assert!(seen.cuts.is_empty());
        assert_eq!(seen.aside[0].text, "~oh");
        assert_eq!(seen.aside[0].why, DocumentError::Damaged);
        store.delete("a").unwrap();
        assert!(store.lines(&[]).unwrap() == Lines::default());
        assert_eq!(shelf.keys().unwrap(), ["tautline.index"]);
    }

    #[test]
    fn a_newer_document_that_is_packed_is_set_aside_as_json() {
        let shelf = MemoryShelf::default();
        let store = Store::new(&shelf);
        let text = crate::book::keep_packed("{\"schema\":99}");
        shelf.put("tautline.cut.a.1", &text).unwrap();
        let seen = store.lines(&[]).unwrap();
        assert_eq!(seen.aside[0].why, DocumentError::Newer);
        assert_eq!(seen.aside[0].text, "{\"schema\":99}");
    }
}
