//! Texts made small: for what is kept and not changed any more, and for what is passed on.
//!
//! A packed text is the text in UTF-8 as a zlib stream (RFC 1950, which carries a checksum), written in
//! the URL-safe alphabet of base64 without padding (RFC 4648, section 5). It begins with no sign of JSON.

use crate::words::tr;
use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use miniz_oxide::deflate::compress_to_vec_zlib;
use miniz_oxide::inflate::{TINFLStatus, decompress_to_vec_zlib_with_limit};
use std::borrow::Cow;

/// How hard it is tried, of 10. Judgement: the middle.
const LEVEL: u8 = 6;

/// Why a packed text can't be unpacked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PackError {
    /// It is none, or not as it was packed.
    #[error("{}", tr("A part of this is missing or damaged."))]
    Damaged,
    /// Unpacked it would be larger than it may be.
    #[error(
        "{}",
        tr("This is larger than anything Tautline makes, so it is not opened.")
    )]
    TooLarge,
}

/// Packs a text.
///
/// ```
/// use tautline::book::{pack, unpack};
/// let text = "Held taut. ".repeat(40);
/// let packed = pack(&text);
/// assert!(packed.len() < 60);
/// assert_eq!(unpack(&packed, 1000).as_deref(), Ok(text.as_str()));
/// ```
pub fn pack(text: &str) -> String {
    URL_SAFE_NO_PAD.encode(compress_to_vec_zlib(text.as_bytes(), LEVEL))
}

/// What a document that is kept packed begins with; no JSON does.
const MARK: char = '~';
/// The most that a kept document unpacks to, bytes: more than all of local storage. Judgement.
const MOST_KEPT: usize = 16_000_000;

/// A document as it is kept once it is not changed any more.
pub fn keep_packed(text: &str) -> String {
    format!("{MARK}{}", pack(text))
}

/// The text of a document as it is kept, packed or not.
///
/// # Errors
/// [`PackError`] with a sentence.
pub fn plain(kept: &str) -> Result<Cow<'_, str>, PackError> {
    match kept.strip_prefix(MARK) {
        Some(packed) => unpack(packed, MOST_KEPT).map(Cow::Owned),
        None => Ok(Cow::Borrowed(kept)),
    }
}

/// Unpacks a packed text of at most so many bytes, whatever it was made from.
///
/// # Errors
/// [`PackError`] with a sentence.
pub fn unpack(packed: &str, most: usize) -> Result<String, PackError> {
    let bytes = URL_SAFE_NO_PAD
        .decode(packed)
        .map_err(|_| PackError::Damaged)?;
    let bytes = decompress_to_vec_zlib_with_limit(&bytes, most).map_err(|e| match e.status {
        TINFLStatus::HasMoreOutput => PackError::TooLarge,
        _ => PackError::Damaged,
    })?;
    String::from_utf8(bytes).map_err(|_| PackError::Damaged)
}

#[cfg(test)]
mod tests {
    use super::*;

    const MOST: usize = 100_000;

    #[test]
    fn whatever_is_packed_comes_back() {
        let long =
            "{\"key\":{\"step\":\"nape\",\"side\":\"left\",\"number\":4}},é🙂\u{0}".repeat(900);
        for text in ["", "a", "{}", "🙂", "\u{0}\n", &long] {
            let packed = pack(text);
            assert_eq!(unpack(&packed, MOST).as_deref(), Ok(text));
            let sound = |b: u8| b.is_ascii_alphanumeric() || b == b'-' || b == b'_';
            assert!(packed.bytes().all(sound), "{packed}");
        }
        assert!(pack(&long).len() < long.len() / 50);
    }

    /// Packed by zlib 1.2.13 through Python's `zlib` and `base64` modules, at levels 1 and 9.
    #[test]
    fn what_zlib_itself_packed_is_read() {
        let text = "Tautline: hair held taut, café. ".repeat(3);
        for packed in [
            "eAELSSwtycnMS7VSyEjMLFLISM1JUSgBiukoJCemHV6ppxBCsQIAFGkkLg",
            "eNoLSSwtycnMS7VSyEjMLFLISM1JUSgBiukoJCemHV6ppxBCsQIAFGkkLg",
        ] {
            assert_eq!(unpack(packed, MOST).as_deref(), Ok(text.as_str()));
        }
    }

    #[test]
    fn no_text_is_too_large_to_be_refused() {
        let text = "a".repeat(1_000_000);
        let packed = pack(&text);
        assert!(packed.len() < 2000);
        assert_eq!(unpack(&packed, 999_999), Err(PackError::TooLarge));
        assert_eq!(unpack(&packed, 1_000_000).as_deref(), Ok(text.as_str()));
        assert_eq!(unpack(&pack("a"), 0), Err(PackError::TooLarge));
    }

    #[test]
    fn every_damage_is_noticed() {
        let text = SAVED.repeat(3);
        let packed = pack(&text);
        for at in 0..packed.len() {
            assert!(unpack(&packed[..at], MOST).is_err(), "cut off at {at}");
            for sign in ["A", "_", "+", "é", " "] {
                let mut other = packed.clone();
                other.replace_range(at..=at, sign);
                // The last sign holds two bits more than are needed; they have to be nought.
                assert!(
                    other == packed || unpack(&other, MOST).is_err(),
                    "{sign} at {at}"
                );
            }
        }
        for strange in ["{}", "[]", "null", "====", "eNo", "eNoDAAAAAAE=", "🙂"] {
            assert_eq!(unpack(strange, MOST), Err(PackError::Damaged), "{strange}");
        }
        // Of bytes that are no UTF-8.
        let odd = URL_SAFE_NO_PAD.encode(compress_to_vec_zlib(&[0xff, 0xfe], 6));
        assert_eq!(unpack(&odd, MOST), Err(PackError::Damaged));
    }

    const SAVED: &str = "{\"schema\":3,\"id\":\"a\",\"title\":\"Practice\",\"walk\":{\"done\":[]}}";
}
