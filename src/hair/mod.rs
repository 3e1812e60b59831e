//! The hair that is there: how long it is before the first cut.
//!
//! Depends on the head for roots and levels. Hanging ratio, wetness and growth join it here.

mod before;

pub use before::{Before, BeforeError};
