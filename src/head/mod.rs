//! The head: tape measures in, a smooth skull with named points and a hairline out.
//!
//! Everything here is about one head, upright, in centimetres: x to the client's left, y forward,
//! z up, the origin at the centre of the widest level section. It depends on [`crate::geometry`]
//! for surfaces and on nothing above hair.

mod body;
mod hairline;
mod points;
mod scalp;
mod skull;
mod survey;
mod tapes;

pub use body::{Body, BodyPart};
pub use hairline::Hairline;
pub use points::{Landmark, Side};
pub use scalp::{Meridian, Spot};
pub use skull::{Head, HeadError, Measure};
pub use survey::{Estimate, estimate};
pub use tapes::{Tape, TapeError, Tapes};
