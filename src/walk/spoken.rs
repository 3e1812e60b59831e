//! What the device reads aloud of a section.

use crate::cut::SectionCut;
use crate::head::Side;
use crate::measure::{Length, Unit};
use crate::plan::{Brief, Step};

/// A section as it is read aloud, at `place` of `count`, counted from 0 as [`super::Walk::current`] does:
/// where, how long, what it falls to, how it is held, what guides it, how it is cut, what to take care of.
/// `falls` is the level it falls to.
#[expect(clippy::too_many_arguments, reason = "each is one thing that is said")]
pub fn spoken(
    section: &SectionCut,
    place: usize,
    count: usize,
    step: &Step,
    brief: &Brief,
    target: Length,
    falls: Option<&str>,
    unit: Unit,
) -> String {
    let side = match section.key.side {
        Side::Left => ", left",
        Side::Centre => "",
        Side::Right => ", right",
    };
    let length = target.shown(unit);
    let number = if step.held.cuts() {
        format!("Cut at {length}")
    } else {
        format!("Expect {length}")
    };
    let mut all = String::new();
    let mut say = |label: &str, text: &str| {
        let text = aloud(text.trim().trim_end_matches('.'));
        if text.is_empty() {
            return;
        }
        if !all.is_empty() {
            all.push(' ');
        }
        if label.is_empty() {
            all.push_str(&first_up(&text));
        } else {
            all.push_str(label);
            all.push(' ');
            all.push_str(&text);
        }
        all.push('.');
    };
    say("", &format!("{}{side}", section.section.name));
    say("", &format!("{} of {count}", place + 1));
    say("", &number);
    say("Falls to", falls.unwrap_or_default());
    say("", &brief.lift);
    if brief.comb != brief.lift {
        say("Comb", &brief.comb);
    }
    say("Fingers", &brief.fingers);
    say("Guide:", &brief.guide);
    // A check has none: it says what to look for.
    let cut = if step.held.cuts() { "Cut:" } else { "" };
    say(cut, &brief.technique.to_lowercase());
    say("Tension", &brief.tension);
    for caution in &brief.caution {
        say("", caution);
    }
    all
}

/// A text with its numbers and units in whole words.
fn aloud(text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    let mut said: Vec<String> = Vec::with_capacity(words.len());
    let mut i = 0;
    while i < words.len() {
        let word = words[i];
        // A number, with a fraction behind it or alone, before a unit.
        let mut end = i;
        let whole = is_number(word).then_some(word);
        end += usize::from(whole.is_some());
        let part = words.get(end).copied().and_then(fraction);
        end += usize::from(part.is_some());
        if let Some(&unit) = words.get(end)
            && end > i
            && let Some((unit, one, many)) = unit_word(unit)
        {
            said.push(amount(whole, part, one, many));
            if let Some(last) = said.last_mut() {
                last.push_str(unit);
            }
            i = end + 1;
            continue;
        }
        said.push(match word.find('°') {
            Some(at) if is_number(&word[..at]) => {
                let one = &word[..at] == "1";
                let degrees = if one { "degree" } else { "degrees" };
                format!("{} {degrees}{}", &word[..at], &word[at + '°'.len_utf8()..])
            }
            _ => word.to_owned(),
        });
        i += 1;
    }
    said.join(" ")
}

fn amount(whole: Option<&str>, part: Option<&str>, one: &str, many: &str) -> String {
    match (whole, part) {
        (Some("1"), None) => format!("1 {one}"),
        (Some(whole), None) => format!("{whole} {many}"),
        (Some(whole), Some(part)) => format!("{whole} and {part} {many}"),
        (None, Some("a half")) => format!("half an {one}"),
        // Only inches have parts.
        (None, part) => format!("{} of an {one}", part.unwrap_or_default()),
    }
}

fn is_number(word: &str) -> bool {
    let number = word.trim_start_matches('-');
    !number.is_empty() && number.bytes().all(|b| b.is_ascii_digit() || b == b'.')
}

/// An eighth part of an inch in words.
fn fraction(word: &str) -> Option<&'static str> {
    Some(match word {
        "1/8" => "an eighth",
        "1/4" => "a quarter",
        "3/8" => "3 eighths",
        "1/2" => "a half",
        "5/8" => "5 eighths",
        "3/4" => "3 quarters",
        "7/8" => "7 eighths",
        _ => return None,
    })
}

/// What follows a unit's mark in a word, and the unit's words for one and many.
fn unit_word(word: &str) -> Option<(&str, &'static str, &'static str)> {
    let units = [
        ("cm", "centimetre", "centimetres"),
        ("in", "inch", "inches"),
    ];
    units.into_iter().find_map(|(mark, one, many)| {
        let rest = word.strip_prefix(mark)?;
        let stop = rest.is_empty() || matches!(rest, "," | "." | ";" | ":" | ")");
        stop.then_some((rest, one, many))
    })
}

fn first_up(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| c.to_ascii_uppercase());
    first.into_iter().chain(letters).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_read_with_whole_words() {
        for (written, said) in [
            ("29 cm", "29 centimetres"),
            ("1 cm, first one", "1 centimetre, first one"),
            ("11 3/8 in", "11 and 3 eighths inches"),
            ("1/2 in below the chin", "half an inch below the chin"),
            ("8 in", "8 inches"),
            ("60° from head", "60 degrees from head"),
            ("25° over to face", "25 degrees over to face"),
            ("held in the hand", "held in the hand"),
            ("21.5 cm (estimated)", "21.5 centimetres (estimated)"),
            ("", ""),
        ] {
            assert_eq!(aloud(written), said);
        }
    }
}
