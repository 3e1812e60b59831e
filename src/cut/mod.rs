//! The fold: head, hair and plan in, the length of every section out.
//!
//! `lengths = steps.fold(lengths_before, |lengths, step| cut(head, lengths, step))`. Each step lays
//! one or more cutting lines in space; a hair that reaches a line is cut at its taut distance from
//! it, L′ = min(L, D); a hair that does not reach is left, and we say so. A section that came out
//! different at the chair changes its part of the map, and the fold goes on from there: what it guides
//! is brought to it as it really is. Nothing else in Tautline computes lengths. Depends on plan and
//! what is below it: fall, hair, head, geometry, measure, words.

mod actual;
mod again;
mod aim;
mod aim_words;
mod apart;
mod drift;
mod findings;
mod fold;
mod goal;
mod guide;
mod guided;
mod height;
mod hold;
mod hunt;
mod left;
mod lengths;
mod let_down;
mod line;
mod live;
mod means;
mod mirror;
mod paired;
mod pose;
mod round;
mod section;
mod seek;
mod sided;
mod summary;
mod targets;
mod told;
mod wish;

pub use again::cut_on;
pub use aim::{AimError, Aimed, Aiming, MET, Met, aim};
pub use apart::Apart;
pub use drift::{Drifted, USUAL as USUAL_DRIFT, drift};
pub use findings::{Agreed, Finding, findings};
pub use fold::{CutError, Job, Measured, Outcome, before, cut};
pub use goal::Goal;
pub use guided::guided_by;
pub use height::Height;
pub use hold::Nudge;
pub use lengths::Lengths;
pub use let_down::{LetDown, PLACES, let_down};
pub use line::{CuttingLine, Following};
pub use live::{Live, Stuck};
pub use means::{Change, Means, Turns, means_of};
pub use paired::Paired;
pub use pose::{Pose, Stand};
pub use round::EndAt;
pub use section::{LeftOn, SectionCut, SectionKey, Strand};
pub use summary::{PlaceLength, PlaceTold, Summary, TOLD, told_root};
pub use told::{Telling, Told};
pub use wish::{Aims, Falls, Fixed, What, Wish};
