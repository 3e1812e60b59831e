//! Tautline.
pub mod geometry;
pub mod head;
pub mod measure;
#[cfg(target_arch = "wasm32")]
pub mod ui;
