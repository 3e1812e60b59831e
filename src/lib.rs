//! Tautline.
pub mod chart;
pub mod cut;
pub mod geometry;
pub mod hair;
pub mod head;
pub mod measure;
pub mod plan;
pub mod store;
#[cfg(target_arch = "wasm32")]
pub mod ui;
pub mod walk;
