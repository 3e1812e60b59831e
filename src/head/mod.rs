//! The head: tape measures in, a smooth skull with named points and a hairline out.
//!
//! Everything here is about one head, upright, in centimetres: x to the client's left, y forward,
//! z up, the origin at the centre of the widest level section. It depends on [`crate::geometry`]
//! for surfaces and on [`crate::measure`] to say a length.

mod body;
mod error;
mod file;
mod fit;
mod hairline;
mod measured;
mod points;
mod region;
mod samples;
mod scalp;
mod shape;
mod skull;
mod survey;
mod tapes;

pub use body::{Body, BodyPart};
pub use error::HeadError;
pub use hairline::Hairline;
pub use measured::Measure;
pub use points::{Landmark, Side};
pub use region::{Region, Regions};
pub use samples::Sample;
pub use scalp::{Meridian, Spot};
pub use shape::{Back, Kind, Top};
pub use skull::Head;
pub use survey::{Estimate, estimate};
pub use tapes::{Tape, TapeError, Tapes};
