//! The book: saved cuts, which are visits once they are somebody's; clients and practice heads.
//!
//! Here stand the documents that are kept ([`SavedCut`], [`Record`], [`Visit`]) and what is made of several
//! of them. `line`, `find` and `cards` are what lists show, `pack` keeps texts small. `grow` makes the next
//! cut of one that was made, `outlook` says when to return (`calendar` writes it), `learn` what visits teach
//! of a client's hair, `ledger` what is left on a practice head. `judge`, `marks` and `criteria` say how well
//! a cut came out, `past`, `trends` and `sign_test` what comes back in several. `pass` hands a plan on, `csv`
//! is the table of visits, `demo` an invented salon. Nothing here knows where documents are kept. Depends on
//! the walk and what it is made of.
//!
//! ```
//! use tautline::book::SavedCut;
//! use tautline::cut::Measured;
//!
//! let cut = SavedCut::new("1", "Invented", "one-length-bob", "2026-03-01T10:00:00Z");
//! let again = SavedCut::from_json(&cut.to_json())?;
//! assert_eq!(again.title, cut.title);
//! // Made ready, it has all that the fold takes.
//! let outcome = again.ready()?.outcome(&Measured::new())?;
//! assert!(outcome.sections.iter().any(|section| section.cuts()));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod calendar;
mod cards;
mod criteria;
mod csv;
mod demo;
mod evidence;
mod find;
mod fold;
mod grow;
mod judge;
mod learn;
mod ledger;
mod line;
mod marks;
mod outlook;
mod pack;
mod pass;
mod past;
mod race;
mod ready;
mod record;
mod saved;
mod sign_test;
mod trend_words;
mod trends;
mod visit;

pub use calendar::calendar;
pub use cards::{CardLine, CardOrder, cards, sort_cards};
pub use criteria::{CRITERIA, Criterion, Judged, Period, Said, Standard};
pub use csv::VisitTable;
pub use demo::Salon;
pub use evidence::Evidence;
pub use find::{Catalogue, Entry, Query, Sort};
pub use fold::fold;
pub use grow::{A_TRIM, Known, Left, Rate, a_month, repeat, trim_back};
pub use judge::{Expected, Judgement, Mark, Off, PlaceJudged, expected, judge};
pub use learn::{Found, Hangs, Learned, NEEDED_GROWTH, NEEDED_HANGING, learn};
pub use ledger::{Attempt, Ledger, Possible, Still, Zoned};
pub use line::{Line, State};
pub use marks::{Marks, RULER};
pub use outlook::{LookedAt, Outgrown, Outlook, WEEKS, WornAs};
pub use pack::{PackError, keep_packed, pack, plain, unpack};
pub use pass::{MARK as LINK_MARK, MOST as MOST_PASSED, PassError, Passed, PassedHead};
pub use past::{Past, Plans, Slip, Which};
pub use ready::{NotReady, Ready};
pub use record::{Consent, Record};
pub use saved::{DocumentError, SavedCut, Shape, saved_after};
pub use sign_test::sign_test;
pub use trends::{Group, LEAST, MOST, Trend, Trends};
pub use visit::{How, Measure, Visit, When, read_tags};
