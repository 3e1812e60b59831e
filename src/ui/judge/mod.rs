//! Judging a cut: measured places, criteria, trends over cuts, and the sheet for an assessor.
//!
//! `screen` is the self-check: `places` is measured, `more` beside it, `criteria` answered and looked back on,
//! `marks` set. `assess` is the same on paper. `trends` is what comes back in several cuts, `reading` goes
//! through them.

mod assess;
mod criteria;
mod marks;
mod more;
mod places;
mod reading;
mod screen;
mod trends;

pub use assess::AssessScreen;
pub use marks::MarksFields;
pub use screen::JudgeScreen;
pub use trends::{TrendsOf, TrendsScreen};
