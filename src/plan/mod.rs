//! The plan of a cut as data: steps, partings, holds and the few choices a person makes.
//!
//! A plan says *what* to do in the trade's terms; [`crate::cut`] works out what that means on one
//! head. Built-in plans are JSON files under `cuts/`, one a cut, in our own words. Depends on
//! measures, the head's names and the hair before; knows no geometry beyond spots of the scalp.

mod choices;
mod library;
mod model;
mod sections;

pub use choices::{Choice, ChoiceError, Choices, Kind, Parting, Value, landmark_word};
pub use library::{PlanError, built_in, built_ins};
pub use model::{
    Area, Caution, Cut, Edge, Elevation, Fingers, Given, Held, Place, Plan, Reference, Rule,
    Station, Step, Words,
};
pub use sections::{Patch, Section, sections};
