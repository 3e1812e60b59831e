//! Which words the app uses: British or American English, or Spanish.
//!
//! All texts of the app are written in British usage. [`said`] turns one into American usage by a few
//! plain rules, so that no text has to be written twice; a text that the rules can't turn is better
//! written another way. A person's own words go through it as well where they stand in a plan. Spanish
//! has a catalogue, see [`crate::words`].

use crate::words::tr;
use serde::{Deserialize, Serialize};
use std::borrow::Cow;

/// Which usage the words follow.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Usage {
    /// British.
    #[default]
    Uk,
    /// American.
    Us,
    /// Spanish.
    Es,
}

impl Usage {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Uk, Self::Us, Self::Es];

    /// The usage for a browser's language: American for `en-US`, Spanish for `es` and `es-MX`, else
    /// British.
    pub fn of_language(tag: &str) -> Self {
        let tag = tag.to_ascii_lowercase();
        match tag.split('-').next() {
            Some("es") => Self::Es,
            _ if tag == "en-us" => Self::Us,
            _ => Self::Uk,
        }
    }

    /// The one of this short word, if there is one.
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|usage| usage.word() == word)
    }

    /// Its language, for a voice.
    pub const fn language(self) -> &'static str {
        match self {
            Self::Uk => "en-GB",
            Self::Us => "en-US",
            Self::Es => "es",
        }
    }

    /// Its short word, for values of fields.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Uk => "uk",
            Self::Us => "us",
            Self::Es => "es",
        }
    }
}

/// Parts of words and what stands for them, the longer before the shorter.
const SPELT: [(&str, &str); 18] = [
    ("centred", "centered"),
    ("centre", "center"),
    ("colour", "color"),
    ("metre", "meter"),
    ("neighbour", "neighbor"),
    ("favour", "favor"),
    ("mould", "mold"),
    ("fibre", "fiber"),
    ("grey", "gray"),
    ("licence", "license"),
    ("travell", "travel"),
    ("labell", "label"),
    ("practis", "practic"),
    ("judgement", "judgment"),
    ("towards", "toward"),
    ("forwards", "forward"),
    ("backwards", "backward"),
    ("plait", "braid"),
];

/// Words after one fringe, and what they are after bangs.
const AFTER: [(&str, &str); 16] = [
    ("is", "are"),
    ("was", "were"),
    ("has", "have"),
    ("does", "do"),
    ("isn't", "aren't"),
    ("doesn't", "don't"),
    ("falls", "fall"),
    ("ends", "end"),
    ("hangs", "hang"),
    ("parts", "part"),
    ("jumps", "jump"),
    ("sits", "sit"),
    ("lies", "lie"),
    ("starts", "start"),
    ("needs", "need"),
    ("stays", "stay"),
];

/// Words with which a fringe is named together, as in a fringe section.
const TOGETHER: [&str; 5] = ["section", "area", "piece", "length", "trim"];

/// An article before one of these is not that of the fringe after it.
const APART: [&str; 9] = [
    "of", "the", "each", "your", "in", "to", "for", "with", "and",
];

/// Before these `round` is a way, and American usage says around.
const WAY: [&str; 4] = ["the", "it", "its", "your"];

/// A text of ours in the usage that was asked for.
///
/// ```
/// use tautline::measure::{Usage, said};
/// assert_eq!(said("A straight fringe is cut last.", Usage::Us), "Straight bangs are cut last.");
/// assert_eq!(said("Centre back", Usage::Us), "Center back");
/// assert_eq!(said("Centre back", Usage::Uk), "Centre back");
/// ```
pub fn said(text: &str, usage: Usage) -> Cow<'_, str> {
    match usage {
        Usage::Uk => Cow::Borrowed(text),
        Usage::Es => Cow::Borrowed(tr(text)),
        Usage::Us => {
            let turned = american(text);
            if turned == text {
                Cow::Borrowed(text)
            } else {
                Cow::Owned(turned)
            }
        }
    }
}

/// What the word graduation means in a usage, in a sentence or two.
pub fn graduation(usage: Usage) -> &'static str {
    match usage {
        Usage::Uk | Usage::Es => tr(
            "Graduation here is what UK standards say: short graduation has the inside longer than the outline, long graduation has the inside shorter. In the US the word means stacked ends only.",
        ),
        Usage::Us => tr(
            "Graduation here is what is meant in the US: ends stacked at low or medium elevation, so that weight builds up. UK standards also call long layers shaped around the face graduation.",
        ),
    }
}

fn american(text: &str) -> String {
    // Words stand at the even places, what is between them at the odd ones.
    let mut parts = parts(text);
    for i in (0..parts.len()).step_by(2) {
        let small = parts[i].to_ascii_lowercase();
        let next = word(&parts, i, 2);
        let new = match small.as_str() {
            "fringe" => {
                let one = TOGETHER.contains(&next.as_str());
                if !one {
                    many(&mut parts, i);
                }
                if one { "bang" } else { "bangs" }.to_owned()
            }
            "fringes" => "bangs".to_owned(),
            "round" if WAY.contains(&next.as_str()) => "around".to_owned(),
            _ => match SPELT.iter().find(|(from, _)| small.contains(from)) {
                Some((from, to)) => small.replace(from, to),
                None => continue,
            },
        };
        let old = std::mem::take(&mut parts[i]);
        parts[i] = like(&old, &new);
    }
    parts.concat()
}

/// The text cut into words and what stands between them, beginning with a word, which may be empty.
fn parts(text: &str) -> Vec<String> {
    let mut parts = vec![String::new()];
    for c in text.chars() {
        let in_word = c.is_ascii_alphabetic() || c == '\'';
        if in_word != (parts.len() % 2 == 1) {
            parts.push(String::new());
        }
        if let Some(last) = parts.last_mut() {
            last.push(c);
        }
    }
    parts
}

/// The word `ahead` places after `i`, small, if only a space lies before it; else nothing.
fn word(parts: &[String], i: usize, ahead: usize) -> String {
    let near = parts.get(i + ahead - 1).is_some_and(|gap| gap == " ");
    let word = parts.get(i + ahead).filter(|_| near);
    word.map(|w| w.to_ascii_lowercase()).unwrap_or_default()
}

/// Turns what stands around one fringe at `i` so that it fits bangs, of which there are many: no
/// article before it, many's form of the word after it.
fn many(parts: &mut [String], i: usize) {
    let that = matches!(word(parts, i, 2).as_str(), "that" | "which");
    let verb = if that { 4 } else { 2 };
    let after = word(parts, i, verb);
    if let Some((_, form)) = AFTER.iter().find(|(one, _)| *one == after) {
        parts[i + verb] = (*form).to_owned();
    }
    // At most two words, as in a side-swept fringe, stand between.
    for back in [2, 4, 6].into_iter().filter(|back| *back <= i) {
        let at = i - back;
        if !matches!(parts[at + 1].as_str(), " " | "-") {
            return;
        }
        let old = std::mem::take(&mut parts[at]);
        match old.to_ascii_lowercase().as_str() {
            "a" | "an" => {
                parts[at + 1] = String::new();
                let next = std::mem::take(&mut parts[at + 2]);
                parts[at + 2] = like(&old, &next);
                return;
            }
            "this" => parts[at] = like(&old, "these"),
            "that" if back == 2 => parts[at] = like(&old, "those"),
            other => {
                let ends = APART.contains(&other);
                parts[at] = old;
                if ends {
                    return;
                }
            }
        }
    }
}

/// `new` with a capital if `old` begins with one.
fn like(old: &str, new: &str) -> String {
    let mut new = new.to_owned();
    if old.starts_with(|c: char| c.is_ascii_uppercase())
        && let Some(first) = new.get_mut(..1)
    {
        first.make_ascii_uppercase();
    }
    new
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fringes_become_bangs_with_what_stands_around_them() {
        for (uk, us) in [
            ("Curtain fringe", "Curtain bangs"),
            ("A fringe, open in the middle", "Bangs, open in the middle"),
            ("Cut a side-swept fringe dry.", "Cut side-swept bangs dry."),
            ("An even fringe that parts", "Even bangs that part"),
            (
                "The fringe is last; this fringe hangs.",
                "The bangs are last; these bangs hang.",
            ),
            ("Fringe last, almost dry.", "Bangs last, almost dry."),
            ("The fringe section", "The bang section"),
            ("Fringes", "Bangs"),
            (
                "Is a touch of fringe wanted?",
                "Is a touch of bangs wanted?",
            ),
            ("A cut with no fringe", "A cut with no bangs"),
            ("As a rule the fringe ends", "As a rule the bangs end"),
        ] {
            assert_eq!(said(uk, Usage::Us), us);
            assert_eq!(said(uk, Usage::Uk), uk);
        }
    }

    #[test]
    fn spelling_follows_and_keeps_its_capitals() {
        for (uk, us) in [
            (
                "Centre back, towards the neighbour's",
                "Center back, toward the neighbor's",
            ),
            ("Centimetres", "Centimeters"),
            ("A travelling guide", "A traveling guide"),
            ("Walk round the chair", "Walk around the chair"),
            ("Each round a touch shorter", "Each round a touch shorter"),
            (
                "Bent with the round of the head, a round edge",
                "Bent with the round of the head, a round edge",
            ),
            ("“Straight” – 4 cm · ½", "“Straight” – 4 cm · ½"),
            ("", ""),
        ] {
            assert_eq!(said(uk, Usage::Us), us);
        }
    }

    #[test]
    fn a_language_tells_the_usage() {
        for (tag, usage) in [
            ("en-US", Usage::Us),
            ("en-us", Usage::Us),
            ("en-GB", Usage::Uk),
            ("es", Usage::Es),
            ("es-MX", Usage::Es),
            ("est", Usage::Uk),
            ("fr", Usage::Uk),
            ("", Usage::Uk),
        ] {
            assert_eq!(Usage::of_language(tag), usage);
        }
    }
}
