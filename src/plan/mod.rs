//! The plan of a cut as data: steps, partings, holds and the few choices a person makes.
//!
//! A plan says *what* to do in the trade's terms; [`crate::cut`] works out what that means on one
//! head. Built-in plans are JSON files under `cuts/`, one a cut, in our own words. Partings
//! are laid on a head here (`lines`, `patch`, `sections`); how hair is held over them is the fold's.
//! A plan may be changed, and contradict itself meanwhile: `arrange` moves its steps, `faults` says
//! what is wrong where, `history` takes changes back, `told` says a hold in words,
//! `usual` has what cuts usually take.
//! Depends on measures, the head and the hair.
//!
//! ```
//! use tautline::head::{Head, Tapes};
//! use tautline::plan::{Choices, built_in, sections};
//!
//! let head = Head::from_tapes(&Tapes::default())?;
//! let plan = built_in("uniform-layers").expect("a built-in plan");
//! assert!(plan.check().is_ok());
//! // Partings, as data, become sections on this very head.
//! let laid = sections(&head, &plan, &plan.steps[0], &Choices::default());
//! assert!(laid.iter().all(|section| !section.name.is_empty()));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod arrange;
mod brief;
mod choices;
mod family;
mod faults;
mod history;
mod holds;
mod library;
mod lines;
mod model;
mod partings;
mod patch;
mod row;
mod sections;
mod short;
mod technique;
mod texts;
mod told;
mod usual;
mod whereabouts;

pub use brief::Brief;
pub use choices::{Choice, ChoiceError, Choices, Kind, Parting, Settles, Value, landmark_word};
pub use faults::{Fault, Field, LONGER, SPACING};
pub use history::{Change, History, Sketch};
pub use holds::{
    Carried, Cut, Elevation, Facing, Fall, FallLine, Fingers, Held, Over, Plane, Reference, Rule,
    Station, Taper, Travel, Trim,
};
pub use library::{PlanError, built_in, built_in_name, built_ins};
pub use model::{Called, Caution, Covers, Given, Group, Plan, Sides, Step, Tilt, Wetness, Words};
pub use partings::{Area, Bound, Edge, End, Line, Pattern, Place, Start};
pub use patch::Patch;
pub use row::Row;
pub use sections::{Section, sections};
pub use technique::Technique;
pub use usual::usual_regions;
pub use whereabouts::Lift;
