//! Controls and pictures that several screens use.

mod left_on;
mod length_field;
mod options;
mod picture;
mod question;
mod sections;

pub use left_on::left_on;
pub use length_field::LengthField;
pub use options::Options;
pub use picture::{Picture, SectionKeys};
pub use question::Question;
pub use sections::SectionTable;
