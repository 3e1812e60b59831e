//! The book: clients, practice heads and their visits.
//!
//! `list` finds them and makes new ones, `due` says who is expected and whose card is up for a look, `salon` loads an invented
//! one, `card`
//! is one of them with `consent` and `taken`, `visit` what is put down of one cut beside plan and walk.

mod card;
mod consent;
mod due;
mod list;
mod salon;
mod taken;
mod visit;

pub use card::CardScreen;
pub use list::BookScreen;
pub use visit::VisitScreen;
