//! The consultation: what the client wants and the hair shows, as data, and what follows of it.
//!
//! Depends on head, hair, plan and cut. Nothing here is a rule: what is left out changes nothing.

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
