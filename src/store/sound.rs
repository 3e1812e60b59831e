//! Whether everything on a shelf is as the app leaves it: for tests and for the files of the long ones.

use super::index::{SETTINGS, Store};
use super::shelf::{Shelf, units};
use super::shelved::{CUTS, Index, RECORDS};
use crate::book::{Line, Record, SavedCut, plain};
use crate::json;
use crate::plan::History;
use crate::walk::order;

/// What the app's own keys begin with.
const OURS: &str = "tautline.";
/// Keys of which there is one each.
const SINGLE: [&str; 6] = [
    "tautline.index",
    "tautline.records",
    SETTINGS,
    "tautline.lock",
    "tautline.asked",
    "tautline.probe",
];

impl<S: Shelf> Store<S> {
    /// What is not as the app leaves it, a sentence each; nothing if all is sound. Every document in force
    /// reads and comes back as it went out, an index names what is there and nothing else, finished cuts are
    /// packed and others not, lines say what their documents do, and each walk can be followed on its plan.
    pub fn faults(&self) -> Vec<String> {
        let mut faults = Vec::new();
        let keys = self.shelf.keys().unwrap_or_default();
        let mut known: Vec<String> = SINGLE.iter().map(|key| (*key).to_owned()).collect();
        for place in [CUTS, RECORDS] {
            let text = self.shelf.get(place.index()).ok().flatten();
            let index = match text.map(|text| json::read::<Index>(&text)) {
                Some(Ok(index)) => index,
                Some(Err(why)) => {
                    faults.push(format!("{} does not read: {why}", place.index()));
                    continue;
                }
                None => Index::default(),
            };
            for (id, revision) in &index.cuts {
                let key = place.key(id, *revision);
                match self.shelf.get(&key).ok().flatten() {
                    None => faults.push(format!("{key} is named and not there")),
                    Some(text) if place == CUTS => self.cut_faults(id, &text, &mut faults),
                    Some(text) => record_faults(id, &text, &mut faults),
                }
                known.push(key);
                if place == CUTS {
                    known.extend([Self::line_key(id), Self::undo_key(id)]);
                }
            }
        }
        for key in keys {
            if key.starts_with(OURS) && !known.contains(&key) {
                faults.push(format!("{key} is nobody's"));
            }
        }
        if let Ok(Some(text)) = self.shelf.get(SETTINGS)
            && json::read::<super::Settings>(&text).is_err()
        {
            faults.push("the settings do not read".to_owned());
        }
        faults
    }

    fn cut_faults(&self, id: &str, text: &str, faults: &mut Vec<String>) {
        let mut say = |what: &str| faults.push(format!("cut {id}: {what}"));
        let cut = match SavedCut::from_json(text) {
            Ok(cut) => cut,
            Err(why) => return say(&why.to_string()),
        };
        if SavedCut::from_json(&cut.to_json()).as_ref() != Ok(&cut) {
            say("comes back otherwise than it went out");
        }
        // Two copies may stand beside each other, the second with a mark behind its name.
        if id.split('~').next() != Some(cut.id.as_str()) {
            say("says another name of itself");
        }
        if cut.finished() != text.starts_with('~') {
            say("is packed and not finished, or the other way round");
        }
        let line = self.shelf.get(&Self::line_key(id)).ok().flatten();
        if let Some(line) = line.and_then(|text| Line::from_text(id, &text))
            && self.revision_in_force(CUTS, id) == Ok(Some(line.revision))
            && line.length == units(text)
        {
            let own = SavedCut {
                id: id.to_owned(),
                revision: line.revision,
                ..cut.clone()
            };
            if line != Line::of(&own, units(text)) {
                say("its line says something else");
            }
        }
        if let Ok(Some(undo)) = self.shelf.get(&Self::undo_key(id)) {
            let plain = plain(&undo).map(std::borrow::Cow::into_owned);
            if plain.is_ok_and(|text| json::read::<History>(&text).is_err()) {
                say("what can be taken back does not read");
            }
        }
        let Some(walk) = &cut.walk else { return };
        let far = |cm: f64| !(cm.is_finite() && (0.0..1000.0).contains(&cm));
        for (n, done) in walk.done.iter().enumerate() {
            if walk.done.iter().take(n).any(|other| other.key == done.key) {
                say("a section is done twice");
            }
            let lengths = [done.target, done.came_out_at];
            if lengths.into_iter().flatten().any(|length| far(length.cm())) {
                say("a section was cut to no length");
            }
        }
        // A plan that contradicts itself is said on its screens, and is no fault of what is kept.
        if let Ok(ready) = cut.ready()
            && let Ok(outcome) = ready.followed(walk)
        {
            let order = order(&outcome);
            let current = walk.current(&order);
            if walk.finished_at.is_none()
                && current.is_none()
                && walk.count_done(&order) < order.len()
            {
                say("its walk stands nowhere and is not finished");
            }
            let done = walk.count_done(&order);
            if done > walk.done.len() {
                say("more is counted as done than was");
            }
        }
    }
}

fn record_faults(id: &str, text: &str, faults: &mut Vec<String>) {
    let record = match Record::from_json(text) {
        Ok(record) => record,
        Err(why) => return faults.push(format!("card {id}: {why}")),
    };
    if Record::from_json(&record.to_json()).as_ref() != Ok(&record) {
        faults.push(format!("card {id}: comes back otherwise than it went out"));
    }
    if id.split('~').next() != Some(record.id.as_str()) {
        faults.push(format!("card {id}: says another name of itself"));
    }
}

#[cfg(test)]
mod tests {
    use super::super::MemoryShelf;
    use super::*;
    use crate::head::Kind;
    use crate::walk::Walk;

    #[test]
    fn a_store_as_the_app_leaves_it_is_sound_and_what_is_not_is_named() {
        let shelf = MemoryShelf::default();
        let store = Store::new(&shelf);
        let mut cut = SavedCut::new("a", "one", "soft-layers-face-frame", "t");
        store.save(&cut).unwrap();
        cut.id = "f".to_owned();
        cut.walk = Some(Walk {
            finished_at: Some("t".to_owned()),
            ..Walk::start("t")
        });
        store.save(&cut).unwrap();
        let card = Record::new("r", Kind::Person, "Invented", "t");
        store.save_record(&card).unwrap();
        assert_eq!(store.faults(), Vec::<String>::new());
        let sound = shelf.texts();
        let changed: [(&str, Option<&str>, &str); 7] = [
            ("tautline.cut.a.1", None, "not there"),
            ("tautline.cut.a.1", Some("{"), "damaged"),
            ("tautline.cut.b.1", Some("{}"), "nobody's"),
            ("tautline.index", Some("[]"), "does not read"),
            ("tautline.settings", Some("{\"unit\":1}"), "settings"),
            ("tautline.record.r.1", Some("{\"schema\":9}"), "newer"),
            ("tautline.undo.a", Some("{\"past\":1}"), "taken back"),
        ];
        for (key, text, word) in changed {
            let mut texts = sound.clone();
            match text {
                Some(text) => texts.insert(key.to_owned(), text.to_owned()),
                None => texts.remove(key),
            };
            shelf.set_texts(texts);
            let faults = store.faults().join("; ");
            assert!(faults.contains(word), "{key} {text:?}: {faults}");
        }
    }
}
