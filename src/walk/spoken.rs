//! What the device reads aloud of a section.

use crate::cut::SectionCut;
use crate::head::Side;
use crate::measure::{Length, Unit};
use crate::plan::{Brief, Step};
use crate::words::{first_up, tr, tr_in};

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
        Side::Left => tr(", left"),
        Side::Centre => "",
        Side::Right => tr(", right"),
    };
    let length = target.shown(unit);
    let number = if step.held.cuts() {
        tr!("Cut at {length}", length)
    } else {
        tr!("Should be {length}", length)
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
    say("", &tr!("{} of {count}", place + 1, count));
    say("", &number);
    say(tr("Falls to"), falls.unwrap_or_default());
    say("", &brief.lift);
    if brief.comb != brief.lift {
        say(tr("Comb"), &brief.comb);
    }
    say(tr("Fingers"), &brief.fingers);
    say(tr("Guide:"), &brief.guide);
    // A check has none: it says what to look for.
    let cut = if step.held.cuts() { tr("Cut:") } else { "" };
    say(cut, &brief.technique.to_lowercase());
    say(tr("Tension"), &brief.tension);
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
        let part = words.get(end).copied().filter(|w| fraction(w).is_some());
        end += usize::from(part.is_some());
        if let Some(&unit) = words.get(end)
            && end > i
            && let Some((unit, names)) = unit_word(unit)
        {
            said.push(amount(whole, part, names));
            if let Some(last) = said.last_mut() {
                last.push_str(unit);
            }
            i = end + 1;
            continue;
        }
        said.push(match word.find('°') {
            Some(at) if is_number(&word[..at]) => {
                let one = &word[..at] == "1";
                let degrees = if one { tr("degree") } else { tr("degrees") };
                format!("{} {degrees}{}", &word[..at], &word[at + '°'.len_utf8()..])
            }
            _ => word.to_owned(),
        });
        i += 1;
    }
    said.join(" ")
}

fn amount(whole: Option<&str>, part: Option<&str>, [one, many, more]: [&str; 3]) -> String {
    let eighths = part.and_then(fraction).unwrap_or_default();
    match (whole, part) {
        (Some("1"), None) => format!("1 {one}"),
        (Some(whole), None) => format!("{whole} {many}"),
        (Some(whole), Some(_)) => {
            let unit = if whole == "1" { more } else { many };
            tr!("{whole} and {eighths} {unit}", whole, eighths, unit)
        }
        (None, Some("1/2")) => tr!("half an {one}", one),
        // Only inches have parts.
        (None, _) => tr!("{eighths} of an {one}", eighths, one),
    }
}

fn is_number(word: &str) -> bool {
    let number = word.trim_start_matches('-');
    // A comma within is a decimal mark, one behind ends a clause.
    let digits = |b: u8| b.is_ascii_digit() || matches!(b, b'.' | b',');
    !number.is_empty() && number.bytes().all(digits) && !number.ends_with(',')
}

/// An eighth part of an inch in words.
fn fraction(word: &str) -> Option<&'static str> {
    Some(match word {
        "1/8" => tr("an eighth"),
        "1/4" => tr("a quarter"),
        "3/8" => tr("3 eighths"),
        "1/2" => tr("a half"),
        "5/8" => tr("5 eighths"),
        "3/4" => tr("3 quarters"),
        "7/8" => tr("7 eighths"),
        _ => return None,
    })
}

/// What follows a unit's mark in a word, and the unit's words for one, for many and for one and a part.
fn unit_word(word: &str) -> Option<(&str, [&'static str; 3])> {
    let cm = tr("centimetres");
    let units = [
        ("cm", [tr("centimetre"), cm, cm]),
        (
            "in",
            [tr("inch"), tr("inches"), tr_in("one and a part", "inches")],
        ),
    ];
    units.into_iter().find_map(|(mark, names)| {
        let rest = word.strip_prefix(mark)?;
        let stop = rest.is_empty() || matches!(rest, "," | "." | ";" | ":" | ")");
        stop.then_some((rest, names))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::{speak, speak_english};

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
            ("1 1/2 in", "1 and a half inches"),
            ("3/4 in", "3 quarters of an inch"),
            ("section 3, 5 cm", "section 3, 5 centimetres"),
            ("", ""),
        ] {
            assert_eq!(aloud(written), said);
        }
    }

    #[test]
    fn another_language_has_its_own_words_and_decimal_mark() {
        let catalogue = [
            ("", "Content-Type: text/plain; charset=UTF-8"),
            ("centimetres", "centímetros"),
            ("degrees", "grados"),
            ("inches", "pulgadas"),
            ("a half", "media"),
            ("{whole} and {eighths} {unit}", "{whole} {unit} y {eighths}"),
        ]
        .map(|(text, said)| format!("msgid \"{text}\"\nmsgstr \"{said}\"\n"));
        let one = "msgctxt \"one and a part\"\nmsgid \"inches\"\nmsgstr \"pulgada\"\n";
        speak(&format!("{}\n{one}", catalogue.join("\n"))).unwrap();
        assert_eq!(aloud("12,5 cm, a 60°"), "12,5 centímetros, a 60 grados");
        assert_eq!(aloud("1 1/2 in"), "1 pulgada y media");
        assert_eq!(aloud("8 1/2 in"), "8 pulgadas y media");
        speak_english();
    }
}
