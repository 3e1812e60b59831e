//! One document's place in the index, without reading the whole index.
//!
//! With a thousand cuts the index is some 25 kB; a tap at the chair should not wait for it to be read and
//! written. So the number of one document is looked for, and changed, in the text itself. Where the text
//! is not exactly as this app writes it nothing is said, and the index is read whole.

use std::ops::Range;

/// What the text begins and ends with.
const HEAD: &str = "{\"schema\":1,\"cuts\":{";
const TAIL: &str = "}}";

/// Where in the text the revision of a document stands; none if it is not found there.
fn place(index: &str, id: &str) -> Option<Range<usize>> {
    // Such an id would be written with marks of escape.
    if !id
        .bytes()
        .all(|b| b.is_ascii_graphic() && b != b'"' && b != b'\\')
    {
        return None;
    }
    let inside = index.strip_prefix(HEAD)?.strip_suffix(TAIL)?;
    let name = format!("\"{id}\":");
    let mut from = 0;
    while let Some(found) = inside.get(from..)?.find(&name) {
        let at = from + found;
        let end = at + name.len();
        // The mark that opens a name stands at the beginning or behind a comma; one within a name would
        // have a mark of escape before it.
        let before = inside.get(..at)?;
        if before.is_empty() || before.ends_with(',') {
            let digits = inside.get(end..)?.bytes();
            let count = digits.take_while(u8::is_ascii_digit).count();
            let after = inside.get(end + count..)?;
            let ends = after.is_empty() || after.starts_with(',');
            let from = HEAD.len() + end;
            return (count > 0 && ends).then_some(from..from + count);
        }
        from = end;
    }
    None
}

/// The revision in force of a document; none if the index has to be read whole to tell.
pub(super) fn revision(index: &str, id: &str) -> Option<u64> {
    index.get(place(index, id)?)?.parse().ok()
}

/// The index with another revision of a document that is in it; none if it has to be read and written
/// whole.
pub(super) fn moved(index: &str, id: &str, revision: u64) -> Option<String> {
    let place = place(index, id)?;
    let (before, after) = (index.get(..place.start)?, index.get(place.end..)?);
    Some(format!("{before}{revision}{after}"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use std::collections::BTreeMap;

    fn written(cuts: &BTreeMap<String, u64>) -> String {
        let cuts = serde_json::to_string(cuts).unwrap();
        format!("{{\"schema\":1,\"cuts\":{cuts}}}")
    }

    fn read(text: &str) -> BTreeMap<String, u64> {
        let tree: serde_json::Value = serde_json::from_str(text).unwrap();
        serde_json::from_value(tree["cuts"].clone()).unwrap()
    }

    proptest! {
        #[test]
        fn the_text_says_and_takes_what_the_whole_index_does(
            cuts in proptest::collection::btree_map("[ab,:\"\\\\{}1é]{0,4}", any::<u64>(), 0..8),
            id in "[ab,:\"\\\\{}1é]{0,4}",
            to in any::<u64>(),
        ) {
            let text = written(&cuts);
            for id in cuts.keys().chain([&id]) {
                if let Some(revision) = revision(&text, id) {
                    prop_assert_eq!(cuts.get(id), Some(&revision), "{} in {}", id, text);
                }
                if let Some(changed) = moved(&text, id, to) {
                    let mut expected = cuts.clone();
                    expected.insert(id.clone(), to);
                    prop_assert_eq!(read(&changed), expected);
                }
                let plain = !id.is_empty() && id.bytes().all(|b| b.is_ascii_alphanumeric());
                if plain && cuts.contains_key(id) {
                    prop_assert!(revision(&text, id).is_some(), "{} in {}", id, text);
                }
            }
        }
    }

    #[test]
    fn what_is_not_as_it_is_written_is_left_to_the_reader() {
        for text in [
            "",
            "{oh",
            "{\"schema\":1,\"cuts\":{\"a\":1}",
            "{\"schema\":2,\"cuts\":{\"a\":1}}",
            "{\"cuts\":{\"a\":1},\"schema\":1}",
            "{\"schema\":1,\"cuts\":{\"a\": 1}}",
            "{\"schema\":1,\"cuts\":{\"a\":-1}}",
            "{\"schema\":1,\"cuts\":{\"a\":1.5}}",
            "{\"schema\":1,\"cuts\":{\"a\":null}}",
            "{\"schema\":1,\"cuts\":{}}",
        ] {
            assert_eq!(revision(text, "a"), None, "{text}");
            assert_eq!(moved(text, "a", 4), None, "{text}");
        }
        let text = "{\"schema\":1,\"cuts\":{\"a\":1,\"b\":22}}";
        assert_eq!(revision(text, "schema"), None);
        assert_eq!(revision(text, "b"), Some(22));
        assert_eq!(
            moved(text, "a", 103).as_deref(),
            Some("{\"schema\":1,\"cuts\":{\"a\":103,\"b\":22}}")
        );
    }
}
