//! The ideas of the trade, each as a small lesson: one thing is turned, and the engine says what follows.
//!
//! A lesson is a plan of one step on the mean head of the surveys, worked out like any other: nothing in it
//! is drawn by hand, and no number is written down. `ui/learn` shows it. Depends on chart and below, on no
//! store.

mod idea;
mod lesson;

pub use idea::Idea;
pub use lesson::{LearnError, Lesson, Shown, Turn};
