//! What differs between two trees, as a JSON Merge Patch (RFC 7396).

use super::Tree;

/// Lays a patch over a tree: what it names takes its value, a null takes away, and the rest stays.
/// Trees deeper than a text can be read are never met here: the reader refuses them.
pub fn lay_over(tree: &mut Tree, patch: Tree) {
    let Tree::Object(patch) = patch else {
        *tree = patch;
        return;
    };
    if !tree.is_object() {
        *tree = Tree::Object(serde_json::Map::new());
    }
    let Tree::Object(fields) = tree else { return };
    for (name, value) in patch {
        if value.is_null() {
            fields.remove(&name);
        } else {
            lay_over(fields.entry(name).or_insert(Tree::Null), value);
        }
    }
}

/// The patch that makes one tree of the other. It can't say that something *is* null: who needs that
/// lays it over and compares.
pub fn differs(from: &Tree, to: &Tree) -> Tree {
    let (Tree::Object(old), Tree::Object(new)) = (from, to) else {
        return to.clone();
    };
    let mut patch = serde_json::Map::new();
    for name in old.keys().filter(|name| !new.contains_key(*name)) {
        patch.insert(name.clone(), Tree::Null);
    }
    for (name, value) in new {
        match old.get(name) {
            Some(before) if before == value => {}
            Some(before) => {
                patch.insert(name.clone(), differs(before, value));
            }
            None => {
                patch.insert(name.clone(), value.clone());
            }
        }
    }
    Tree::Object(patch)
}

#[cfg(test)]
mod tests {
    use super::super::tree;
    use super::*;

    /// Original, patch, result: the test cases of RFC 7396, appendix A, all of them.
    const CASES: [(&str, &str, &str); 15] = [
        (r#"{"a":"b"}"#, r#"{"a":"c"}"#, r#"{"a":"c"}"#),
        (r#"{"a":"b"}"#, r#"{"b":"c"}"#, r#"{"a":"b","b":"c"}"#),
        (r#"{"a":"b"}"#, r#"{"a":null}"#, "{}"),
        (r#"{"a":"b","b":"c"}"#, r#"{"a":null}"#, r#"{"b":"c"}"#),
        (r#"{"a":["b"]}"#, r#"{"a":"c"}"#, r#"{"a":"c"}"#),
        (r#"{"a":"c"}"#, r#"{"a":["b"]}"#, r#"{"a":["b"]}"#),
        (
            r#"{"a":{"b":"c"}}"#,
            r#"{"a":{"b":"d","c":null}}"#,
            r#"{"a":{"b":"d"}}"#,
        ),
        (r#"{"a":[{"b":"c"}]}"#, r#"{"a":[1]}"#, r#"{"a":[1]}"#),
        (r#"["a","b"]"#, r#"["c","d"]"#, r#"["c","d"]"#),
        (r#"{"a":"b"}"#, r#"["c"]"#, r#"["c"]"#),
        (r#"{"a":"foo"}"#, "null", "null"),
        (r#"{"a":"foo"}"#, r#""bar""#, r#""bar""#),
        (r#"{"e":null}"#, r#"{"a":1}"#, r#"{"e":null,"a":1}"#),
        ("[1,2]", r#"{"a":"b","c":null}"#, r#"{"a":"b"}"#),
        ("{}", r#"{"a":{"bb":{"ccc":null}}}"#, r#"{"a":{"bb":{}}}"#),
    ];

    #[test]
    fn patches_are_laid_over_as_the_standard_has_it() {
        for (original, patch, result) in CASES {
            let mut laid = tree(original).unwrap();
            lay_over(&mut laid, tree(patch).unwrap());
            assert_eq!(laid, tree(result).unwrap(), "{original} {patch}");
        }
    }

    #[test]
    fn what_differs_makes_one_of_the_other() {
        for (from, _, to) in CASES {
            let (from, to) = (tree(from).unwrap(), tree(to).unwrap());
            let mut laid = from.clone();
            lay_over(&mut laid, differs(&from, &to));
            assert_eq!(laid, to);
        }
        let same = tree(r#"{"a":{"b":[1,{"c":2}]}}"#).unwrap();
        assert_eq!(differs(&same, &same), tree("{}").unwrap());
    }
}
