//! Before the cut: the head, then the plan fitted to it.

mod choose;
mod head;
mod plan;

pub use choose::ChooseScreen;
pub use head::HeadScreen;
pub use plan::{PlanScreen, to_look_at, worked_out};
