//! The book: saved cuts, which are visits once they are somebody's; clients and practice heads.
//!
//! Here stand the documents that are kept ([`SavedCut`], [`Record`]) and what is made of several of them.
//! Nothing here knows where they are kept. Depends on the walk and what it is made of.

mod csv;
mod pack;
mod pass;
mod ready;
mod record;
mod saved;
mod visit;

pub use csv::VisitTable;
pub use pack::{PackError, pack, unpack};
pub use pass::{MARK, MOST as MOST_PASSED, PassError, Passed, PassedHead};
pub use ready::{NotReady, Ready};
pub use record::{Consent, Record};
pub use saved::{DocumentError, SavedCut, Shape};
pub use visit::{How, Measure, Visit, When};
