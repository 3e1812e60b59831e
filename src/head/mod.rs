//! The head: tape measures in, a smooth skull with named points and a hairline out.
//!
//! Everything here is about one head, upright, in centimetres: x to the client's left, y forward,
//! z up, the origin at the centre of the widest level section. It depends on [`crate::geometry`]
//! for surfaces and on [`crate::measure`] to say a length.
//!
//! ```
//! use tautline::head::{Head, Landmark, Side, Tape, Tapes};
//!
//! let tapes = Tapes::default().with(Tape::Circumference, 56.0)?;
//! let head = Head::from_tapes(&tapes)?;
//! // The head gives the tape back; what was not measured is estimated, with its error.
//! assert!((head.model_tape(Tape::Circumference) - 56.0).abs() < 0.1);
//! assert!(head.measure(Tape::EarToEar).estimated());
//! let (crown, nape) = (Landmark::Crown, Landmark::Nape);
//! assert!(head.landmark(crown, Side::Centre).z > head.landmark(nape, Side::Centre).z);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod body;
mod error;
mod file;
mod fit;
mod hairline;
mod level;
mod measured;
mod named;
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
pub use level::{Level, away_from};
pub use measured::Measure;
pub use points::{Landmark, Side};
pub use region::{Region, Regions};
pub use samples::Sample;
pub use scalp::{Meridian, Spot};
pub use shape::{Back, Kind, Top};
pub use skull::Head;
pub use survey::{Estimate, estimate};
pub use tapes::{Tape, TapeError, Tapes};
