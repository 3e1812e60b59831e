//! Hair that grows: repeating a visit, when to return, what this client's hair taught, and what is left
//! on a practice head.
//!
//! `outlook` tells when a cut is outgrown, `repeat` makes the next cut of it, `learned` offers what the
//! client's visits taught, `ledger` is a practice head's hair as something that is used up. All are parts
//! of other screens.

mod learned;
mod ledger;
mod outlook;
mod repeat;

#[allow(unused_imports)]
pub use learned::Learned;
#[allow(unused_imports)]
pub use ledger::HeadLedger;
#[allow(unused_imports)]
pub use outlook::Outlook;
#[allow(unused_imports)]
pub use repeat::Repeat;
