//! Texts laid flat, so that a search finds them however they are written.

/// What the letters from U+00DF to U+017F are without their marks; a dot where that is no one letter.
const LATIN: &[u8; 161] = b".aaaaaa.ceeeeiiiidnooooo.ouuuuy.yaaaaaaccccccccddddeeeeeeeeeegggggggghhhhiiiiiiiiii..jjkkkllllllllllnnnnnnnnnoooooo..rrrrrrssssssssttttttuuuuuuuuuuuuwwyyyzzzzzzs";
/// The same for each pair of letters from U+1E00 to U+1EFF.
const MORE: &[u8; 128] = b"abbbcdddddeeeeefghhhhhiikkkllllmmmnnnnoooopprrrrsssssttttuuuuuvvwwwwwxxyzzz.....aaaaaaaaaaaaeeeeeeeeiioooooooooooouuuuuuuyyyy...";

/// The text in small letters, the marks of Latin letters laid off and apostrophes left out: `zoe` for
/// `Zoë`, `oneill` for `O’Neill`. Letters of other scripts stay as they are.
///
/// ```
/// assert_eq!(tautline::book::fold("Zoë Strauß"), "zoe strauss");
/// ```
pub fn fold(text: &str) -> String {
    let mut flat = String::with_capacity(text.len());
    for letter in text.chars() {
        if letter.is_ascii() {
            if letter != '\'' {
                flat.push(letter.to_ascii_lowercase());
            }
            continue;
        }
        for letter in letter.to_lowercase() {
            push(&mut flat, letter);
        }
    }
    flat
}

fn push(flat: &mut String, letter: char) {
    match letter {
        // Marks that stand for themselves after their letter, and apostrophes.
        '\u{300}'..='\u{36f}' | '’' | 'ʼ' | '‘' => {}
        'ß' => flat.push_str("ss"),
        'æ' => flat.push_str("ae"),
        'œ' => flat.push_str("oe"),
        'þ' => flat.push_str("th"),
        'ĳ' => flat.push_str("ij"),
        'ẖ' => flat.push('h'),
        'ẗ' => flat.push('t'),
        'ẘ' => flat.push('w'),
        'ẙ' => flat.push('y'),
        _ => {
            let code = letter as usize;
            let place = |from: usize| code.checked_sub(from);
            let base = match code {
                0xDF..=0x17F => place(0xDF).and_then(|at| LATIN.get(at)),
                0x1E00..=0x1EFF => place(0x1E00).and_then(|at| MORE.get(at / 2)),
                _ => None,
            };
            let base = base.copied().filter(u8::is_ascii_lowercase);
            flat.push(base.map_or(letter, char::from));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use unicode_normalization::UnicodeNormalization;
    use unicode_normalization::char::is_combining_mark;

    /// Against the decompositions of the Unicode standard, by the crate `unicode-normalization`.
    #[test]
    fn latin_letters_lose_the_marks_that_unicode_gives_them() {
        let mut compared = 0;
        for code in (0xC0..=0x17F).chain(0x1E00..=0x1EFF) {
            let letter = char::from_u32(code).unwrap();
            let small: String = letter.to_lowercase().collect();
            let bare: String = small.nfd().filter(|c| !is_combining_mark(*c)).collect();
            if bare != small && bare.is_ascii() {
                assert_eq!(fold(&letter.to_string()), bare, "{letter} {code:x}");
                // Written as letter and mark.
                let apart: String = letter.nfd().collect();
                assert_eq!(fold(&apart), bare, "{letter} apart");
                compared += 1;
            }
        }
        assert!(compared > 350, "{compared}");
    }

    #[test]
    fn letters_that_unicode_does_not_take_apart_are_written_as_people_type_them() {
        for (text, flat) in [
            ("Ægir Œuvre Þór", "aegir oeuvre thor"),
            ("Søren Đorđe Łucja", "soren dorde lucja"),
            ("GROSS Groß GROẞ", "gross gross gross"),
            ("O’Neill O'Neill", "oneill oneill"),
            ("Straße 2026-11", "strasse 2026-11"),
            ("ΑΘΗΝΑ 東京 Жанна", "αθηνα 東京 жанна"),
            ("İpek Işık", "ipek isik"),
            ("", ""),
        ] {
            assert_eq!(fold(text), flat);
        }
    }
}
