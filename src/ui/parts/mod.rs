//! Controls and pictures that several screens use.

mod dial;
mod html;
mod in_place;
mod keep_picture;
mod key;
mod left_on;
mod length_field;
mod options;
mod outlined;
mod pick;
mod picture;
mod places;
mod question;
mod sections;
mod switch;
mod told;
mod touch;
mod undo;

pub use dial::{Dial, Scale};
pub use html::Html;
pub use in_place::InPlace;
pub use keep_picture::KeepPicture;
pub use key::key_line;
pub use left_on::left_on;
pub use length_field::LengthField;
pub use options::Options;
pub use outlined::{Outlined, one_outlined, outlined, view_of, views};
pub use pick::Pick;
pub use picture::{ContourKeys, Legend, Picture, SectionKeys};
pub use places::{Column, PlaceTable};
pub use question::Question;
pub use sections::{CutRow, SectionTable, twins};
pub use switch::Switch;
pub use told::{told_line, told_list};
pub use touch::{SectionMap, TouchMap, go_to_chair};
pub use undo::UndoBar;
