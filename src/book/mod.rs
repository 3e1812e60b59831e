//! The book: saved cuts, which are visits once they are somebody's; clients and practice heads.
//!
//! Here stand the documents that are kept ([`SavedCut`], [`Record`]) and what is made of several of them: a
//! list in which a cut is found ([`Line`], [`Catalogue`]).
//! Nothing here knows where they are kept. Depends on the walk and what it is made of.

mod cards;
mod criteria;
mod demo;
mod evidence;
mod find;
mod fold;
mod judge;
mod line;
mod marks;
mod pack;
mod past;
mod ready;
mod record;
mod saved;
mod sign_test;
mod trend_words;
mod trends;
mod visit;

pub use cards::{CardLine, CardOrder, cards, nameless, sort_cards};
pub use criteria::{CRITERIA, Criterion, Judged, Period, Said, Standard};
pub use demo::Salon;
pub use evidence::Evidence;
pub use find::{Catalogue, Entry, Query, Sort};
pub use fold::fold;
pub use judge::{Expected, Judgement, Mark, Off, PlaceJudged, expected, judge};
pub use line::{Line, State};
pub use marks::{Marks, RULER};
pub use pack::{PackError, keep_packed, pack, plain, unpack};
pub use past::{Past, Plans, Slip, Which, first_look};
pub use ready::{NotReady, Ready};
pub use record::{Consent, Record};
pub use saved::{DocumentError, SavedCut, Shape};
pub use sign_test::sign_test;
pub use trends::{Group, MOST, Trend, Trends};
pub use visit::{How, Measure, Visit, When, read_tags};
