//! Tautline plans a haircut and computes how long every section must be cut.
//!
//! Hair combed taut from its root to the fingers is a shortest path around the head; the further a
//! root is from the cutting line, the longer its hair is left. One pass of data:
//!
//! ```text
//! tapes ─► head ─┐
//!                ├─► cut(step), step by step ─► targets ─► walk at the chair ─► measured
//! hair ──────────┘     │    ▲                                                      │
//!                      │    └──────────────────────────────────────────────────────┘
//!                      └─► fall ─► silhouettes, outline, weight
//! ```
//!
//! The rooms, from the ground up; each uses only those above it in this list, and a test holds that:
//! [`words`], [`json`], [`measure`], [`geometry`], [`head`], [`hair`], [`fall`], [`plan`], [`cut`],
//! [`consult`], [`walk`], [`book`], [`store`], [`chart`], [`learn`], and `ui`, which exists in the browser only. Only `ui` and two files of `store` know the browser.
//!
//! ```
//! use tautline::{cut, hair, head, plan};
//!
//! let tapes = head::Tapes::default().with(head::Tape::Circumference, 56.0)?;
//! let head = head::Head::from_tapes(&tapes)?;
//! let plan = plan::built_in("soft-layers-face-frame").expect("a built-in plan");
//! let (hair, choices) = (hair::Hair::default(), plan::Choices::default());
//! let job = cut::Job { head: &head, hair: &hair, plan: &plan, choices: &choices };
//! let outcome = cut::cut(&job, &cut::Measured::new())?;
//! let sides = outcome.sections.iter().filter(|s| s.key.step == "face-frame");
//! let longest: Vec<f64> = sides.take(3).map(|s| s.long().cm()).collect();
//! assert!(longest[0] < longest[1] && longest[1] < longest[2]);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
#![warn(missing_docs)]

pub mod book;
pub mod chart;
pub mod consult;
pub mod cut;
pub mod fall;
pub mod geometry;
pub mod hair;
pub mod head;
pub mod json;
pub mod learn;
pub mod measure;
pub mod plan;
pub mod store;
#[cfg(target_arch = "wasm32")]
pub mod ui;
pub mod walk;
pub mod words;
