//! The words in other languages: whole, with every value in its place, and in the forms that the language
//! has.
//!
//! Sources, from memory: the format of the files is that of the GNU gettext manual, “The Format of PO Files”;
//! the plural forms and the decimal mark are those of Unicode CLDR for `es` (some of its countries write a
//! point, which is read as well).

#[path = "common/phrases.rs"]
mod phrases;

use phrases::{Key, all};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use tautline::measure::{Length, Unit, read_length};
use tautline::words::{speak, speak_english, tr};

const SPANISH: &str = "public/words/es.po";

/// A catalogue: what each text is in it, one form or several.
fn entries() -> BTreeMap<Key, Vec<String>> {
    let file = polib::po_file::parse(Path::new(SPANISH)).unwrap();
    let mut found = BTreeMap::new();
    for message in file.messages() {
        let own = |text: &str| text.to_owned();
        let (many, said) = if message.is_plural() {
            let many = message.msgid_plural().unwrap();
            (Some(own(many)), message.msgstr_plural().unwrap().clone())
        } else {
            (None, vec![own(message.msgstr().unwrap())])
        };
        found.insert(
            (message.msgctxt().map(own), own(message.msgid()), many),
            said,
        );
    }
    found
}

/// The places of a text where values go: `{}` one after the other, or by number or name.
fn values(text: &str) -> Vec<String> {
    let mut found: Vec<String> = Vec::new();
    for part in text.split('{').skip(1) {
        let name = part.split('}').next().unwrap().to_owned();
        let count = found.iter().filter(|f| f.parse::<usize>().is_ok()).count();
        found.push(if name.is_empty() {
            count.to_string()
        } else {
            name
        });
    }
    found.sort();
    found.dedup();
    found
}

#[test]
fn every_text_of_the_app_is_in_the_catalogue_and_nothing_else() {
    let (texts, said) = (all(), entries());
    let missing: Vec<_> = texts
        .iter()
        .filter(|(key, _)| {
            !said
                .get(*key)
                .is_some_and(|all| all.iter().all(|s| !s.is_empty()))
        })
        .map(|(key, place)| format!("{place}: {key:?}"))
        .collect();
    assert!(texts.len() > 1500, "{}", texts.len());
    assert!(
        missing.is_empty(),
        "{} missing:\n{}",
        missing.len(),
        missing.join("\n")
    );
    let known: BTreeSet<&Key> = texts.keys().collect();
    let unused: Vec<&Key> = said.keys().filter(|key| !known.contains(key)).collect();
    assert!(
        unused.is_empty(),
        "{} nowhere in the app: {unused:#?}",
        unused.len()
    );
}

#[test]
fn what_is_said_has_the_same_values_and_edges() {
    for ((context, text, many), said) in entries() {
        let of = many.as_ref().unwrap_or(&text);
        for form in &said {
            // The form for one may say the number in a word.
            let fewer = many.is_some() && form == &said[0];
            let (own, theirs) = (values(of), values(form));
            assert!(
                own == theirs || fewer && theirs.iter().all(|v| own.contains(v)),
                "{context:?} {text:?}: {own:?}, but {theirs:?} in {form:?}"
            );
            for edge in [' ', '\u{a0}'] {
                assert_eq!(
                    text.starts_with(edge),
                    form.starts_with(edge),
                    "{text:?}, {form:?}"
                );
                assert_eq!(
                    text.ends_with(edge),
                    form.ends_with(edge),
                    "{text:?}, {form:?}"
                );
            }
        }
        assert_eq!(said.len(), if many.is_some() { 2 } else { 1 }, "{text:?}");
    }
}

#[test]
fn it_is_spoken_until_english_is_again() {
    speak(&fs::read_to_string(SPANISH).unwrap()).unwrap();
    assert_eq!(tr("Nape"), "Nuca");
    // The decimal mark of CLDR's es is a comma; it is read back as it is written.
    let length = Length::from_cm(12.5);
    assert_eq!(length.shown(Unit::Cm), "12,5 cm");
    assert_eq!(read_length(&length.shown(Unit::Cm), Unit::Cm), Ok(length));
    // CLDR's es: one for 1, other for 0, 2 and 11 (many only from a million on).
    let file = fs::read_to_string(SPANISH).unwrap();
    assert!(file.contains("Plural-Forms: nplurals=2; plural=(n != 1);"));
    speak_english();
    assert_eq!(tr("Nape"), "Nape");
    assert_eq!(length.shown(Unit::Cm), "12.5 cm");
}

#[test]
fn what_is_no_catalogue_changes_nothing() {
    for text in [
        "",
        "#",
        "\"x\"",
        "msgid \"",
        "msgid \"open\nmsgstr",
        "<!DOCTYPE html>\n\"-//W3C//DTD XHTML 1.0 Strict//EN\"\n<html>",
        "msgid \"\"\nmsgstr \"Content-Type: text/plain; charset=UTF-8\\n\"\n",
    ] {
        assert!(speak(text).is_err(), "{text}");
        assert_eq!(tr("Nape"), "Nape");
    }
}
