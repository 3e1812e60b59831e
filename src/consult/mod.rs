//! The consultation: what the client wants and the hair shows, as data, and what follows of it.
//!
//! Depends on head, hair, plan and cut. Nothing here is a rule: what is left out changes nothing.
//!
//! ```
//! use tautline::consult::{Ask, Consultation, Zone};
//! use tautline::head::Landmark;
//!
//! let mut said = Consultation::default();
//! assert!(said.is_empty());
//! said.put(Ask::EndsAt(Zone::Front), "chin");
//! assert_eq!(said.landmark(Ask::EndsAt(Zone::Front)), Some(Landmark::Chin));
//! // What does not read is kept as it was typed, and told.
//! said.put(Ask::Shortest, "rather long");
//! assert!(said.length(Ask::Shortest).is_none() && said.fault(Ask::Shortest).is_some());
//! ```

mod advice;
mod ask;
mod consultation;
mod growth;
mod two_goes;
mod wishes;

pub use advice::{Advice, Topic, advice};
pub use ask::{Answer, Ask, Zone};
pub use consultation::Consultation;
use consultation::within;
pub use growth::{Growth, Mark};
