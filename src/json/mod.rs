//! Texts in JSON read into values of our types.
//!
//! A text is read into a tree first and each type from the tree. `serde_json` would read types from the
//! text itself and build its scanner, and a second way to read every structure, into each of them: on
//! the way to the phone that is far larger. This room depends on nothing.

mod patch;

pub use patch::{differs, lay_over};
use serde::Deserialize;
pub use serde_json::Value as Tree;

/// Why a text does not read, as a part of a sentence.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct Unread(String);

/// Reads a text into a tree.
///
/// # Errors
/// [`Unread`] with the line and column where it is not JSON.
pub fn tree(text: &str) -> Result<Tree, Unread> {
    serde_json::from_str(text).map_err(|e| Unread(e.to_string()))
}

/// Reads a value from a tree.
///
/// # Errors
/// [`Unread`] with what is missing, unknown or of another kind.
pub fn value<'a, T: Deserialize<'a>>(tree: &'a Tree) -> Result<T, Unread> {
    T::deserialize(tree).map_err(|e| Unread(e.to_string()))
}

/// Reads a value from a text.
///
/// # Errors
/// As [`tree`] and [`value`].
pub fn read<T: for<'a> Deserialize<'a>>(text: &str) -> Result<T, Unread> {
    value(&tree(text)?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;

    #[derive(Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
    #[serde(rename_all = "snake_case")]
    enum Shape {
        Round,
        Turned(i32),
        Wide { by: u32 },
        Between(u8, u8),
    }

    #[derive(Debug, PartialEq, Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Thing {
        name: String,
        size: f64,
        #[serde(default)]
        shapes: Vec<Shape>,
        far: Option<bool>,
        #[serde(default)]
        by_shape: BTreeMap<Shape, String>,
    }

    /// Whether both readers read it alike; what ours reads.
    fn alike(text: &str) -> Option<Thing> {
        let ours = read::<Thing>(text);
        let theirs = serde_json::from_str::<Thing>(text);
        assert_eq!(ours.is_ok(), theirs.is_ok(), "{text}: {ours:?} {theirs:?}");
        assert_eq!(ours.as_ref().ok(), theirs.as_ref().ok(), "{text}");
        ours.ok()
    }

    #[test]
    fn everything_reads_as_serde_json_reads_it() {
        let thing = alike(
            r#"{"name": "a\n“b”", "size": 3, "far": null, "by_shape": {"round": "x"}, "shapes":
            ["round", {"turned": -4}, {"wide": {"by": 7}}, {"between": [1, 2]}, {"round": null}]}"#,
        )
        .unwrap();
        assert_eq!(thing.shapes.len(), 5);
        assert!(alike(r#"{"name": "", "size": -2.5e-3, "far": true}"#).is_some());
    }

    #[test]
    fn what_serde_json_refuses_is_refused() {
        for text in [
            "",
            "{",
            "[]",
            "7",
            r#"{"name": "a"}"#,
            r#"{"name": "a", "size": "3"}"#,
            r#"{"name": 1, "size": 3}"#,
            r#"{"name": null, "size": 3}"#,
            r#"{"name": "a", "size": 3, "more": 1}"#,
            r#"{"name": "a", "size": 3, "far": 1}"#,
            r#"{"name": "a", "size": 3, "shapes": {}}"#,
            r#"{"name": "a", "size": 3, "shapes": ["square"]}"#,
            r#"{"name": "a", "size": 3, "shapes": ["turned"]}"#,
            r#"{"name": "a", "size": 3, "shapes": [{"turned": 2.5}]}"#,
            r#"{"name": "a", "size": 3, "shapes": [{"turned": 9999999999}]}"#,
            r#"{"name": "a", "size": 3, "shapes": [{"wide": {"by": -1}}]}"#,
            r#"{"name": "a", "size": 3, "shapes": [{"between": [1]}]}"#,
            r#"{"name": "a", "size": 3, "shapes": [{"between": [1, 2, 3]}]}"#,
            r#"{"name": "a", "size": 3, "shapes": [{"round": null, "turned": 1}]}"#,
            r#"{"name": "a", "size": 3, "shapes": [{}]}"#,
            r#"{"name": "a", "size": 3, "by_shape": {"square": ""}}"#,
        ] {
            assert_eq!(alike(text), None, "{text}");
        }
    }

    #[test]
    fn a_fault_says_what_it_is() {
        let said = |text| read::<Thing>(text).unwrap_err().to_string();
        assert!(said("{\"name\": }").contains("line 1 column"));
        assert!(said("{}").contains("missing field `name`"));
        assert!(said(r#"{"name": "a", "extra": 1}"#).contains("unknown field `extra`"));
        assert!(said(r#"{"name": 5, "size": 1}"#).contains("expected a string"));
    }
}
