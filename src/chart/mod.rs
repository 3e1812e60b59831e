//! Pictures made from the model, as SVG text: the profile with the held hair, the scalp map
//! and the lengths on it as contours, the section lengths, the lengths along a line of the head, the head
//! turned with its hair, the shape of a cut, its outline with the weight beside it, where each tape goes,
//! and a code that another device reads.
//!
//! Drawings are in millimetres of the head and name CSS classes for their ink, so that one picture
//! serves light and dark; charts come from `plotters` and get their colours from the same classes.
//! Every picture carries a title and a description; the numbers behind it stand in a table beside it
//! on the screen. Depends on the rooms above; knows nothing of the browser.
//!
//! ```
//! use tautline::chart::{scalp_map, section_parcels};
//! use tautline::{book::SavedCut, cut::Measured};
//!
//! let ready = SavedCut::new("1", "Invented", "trim", "2026-03-01T10:00:00Z").ready()?;
//! let outcome = ready.outcome(&Measured::new())?;
//! let map = scalp_map(&ready.head, &section_parcels(&outcome), "The scalp", "Its sections.");
//! assert!(map.starts_with("<svg") && map.contains("The scalp"));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod aim;
mod along;
mod along_chart;
mod along_words;
mod changes;
mod code;
mod contours;
mod course;
mod fallen;
mod growth_map;
mod hand;
mod ink;
mod labels;
mod lengths;
mod numbered;
mod outline;
mod outlines;
mod pieces;
mod polar;
mod profile;
mod relief;
mod scalp_map;
mod shape;
mod svg;
mod tape;
mod touched;
mod trend;
mod turned;
mod view;

pub use aim::{AimFrame, aim_picture};
pub use along::{Along, AlongHalf, AlongLine, AlongMark, AlongOf, AlongRun};
pub use along_chart::{AlongChart, along_chart};
pub use along_words::along_said;
pub use changes::{Change, changes};
pub use code::{MOST_IN_COARSE_CODE, MOST_IN_CODE, code_picture};
pub use contours::{Contour, ContourMap, Lines, place_letter};
pub use fallen::{Fallen, Stage, fallen, fallen_picture};
pub use growth_map::GrowthMap;
pub use hand::InHand;
pub use lengths::{Bar, section_bars, section_chart};
pub use numbered::{NumberedMap, numbered_map, numbered_maps};
pub use outlines::{Against, Draped, Heap, OutlineChart, WeightRow, heaps};
pub use profile::{HeldHair, profile, profile_in_hand, seen_from};
pub use scalp_map::{Parcel, scalp_map, scalp_spot, section_parcels};
pub use shape::shape_picture;
pub use tape::tape_picture;
pub use touched::{marked, place_on_picture, sections_at, touched};
pub use trend::{Lane, trend_chart};
pub use turned::{
    Drawn, Eye, PENS, Scene, Turned, Turning, facing, seen_best, turned_picture, turned_window,
};
pub use view::View;
