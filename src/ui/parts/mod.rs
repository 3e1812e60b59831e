//! Controls and pictures that several screens use.

mod options;
mod picture;
mod sections;

pub use options::Options;
pub use picture::{Picture, SectionKeys};
pub use sections::SectionTable;
