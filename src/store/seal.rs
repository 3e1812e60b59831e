//! A text sealed with a passphrase, for a copy that lies where others may find it.
//!
//! ```text
//! {"kind":"tautline-sealed","schema":1,
//!  "key":{"way":"argon2id","m":19456,"t":2,"p":1,"salt":"…"},
//!  "cipher":"xchacha20-poly1305","nonce":"…","sealed":"…"}
//! ```
//! The key of 32 bytes is Argon2id (RFC 9106, version 0x13) of the passphrase in UTF-8 over the salt of 16
//! bytes, with m KiB of memory, t passes and p lanes: what OWASP's Password Storage Cheat Sheet gives as
//! the least. The text in UTF-8 is sealed by XChaCha20-Poly1305 (draft-irtf-cfrg-xchacha) under a nonce of
//! 24 bytes; `tautline-sealed 1` is the associated data. Bytes stand in the URL-safe alphabet of base64
//! without padding (RFC 4648, section 5). Chance comes from outside, so that this can be checked.

use crate::json;
use crate::words::tr;
use argon2::{Algorithm, Argon2, Params, Version};
use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use chacha20poly1305::aead::{Aead, Payload};
use chacha20poly1305::{KeyInit, XChaCha20Poly1305, XNonce};
use serde::{Deserialize, Serialize};

const KIND: &str = "tautline-sealed";
const SCHEMA: u32 = 1;
const WAY: &str = "argon2id";
const CIPHER: &str = "xchacha20-poly1305";
const BOUND_TO: &[u8] = b"tautline-sealed 1";
/// The bytes of chance that sealing takes: a salt and a nonce.
pub const CHANCE: usize = SALT + NONCE;
const SALT: usize = 16;
const NONCE: usize = 24;
/// The fewest signs of a passphrase. Judgement: four short words.
pub const SHORTEST: usize = 12;
/// The most that a file may ask for: memory in KiB, passes, lanes. A phone spends some seconds on it.
const MOST: Effort = Effort {
    m: 65_536,
    t: 10,
    p: 4,
};

/// How much work it is to try one passphrase.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Effort {
    /// Memory, KiB.
    m: u32,
    /// Passes.
    t: u32,
    /// Lanes.
    p: u32,
}

impl Effort {
    /// OWASP's least for Argon2id: 19 MiB, two passes, one lane.
    pub(super) const USUAL: Self = Self {
        m: 19_456,
        t: 2,
        p: 1,
    };

    fn is_bearable(self) -> bool {
        self.m <= MOST.m && self.t <= MOST.t && self.p <= MOST.p
    }

    /// The key of so many bytes that a secret makes over a salt; none where the numbers fit nothing.
    pub(super) fn key<const N: usize>(self, secret: &[u8], salt: &[u8]) -> Option<[u8; N]> {
        if !self.is_bearable() {
            return None;
        }
        let params = Params::new(self.m, self.t, self.p, Some(N)).ok()?;
        let mut key = [0; N];
        let work = Argon2::new(Algorithm::Argon2id, Version::V0x13, params);
        work.hash_password_into(secret, salt, &mut key).ok()?;
        Some(key)
    }
}

/// Why a text was not sealed or not opened.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum SealError {
    /// The passphrase is short.
    #[error(
        "{}",
        tr(
            "A passphrase needs at least 12 signs: four words that do not belong together are good."
        )
    )]
    Short,
    /// Another passphrase sealed it, or it was changed since.
    #[error(
        "{}",
        tr(
            "This passphrase does not open it. Mind capitals and spaces; if they are right, the file was changed or damaged."
        )
    )]
    Wrong,
    /// It is none, or cut short.
    #[error("{}", tr("This file is damaged or cut short. Nothing was changed."))]
    Damaged,
    /// A newer version of the app sealed it.
    #[error(
        "{}",
        tr("A newer Tautline sealed this file. Load the page again to get the new version.")
    )]
    Newer,
    /// It asks for more work than a phone can do.
    #[error(
        "{}",
        tr("This file asks for more work than any that Tautline seals, so it was not opened.")
    )]
    TooMuch,
}

#[derive(Serialize, Deserialize)]
struct Sealed {
    kind: String,
    schema: u32,
    key: Key,
    cipher: String,
    nonce: String,
    sealed: String,
}

#[derive(Serialize, Deserialize)]
struct Key {
    way: String,
    #[serde(flatten)]
    effort: Effort,
    salt: String,
}

/// Whether a text says that it is sealed. Only its beginning is looked at.
pub fn is_sealed(text: &str) -> bool {
    let begins = text.trim_start();
    begins.starts_with("{\"kind\":\"tautline-sealed\"")
        || begins.starts_with("{\"kind\": \"tautline-sealed\"")
}

fn cipher(key: &[u8; 32]) -> XChaCha20Poly1305 {
    XChaCha20Poly1305::new(key.into())
}

/// Seals a text with a passphrase and fresh chance.
///
/// # Errors
/// [`SealError::Short`].
pub fn seal(text: &str, passphrase: &str, chance: &[u8; CHANCE]) -> Result<String, SealError> {
    if passphrase.chars().count() < SHORTEST {
        return Err(SealError::Short);
    }
    let (salt, nonce) = chance.split_at(SALT);
    let key = Effort::USUAL
        .key(passphrase.as_bytes(), salt)
        .ok_or(SealError::TooMuch)?;
    let payload = Payload {
        msg: text.as_bytes(),
        aad: BOUND_TO,
    };
    let nonce_of = XNonce::try_from(nonce).map_err(|_| SealError::Damaged)?;
    let sealed = cipher(&key).encrypt(&nonce_of, payload);
    let sealed = Sealed {
        kind: KIND.to_owned(),
        schema: SCHEMA,
        key: Key {
            way: WAY.to_owned(),
            effort: Effort::USUAL,
            salt: URL_SAFE_NO_PAD.encode(salt),
        },
        cipher: CIPHER.to_owned(),
        nonce: URL_SAFE_NO_PAD.encode(nonce),
        sealed: URL_SAFE_NO_PAD.encode(sealed.map_err(|_| SealError::TooMuch)?),
    };
    // Texts and numbers: writing them cannot fail.
    Ok(serde_json::to_string(&sealed).unwrap_or_default())
}

/// Opens a sealed text.
///
/// # Errors
/// [`SealError`] with a sentence.
pub fn open(text: &str, passphrase: &str) -> Result<String, SealError> {
    let tree = json::tree(text).map_err(|_| SealError::Damaged)?;
    let schema = tree.get("schema").and_then(json::Tree::as_u64);
    if schema.is_some_and(|schema| schema > u64::from(SCHEMA)) {
        return Err(SealError::Newer);
    }
    let sealed: Sealed = json::value(&tree).map_err(|_| SealError::Damaged)?;
    if sealed.kind != KIND || sealed.key.way != WAY || sealed.cipher != CIPHER {
        return Err(SealError::Damaged);
    }
    let bytes = |text: &str| URL_SAFE_NO_PAD.decode(text).map_err(|_| SealError::Damaged);
    let (salt, nonce) = (bytes(&sealed.key.salt)?, bytes(&sealed.nonce)?);
    let nonce = XNonce::try_from(nonce.as_slice()).map_err(|_| SealError::Damaged)?;
    if salt.len() != SALT {
        return Err(SealError::Damaged);
    }
    let effort = sealed.key.effort;
    let key = effort.key(passphrase.as_bytes(), &salt);
    let key = key.ok_or(SealError::TooMuch)?;
    let sealed = bytes(&sealed.sealed)?;
    let payload = Payload {
        msg: &sealed,
        aad: BOUND_TO,
    };
    let opened = cipher(&key).decrypt(&nonce, payload);
    String::from_utf8(opened.map_err(|_| SealError::Wrong)?).map_err(|_| SealError::Damaged)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hex(text: &str) -> Vec<u8> {
        let digits: Vec<u8> = text.bytes().filter(u8::is_ascii_hexdigit).collect();
        let byte =
            |pair: &[u8]| u8::from_str_radix(std::str::from_utf8(pair).unwrap(), 16).unwrap();
        digits.chunks(2).map(byte).collect()
    }

    #[test]
    fn the_key_is_that_of_the_standard() {
        // RFC 9106, section 5.3 (Argon2id): it has a secret and associated data too, which we do not use,
        // so the library is asked in the way of the standard.
        let (password, salt) = ([1; 32], [2; 16]);
        let params = argon2::ParamsBuilder::new()
            .m_cost(32)
            .t_cost(3)
            .p_cost(4)
            .data(argon2::AssociatedData::new(&[4; 12]).unwrap())
            .output_len(32)
            .build()
            .unwrap();
        let secret = [3; 8];
        let work =
            Argon2::new_with_secret(&secret, Algorithm::Argon2id, Version::V0x13, params).unwrap();
        let mut tag = [0; 32];
        work.hash_password_into(&password, &salt, &mut tag).unwrap();
        let published = "0d 64 0d f5 8d 78 76 6c 08 c0 37 a3 4a 8b 53 c9 d0 1e f0 45 2d 75 b6 5e b5 25 20 e9 6b 01 e6 59";
        assert_eq!(tag.to_vec(), hex(published));
    }

    #[test]
    fn the_seal_is_that_of_the_draft() {
        // draft-irtf-cfrg-xchacha-03, appendix A.3.1.
        let text = b"Ladies and Gentlemen of the class of '99: If I could offer you only one tip for the future, sunscreen would be it.";
        let aad = hex("50515253c0c1c2c3c4c5c6c7");
        let key: [u8; 32] = hex("808182838485868788898a8b8c8d8e8f909192939495969798999a9b9c9d9e9f")
            .try_into()
            .unwrap();
        let nonce = hex("404142434445464748494a4b4c4d4e4f5051525354555657");
        let nonce = XNonce::try_from(nonce.as_slice()).unwrap();
        let payload = Payload {
            msg: text,
            aad: &aad,
        };
        let sealed = cipher(&key).encrypt(&nonce, payload).unwrap();
        let published = "bd6d179d3e83d43b9576579493c0e939572a1700252bfaccbed2902c21396cbb
            731c7f1b0b4aa6440bf3a82f4eda7e39ae64c6708c54c216cb96b72e1213b452
            2f8c9ba40db5d945b11b69b982c1bb9e3f3fac2bc369488f76b2383565d3fff9
            21f9664c97637da9768812f615c68b13b52e
            c0875924c1c7987947deafd8780acf49";
        assert_eq!(sealed, hex(published));
    }

    const SECRET: &str = "four words not alike";

    #[test]
    fn what_is_sealed_opens_with_its_passphrase_only() {
        let text = "{\"kind\":\"tautline\"} Zoë 🙂";
        let sealed = seal(text, SECRET, &[7; CHANCE]).unwrap();
        assert!(is_sealed(&sealed) && !is_sealed(text));
        assert!(!sealed.contains("Zo"));
        assert_eq!(open(&sealed, SECRET).as_deref(), Ok(text));
        assert_eq!(
            open(&sealed, "four words not alike "),
            Err(SealError::Wrong)
        );
        assert_eq!(
            seal(text, "eleven sign", &[7; CHANCE]),
            Err(SealError::Short)
        );
        // Other chance, another text.
        assert_ne!(seal(text, SECRET, &[8; CHANCE]).unwrap(), sealed);
    }

    #[test]
    fn what_was_changed_does_not_open_and_no_file_takes_more_than_it_may() {
        let sealed = seal("text", SECRET, &[7; CHANCE]).unwrap();
        let with = |from: &str, to: &str| {
            assert!(sealed.contains(from), "{from}: {sealed}");
            open(&sealed.replace(from, to), SECRET)
        };
        let salt = URL_SAFE_NO_PAD.encode([7; SALT]);
        let nonce = URL_SAFE_NO_PAD.encode([7; NONCE]);
        assert_eq!(
            with(&salt, &salt.replace("BwcH", "BwcI")),
            Err(SealError::Wrong)
        );
        assert_eq!(
            with(&nonce, &nonce.replacen("BwcH", "BwcI", 1)),
            Err(SealError::Wrong)
        );
        assert_eq!(with("\"t\":2", "\"t\":1"), Err(SealError::Wrong));
        assert_eq!(
            with("\"m\":19456", "\"m\":4194304"),
            Err(SealError::TooMuch)
        );
        assert_eq!(with("\"m\":19456", "\"m\":0"), Err(SealError::TooMuch));
        assert_eq!(with("\"t\":2", "\"t\":4000000000"), Err(SealError::TooMuch));
        assert_eq!(with("\"p\":1", "\"p\":9"), Err(SealError::TooMuch));
        assert_eq!(with("\"schema\":1", "\"schema\":2"), Err(SealError::Newer));
        assert_eq!(
            with("\"sealed\":\"", "\"sealed\":\"*"),
            Err(SealError::Damaged)
        );
        assert_eq!(with(&nonce, "AAAA"), Err(SealError::Damaged));
        for n in 0..sealed.len() {
            assert_eq!(open(&sealed[..n], SECRET), Err(SealError::Damaged));
        }
    }
}
