//! The run at the chair: which section is due, what is done, what it came out at.
//!
//! Pure: it is told the time and never asks for it. Depends on the fold for sections and lengths.

mod compare;
mod run;

pub use compare::{Row, compare};
pub use run::{Done, Walk, order};
