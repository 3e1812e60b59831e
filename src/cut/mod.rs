//! The fold: head, hair and plan in, the length of every section out.
//!
//! `lengths = steps.fold(lengths_before, |lengths, step| cut(head, lengths, step))`. Each step lays
//! one or more cutting lines in space; a hair that reaches a line is cut at its taut distance from
//! it, L′ = min(L, D); a hair that does not reach is left, and we say so. A section that came out
//! different at the chair shifts its part of the map, and the fold goes on from there. Nothing else
//! in Tautline computes lengths. Depends on geometry, head, hair and plan.

mod contact;
mod edge;
mod fall;
mod fold;
mod hold;
mod lengths;
mod silhouette;
mod slide;
mod step;
mod weight;
mod weight_line;

pub use edge::{Edge, EdgeStep};
pub use fall::{Fallen, Hanging, fall_path, length_to_level, natural_fall};
pub use fold::{CutError, Measured, Outcome, SectionCut, SectionKey, Strand, cut};
pub use lengths::Lengths;
pub use silhouette::{Band, Silhouette, View};
pub use weight::{BIN, HAIRS_PER_CM2, Patched, Profile, Quarter, Weight};
pub use weight_line::WeightLine;
