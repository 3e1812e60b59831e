//! A plan on its way: passed on as a code on the screen, a link or a file, and taken in.
//!
//! `send` makes them, `take` shows what arrives before anything is kept. The link carries the plan behind
//! a `#`, which a browser sends to no server.

mod arrived;
mod send;
mod take;

pub use send::PassScreen;
pub use take::TakeScreen;
