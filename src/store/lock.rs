//! The lock: a PIN that keeps eyes off the screen.
//!
//! It encrypts nothing: who can open this browser's storage can read what is kept, and a PIN of few digits
//! is soon found by trying. It is kept as an Argon2id hash under a key of its own, in no file that is
//! saved. Times are milliseconds since 1970, handed in.

use super::index::{Store, StoreError};
use super::seal::Effort;
use super::shelf::Shelf;
use crate::json;
use crate::words::tr;
use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use serde::{Deserialize, Serialize};

const KEY: &str = "tautline.lock";
/// The digits of a PIN.
const DIGITS: std::ops::RangeInclusive<usize> = 4..=12;
/// The bytes of chance that a new lock takes.
pub const LOCK_CHANCE: usize = 16;
/// Wrong tries that cost nothing, what the next one costs, and the most, ms: each more doubles it.
/// Judgement.
const FREE: u32 = 3;
const FIRST: f64 = 30_000.0;
const LONGEST: f64 = 900_000.0;
/// The most while a cut is at the chair: nobody waits long with wet hair.
const LONGEST_AT_CHAIR: f64 = 30_000.0;
/// How long it takes until a forgotten PIN is taken off, ms: a day.
const FORGOTTEN: f64 = 86_400_000.0;
/// How long the app may be out of sight before it asks again, ms: five minutes.
const OUT_OF_SIGHT: f64 = 300_000.0;

/// A lock as it is kept.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Lock {
    schema: u32,
    effort: Effort,
    salt: String,
    hash: String,
    /// Wrong tries since it was opened last.
    #[serde(default)]
    wrong: u32,
    /// When the last of them was.
    #[serde(default)]
    last: f64,
    /// Since when it is said to be forgotten; 0 if it is not.
    #[serde(default)]
    forgotten: f64,
}

/// Why a PIN is none.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LockError {
    /// It has other signs, too few or too many.
    #[error("{}", tr("A PIN has 4 to 12 digits."))]
    NoPin,
    /// The device could not do it.
    #[error("{}", tr("This device could not make the lock, so it stays off."))]
    NoHash,
}

/// What became of a try.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tried {
    /// It is open.
    Open,
    /// That was not the PIN.
    Wrong,
    /// It was not looked at: so many seconds are still to be waited.
    Wait(u32),
}

/// How it stands with a forgotten PIN.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Forgotten {
    /// Nobody said so.
    No,
    /// So many whole hours are still to be waited.
    Wait(u32),
    /// The lock may be taken off.
    Over,
}

impl Lock {
    /// A lock for a PIN.
    ///
    /// # Errors
    /// [`LockError`] with a sentence.
    pub fn new(pin: &str, chance: &[u8; LOCK_CHANCE]) -> Result<Self, LockError> {
        let digits = pin.bytes().all(|b| b.is_ascii_digit());
        if !digits || !DIGITS.contains(&pin.len()) {
            return Err(LockError::NoPin);
        }
        let effort = Effort::USUAL;
        let hash = hashed(effort, pin, chance).ok_or(LockError::NoHash)?;
        Ok(Self {
            schema: 1,
            effort,
            salt: URL_SAFE_NO_PAD.encode(chance),
            hash: URL_SAFE_NO_PAD.encode(hash),
            wrong: 0,
            last: 0.0,
            forgotten: 0.0,
        })
    }

    /// Tries a PIN; `at_chair` while a cut is at the chair. To be kept afterwards.
    pub fn try_pin(&mut self, pin: &str, at_chair: bool, now: f64) -> Tried {
        let left = self.wait(at_chair, now);
        if left > 0 {
            return Tried::Wait(left);
        }
        let salt = URL_SAFE_NO_PAD.decode(&self.salt).unwrap_or_default();
        let hash = hashed(self.effort, pin, &salt).map(|hash| URL_SAFE_NO_PAD.encode(hash));
        if hash.as_ref() == Some(&self.hash) {
            (self.wrong, self.last, self.forgotten) = (0, 0.0, 0.0);
            return Tried::Open;
        }
        self.wrong = self.wrong.saturating_add(1);
        self.last = now;
        Tried::Wrong
    }

    /// How many seconds are still to be waited before the next try.
    pub fn wait(&self, at_chair: bool, now: f64) -> u32 {
        let Some(more) = self.wrong.checked_sub(FREE) else {
            return 0;
        };
        let longest = if at_chair { LONGEST_AT_CHAIR } else { LONGEST };
        let wait = (FIRST * f64::from(more.min(10)).exp2()).min(longest);
        // A clock that was put back makes nobody wait longer.
        let gone = (now - self.last).max(0.0);
        ((wait - gone).max(0.0) / 1000.0).ceil() as u32
    }

    /// Says that the PIN is forgotten; from then on a day has to go by.
    pub fn forget(&mut self, now: f64) {
        if self.forgotten <= 0.0 || self.forgotten > now {
            self.forgotten = now;
        }
    }

    /// How it stands with a forgotten PIN.
    pub fn forgotten(&self, now: f64) -> Forgotten {
        if self.forgotten <= 0.0 {
            return Forgotten::No;
        }
        let left = self.forgotten.min(now) + FORGOTTEN - now;
        if left <= 0.0 {
            Forgotten::Over
        } else {
            Forgotten::Wait((left / 3_600_000.0).ceil() as u32)
        }
    }
}

fn hashed(effort: Effort, pin: &str, salt: &[u8]) -> Option<[u8; 32]> {
    effort.key(pin.as_bytes(), salt)
}

/// Whether the app asks again that was out of sight since `since`.
pub fn asks_again(since: f64, now: f64) -> bool {
    now - since >= OUT_OF_SIGHT
}

impl<S: Shelf> Store<S> {
    /// The lock; none if it is off. One that does not read locks nobody out.
    pub fn lock(&self) -> Option<Lock> {
        json::read(&self.shelf.get(KEY).ok()??).ok()
    }

    /// Whether there is a lock; it may yet not read.
    pub fn has_lock(&self) -> bool {
        matches!(self.shelf.get(KEY), Ok(Some(_)))
    }

    /// Keeps the lock, or takes it off.
    ///
    /// # Errors
    /// [`StoreError::Shelf`].
    pub fn set_lock(&self, lock: Option<&Lock>) -> Result<(), StoreError> {
        match lock {
            Some(lock) => {
                let text = serde_json::to_string(lock).unwrap_or_default();
                self.shelf.put(KEY, &text)?;
            }
            None => self.shelf.remove(KEY)?,
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::super::MemoryShelf;
    use super::*;

    const NOW: f64 = 1.8e12;

    fn lock() -> Lock {
        Lock::new("2580", &[3; LOCK_CHANCE]).unwrap()
    }

    #[test]
    fn only_its_own_pin_opens_it_and_only_digits_are_one() {
        let mut lock = lock();
        assert_eq!(lock.try_pin("2581", false, NOW), Tried::Wrong);
        assert_eq!(lock.try_pin("02580", false, NOW), Tried::Wrong);
        assert_eq!(lock.try_pin("2580", false, NOW), Tried::Open);
        for none in ["", "123", "1234567890123", "12a4", "１２３４", "12 34"] {
            assert_eq!(
                Lock::new(none, &[0; LOCK_CHANCE]),
                Err(LockError::NoPin),
                "{none}"
            );
        }
        let kept = serde_json::to_string(&lock).unwrap();
        assert!(!kept.contains("2580"));
    }

    #[test]
    fn wrong_tries_wait_longer_but_not_at_the_chair() {
        let mut lock = lock();
        let mut now = NOW;
        let mut waits = Vec::new();
        for _ in 0..10 {
            waits.push(lock.wait(false, now));
            now += f64::from(lock.wait(false, now)) * 1000.0;
            assert_eq!(lock.try_pin("0000", false, now), Tried::Wrong);
        }
        assert_eq!(waits, [0, 0, 0, 30, 60, 120, 240, 480, 900, 900]);
        assert_eq!(lock.wait(true, now), 30);
        assert_eq!(lock.try_pin("2580", false, now + 1000.0), Tried::Wait(899));
        // A clock put back makes nobody wait longer, and the right one makes an end of it.
        assert_eq!(lock.wait(false, now - 1e9), 900);
        assert_eq!(lock.try_pin("2580", true, now + 30_000.0), Tried::Open);
        assert_eq!(lock.wait(false, now), 0);
    }

    #[test]
    fn a_forgotten_one_comes_off_after_a_day() {
        let mut lock = lock();
        assert_eq!(lock.forgotten(NOW), Forgotten::No);
        lock.forget(NOW);
        assert_eq!(lock.forgotten(NOW), Forgotten::Wait(24));
        // Asked again, the day goes on as it was.
        lock.forget(NOW + 3_600_000.0);
        assert_eq!(lock.forgotten(NOW + 3_600_000.0), Forgotten::Wait(23));
        assert_eq!(lock.forgotten(NOW + 86_399_999.0), Forgotten::Wait(1));
        assert_eq!(lock.forgotten(NOW + 86_400_000.0), Forgotten::Over);
        // Who remembers it after all has the lock as it was.
        assert_eq!(lock.try_pin("2580", false, NOW), Tried::Open);
        assert_eq!(lock.forgotten(NOW + 1e9), Forgotten::No);
    }

    #[test]
    fn it_is_kept_under_its_own_key_and_goes_into_no_file() {
        let store = Store::new(MemoryShelf::default());
        assert_eq!(store.lock(), None);
        store.set_lock(Some(&lock())).unwrap();
        assert_eq!(store.lock(), Some(lock()));
        assert!(!store.to_file("t").unwrap().contains("hash"));
        for damaged in ["", "{}", "{\"schema\":1,\"effort\":{\"m\":-1}}"] {
            store.shelf().put(KEY, damaged).unwrap();
            assert_eq!(store.lock(), None, "{damaged}");
        }
        store.set_lock(None).unwrap();
        assert!(store.shelf().texts().is_empty());
        assert!(asks_again(NOW, NOW + 300_000.0) && !asks_again(NOW, NOW + 299_999.0));
    }
}
