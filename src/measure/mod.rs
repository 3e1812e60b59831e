//! Lengths and angles as the trade writes them.
//!
//! Inside Tautline a length is a number of centimetres and an angle a number of radians; this room
//! holds the two types, reads what people type and writes what they read, in British or American words. It depends on nothing.

mod angle;
mod day;
mod hand;
mod length;
mod read;
mod usage;

pub use angle::Angle;
pub use day::Day;
pub use hand::Hand;
pub use length::{CM_PER_INCH, Length, Unit, area};
pub use read::{
    DegreesError, LengthError, read_change, read_decimal, read_degrees, read_length, storable,
    with_unit,
};
pub use usage::{Usage, graduation, said};
