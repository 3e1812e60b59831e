//! Tautline.
pub mod cut;
pub mod geometry;
pub mod hair;
pub mod head;
pub mod measure;
pub mod plan;
#[cfg(target_arch = "wasm32")]
pub mod ui;
