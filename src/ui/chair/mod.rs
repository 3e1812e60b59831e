//! At the chair: the walk through the sections, and the look back at its end.

mod before;
mod end;
mod section;
mod walk;

pub use end::EndScreen;
pub use walk::WalkScreen;
