//! The consultation: what the client wants and the hair shows, as data, and what follows of it.
//!
//! Depends on head, hair, plan and cut. Nothing here is a rule: what is left out changes nothing.

mod consultation;

pub use consultation::Consultation;
