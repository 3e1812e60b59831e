//! Lengths as the trade writes them, days, hands, and which words the app uses.
//!
//! Inside Tautline a length is a number of centimetres; this room holds its type, reads what people type and
//! writes what they read. It depends on `words` alone.

/// What a ruler on combed hair may be off, cm: it is good to 2 to 3 mm. Judgement.
pub const A_RULER: f64 = 0.25;

mod day;
mod hand;
mod length;
mod read;
mod usage;

pub use day::Day;
pub use hand::Hand;
pub use length::{CM_PER_INCH, Length, Unit, area};
pub use read::{
    DegreesError, LengthError, read_change, read_decimal, read_degrees, read_length, storable,
    with_unit,
};
pub use usage::{Usage, graduation, said};
