//! Reads a length as people type it: `21`, `21,5 cm`, `8 1/2"`, `8.5 in`, `215 mm`.

use super::length::{Length, Unit};
use crate::words::tr;

/// The longest length anybody means here, in centimetres: hair to the floor of a tall person.
const LONGEST_CM: f64 = 250.0;

/// Why a typed length could not be taken. Each says in a sentence what to do.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LengthError {
    /// Nothing was typed.
    #[error("{}", tr("Type a length, for example 21.5 cm or 8 1/2 in."))]
    Empty,
    /// It is not a length.
    #[error("{}", tr!("“{}” is not a length. Write it like 21.5 cm, 215 mm or 8 1/2 in.", .0))]
    NotALength(String),
    /// It is below zero.
    #[error("{}", tr("A length can't be below zero."))]
    Negative,
    /// It is longer than any hair or head.
    #[error("{}", tr("That is more than 250 cm. Is the unit right?"))]
    TooLong,
}

/// Reads what a person typed. A bare number is in `unit`, the one the person chose.
///
/// Takes decimals with a point or a comma, simple and mixed fractions (`1/2`, `8 1/2`, `8½`), and
/// the units mm, cm, in, inch, inches, `"` and `″`.
///
/// # Errors
/// A [`LengthError`] with a sentence for the person; the caller keeps what was typed.
///
/// ```
/// use tautline::measure::{Unit, read_length};
/// assert_eq!(read_length("8 1/2\"", Unit::Cm).unwrap().cm(), 21.59);
/// assert!(read_length("long", Unit::Cm).is_err());
/// ```
pub fn read_length(typed: &str, unit: Unit) -> Result<Length, LengthError> {
    let text = typed.trim().to_ascii_lowercase();
    if text.is_empty() {
        return Err(LengthError::Empty);
    }
    let not_a_length = || LengthError::NotALength(typed.trim().chars().take(40).collect());
    let split = text
        .find(|c: char| c.is_ascii_alphabetic() || matches!(c, '"' | '″' | '”'))
        .unwrap_or(text.len());
    let (number, mark) = text.split_at(split);
    let value = read_number(number).ok_or_else(not_a_length)?;
    let length = match mark.trim().trim_end_matches('.') {
        "" => match unit {
            Unit::Cm => Length::from_cm(value),
            Unit::Inches => Length::from_inches(value),
        },
        "cm" => Length::from_cm(value),
        "mm" => Length::from_cm(value / 10.0),
        "in" | "inch" | "inches" | "pulgada" | "pulgadas" | "\"" | "″" | "”" => {
            Length::from_inches(value)
        }
        _ => return Err(not_a_length()),
    };
    if value < 0.0 {
        Err(LengthError::Negative)
    } else if length.cm() <= LONGEST_CM {
        Ok(Length::from_cm(storable(length.cm())))
    } else {
        // What has more digits than a number holds may be no number at all by now.
        Err(LengthError::TooLong)
    }
}

/// Reads a difference in length: as [`read_length`], with a sign before it or none.
///
/// # Errors
/// As [`read_length`].
pub fn read_change(typed: &str, unit: Unit) -> Result<Length, LengthError> {
    let text = typed.trim();
    match text.strip_prefix(['-', '−']) {
        Some(size) => Ok(Length::from_cm(0.0 - read_length(size, unit)?.cm())),
        None => read_length(text.strip_prefix('+').unwrap_or(text), unit),
    }
}

/// Why typed degrees could not be taken.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum DegreesError {
    /// It is not a number of degrees.
    #[error("{}", tr!("“{}” is not an angle. Write it like 45 or 45°.", .0))]
    NotDegrees(String),
    /// It is out of range.
    #[error("{}", tr!("It lies between {}° and {}°.", .0, .1))]
    OutOfRange(i32, i32),
}

/// Reads degrees as people type them: `45`, `45°`, `-10`, `22.5 deg`.
///
/// # Errors
/// [`DegreesError`] with a sentence when it is no number or not between the two ends.
pub fn read_degrees(typed: &str, (least, most): (i32, i32)) -> Result<f64, DegreesError> {
    let text = typed.trim().trim_end_matches(['°', '.']);
    let text = text.strip_suffix("deg").unwrap_or(text).trim();
    let number = text.replace('−', "-").replace(',', ".");
    match read_decimal(number.strip_prefix('+').unwrap_or(&number)) {
        Some(degrees) if (f64::from(least)..=f64::from(most)).contains(&degrees) => {
            Ok(storable(degrees))
        }
        Some(degrees) if degrees.is_finite() => Err(DegreesError::OutOfRange(least, most)),
        _ => Err(DegreesError::NotDegrees(
            typed.trim().chars().take(40).collect(),
        )),
    }
}

/// What was typed with its unit made plain, so that it means the same after the person chooses
/// another unit. Only a bare number that reads is given one; all else is left as it is.
pub fn with_unit(typed: &str, unit: Unit) -> String {
    let text = typed.trim();
    let bare = !text.is_empty()
        && !text.contains(|c: char| c.is_ascii_alphabetic() || matches!(c, '"' | '″' | '”'));
    if bare && read_length(text, unit).is_ok() {
        format!("{text} {}", unit.mark())
    } else {
        typed.to_owned()
    }
}

/// A number to its millionth: it comes out of a stored document as it went in. Documents give back
/// no more than about 15 digits, and what differs in the last can't be taken back.
pub fn storable(value: f64) -> f64 {
    // Adding zero turns −0 into 0.
    (value * 1e6).round() / 1e6 + 0.0
}

/// A decimal, a fraction, or a whole number and a fraction.
fn read_number(text: &str) -> Option<f64> {
    let mut plain = String::new();
    for c in text.chars() {
        match fraction_sign(c) {
            Some(fraction) => plain.push_str(fraction),
            None if c == ',' => plain.push('.'),
            None => plain.push(c),
        }
    }
    let parts: Vec<&str> = plain.split_whitespace().collect();
    match parts[..] {
        [one] => match one.split_once('-') {
            // `8-1/2` is how some write a mixed number.
            Some((whole, part)) if !whole.is_empty() && part.contains('/') => {
                Some(read_decimal(whole)? + read_fraction(part)?)
            }
            _ => read_decimal(one).or_else(|| read_fraction(one)),
        },
        [whole, part] => Some(read_decimal(whole)? + read_fraction(part)?),
        _ => None,
    }
}

/// The typed signs for fractions, spelled out.
fn fraction_sign(c: char) -> Option<&'static str> {
    Some(match c {
        '½' => " 1/2",
        '¼' => " 1/4",
        '¾' => " 3/4",
        '⅛' => " 1/8",
        '⅜' => " 3/8",
        '⅝' => " 5/8",
        '⅞' => " 7/8",
        _ => return None,
    })
}

/// Digits with at most one point: nothing like `1e9`, `inf` or `nan`.
///
/// To the last bit up to 15 digits. The standard library's reader takes any number, but brings a table
/// of 10 kB that no download makes smaller.
pub fn read_decimal(text: &str) -> Option<f64> {
    let digits = text.strip_prefix('-').unwrap_or(text);
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    if whole.is_empty() && part.is_empty() {
        return None;
    }
    let mut value = 0.0;
    let mut scale = 1.0;
    for c in whole.chars() {
        value = value * 10.0 + f64::from(c.to_digit(10)?);
    }
    for c in part.chars() {
        let digit = f64::from(c.to_digit(10)?);
        // Whole numbers stay exact up to 2^53; further digits say nothing.
        if value < 1e14 {
            value = value * 10.0 + digit;
            scale *= 10.0;
        }
    }
    let value = value / scale;
    Some(if digits.len() < text.len() {
        -value
    } else {
        value
    })
}

fn read_fraction(text: &str) -> Option<f64> {
    let (above, below) = text.split_once('/')?;
    let (above, below) = (read_decimal(above)?, read_decimal(below)?);
    if below > 0.0 && above >= 0.0 {
        Some(above / below)
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cm(typed: &str) -> f64 {
        read_length(typed, Unit::Cm).expect(typed).cm()
    }

    #[test]
    fn what_people_type_is_read() {
        assert_eq!(cm("21"), 21.0);
        assert_eq!(cm(" 21.5 cm "), 21.5);
        assert_eq!(cm("21,5"), 21.5);
        assert_eq!(cm("215 mm"), 21.5);
        assert!((cm("8 1/2\"") - 21.59).abs() < 1e-9);
        assert!((cm("8½ in") - 21.59).abs() < 1e-9);
        assert!((cm("8-1/2in.") - 21.59).abs() < 1e-9);
        assert!((cm("8.5 Inches") - 21.59).abs() < 1e-9);
        assert!((cm("1/2″") - 1.27).abs() < 1e-9);
        assert!((read_length("8.5", Unit::Inches).unwrap().cm() - 21.59).abs() < 1e-9);
    }

    #[test]
    fn a_bare_number_is_given_the_unit_it_was_typed_in() {
        assert_eq!(with_unit(" 8 1/2 ", Unit::Inches), "8 1/2 in");
        assert_eq!(with_unit("21.5", Unit::Cm), "21.5 cm");
        assert_eq!(with_unit("21.5 mm", Unit::Cm), "21.5 mm");
        assert_eq!(with_unit("long", Unit::Cm), "long");
        assert_eq!(with_unit("", Unit::Cm), "");
    }

    #[test]
    fn nonsense_gets_a_sentence() {
        for typed in [
            "long", "1e9", "inf", "nan", "--3", "1/0", "3 4", "8 8 8", "21 ft", "½½", ".",
        ] {
            assert!(
                matches!(
                    read_length(typed, Unit::Cm),
                    Err(LengthError::NotALength(_))
                ),
                "{typed}"
            );
        }
        assert_eq!(read_length("  ", Unit::Cm), Err(LengthError::Empty));
        assert_eq!(read_length("-3", Unit::Cm), Err(LengthError::Negative));
        assert_eq!(read_length("900", Unit::Cm), Err(LengthError::TooLong));
    }

    #[test]
    fn decimals_read_as_the_standard_library_reads_them() {
        for text in [
            "0",
            "-0",
            "7",
            "21.5",
            "0.1",
            ".3",
            "5.",
            "-12.345",
            "123456.789",
            "0.000123",
            "99999.9999999999",
            "250.00",
            "007.50",
            "3.14159265358979",
        ] {
            assert_eq!(
                read_decimal(text).map(f64::to_bits),
                text.parse().ok().map(f64::to_bits),
                "{text}"
            );
        }
        let long = "1.23456789012345678901234567890";
        let off = read_decimal(long).unwrap() - long.parse::<f64>().unwrap();
        assert!(off.abs() < 1e-13, "{off}");
        assert_eq!(read_decimal(&"9".repeat(400)), Some(f64::INFINITY));
        for text in ["", ".", "-", "-.", "1e2", "1.2.3", "+1", "٣", "inf"] {
            assert_eq!(read_decimal(text), None, "{text}");
        }
    }

    #[test]
    fn differences_and_degrees_read_with_a_sign() {
        assert_eq!(read_change("-1,5 cm", Unit::Cm).unwrap().cm(), -1.5);
        assert_eq!(read_change("+ 2", Unit::Inches).unwrap().inches(), 2.0);
        assert!(read_change("--2", Unit::Cm).is_err());
        assert_eq!(read_degrees("45°", (0, 180)), Ok(45.0));
        assert_eq!(read_degrees(" −10 ", (-90, 90)), Ok(-10.0));
        assert_eq!(
            read_degrees("200", (0, 180)),
            Err(DegreesError::OutOfRange(0, 180))
        );
        assert!(read_degrees("NaN", (0, 180)).is_err());
        assert!(read_degrees("steep", (0, 180)).is_err());
    }
}
