//! The book: saved cuts, which are visits once they are somebody's; clients and practice heads.
//!
//! Here stand the documents that are kept ([`SavedCut`], [`Record`]) and what is made of several of them.
//! `grow` makes the next cut of one that was made, `learn` what visits teach of a client's hair, `outlook` the day
//! to return (`calendar` writes it), `ledger` what is left on a practice head.
//! Nothing here knows where they are kept. Depends on the walk and what it is made of.

mod calendar;
mod grow;
mod learn;
mod ledger;
mod outlook;
mod ready;
mod record;
mod saved;
mod visit;

pub use calendar::calendar;
pub use grow::{A_TRIM, Known, Left, Rate, a_month, repeat, trim_back};
pub use learn::{Found, Hangs, Learned, NEEDED_GROWTH, NEEDED_HANGING, learn};
pub use ledger::{Attempt, Ledger, Possible, Still, Zoned};
pub use outlook::{LookedAt, Outgrown, Outlook, WEEKS, WornAs};
pub use ready::{NotReady, Ready};
pub use record::{Consent, Record};
pub use saved::{DocumentError, SavedCut, Shape};
pub use visit::{How, Measure, Visit, When};
