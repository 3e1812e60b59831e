//! The book: clients, practice heads and their visits.
//!
//! `list` finds them, `card` is one of them, `visit` what is put down of one cut beside plan and walk.

mod card;
mod list;
mod visit;

pub use card::CardScreen;
pub use list::BookScreen;
pub use visit::VisitScreen;
