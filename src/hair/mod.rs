//! The hair: how long it is before the first cut (as it was said, or as a visit left it), how it hangs,
//! how it grows.
//!
//! Depends on the head for roots and levels.

mod before;
mod growth;
mod kinds;
mod map;
mod person;
mod wear;

pub use before::{Before, BeforeError};
pub use growth::Growth;
pub use kinds::{CutAt, FallsTo};
pub use map::{LengthMap, MapError};
pub use person::{Allowance, Hair, LockError, Reason, State, Tension};
pub use wear::{Part, STRONG_TURN, Turn, Wear, Whorl, Worn};
