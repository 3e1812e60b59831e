//! The run at the chair: which section is due, what is done, what it came out at; what follows of that
//! for the sections after it, and what the screen says of it.
//!
//! Pure: it is told the time and never asks for it. Depends on the fold for sections and lengths.

mod check;
mod compare;
mod coverage;
mod entries;
mod follow;
mod mend;
mod pair;
mod run;
mod spoken;
mod time;
mod verdict;

pub use check::{CheckPlace, check_places, kind_at};
pub use compare::{Row, compare, furthest};
pub use coverage::{Coverage, State};
pub use entries::{Checked, Done, Matched, Pause};
pub use follow::{Follow, Moved, Since, follow, since, without};
pub use mend::{Mend, mend};
pub use pair::{CheckPoint, Pair};
pub use run::{Walk, order};
pub use spoken::spoken;
pub use time::{Spent, Stage, clock};
pub use verdict::{Kind, Tolerances, Verdict, verdict};
