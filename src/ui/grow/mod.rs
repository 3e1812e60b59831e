//! Hair that grows: repeating a visit, when to return, what this client's hair taught, and what is left
//! on a practice head.
//!
//! `outlook` tells when a cut is outgrown, `repeat` makes the next cut of it (`begins` says what that
//! begins with), `learned` offers what the client's visits taught, `ledger` is a practice head's hair as
//! something that is used up. All are parts of other screens; `known` is what they ask of card and visits.

mod begins;
mod known;
mod learned;
mod ledger;
mod outlook;
mod repeat;

pub use begins::BeginsWith;
pub use known::{begin_with_what_is_left, begins_with};
pub use learned::Learned;
pub use ledger::HeadLedger;
pub use outlook::Outlook;
pub use repeat::Repeat;
