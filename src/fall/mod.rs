//! Hair let down: where every hair ends, what that looks like, and where the weight is.
//!
//! A hair slides from its root down the steepest way over the body ([`natural_fall`]), hangs plumb
//! where nothing carries it, and lies down again on what it meets. From many of them come the
//! [`Silhouette`], the [`Drape`] with its gaps and its hem, the outline's lower [`Edge`] and the [`Weight`].
//! Depends on words, geometry, head and hair; knows of no plan.
//!
//! ```
//! use tautline::fall::{Hanging, natural_fall};
//! use tautline::hair::{FallsTo, Wear};
//! use tautline::head::{Body, Head, Landmark, Side, Tapes};
//!
//! let head = Head::from_tapes(&Tapes::default())?;
//! let nape = head.landmark(Landmark::Nape, Side::Centre);
//! let hair = Hanging { root: nape, length: FallsTo::from_cm(10.0) };
//! let fallen = &natural_fall(&Body::of(&head), &Wear::default().on(&head), &[hair])[0];
//! // It hangs from the nape, at most as far down as it is long.
//! assert!(fallen.tip.z < nape.z && fallen.tip.z > nape.z - 10.1);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod contact;
mod drape;
mod edge;
mod path;
mod silhouette;
mod slide;
mod step;
mod weight;
mod weight_line;

pub use drape::{Drape, ROW, Row};
pub use edge::{Edge, EdgeStep};
pub use path::{Fallen, Hanging, fall_path, length_to_level, natural_fall};
pub use silhouette::{Band, Silhouette, View};
pub use weight::{BIN, HAIRS_PER_CM2, Patched, Profile, Quarter, Weight};
pub use weight_line::{WeightLine, sharpness};
