//! Two windows that saved the same document in the same moment.
//!
//! A browser tells a window of another's save some milliseconds late. A save in between goes out from the
//! document of before, and would leave the other's change behind. The window that is left behind sees it as
//! soon as it is told, and lays its own change over what the other kept: where both changed different things
//! nothing is lost, and where they changed the same it is said.

use super::index::{Store, StoreError};
use super::shelf::Shelf;
use super::shelved::{CUTS, Place, RECORDS};
use crate::json::{Tree, differs, lay_over, tree};

/// What a window saved last.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wrote {
    place: Place,
    id: String,
    revision: u64,
    /// The document that the change was made to.
    before: String,
    /// The document that was saved.
    text: String,
}

/// What comes of two saves in the same moment.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Crossed {
    /// The document with both changes, to be saved.
    pub text: String,
    /// Whether both changed the same, so that the other's gave way.
    pub same: bool,
}

impl Wrote {
    /// A cut that was saved: its id and revision, its text before and after the change.
    pub fn cut(id: &str, revision: u64, before: String, text: String) -> Self {
        let id = id.to_owned();
        Self {
            place: CUTS,
            id,
            revision,
            before,
            text,
        }
    }

    /// The same of a card.
    pub fn record(id: &str, revision: u64, before: String, text: String) -> Self {
        Self {
            place: RECORDS,
            ..Self::cut(id, revision, before, text)
        }
    }

    /// Whether it is a cut of this id, and which text it was saved as.
    pub fn text_of_cut(&self, id: &str, revision: u64) -> Option<&str> {
        let same = self.place == CUTS && self.id == id && self.revision == revision;
        same.then_some(self.text.as_str())
    }

    /// The cut's id; none if it is a card.
    pub fn cut_id(&self) -> Option<&str> {
        (self.place == CUTS).then_some(self.id.as_str())
    }

    /// The document's id.
    pub fn id(&self) -> &str {
        &self.id
    }
}

/// One text with the changes of two laid over that of before; none if one of them does not read.
pub fn both(before: &str, ours: &str, theirs: &str) -> Option<Crossed> {
    let [before, ours, mut theirs] = [tree(before).ok()?, tree(ours).ok()?, tree(theirs).ok()?];
    let our_change = without_time(differs(&before, &ours));
    let their_change = without_time(differs(&before, &theirs));
    let same = meet(&our_change, &their_change);
    lay_over(&mut theirs, our_change);
    let text = theirs.to_string();
    Some(Crossed { text, same })
}

/// Every save has another time, which is no change of anybody's.
fn without_time(mut change: Tree) -> Tree {
    if let Some(fields) = change.as_object_mut() {
        fields.remove("saved_at");
        fields.remove("revision");
    }
    change
}

/// Whether two changes touch the same, and not alike.
fn meet(one: &Tree, other: &Tree) -> bool {
    let (Tree::Object(one), Tree::Object(other)) = (one, other) else {
        return one != other;
    };
    one.iter()
        .any(|(name, value)| other.get(name).is_some_and(|other| meet(value, other)))
}

impl<S: Shelf> Store<S> {
    /// Whether another window saved the same document in the same moment, and what comes of both then. A
    /// window that goes on from ours takes ours away last: only where that was `waited` for is one that
    /// is still there a sign that the other did not know of it.
    ///
    /// # Errors
    /// [`StoreError::Shelf`].
    pub fn crossed(&self, wrote: &Wrote, waited: bool) -> Result<Option<Crossed>, StoreError> {
        let Wrote {
            place,
            id,
            revision,
            before,
            text,
        } = wrote;
        let Some(in_force) = self.revision_in_force(*place, id)? else {
            // Deleted: that is said elsewhere.
            return Ok(None);
        };
        let plain = |revision: u64| -> Result<Option<String>, StoreError> {
            let kept = self.shelf.get(&place.key(id, revision))?;
            Ok(kept.map(super::lines::readable))
        };
        let theirs = if in_force == *revision {
            // Both under one revision: whoever was last stands there.
            plain(in_force)?.filter(|theirs| theirs != text)
        } else if waited && plain(*revision)?.as_ref() == Some(text) {
            plain(in_force)?
        } else {
            None
        };
        let crossed = theirs.and_then(|theirs| both(before, text, &theirs));
        if crossed.is_some() && in_force != *revision {
            let _ = self.shelf.remove(&place.key(id, *revision));
        }
        Ok(crossed)
    }
}

#[cfg(test)]
mod tests {
    use super::super::MemoryShelf;
    use super::*;
    use crate::book::SavedCut;

    /// Two windows on one shelf that know the same cut, and each its own change of it.
    fn two() -> (MemoryShelf, SavedCut, [SavedCut; 2]) {
        let shelf = MemoryShelf::default();
        let mut cut = SavedCut::new("a", "old", "trim", "2026-01-01T00:00:00.000Z");
        cut.visit.notes = "old".to_owned();
        cut.revision = Store::new(&shelf).save(&cut).unwrap();
        let mut ours = cut.clone();
        ours.title = "ours".to_owned();
        ours.saved_at = "2026-01-01T00:00:01.000Z".to_owned();
        let mut theirs = cut.clone();
        theirs.visit.notes = "theirs".to_owned();
        (shelf, cut, [ours, theirs])
    }

    /// Lays a document and an index by hand, as the other window's writes arrive.
    fn lay(shelf: &MemoryShelf, revision: u64, cut: &SavedCut, in_force: u64) {
        let key = format!("tautline.cut.a.{revision}");
        shelf.put(&key, &cut.to_json()).unwrap();
        let index = format!("{{\"schema\":1,\"cuts\":{{\"a\":{in_force}}}}}");
        shelf.put("tautline.index", &index).unwrap();
    }

    #[test]
    fn whoever_is_left_behind_lays_the_change_over_the_others() {
        for (theirs_at, in_force) in [(2, 2), (3, 3)] {
            let (shelf, cut, [ours, theirs]) = two();
            let store = Store::new(&shelf);
            let revision = store.save(&ours).unwrap();
            let wrote = Wrote::cut("a", revision, cut.to_json(), ours.to_json());
            assert_eq!(store.crossed(&wrote, true).unwrap(), None);
            // Theirs arrives: under our revision, or past it and beside it.
            lay(&shelf, theirs_at, &theirs, in_force);
            let at_once = store.crossed(&wrote, false).unwrap();
            assert_eq!(
                at_once.is_some(),
                in_force == 2,
                "it may still be on its way"
            );
            let crossed = store.crossed(&wrote, true).unwrap().unwrap();
            let both = SavedCut::from_json(&crossed.text).unwrap();
            assert_eq!(
                (both.title.as_str(), both.visit.notes.as_str()),
                ("ours", "theirs")
            );
            assert!(!crossed.same);
            assert_eq!(
                store.crossed(&wrote, true).unwrap().is_some(),
                in_force == 2
            );
            assert_eq!(shelf.texts().len(), 3, "{:?}", shelf.texts().keys());
        }
    }

    #[test]
    fn who_goes_on_from_ours_did_not_cross_it() {
        let (shelf, cut, [ours, mut theirs]) = two();
        let store = Store::new(&shelf);
        let revision = store.save(&ours).unwrap();
        let wrote = Wrote::cut("a", revision, cut.to_json(), ours.to_json());
        theirs.revision = revision;
        store.save(&theirs).unwrap();
        assert_eq!(store.crossed(&wrote, true).unwrap(), None);
        store.delete("a").unwrap();
        assert_eq!(store.crossed(&wrote, true).unwrap(), None);
    }

    #[test]
    fn the_same_changed_in_both_is_said() {
        let (_, cut, [ours, mut theirs]) = two();
        theirs.title = "also".to_owned();
        let crossed = both(&cut.to_json(), &ours.to_json(), &theirs.to_json()).unwrap();
        assert!(crossed.same && crossed.text.contains("\"ours\""));
        // But not where both changed it alike.
        theirs.title = "ours".to_owned();
        assert!(
            !both(&cut.to_json(), &ours.to_json(), &theirs.to_json())
                .unwrap()
                .same
        );
        assert_eq!(both("{", "{}", "{}"), None);
    }
}
