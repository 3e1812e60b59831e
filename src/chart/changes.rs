//! What differs between two drawings of one picture, so that only that is written again.
//!
//! A page that is given a whole new picture reads it, styles it and lays it out from nothing. Mostly the same
//! elements stand there with other data.

/// A change of a drawing. Elements are numbered in the order in which they begin in the old one, from 0: the
/// picture itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Change<'a> {
    /// An element's attribute reads otherwise.
    Attribute {
        /// Which element.
        at: usize,
        /// The name.
        name: &'a str,
        /// What it reads now.
        value: &'a str,
    },
    /// An element's text reads otherwise.
    Text {
        /// Which element.
        at: usize,
        /// What it reads now.
        text: &'a str,
    },
    /// An element goes.
    Gone {
        /// Which.
        at: usize,
    },
    /// Elements come, as SVG, before one that was there.
    Before {
        /// Which.
        at: usize,
        /// The new ones.
        svg: &'a str,
    },
    /// Elements come, as SVG, last within one.
    Last {
        /// Which.
        at: usize,
        /// The new ones.
        svg: &'a str,
    },
}

/// One element as it is written.
struct Element<'a> {
    /// Its name, and all its attributes.
    tag: &'a str,
    attributes: Vec<(&'a str, &'a str)>,
    /// Its text; only read where nothing else is in it.
    text: &'a str,
    whole: &'a str,
    children: Vec<Element<'a>>,
}

/// What has to change for `old` to become `new`; none where that cannot be told of either.
pub fn changes<'a>(old: &'a str, new: &'a str) -> Option<Vec<Change<'a>>> {
    let [(old, _), (new, _)] = [element(old)?, element(new)?];
    let mut all = Vec::new();
    let alike = old.is_like(&new) && compare(&old, &new, &mut 0, &mut all);
    alike.then_some(all)
}

impl Element<'_> {
    fn class(&self) -> &str {
        let found = self.attributes.iter().find(|(name, _)| *name == "class");
        found.map_or("", |(_, value)| value)
    }

    fn names(&self) -> impl Iterator<Item = &str> {
        self.attributes.iter().map(|(name, _)| *name)
    }

    /// Whether it may become the other one by its data alone: the same attributes, and nothing that would
    /// have to be read as it is read in SVG.
    fn is_like(&self, other: &Self) -> bool {
        self.tag == other.tag
            && self.class() == other.class()
            && self.children.is_empty() == other.children.is_empty()
            && self.names().eq(other.names())
            && (self.whole == other.whole
                || !other.children.is_empty()
                || !other.whole.contains('&'))
    }

    /// How many elements it is, with all that are in it.
    fn count(&self) -> usize {
        1 + self.children.iter().map(Self::count).sum::<usize>()
    }
}

/// Notes what differs between two elements that are alike; false where it cannot be told. `at` is the number
/// of the old one, and afterwards that of what follows.
fn compare<'a>(
    old: &Element<'a>,
    new: &Element<'a>,
    at: &mut usize,
    all: &mut Vec<Change<'a>>,
) -> bool {
    let own = *at;
    *at += 1;
    for ((name, before), (_, value)) in old.attributes.iter().zip(&new.attributes) {
        if before != value {
            if value.contains('&') {
                return false;
            }
            all.push(Change::Attribute {
                at: own,
                name,
                value,
            });
        }
    }
    if new.children.is_empty() {
        if old.text != new.text {
            all.push(Change::Text {
                at: own,
                text: new.text,
            });
        }
        return true;
    }
    if old.text != new.text {
        return false;
    }
    let mut rest = &old.children[..];
    for child in &new.children {
        // What comes next of the old is passed over only if the new one is like something later on.
        if let Some(skipped) = rest.iter().position(|other| other.is_like(child)) {
            for gone in &rest[..skipped] {
                all.push(Change::Gone { at: *at });
                *at += gone.count();
            }
            if !compare(&rest[skipped], child, at, all) {
                return false;
            }
            rest = &rest[skipped + 1..];
        } else if rest.is_empty() {
            all.push(Change::Last {
                at: own,
                svg: child.whole,
            });
        } else {
            all.push(Change::Before {
                at: *at,
                svg: child.whole,
            });
        }
    }
    for gone in rest {
        all.push(Change::Gone { at: *at });
        *at += gone.count();
    }
    true
}

/// Reads the element that a text begins with, as our own pictures write it, and what follows it.
fn element(text: &str) -> Option<(Element<'_>, &str)> {
    let text = text.trim_start();
    let inside = text.strip_prefix('<')?;
    let end = inside.find('>')?;
    let (head, mut rest) = (&inside[..end], &inside[end + 1..]);
    let (head, closed) = match head.strip_suffix('/') {
        Some(head) => (head, true),
        None => (head, false),
    };
    let (tag, mut left) = head.split_once(char::is_whitespace).unwrap_or((head, ""));
    let mut attributes = Vec::new();
    while let Some((name, more)) = left.split_once("=\"") {
        let (value, more) = more.split_once('"')?;
        attributes.push((name.trim(), value));
        left = more;
    }
    let mut own = Element {
        tag,
        attributes,
        text: "",
        whole: "",
        children: Vec::new(),
    };
    if !closed {
        let (words, _) = rest.split_once('<')?;
        own.text = words;
        rest = &rest[words.len()..];
        while !rest.starts_with("</") {
            let (child, more) = element(rest)?;
            own.children.push(child);
            rest = more.trim_start();
        }
        let end = rest.strip_prefix("</")?.strip_prefix(tag)?;
        rest = end.strip_prefix('>')?;
    }
    own.whole = &text[..text.len() - rest.len()];
    Some((own, rest))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn written(old: &str, new: &str) -> Vec<String> {
        let all = changes(old, new).unwrap();
        all.iter().map(|change| format!("{change:?}")).collect()
    }

    #[test]
    fn only_what_differs_is_told() {
        let old = r#"<svg viewBox="0 0 1 1"><title>A</title><path class="a" d="M0 0"/><g x="1"><path class="b" d="M1 1"/></g><text class="c" y="2">3</text></svg>"#;
        assert_eq!(changes(old, old), Some(Vec::new()));
        let new = r#"<svg viewBox="0 0 2 1"><title>B</title><path class="a" d="M0 0"/><g x="1"><path class="b" d="M2 2"/></g><text class="c" y="2">4</text></svg>"#;
        let set = |at, name, value| Change::Attribute { at, name, value };
        let wanted = vec![
            set(0, "viewBox", "0 0 2 1"),
            Change::Text { at: 1, text: "B" },
            set(4, "d", "M2 2"),
            Change::Text { at: 5, text: "4" },
        ];
        assert_eq!(changes(old, new), Some(wanted));
    }

    #[test]
    fn what_comes_and_goes_is_told_where() {
        let old = r#"<svg><g><a class="1"/><a class="2"/></g><b/><b/></svg>"#;
        let new = r#"<svg><g><a class="0"/><a class="2"/><a class="3"/></g><c>x</c><b/></svg>"#;
        let (zero, three) = (r#"<a class="0"/>"#, r#"<a class="3"/>"#);
        let wanted = vec![
            Change::Before { at: 2, svg: zero },
            Change::Gone { at: 2 },
            Change::Last { at: 1, svg: three },
            Change::Before {
                at: 4,
                svg: "<c>x</c>",
            },
            Change::Gone { at: 5 },
        ];
        assert_eq!(changes(old, new), Some(wanted), "{:?}", written(old, new));
    }

    #[test]
    fn what_is_not_understood_is_not_changed() {
        for odd in ["", "x", "<svg>", "<svg><a></b></svg>", "<svg a=\"></svg>"] {
            assert_eq!(changes("<svg></svg>", odd), None, "{odd}");
        }
        // Escaped text comes whole, for the page to read.
        let new = "<svg><a>x &amp; y</a></svg>";
        let wanted = vec![
            Change::Before {
                at: 1,
                svg: "<a>x &amp; y</a>",
            },
            Change::Gone { at: 1 },
        ];
        assert_eq!(changes("<svg><a>x</a></svg>", new), Some(wanted));
    }
}
