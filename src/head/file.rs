//! Reads a head file: a JSON object of tapes in cm and words for its shape.

use super::shape::{Back, Kind, Top};
use super::tapes::{Tape, TapeError, Tapes};
use serde::de::{Deserialize, Deserializer, MapAccess, Visitor};
use serde_json::Value;
use std::fmt;

/// The entries of a JSON object in their order, with any that stand twice.
struct Entries(Vec<(String, Value)>);

impl<'de> Deserialize<'de> for Entries {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_map(EntriesVisitor)
    }
}

struct EntriesVisitor;

impl<'de> Visitor<'de> for EntriesVisitor {
    type Value = Entries;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an object of measures")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Entries, A::Error> {
        let mut entries = Vec::new();
        while let Some(entry) = map.next_entry()? {
            entries.push(entry);
        }
        Ok(Entries(entries))
    }
}

impl Tapes {
    /// Reads a head file: `{"circumference":56.1,"ear_to_ear":34.1,…}` in cm. Beside the tapes it
    /// may hold `"back"`: `"flat"`, `"even"` or `"full"`; `"top"`: `"flat"`, `"even"` or `"domed"`;
    /// `"left_ear_up"`: cm, −2 to 2; and `"kind"`: `"person"` or `"practice"`. Any key may be
    /// missing or null.
    ///
    /// # Errors
    /// A [`TapeError`] with a sentence.
    pub fn from_json(text: &str) -> Result<Self, TapeError> {
        let Entries(entries) =
            serde_json::from_str(text).map_err(|e| TapeError::NotAHead(e.to_string()))?;
        let mut tapes = Self::default();
        for (i, (key, value)) in entries.iter().enumerate() {
            if entries.iter().take(i).any(|(before, _)| before == key) {
                return Err(TapeError::Twice(key.clone()));
            }
            tapes.read(key, value)?;
        }
        Ok(tapes)
    }

    /// One entry of a head file.
    fn read(&mut self, key: &str, value: &Value) -> Result<(), TapeError> {
        match key {
            "back" => {
                let back = word("back", value, &Back::ALL.map(|b| (b.word(), b)))?;
                self.set_back(back);
            }
            "top" => {
                let top = word("top", value, &Top::ALL.map(|t| (t.word(), t)))?;
                self.set_top(top);
            }
            "kind" => {
                let kind = word("kind", value, &Kind::ALL.map(|k| (k.word(), k)))?;
                self.set_kind(kind);
            }
            "left_ear_up" => {
                if let Some(cm) = number(key, value)? {
                    self.set_left_ear_up(cm)?;
                }
            }
            _ => {
                let tape = Tape::ALL
                    .into_iter()
                    .find(|tape| tape.key() == key)
                    .ok_or_else(|| TapeError::Unknown(key.to_owned()))?;
                if let Some(cm) = number(key, value)? {
                    self.set(tape, cm)?;
                }
            }
        }
        Ok(())
    }
}

/// A number, or none for null.
fn number(key: &str, value: &Value) -> Result<Option<f64>, TapeError> {
    match value {
        Value::Null => Ok(None),
        _ => match value.as_f64() {
            Some(cm) => Ok(Some(cm)),
            None => Err(TapeError::NotAHead(format!("“{key}” is not a number"))),
        },
    }
}

/// What a word stands for; what is usual for null.
fn word<T: Copy + Default>(
    key: &'static str,
    value: &Value,
    known: &[(&str, T)],
) -> Result<T, TapeError> {
    let said = match value {
        Value::Null => return Ok(T::default()),
        Value::String(said) => said.clone(),
        other => other.to_string(),
    };
    known
        .iter()
        .find(|(word, _)| *word == said)
        .map(|(_, meaning)| *meaning)
        .ok_or_else(|| {
            let words: Vec<&str> = known.iter().map(|(word, _)| *word).collect();
            TapeError::Word {
                key,
                word: said,
                known: words.join(" or "),
            }
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_head_file_is_read_and_nonsense_refused_with_a_sentence() {
        let tapes = Tapes::from_json(r#"{"circumference":56.1,"breadth":null}"#).unwrap();
        assert_eq!(tapes.get(Tape::Circumference), Some(56.1));
        assert_eq!(tapes.get(Tape::Breadth), None);
        let refused = |text| Tapes::from_json(text).unwrap_err().to_string();
        assert!(refused(r#"{"girth":56.1}"#).contains("no measure called “girth”"));
        assert!(refused(r#"{"circumference":-56.1}"#).contains("Measure again"));
        assert!(refused(r#"{"circumference":561}"#).contains("561 cm"));
        assert!(refused(r#"{"circumference":"wide"}"#).contains("not a head file"));
        assert!(refused("[]").contains("not a head file"));
        assert!(refused(r#"{"breadth":15,"breadth":15}"#).contains("twice"));
    }

    #[test]
    fn shapes_are_words_and_the_ear_a_number() {
        let text = r#"{"back":"flat","top":"domed","left_ear_up":-0.8,"kind":"practice"}"#;
        let tapes = Tapes::from_json(text).unwrap();
        assert_eq!((tapes.back(), tapes.top()), (Back::Flat, Top::Domed));
        assert_eq!((tapes.left_ear_up(), tapes.kind()), (-0.8, Kind::Practice));
        let usual = r#"{"back":null,"top":null,"left_ear_up":null,"kind":null}"#;
        assert_eq!(Tapes::from_json(usual).unwrap(), Tapes::default());
        let refused = |text| Tapes::from_json(text).unwrap_err().to_string();
        assert!(refused(r#"{"back":"round"}"#).contains("flat or even or full"));
        assert!(refused(r#"{"top":3}"#).contains("“top” is “3”"));
        assert!(refused(r#"{"kind":"doll"}"#).contains("person or practice"));
        assert!(refused(r#"{"left_ear_up":2.5}"#).contains("2.5 cm higher"));
        assert!(refused(r#"{"left_ear_up":"yes"}"#).contains("not a number"));
    }
}
