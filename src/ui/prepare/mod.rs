//! Before the cut: the head, then the plan fitted to it.

mod head;
mod plan;

pub use head::HeadScreen;
pub use plan::{LengthField, PlanScreen};
